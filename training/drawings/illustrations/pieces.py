"""Pieces the illustrations share: pointers with words, numbered marks, the half casing and a slab of crown."""

from __future__ import annotations

from collections.abc import Sequence

from training.drawings.ink import LINE, PAPER, RUBBER, Figure, Point, Sheet, num, text_box
from training.rulebook import Edition

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
    left, top, right, low = text_box(at[0], at[1], text, sheet.size, anchor)
    if left < to[0] < right:  # straight above or below: the line leaves from under the middle or over it
        x = min(max(to[0], left + sheet.size), right - sheet.size)
        start = (x, low + sheet.size * 0.1) if to[1] > at[1] else (x, top - sheet.size * 0.1)
    else:
        start = (right if to[0] >= right else left, at[1] - sheet.size * 0.33)
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
_PLY = (
    "H66C79 11.6 85 17 88.5 27C93 40 94.5 52 93.4 66C92 82 84 92 80 105"
    "Q80 112.5 84 112.5Q88 112 88.5 104C90 92 93.5 86 95 76"  # turned up around the bead
)


def half_casing(sheet: Sheet, *, left: float = -10.0, grooves: Sequence[float] = (18.0, 56.0)) -> None:
    """The half casing with its cut edge left of the centerline, its belts, body ply, liner and bead wires."""
    notches = "".join(f"H{num(x)}L{num(x + 0.9)} 8H{num(x + 7.1)}L{num(x + 8)} 0" for x in grooves)
    wave = f"C{num(left + 1.6)} 9 {num(left - 1.6)} 4.5 {num(left)} 0"
    sheet.path(f"M{num(left)} 0{notches}{_OUTER}{_INNER}H{num(left)}{wave}Z", fill=RUBBER)
    sheet.path(f"M{num(left + 1.5)} 9H72M{num(left + 1.5)} 10.6H68.5", width=0.8, dash="0.05 1.9", cap="round")
    sheet.path(f"M{num(left + 0.6)} 11.6{_PLY}", width=sheet.hair * 1.5)
    wires = "".join(f"M{num(81.5 + 2.1 * i)} {num(104.4 + 2.3 * j)}h0.01" for i in range(3) for j in range(3))
    sheet.path(wires, width=1.8, cap="round")
    sheet.reach(0, 114)


def slab(sheet: Sheet, left: float, right: float, *, top: float, thick: float) -> None:
    """A piece of crown between two break lines: belts as cord ends, the body ply, and the heavy line of the liner."""
    low, third, wave = top + thick, thick / 3, 1.4
    right_cut = [right + wave, top + third, right - wave, low - third, right, low]
    left_cut = [left - wave, low - third, left + wave, top + third, left, top]
    d = f"M{num(left)} {num(top)}H{num(right)}C{_row(right_cut)}H{num(left)}C{_row(left_cut)}Z"
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


def _row(values: Sequence[float]) -> str:
    return " ".join([num(value) for value in values])
