"""Drawings to mark a place on: a nail in a section, a plan of the crown, each with a ruler below and one beside it.

One user unit is one millimeter; the rulers are in millimeters or in inches, as the shop reads. Both begin at zero in
the lower left corner; they are the drawing's own and tell nothing of the tire, so that a place has to be found on the
drawing whether it is pointed at or read off.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from training.drawings.boxes import boxes_meet, text_box
from training.drawings.crown import Crown, channels, crown_of, groove_width
from training.drawings.ink import PAPER, RUBBER, TEXT_PART, Sheet
from training.drawings.layers import draw_rubber
from training.drawings.path import frame, pen
from training.drawings.words import length_label
from training.rulebook import Case, parse_quantity, quantity
from training.trade.speech import say

_INCH = 25.4
_SHANK = 13.0  # of a nail above the tread
_BELOW = 9.0  # of the frame below the liner, and above what stands out of the tread
_BESIDE = 4.0
_RUN, _PAST = 1.5, 8.0  # beside a nail: as many times the crown's thickness, whatever its lean, and so much more
_FINE = 95.0  # mm across, up to which a ruler has its finest marks


@dataclass(frozen=True, slots=True)
class _Scale:
    """The marks of a ruler: parts to a unit of `each` mm, fine or coarse, marks of the fine one to each longer kind.

    `across`, `up`: marks of the fine one to a number on the ruler below and on the one beside.
    """

    unit: str
    each: float
    fine: int
    coarse: int
    ticks: tuple[tuple[int, float], ...]
    across: tuple[int, int]
    up: int


_SCALES = {
    "mm": _Scale("mm", 1.0, 1, 5, ((10, 2.0), (5, 1.3), (1, 0.7)), (20, 20), 10),
    "in": _Scale("in", _INCH / 16, 1, 2, ((16, 2.0), (8, 1.6), (4, 1.3), (2, 1.0), (1, 0.7)), (8, 16), 8),
}


@dataclass(frozen=True, slots=True)
class Ruled:
    """A drawing with rulers. `rulers`: where their zeros lie in the drawing, and how far they run [mm]."""

    svg: str
    description: str
    rulers: tuple[float, float, float, float]


def nail_section(
    case: Case, *, more: tuple[float, float] = (0.0, 0.0), below: float = 0.0, prefer: str = "mm"
) -> Ruled:
    """The crown cut through a nail that still sits in its first injury; of its channel only the mouth is seen.

    The nail stands out of the tread along the channel, so that its line can be followed to the liner. As much crown is
    drawn on both sides as the steepest channel needs, but nothing past the half that the nail is in: a channel that
    crosses the centerline leaves the drawing.

    Args:
        case: the tire and the hole.
        more: how much more crown is shown on the left and on the right [mm], as far as there is any.
        below: how much more of the room under the liner is shown [mm].
        prefer: "mm" or "in", the unit of the rulers.
    """
    hole = channels(case)[0]
    straight = _straight(case)
    crown = crown_of(case, channels(straight))
    thick = crown.thickness
    beside = _RUN * thick + _PAST
    crown = crown.narrowed(hole.at - beside - more[0], hole.at + beside + more[1])
    reach = _RUN * thick + hole.half  # the exit has to lie on the ruler, whichever way the nail leans
    left = math.floor((min(crown.left, hole.at - reach) if hole.at < 0 else crown.left) - _BESIDE)
    right = math.ceil((max(crown.right, hole.at + reach) if hole.at > 0 else crown.right) + _BESIDE)
    top, low = -math.ceil(_SHANK + _BELOW), math.ceil(thick + _BELOW + below)
    sheet = _sheet(left, right, low - top)
    draw_rubber(sheet, crown)
    slope = (hole.exit - hole.at) / thick
    lean = math.atan(slope)
    head = (hole.at - math.sin(lean) * _SHANK, -math.cos(lean) * _SHANK)
    _nail(sheet, (hole.at, 0.0), head, wide=min(2.0, hole.half))
    if hole.lean_deg:
        _lean(sheet, hole.at, lean, f"{abs(round(hole.lean_deg))}°")
    if crown.shows_center:
        _center(sheet, crown, top)
    _thickness(sheet, crown, length_label(case.tire.crown_thickness))
    rulers = _rulers(sheet, left, low, right - left, low - top, prefer)
    words = " ".join(
        (
            say("Cross-section of the crown to scale, tread up, liner down, a nail in it."),
            say("The rulers, in inches, begin at the lower left.")
            if prefer == "in"
            else say("The rulers, in millimeters, begin at the lower left."),
            _below_words(hole.at - left, -left if crown.shows_center else None, prefer),
            say(
                "On the one beside it the liner lies at {liner} and the tread at {tread}: the crown is {length} thick.",
                liner=_mark(low - thick, prefer),
                tread=_mark(low, prefer),
                length=length_label(case.tire.crown_thickness),
            ),
            _nail_words(hole.lean_deg),
        )
    )
    return Ruled(sheet.svg(words), words, rulers)


def _below_words(entry: float, centerline: float | None, prefer: str) -> str:
    """A sentence: what lies where on the ruler below a section with a nail in it."""
    if centerline is None:
        return say("On the one below the drawing the nail enters the tread at {entry}.", entry=_mark(entry, prefer))
    return say(
        "On the one below the drawing the centerline stands at {centerline} and the nail enters the tread at {entry}.",
        centerline=_mark(centerline, prefer),
        entry=_mark(entry, prefer),
    )


def _nail_words(lean_deg: float) -> str:
    """A sentence: how a nail runs."""
    degrees = abs(round(lean_deg))
    if not lean_deg:
        return say("The nail runs straight in; its channel in the rubber is not drawn.")
    if lean_deg > 0:
        return say(
            "The nail leans {degrees} degrees to the right on its way in; its channel in the rubber is not drawn.",
            degrees=degrees,
        )
    return say(
        "The nail leans {degrees} degrees to the left on its way in; its channel in the rubber is not drawn.",
        degrees=degrees,
    )


def level_plan(
    case: Case, *, up: float = 30.0, side: int = 1, past: float = 12.0, beside: float = _BESIDE, prefer: str = "mm"
) -> Ruled:
    """One side of the crown from inside, with a hole to scale on the centerline and a level line through it.

    Args:
        case: the tire and the hole.
        up: where the level line lies on the ruler beside the drawing.
        side: 1 for the right-hand side, -1 for the left.
        past: how much of the other side is shown [mm].
        beside: how far the drawing runs on beside the tread [mm].
        prefer: "mm" or "in", the unit of the rulers.
    """
    tire = case.tire
    if tire.outer_groove is None or tire.tread_width is None or not case.injuries:
        raise ValueError("case: tread width, outer groove and an injury are needed for this drawing")
    groove, half = tire.outer_groove.number, tire.tread_width.number / 2
    diameter = case.injuries[0].diameter
    across = diameter.number if diameter is not None else 0.0
    near, far = -past, half + beside
    left, right = (near, far) if side > 0 else (-far, -near)
    left, right = float(math.floor(left)), float(math.ceil(right))
    height = 2 * up
    sheet = _sheet(left, right, height)
    _strip(sheet, left, right, -height, side, half, groove)
    sheet.rule(left, -up, right, -up, width=sheet.hair, dash=sheet.chain)
    sheet.path(pen("M", 0, -height, "V", 0), width=sheet.hair, dash=sheet.chain)
    sheet.circle(0, -up, across / 2, fill=PAPER, width=sheet.hair * 1.6)
    sheet.text(side * (across / 2 + sheet.size * 0.4), -up - sheet.size * 0.5,
               f"Ø {length_label(diameter)}", anchor="start" if side > 0 else "end")  # fmt: skip
    y = -height - sheet.size * 0.45
    above = _name_lines(sheet, ((0.0, say("center")), (side * (groove + groove_width(half, groove) / 2),
                                                       say("outer groove"))), y)  # fmt: skip
    rulers = _rulers(sheet, left, 0.0, right - left, height, prefer)
    sheet.reach(above - sheet.size * 0.95, 0.0)
    edge = groove * side - left
    words = say(
        "The crown unrolled and seen from inside, to scale, one side of it. The rulers, in "
        "{unit}, begin at the lower left. On the one below the drawing the centerline "
        "stands at {centerline}, the inner edge of the outermost groove at {groove} and the edge of the "
        "tread at {tread}. A hole {length} across is drawn on the centerline, and through "
        "it a level line at {level} on the ruler beside the drawing.",
        unit=_in_words(prefer),
        centerline=_mark(-left, prefer),
        groove=_mark(edge, prefer),
        tread=_mark(side * half - left, prefer),
        length=length_label(diameter),
        level=_mark(up, prefer),
    )
    return Ruled(sheet.svg(words), words, rulers)


def repair_plan(
    unit_mm: tuple[float, float], *, at: tuple[float, float], size: tuple[float, float], prefer: str = "mm"
) -> Ruled:
    """A piece of liner with an earlier repair on it, and lines through the middle of its unit.

    Args:
        unit_mm: length toward the beads (across) and width (along the tire) of the unit.
        at: where the middle of the unit lies on the rulers [mm].
        size: how far the rulers run [mm].
        prefer: "mm" or "in", the unit of the rulers.
    """
    (long, wide), (x, up), (width, height) = unit_mm, at, size
    sheet = _sheet(0.0, width, height)
    sheet.box(0, -height, width, height, fill=RUBBER, width=sheet.hair * 1.4)
    y = -up
    sheet.hatch(frame(x - long / 2, y - wide / 2, x + long / 2, y + wide / 2), step=6.0)
    sheet.box(x - long / 2, y - wide / 2, long, wide, corner=3.0)
    sheet.path(pen("M", x, -height, "V", 0, "M", 0, y, "H", width), width=sheet.hair, dash=sheet.chain)
    rulers = _rulers(sheet, 0.0, 0.0, width, height, prefer)
    words = say(
        "A piece of the liner from inside, to scale, with an earlier repair on it. The rulers, "
        "in {unit}, begin at the lower left. The unit of the repair reaches from {left} to "
        "{right} on the one below the drawing, which runs toward the beads, and from {low} to "
        "{high} on the one beside it, which runs around the tire. Lines cross in the middle of "
        "the unit, at {across} and {up}.",
        unit=_in_words(prefer),
        left=_mark(x - long / 2, prefer),
        right=_mark(x + long / 2, prefer),
        low=_mark(up - wide / 2, prefer),
        high=_mark(up + wide / 2, prefer),
        across=_mark(x, prefer),
        up=_mark(up, prefer),
    )
    return Ruled(sheet.svg(words), words, rulers)


# -- parts


def _sheet(left: float, right: float, height: float) -> Sheet:
    """A sheet with room for the rulers' numbers; a tall drawing is shown smaller, so its letters are drawn larger."""
    part = TEXT_PART * max(1.0, height / (right - left)) ** 0.5
    room = (right - left) * part * 2.6
    return Sheet(left - room, right + room * 0.6, text_part=part)


