"""Pieces the illustrations share: pointers with words, numbered marks, the half casing and a slab of crown."""

from __future__ import annotations

from collections.abc import Sequence

from training.drawings.ink import LINE, PAPER, RUBBER, Figure, Point, Sheet, num, text_width
from training.rulebook.edition import Edition

CASING = "passenger"  # the casing whose limits an illustration prints


def limit_of(edition: Edition, quantity: str) -> str:
    """The limit an edition states for a quantity, as its source puts it; empty where it states none."""
    clause = edition.limit(quantity, CASING)
    return clause.limit_text() if clause is not None else ""


def finished(sheet: Sheet, words: str) -> Figure:
    """The figure of an illustration: its lengths show how things lie, not how large they are."""
    return Figure(sheet.svg(words), words, None)


def pointer(sheet: Sheet, text: str, at: Point, to: Point, *, anchor: str = "start") -> None:
    """A word with a thin line to what it names, a dot at its end; `at` is the word's baseline."""
    size = sheet.size
    width = text_width(text, size) * 0.84
    if anchor == "middle":
        start = (at[0], at[1] + size * 0.28) if to[1] > at[1] else (at[0], at[1] - size * 0.95)
    elif (anchor == "start") == (to[0] >= at[0]):
        far = at[0] + (width if anchor == "start" else -width)
        start = (far + (size * 0.3 if anchor == "start" else -size * 0.3), at[1] - size * 0.33)
    else:
        start = (at[0] - (size * 0.3 if anchor == "start" else -size * 0.3), at[1] - size * 0.33)
    sheet.rule(*start, *to)
    sheet.raw(f'<circle cx="{num(to[0])}" cy="{num(to[1])}" r="{num(sheet.unit * 0.55)}" fill="{LINE}"/>')
    sheet.text(at[0], at[1], text, anchor=anchor)


def badge(sheet: Sheet, x: float, y: float, number: str) -> None:
    """A number in a ring, black on white."""
    sheet.circle(x, y, sheet.size * 0.78, fill=PAPER, width=sheet.hair * 1.5)
    sheet.text(x, y + sheet.size * 0.35, number)


def lines_of(text: str, most: int) -> list[str]:
    """Text broken into lines of at most so many letters, at blanks."""
    lines = [""]
    for word in text.split():
        if lines[-1] and len(lines[-1]) + 1 + len(word) > most:
            lines.append(word)
        else:
            lines[-1] = f"{lines[-1]} {word}".strip()
    return lines


def paragraph(sheet: Sheet, x: float, y: float, text: str, *, most: int, anchor: str = "start") -> float:
    """Lines of text from the baseline y down; returns the baseline after the last."""
    for line in lines_of(text, most):
        sheet.text(x, y, line, anchor=anchor)
        y += sheet.size * 1.2
    return y


# Half a radial casing from the crown's center to one bead: outer wall down, inner wall back up.
_OUTER = "H72C84 0 91 6 95 20C100 36 102 50 99.5 68C97.5 82 92 92 90.5 104L90 114"
_INNER = "H75L77.5 104C80 92 90 80 91 66C92 50 90 38 85.5 27C81 17 76 13.5 66 13.5"
_PLY = "M{left} 11.6H66C79 11.6 85 17 88.5 27C93 40 94.5 52 93.4 66C92 82 84 92 80 105Q80 112.5 84 112.5Q88 112 88.5 104C90 92 93.5 86 95 76"


def half_casing(sheet: Sheet, *, left: float = -10.0, grooves: Sequence[float] = (18.0, 56.0)) -> None:
    """The half casing with its cut edge left of the centerline, its belts, body ply, liner and bead wires."""
    notches = "".join(f"H{num(x)}L{num(x + 0.9)} 8H{num(x + 7.1)}L{num(x + 8)} 0" for x in grooves)
    wave = f"C{num(left + 1.6)} 9 {num(left - 1.6)} 4.5 {num(left)} 0"
    sheet.path(f"M{num(left)} 0{notches}{_OUTER}{_INNER}H{num(left)}{wave}Z", fill=RUBBER)
    sheet.path(f"M{num(left + 1.5)} 9H72M{num(left + 1.5)} 10.6H68.5", width=0.8, dash="0.05 1.9", cap="round")
    sheet.path(_PLY.replace("{left}", num(left + 0.6)), width=sheet.hair * 1.5)
    wires = "".join(f"M{num(81.5 + 2.1 * i)} {num(104.4 + 2.3 * j)}h0.01" for i in range(3) for j in range(3))
    sheet.path(wires, width=1.8, cap="round")
    sheet.reach(0, 114)


def slab(sheet: Sheet, left: float, right: float, *, top: float, thick: float, groove: float = 0.0) -> None:
    """A piece of crown between two break lines: belts as cord ends, the body ply, and the heavy line of the liner."""
    low, w = top + thick, 1.4
    d = (
        f"M{num(left)} {num(top)}H{num(right)}C{num(right + w)} {num(top + thick / 3)} {num(right - w)} "
        f"{num(low - thick / 3)} {num(right)} {num(low)}H{num(left)}C{num(left - w)} {num(low - thick / 3)} {num(left + w)} "
        f"{num(top + thick / 3)} {num(left)} {num(top)}Z"
    )
    sheet.path(d, fill=RUBBER)
    for part in (0.48, 0.62):
        sheet.path(
            f"M{num(left + 1.5)} {num(top + thick * part)}H{num(right - 1.5)}",
            width=thick * 0.06,
            dash=f"0.05 {num(thick * 0.14)}",
            cap="round",
        )
    sheet.path(f"M{num(left + 0.5)} {num(top + thick * 0.8)}H{num(right - 0.5)}", width=sheet.hair * 1.5)
    sheet.path(f"M{num(left)} {num(low - thick * 0.025)}H{num(right)}", width=thick * 0.05)
    sheet.reach(top, low)
