"""One repair unit on the liner, to scale: its size, its arrows, and where the beads lie."""

from __future__ import annotations

import math

from training.drawings.dimension import Span, rows
from training.drawings.ink import PAPER, RUBBER, Figure, Sheet, num
from training.drawings.words import said
from training.rulebook import RepairUnit, UnitSize

_ROOM = 20.0  # bare liner around the unit


def repair_unit(
    unit: RepairUnit | UnitSize, *, prefer: str = "in", turn_deg: float = 0.0, show_size: bool = True
) -> Figure:
    """A unit lying on the liner, seen from inside, a bead to the left and one to the right.

    Args:
        unit: its `length` lies along its arrows.
        prefer: "in" or "mm", the unit the description gives first.
        turn_deg: how far it is turned; 0 lets the arrows point to the beads, 90 around the tire.
        show_size: dimension the unit; left out where it is turned askew.
    """
    length, width = unit.length.number, unit.width.number
    turn = math.radians(turn_deg)
    c, s = math.cos(turn), math.sin(turn)
    half_x = (abs(length * c) + abs(width * s)) / 2
    half_y = (abs(length * s) + abs(width * c)) / 2
    right, low = half_x + _ROOM, half_y + _ROOM * 0.8
    is_square = abs(turn_deg % 90) < 1e-9
    sheet = Sheet(-right - 14.0, right + 14.0)
    _liner(sheet, right, low)

    def at(along: float, across: float) -> tuple[float, float]:
        return along * c + across * s, -along * s + across * c

    a, b = length / 2, width / 2
    sheet.polygon([at(-a, -b), at(a, -b), at(a, b), at(-a, b)], fill=PAPER)
    for side in (-1.0, 1.0):
        sheet.arrow(*at(side * a * 0.45, 0), *at(side * (a - 3.0), 0), width=sheet.line, head=2.6)
    sheet.circle(0, 0, 2.5, fill=PAPER)
    for x, anchor in ((-right - 2, "end"), (right + 2, "start")):
        sheet.text(x, sheet.size * 0.35, "bead", anchor=anchor)
    top = -low
    if show_size and is_square:
        over, down = (unit.length, unit.width) if abs(s) < 0.5 else (unit.width, unit.length)
        top = rows(
            sheet,
            [Span(-half_x, half_x, over.text, -half_y, -half_y)],
            start=-low - sheet.size * 0.3,
            up=True,
            shared=None,
        )
        foot = low + sheet.size * 1.4
        sheet.text(0, foot, f"{down.text} around the tire")
        low = foot + sheet.size * 0.3
    sheet.reach(top, low)
    words = _words(unit, prefer, turn_deg, show_size and is_square)
    return Figure(sheet.svg(words), words)


def _liner(sheet: Sheet, right: float, low: float) -> None:
    """A piece of liner broken off above and below, straight toward the beads, the body cords as fine lines."""
    run = right / 2
    sheet.path(
        f"M{num(-right)} {num(low)}Q{num(-run)} {num(low - 3)} 0 {num(low)}T{num(right)} {num(low)}V{num(-low)}"
        f"Q{num(run)} {num(-low - 3)} 0 {num(-low)}T{num(-right)} {num(-low)}Z",
        fill=RUBBER,
        width=sheet.hair * 1.4,
    )
    step = 5.0
    count = int(low * 2 / step)
    cords = "".join(f"M{num(-right + 1)} {num(-low + step * (i + 0.5))}H{num(right - 1)}" for i in range(1, count - 1))
    sheet.path(cords, width=sheet.hair * 0.7, dash="3 2")


def _words(unit: RepairUnit | UnitSize, prefer: str, turn_deg: float, with_size: bool) -> str:
    turned = num(turn_deg % 180)
    way = {"0": "left and right", "90": "up and down"}.get(turned, f"aslant, {turned} deg from left and right")
    size = ""
    if with_size:
        size = f" It is {said(unit.length, prefer)} long along its arrows and {said(unit.width, prefer)} wide."
    return (
        "A repair unit on the liner, seen from inside; one bead lies to the left, the other to the right, and fine "
        f"lines run from bead to bead. The unit's arrows point {way}.{size}"
    )