def _straight(case: Case) -> Case:
    """The same tire with its injury straight, so that nothing drawn depends on where the channel comes out."""
    injuries = tuple(replace(one, angle=parse_quantity("0 deg", "angle")) for one in case.injuries or ())
    return replace(case, injuries=injuries)


def _nail(sheet: Sheet, mouth: tuple[float, float], head: tuple[float, float], *, wide: float) -> None:
    """A shank from the tread to its head, standing out of the rubber."""
    (x, y), (hx, hy) = mouth, head
    length = math.hypot(hx - x, hy - y)
    ux, uy = (hx - x) / length, (hy - y) / length
    nx, ny = -uy * wide / 2, ux * wide / 2
    sheet.polygon([(x + nx, y + ny), (x - nx, y - ny), (hx - nx, hy - ny), (hx + nx, hy + ny)], fill=PAPER)
    sheet.path(pen("M", hx + 2.6 * nx, hy + 2.6 * ny, "L", hx - 2.6 * nx, hy - 2.6 * ny),
               width=sheet.line * 2.2)  # fmt: skip
    sheet.keep_clear((x, y, hx, hy))


def _lean(sheet: Sheet, x: float, lean: float, text: str) -> None:
    """Over the tread: the perpendicular, the nail's own line, the arc between, and the angle."""
    r = _SHANK * 0.8
    sheet.path(pen("M", x, 0, "V", -_SHANK - 1.5), width=sheet.hair)
    tip = (x - r * math.sin(lean), -r * math.cos(lean))
    sheet.path(pen("M", x, -r, "A", r, r, 0, 0, 0 if lean > 0 else 1, tip[0], tip[1]),
               width=sheet.hair)  # fmt: skip
    away = 1 if lean > 0 else -1
    sheet.keep_clear((x, 0, x, -_SHANK - 1.5))
    sheet.label([(x + away * sheet.size * 0.5, -r * 0.75, "start" if away > 0 else "end"),
                 (x - away * (r * math.tan(abs(lean)) + sheet.size), -r * 0.75, "end" if away > 0 else "start")],
                text)  # fmt: skip


