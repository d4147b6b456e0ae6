"""Pieces the illustrations share: pointers with words, numbered marks, the half casing and a slab of crown."""

from __future__ import annotations

from textwrap import wrap

from training.drawings.boxes import text_box
from training.drawings.ink import PAPER, RUBBER, Figure, Point, Sheet, num, pen
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
    sheet.dot(*to, sheet.unit * 0.55)
    sheet.text(at[0], at[1], text, anchor=anchor)


def badge(sheet: Sheet, x: float, y: float, number: str) -> None:
    """A number in a ring, black on white."""
    sheet.circle(x, y, sheet.size * 0.78, fill=PAPER, width=sheet.hair * 1.5)
    sheet.text(x, y + sheet.size * 0.35, number)


def paragraph(sheet: Sheet, x: float, y: float, text: str, *, most: int, anchor: str = "start") -> float:
    """Lines of at most so many letters from the baseline y down; returns the baseline after the last."""
    for line in wrap(text, most, break_long_words=False, break_on_hyphens=False):
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


def half_casing(sheet: Sheet) -> None:
    """The half casing with its cut edge left of the centerline, its belts, body ply, liner and bead wires."""
    left, grooves = -10.0, (18.0, 56.0)
    notches = "".join(pen("H", x, "L", x + 0.9, 8, "H", x + 7.1, "L", x + 8, 0) for x in grooves)
    wave = pen("C", left + 1.6, 9, left - 1.6, 4.5, left, 0)
    sheet.path(pen("M", left, 0, notches, _OUTER, _INNER, "H", left, wave, "Z"), fill=RUBBER)
    sheet.path(
        pen("M", left + 1.5, 9, "H", 72, "M", left + 1.5, 10.6, "H", 68.5), width=0.8, dash="0.05 1.9", cap="round"
    )
    sheet.path(pen("M", left + 0.6, 11.6, _PLY), width=sheet.hair * 1.5)
    wires = "".join(pen("M", 81.5 + 2.1 * i, 104.4 + 2.3 * j, "h", 0.01) for i in range(3) for j in range(3))
    sheet.path(wires, width=1.8, cap="round")
    sheet.reach(0, 114)


def slab(sheet: Sheet, left: float, right: float, *, top: float, thick: float) -> None:
    """A piece of crown between two break lines: belts as cord ends, the body ply, and the heavy line of the liner."""
    low, third, wave = top + thick, thick / 3, 1.4
    right_cut = ((right + wave, top + third), (right - wave, low - third), (right, low))
    left_cut = ((left - wave, low - third), (left + wave, top + third), (left, top))
    sheet.path(pen("M", left, top, "H", right, "C", *right_cut, "H", left, "C", *left_cut, "Z"), fill=RUBBER)
    cord = f"0.05 {num(thick * 0.14)}"
    for part in (0.48, 0.62):
        belt = pen("M", left + 1.5, top + thick * part, "H", right - 1.5)
        sheet.path(belt, width=thick * 0.06, dash=cord, cap="round")
    sheet.path(pen("M", left + 0.5, top + thick * 0.8, "H", right - 0.5), width=sheet.hair * 1.5)
    sheet.path(pen("M", left, low - thick * 0.025, "H", right), width=thick * 0.05)
    sheet.reach(top, low)
