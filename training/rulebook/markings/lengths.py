"""Dimensions of a new tire: computed for metric sizes, as printed for code-designated ones, as named for flotation."""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction

from training.rulebook.markings.designation import Designation
from training.rulebook.markings.errors import MarkingError
from training.rulebook.markings.tables import PublishedSize, published_sizes, rim_factors, rim_widths
from training.trade.speech import say, saying

_MM_PER_INCH = Fraction("25.4")
_K = Fraction("0.4")
_HALF_INCH = Fraction(1, 2)
_SOURCE = saying("UN Regulation No. 30 / No. 54 (rounding order from memory)")
_NAMED_SOURCE = saying("as the designation names them, in inches; a maker's tire is often somewhat smaller")
_RIM_WIDTH = re.compile(r"(?P<number>[0-9]{1,3}(?:\.[0-9]{1,2})?)\s?(?P<unit>in|mm|J{1,2}|)")
_LEAST_RIM_IN, _MOST_RIM_IN = Fraction(1), Fraction(20)


@dataclass(frozen=True, slots=True)
class Dimensions:
    """Design dimensions of a new, inflated, unloaded tire [mm]; None where only a range over makers is printed.

    `basis` says where they come from: "computed", "published" or "named". `measuring_rim_mm` is the rim width for which
    the section width holds. `published` are the printed rows for this size, each with its source.
    """

    section_width_mm: int | None
    outer_diameter_mm: int | None
    section_height_mm: int | None
    measuring_rim_mm: Fraction | None
    basis: str
    source: str
    published: tuple[PublishedSize, ...]

    @property
    def section_width_range_mm(self) -> tuple[int, int] | None:
        """Least and most section width printed over makers [mm]."""
        return next((row.section_width_mm for row in self.published if row.is_range), None)

    @property
    def outer_diameter_range_mm(self) -> tuple[int, int] | None:
        """Least and most outer diameter printed over makers [mm]."""
        return next((row.outer_diameter_mm for row in self.published if row.is_range), None)


def section_height_mm(*, section_width_mm: int, aspect_percent: int) -> int:
    """Section height H = S1 * aspect / 100, rounded half up to 1 mm.

    Source: UN Regulation No. 30 / No. 54 (rounding order from memory).

    >>> section_height_mm(section_width_mm=205, aspect_percent=65)
    133
    """
    return (2 * section_width_mm * aspect_percent + 100) // 200


def outer_diameter_mm(*, section_width_mm: int, aspect_percent: int, rim_mm: int) -> int:
    """Design outer diameter D = d + 2 H [mm], H rounded before doubling.

    Source: UN Regulation No. 30 / No. 54 (rounding order from memory).
    Example: 205/65R15 on d = 381 mm; 647 mm in a public size table.

    >>> outer_diameter_mm(section_width_mm=205, aspect_percent=65, rim_mm=381)
    647
    """
    return rim_mm + 2 * section_height_mm(section_width_mm=section_width_mm, aspect_percent=aspect_percent)


def section_width_mm(*, nominal_mm: int, rim_mm: Fraction, theoretical_rim_mm: Fraction) -> int:
    """Design section width S = S1 + 0.4 (A - A1), rounded half up to 1 mm.

    A is the width of the rim it is measured on, A1 that of the theoretical rim.
    Source: UN Regulation No. 30 / No. 54.
    Example: 195/65R15 on a 6 inch rim, 201 mm in the annex (from memory).

    >>> section_width_mm(nominal_mm=195, rim_mm=Fraction("152.4"), theoretical_rim_mm=Fraction("136.5"))
    201
    """
    return _half_up(nominal_mm + _K * (rim_mm - theoretical_rim_mm))