def _center(sheet: Sheet, crown: Crown, top: float) -> None:
    sheet.path(pen("M", 0, top * 0.55, "V", crown.thickness), width=sheet.hair, dash=sheet.chain)
    sheet.label([(0.0, top * 0.55 - sheet.size * 0.3, "middle"),
                 (sheet.size * 0.4, top * 0.55 + sheet.size * 0.2, "start"),
                 (-sheet.size * 0.4, top * 0.55 + sheet.size * 0.2, "end")], say("center"))  # fmt: skip


def _name_lines(sheet: Sheet, names: Sequence[tuple[float, str]], y: float) -> float:
    """Names over the lines they name, each higher by a row where it would meet the one before; returns the highest."""
    before = None
    for x, name in names:
        if before is not None and boxes_meet(before, text_box(x, y, name, sheet.size, "middle")):
            y -= sheet.size * 1.2
        before = text_box(x, y, name, sheet.size, "middle")
        sheet.text(x, y, name)
    return y


def _thickness(sheet: Sheet, crown: Crown, text: str) -> None:
    """The crown's thickness in the rubber at the side that is cut off, its text below the liner."""
    x = crown.left + 3 if crown.is_cut_left else crown.right - 3
    sheet.arrow(x, 0, x, crown.thickness, both=True)
    toward = "start" if crown.is_cut_left else "end"
    sheet.keep_clear((x, 0, x, crown.thickness))
    sheet.label([(crown.left if crown.is_cut_left else crown.right, crown.thickness + sheet.size * 1.05, toward)], text)


