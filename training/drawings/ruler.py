"""The ruler that stands over several strips, and the limit on it. One user unit is one millimeter."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from training.drawings.boxes import boxes_meet, text_box, text_width
from training.drawings.ink import Sheet
from training.drawings.path import pen
from training.rulebook import quantity

_INCH = Fraction("25.4")


@dataclass(frozen=True, slots=True)
class Marks:
    """Millimeters from mark to mark, marks to a longer one, marks to a number."""

    each: Fraction
    longer: int
    number: int


@dataclass(frozen=True, slots=True)
class Limit:
    """Where the limit lies [mm], its name, and its length as the ruler prints it, unit included."""

    at_mm: float
    name: str
    label: str


def draw_ruler(
    sheet: Sheet, ends: tuple[float, float], marks: Marks, limit: Limit, *, title: str, prefer: str, first: int = 1
) -> None:
    """From end to end [mm], with the limit over it.

    Args:
        sheet: as wide as the strips, with nothing drawn on it.
        title: what is measured, in which unit.
        prefer: "in" or "mm", the unit of the numbers.
        first: the first mark, counted from zero.
    """
    size, unit = sheet.size, sheet.unit
    number = limit.label.removesuffix(f" {prefer}")
    is_late = limit.at_mm > sheet.right - max(text_width(number, size), text_width(limit.name, size)) - unit
    x, anchor = limit.at_mm + (-unit if is_late else unit), "end" if is_late else "start"
    rows = (-size * 2.15, -size * 0.95)
    taken = text_box(x, rows[1], number, size, anchor)
    sheet.text(x, rows[0], limit.name, anchor=anchor)
    sheet.text(x, rows[1], number, anchor=anchor)
    start = sheet.left + unit
    if not boxes_meet(text_box(start, rows[0], title, size, "start"), text_box(x, rows[0], limit.name, size, anchor)):
        sheet.text(start, rows[0], title, anchor="start")
    d = [pen("M", ends[0], 0, "H", ends[1])]
    low, high = (int(Fraction(end) / marks.each) for end in ends)
    for mark in range(max(low + 1, first), high + 1):
        at = float(mark * marks.each)
        d.append(pen("M", at, 0, "V", -unit * (1.6 if mark % marks.longer == 0 else 0.8)))
        if mark % marks.number == 0:
            text = _number(mark * marks.each, prefer)
            box = text_box(at, rows[1], text, size, "middle")
            if sheet.left <= box[0] and box[2] <= sheet.right and not boxes_meet(box, taken):
                sheet.text(at, rows[1], text)
    sheet.path("".join(d), width=sheet.hair)
    sheet.path(pen("M", limit.at_mm, rows[0] - size * 0.7, "V", unit * 1.3), dash=sheet.limit)
    sheet.reach(rows[0] - size, unit * 0.3)


def hidden(sheet: Sheet) -> str:
    """The SVG of what is not read out: each strip says the limit and its own places."""
    return sheet.svg("").replace('role="img" aria-label=""', 'aria-hidden="true"', 1)


def _number(length_mm: Fraction, prefer: str) -> str:
    return quantity(length_mm / (_INCH if prefer == "in" else 1), prefer).text.removesuffix(f" {prefer}")