def dimensions(designation: Designation, *, rim_width: str | None = None) -> Dimensions | None:
    """Dimensions of a size; None where there is no formula for it and no printed row in our table: measure the tire.

    `rim_width` is the rim the section width is wanted for, "6.5 in", "165 mm" or a width code such as "6.5J";
    without it the measuring rim of the standard. Code-designated sizes are never derived from an aspect ratio.
    Raises MarkingError for a rim width that cannot be read.
    Source: UN Regulation No. 30 / No. 54; measuring and theoretical rims ISO 4000-1 and ISO 4209-1 (from memory).

    >>> from training.rulebook.markings.designation import read_designation
    >>> found = dimensions(read_designation("205/55R16 91V"))
    >>> found.section_width_mm, found.outer_diameter_mm
    (214, 632)
    """
    width_mm = None if rim_width is None else _rim_width_mm(rim_width)
    size = designation
    front = size.section_code if size.form == "code" else f"{size.section_width_mm}/{size.aspect_percent}"
    published = published_sizes(f"{size.prefix or ''}{front}{size.construction}{size.rim_code}{size.suffix or ''}")
    if size.section_width_mm is not None and size.aspect_percent is not None:
        return _computed(size, size.section_width_mm, size.aspect_percent, width_mm, published)
    if size.overall_diameter_code is not None and size.section_code is not None:
        return Dimensions(
            section_width_mm=_half_up(Fraction(size.section_code) * _MM_PER_INCH),
            outer_diameter_mm=_half_up(Fraction(size.overall_diameter_code) * _MM_PER_INCH),
            section_height_mm=None, measuring_rim_mm=None, basis="named", source=_NAMED_SOURCE, published=(),
        )  # fmt: skip
    if not published:
        return None
    first = published[0]
    return Dimensions(
        section_width_mm=None if first.is_range else first.section_width_mm[0],
        outer_diameter_mm=None if first.is_range else first.outer_diameter_mm[0],
        section_height_mm=None, measuring_rim_mm=None, basis="published", source=first.source, published=published,
    )  # fmt: skip


def measuring_rim_mm(*, section_width_mm: int, aspect_percent: int, rims: str) -> Fraction | None:
    """Width of the measuring rim [mm]: the standard rim nearest to its share of the nominal section width.

    None outside the series of the tables. Source: ISO 4000-1, ISO 4209-1 and -2 (from memory).

    >>> measuring_rim_mm(section_width_mm=205, aspect_percent=55, rims="5-degree") / Fraction("25.4")
    Fraction(13, 2)
    """
    factors = rim_factors(rims, aspect_percent)
    if factors is None:
        return None
    wanted_in = factors.measuring * section_width_mm / _MM_PER_INCH
    widths = rim_widths(rims)
    if widths:
        return min(widths, key=lambda width: abs(width - wanted_in)) * _MM_PER_INCH
    return _half_up(wanted_in / _HALF_INCH) * _HALF_INCH * _MM_PER_INCH


def _computed(size: Designation, nominal_mm: int, aspect: int, width_mm: Fraction | None,
              published: tuple[PublishedSize, ...]) -> Dimensions:  # fmt: skip
    factors = rim_factors(size.rims, aspect)
    rim_mm = width_mm or measuring_rim_mm(section_width_mm=nominal_mm, aspect_percent=aspect, rims=size.rims)
    width = None
    # The factors are those of car and truck tires: a motorcycle's section is not built on them.
    if factors is not None and rim_mm is not None and size.kind != "motorcycle":
        theoretical_mm = factors.theoretical * nominal_mm
        width = section_width_mm(nominal_mm=nominal_mm, rim_mm=rim_mm, theoretical_rim_mm=theoretical_mm)
    return Dimensions(
        section_width_mm=width,
        outer_diameter_mm=outer_diameter_mm(section_width_mm=nominal_mm, aspect_percent=aspect, rim_mm=size.rim_mm),
        section_height_mm=section_height_mm(section_width_mm=nominal_mm, aspect_percent=aspect),
        measuring_rim_mm=rim_mm if width is not None else None, basis="computed", source=_SOURCE, published=published,
    )  # fmt: skip


def _rim_width_mm(text: str) -> Fraction:
    found = _RIM_WIDTH.fullmatch(text.strip()) if isinstance(text, str) else None
    accepted = say('give the rim width with its unit, for example "6.5 in" or "165 mm", or its code "6.5J"')
    if found is None or not found["unit"]:
        raise MarkingError(say("rim width"), text, accepted)
    width_mm = Fraction(found["number"]) * (1 if found["unit"] == "mm" else _MM_PER_INCH)
    if not _LEAST_RIM_IN <= width_mm / _MM_PER_INCH <= _MOST_RIM_IN:
        raise MarkingError(
            say("rim width"), text, say("a rim is 1 in to 20 in wide"), problem=saying("{found} is out of range")
        )
    return width_mm


def _half_up(value: Fraction) -> int:
    return (2 * value.numerator + value.denominator) // (2 * value.denominator)