def _strip(sheet: Sheet, left: float, right: float, top: float, side: int, half: float, groove: float) -> None:
    """Liner from inside: broken off beside the centerline, the tread's edge on the other side, grooves dashed."""
    edge = side * half
    near = left if side > 0 else right
    sheet.box(min(near, edge), top, abs(edge - near), -top, fill=RUBBER, width=sheet.hair * 1.4)
    lines = "".join(pen("M", side * x, top, "V", 0) for x in (groove, groove + groove_width(half, groove)))
    sheet.path(lines, width=sheet.hair * 1.3, dash=sheet.dashes)


def _rulers(
    sheet: Sheet, left: float, low: float, width: float, height: float, prefer: str
) -> tuple[float, float, float, float]:
    """Both rulers: marks every millimeter or every sixteenth of an inch, fewer on a wide drawing; numbers every 20 mm
    or half inch across and every 10 mm or half inch up, fewer where they crowd."""
    scale, is_wide = _SCALES[prefer], width > _FINE
    tick, size = sheet.unit, sheet.size
    up_number = scale.up if size * 1.3 < scale.up * scale.each else 2 * scale.up
    across_number, step = scale.across[is_wide], scale.coarse if is_wide else scale.fine
    y, x = low + tick, left - tick
    d = [pen("M", left, y, "H", left + width, "M", x, low, "V", low - height)]
    for mark in range(0, int(width / scale.each + 1e-9) + 1, step):
        at = left + mark * scale.each
        d.append(pen("M", at, y, "v", tick * _tick(mark, scale)))
        if mark % across_number == 0:
            sheet.text(at, y + tick * 2.4 + size * 0.8, _number(mark, scale))
    for mark in range(0, int(height / scale.each + 1e-9) + 1, step):
        at = low - mark * scale.each
        d.append(pen("M", x, at, "h", -tick * _tick(mark, scale)))
        if mark % up_number == 0:
            sheet.text(x - tick * 2.6, at + size * 0.33, _number(mark, scale), anchor="end")
    sheet.path("".join(d), width=sheet.hair * 1.2)
    sheet.text(left + width, y + tick * 2.4 + size * 1.9, scale.unit, anchor="end")
    sheet.reach(low - height - size * 0.4, y + tick * 2.4 + size * 2.1)
    return (round(left, 2), round(low, 2), round(width, 2), round(height, 2))


def _tick(mark: int, scale: _Scale) -> float:
    """How long a mark of a ruler is: the rounder its number, the longer."""
    return next(long for every, long in scale.ticks if mark % every == 0)


def _number(mark: int, scale: _Scale) -> str:
    """A number of a ruler: whole millimeters, or inches and halves."""
    return str(mark) if scale.unit == "mm" else quantity(Fraction(mark, 16), "in").text.removesuffix(" in")


def _mark(value_mm: float, prefer: str) -> str:
    """A reading on a ruler, to half a millimeter or 1/32 in."""
    if prefer == "in":
        return quantity(Fraction(round(value_mm / _INCH * 32), 32), "in").text.removesuffix(" in")
    return f"{round(value_mm * 2) / 2:g}"


def _in_words(prefer: str) -> str:
    """The unit of the rulers, inside a sentence."""
    return say("inches") if prefer == "in" else say("millimeters")
