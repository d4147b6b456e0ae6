"""Readings off the rulers of a drawing, which are in millimeters or in inches; what is kept is in millimeters."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from math import ceil, floor

from assessments.questions.items.numbers import NotANumber, parse_number
from assessments.questions.items.shapes import Region
from training.rulebook import Quantity, in_unit, quantity
from training.trade.speech import say

_INCH, _PARTS = Fraction("25.4"), 32
_NO_PART = Fraction(1, 10**6)  # of the last part printed, lost in computing


def ruler_unit(units: Sequence[str]) -> str:
    """The unit of the rulers of a question that accepts these units: "in" where it is named, else "mm"."""
    return "in" if "in" in units else "mm"


def in_millimeters(reading: Quantity) -> str:
    """A reading as it is kept.

    >>> from training.rulebook import parse_quantity
    >>> in_millimeters(parse_quantity("1 1/2 in", "length")), in_millimeters(parse_quantity("9 mm", "length"))
    ('38.1', '9')
    """
    return f"{float(in_unit(reading, 'mm')):.5f}".rstrip("0").rstrip(".")


def on_ruler(kept: str, unit: str) -> str:
    """A kept reading as it stands on a ruler; what is no number stays as it is.

    >>> on_ruler("38.1", "in"), on_ruler("38.1", "mm")
    ('1 1/2', '38.1')
    """
    if unit == "mm":
        return kept
    try:
        return _inches(Fraction(round(parse_number(kept) / _INCH * _PARTS), _PARTS))
    except NotANumber:
        return kept


def place_in_words(kept: dict[str, str], unit: str) -> str:
    """A place that was marked, as its rulers read it."""
    across, up = (on_ruler(kept[key], unit) for key in ("x", "y"))
    if unit == "in":
        return say("{across} in across, {up} in up", across=across, up=up)
    return say("{across} mm across, {up} mm up", across=across, up=up)


def region_in_words(region: Region, unit: str) -> str:
    """From where to where a region reaches on both rulers, in inches no farther than it does."""
    if unit == "mm":
        return region.words
    left, right, low, high = edges_on(region, unit)
    return say("across {left} to {right} in, up {low} to {high} in", left=left, right=right, low=low, high=high)


def edges_on(region: Region, unit: str) -> tuple[str, str, str, str]:
    """Its edges as they are read off the rulers: left, right, low, high; in inches the nearest marks inside."""
    if unit == "mm":
        return region.edges
    left, low = (_inches(Fraction(ceil(_parts(edge) - _NO_PART), _PARTS)) for edge in (region.left, region.low))
    right, high = (_inches(Fraction(floor(_parts(edge) + _NO_PART), _PARTS)) for edge in (region.right, region.high))
    return left, right, low, high


def _parts(length_mm: float) -> Fraction:
    return Fraction(str(length_mm)) / _INCH * _PARTS


def _inches(number: Fraction) -> str:
    return quantity(number, "in").text.removesuffix(" in")
