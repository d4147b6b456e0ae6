"""Pieces the illustrations share: pointers with words, numbered marks, the half casing and a slab of crown."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from textwrap import wrap

from training.drawings.boxes import Box, text_box
from training.drawings.crown import Crown
from training.drawings.ink import LINE, PAPER, RUBBER, Figure, Sheet
from training.drawings.layers import draw_rubber
from training.drawings.path import Point, along, curve, num, pen
from training.rulebook import Edition

_LINE = 1.2  # from baseline to baseline, in sizes of letters
CASING = "passenger"  # the casing whose limits an illustration prints


def limit_of(edition: Edition, quantity: str) -> str:
    """The limit an edition states for a quantity, as its source puts it; empty where it states none."""
    clause = edition.limit(quantity, CASING)
    return clause.printed_limit() if clause is not None else ""


def finished(sheet: Sheet, words: str) -> Figure:
    """The figure of an illustration: its lengths show how things lie, not how large they are."""
    return Figure(sheet.svg(words), words, None)


def pointer(
    sheet: Sheet,
    text: str,
    at: Point,
    to: Point,
    *,
    anchor: str = "start",
    most: int = 0,
    is_from_last: bool = False,
) -> None:
    """Words with a thin line to what they name, a dot at its end; `at` is the baseline of the first line.

    `most` breaks them into lines of at most so many letters; the line leaves from the first of them, or from the last.
    """
    lines = _lines(text, most) if most else [str(text)]
    named = len(lines) - 1 if is_from_last else 0
    for row, line in enumerate(lines):
        x, y = at[0], at[1] + row * sheet.size * _LINE
        if row == named:
            sheet.rule(*_leaves(sheet, text_box(x, y, line, sheet.size, anchor), y, to), *to)
            sheet.dot(*to, sheet.unit * 0.55)
        sheet.text(x, y, line, anchor=anchor)


def _leaves(sheet: Sheet, box: Box, y: float, to: Point) -> Point:
    """Where the line to what is named leaves the words in this box, whose baseline is y."""
    left, top, right, low = box
    if left < to[0] < right:  # straight above or below: the line leaves from under the middle or over it
        x = min(max(to[0], left + sheet.size), right - sheet.size)
        return (x, low + sheet.size * 0.1) if to[1] > y else (x, top - sheet.size * 0.1)
    return (right if to[0] >= right else left, y - sheet.size * 0.33)


def badge(sheet: Sheet, x: float, y: float, number: str) -> None:
    """A number in a ring, black on white."""
    sheet.circle(x, y, sheet.size * 0.78, fill=PAPER, width=sheet.hair * 1.5)
    sheet.text(x, y + sheet.size * 0.35, number)


def paragraph(sheet: Sheet, x: float, y: float, text: str, *, most: int, anchor: str = "start") -> float:
    """Lines of at most so many letters from the baseline y down; returns the baseline after the last."""
    for line in _lines(text, most):
        sheet.text(x, y, line, anchor=anchor)
        y += sheet.size * _LINE
    return y


def _lines(text: str, most: int) -> list[str]:
    return wrap(str(text), most, break_long_words=False, break_on_hyphens=False)


# Half a radial casing from the crown's center to one bead: outer wall down, inner wall back up, as Bezier curves.
_LEFT, _BELT_END = -10.0, 70.0
_SHOULDER = ((72.0, 0.0), (84.0, 0.0), (91.0, 6.0), (95.0, 20.0))
_WALL = ((95.0, 20.0), (100.0, 36.0), (102.0, 50.0), (99.5, 68.0))
_FOOT = ((99.5, 68.0), (97.5, 82.0), (92.0, 92.0), (90.5, 104.0))
_INSIDE = (
    ((77.5, 104.0), (80.0, 92.0), (90.0, 80.0), (91.0, 66.0)),
    ((91.0, 66.0), (92.0, 50.0), (90.0, 38.0), (85.5, 27.0)),
    ((85.5, 27.0), (81.0, 17.0), (76.0, 13.5), (66.0, 13.5)),
)
_PLY = (
    "H66C79 11.1 85 16.5 88.5 26.5C93 40 94.5 52 93.4 66C92 82 84 92 80.3 105"
    "Q80 112.3 84 112.3Q88 112 88.5 104C90 92 93.5 86 95 76"  # turned up around the bead
)


def half_casing(sheet: Sheet) -> None:
    """The half casing with its cut edge left of the centerline, its belts, body ply, liner and bead wires."""
    notches = [point for x in (18.0, 56.0) for point in ((x, 0.0), (x + 0.9, 8.0), (x + 7.1, 8.0), (x + 8.0, 0.0))]
    outside = [point for piece in (_SHOULDER, _WALL, _FOOT) for point in curve(*piece)]
    inside = [point for piece in _INSIDE for point in curve(*piece)]
    cut = curve((_LEFT, 13.5), (_LEFT + 1.6, 9.0), (_LEFT - 1.6, 4.5), (_LEFT, 0.0))
    outline = [*notches, *outside, (90.0, 114.0), (75.0, 114.0), *inside, *cut]
    sheet.path(along(outline) + "Z", fill=RUBBER, stroke="none")
    sheet.hatch_tread(outline)
    for y, end in ((9.1, _BELT_END + 2), (10.4, _BELT_END - 1.5)):
        sheet.box(_LEFT + 0.6, y - 0.55, end - _LEFT, 1.1, fill=PAPER, stroke="none")
        start = _LEFT + (1.6 if y < 10 else 2.5)
        sheet.path(pen("M", start, y, "H", end), width=0.85, dash="0.05 1.75", cap="round")
    for width, stroke in ((1.9, PAPER), (1.15, LINE), (0.55, PAPER)):
        sheet.path(pen("M", _LEFT + 0.5, 11.7, _PLY), width=width, stroke=stroke)
    liner = [*inside, *reversed(_within(inside, 1.3)), inside[0]]
    crown = [(66.0, 13.5), (_LEFT, 13.5), (_LEFT + 0.3, 12.2), (66.0, 12.2)]
    for part in (liner, crown):
        sheet.path(along(part) + "Z", fill=RUBBER, stroke="none")
        sheet.hatch_liner(part)
    sheet.path(along([*_within(inside, 1.3), (_LEFT + 0.3, 12.2)]), width=sheet.hair)
    wires = "".join(pen("M", 82.1 + 2.1 * i, 104.4 + 2.3 * j, "h", 0.01) for i in range(3) for j in range(3))
    sheet.path(wires, width=1.8, cap="round")
    sheet.polygon(outline)
    sheet.reach(0, 114)


def _within(points: Sequence[Point], by: float) -> list[Point]:
    """A line beside a line, to the right of its way."""
    moved = []
    for i, (x, y) in enumerate(points):
        (x1, y1), (x2, y2) = points[max(i - 1, 0)], points[min(i + 1, len(points) - 1)]
        length = math.hypot(x2 - x1, y2 - y1) or 1.0
        moved.append((x - (y2 - y1) / length * by, y + (x2 - x1) / length * by))
    return moved


def slab(sheet: Sheet, left: float, right: float, *, thick: float, groove: tuple[float, float] | None = None) -> None:
    """A piece of crown between two break lines, from y 0 down: tread, belts, body ply and liner in their hatching."""
    far = right + thick * 100  # so far out that neither shoulder comes into view
    grooves = (groove,) if groove else ()
    draw_rubber(sheet, Crown(far, thick, None, thick * 0.5, far, far + 1, left, right, grooves, belts=2))


def lowered(sheet: Sheet, by: float, draw: Callable[[Sheet], None]) -> None:
    """A part of a drawing, drawn so much farther down."""
    sheet.raw(f'<g transform="translate(0 {num(by)})">')
    draw(sheet)
    sheet.raw("</g>")
