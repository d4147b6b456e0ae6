"""Size designations as far as geometry needs them: nominal section width and design outer diameter."""

from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache

from training.rulebook import markings


@dataclass(frozen=True, slots=True)
class Dimensions:
    """Nominal section width, where the size names one, and design outer diameter of a new tire [mm]."""

    section_width_mm: int | None
    outer_diameter_mm: int


_INCH_MM = Fraction("25.4")


@lru_cache(maxsize=4096)
def section_width_mm(text: str | None) -> Fraction | None:
    """Nominal section width [mm], as the size names it or from the inches it prints; None without a size.

    >>> float(section_width_mm("31x10.50R15LT"))
    266.7
    """
    size = size_of(text)
    if size is None:
        return None
    if size.section_width_mm is not None:
        return Fraction(size.section_width_mm)
    return Fraction(size.section_code) * _INCH_MM if size.section_code is not None else None


@lru_cache(maxsize=4096)
def designation_of(text: str | None) -> markings.Designation | None:
    """The designation as read; None where it was not given or cannot be read."""
    if text is None:
        return None
    try:
        return markings.read_designation(text)
    except markings.MarkingError:
        return None


@lru_cache(maxsize=4096)
def dimensions(text: str | None) -> Dimensions | None:
    """Dimensions of a designation; None where no formula and no printed row gives one diameter for its size.

    A diameter printed as a range over makers is taken at its smaller end: less room around the tire, so stricter.

    >>> dimensions("205/65R15 94V").outer_diameter_mm
    647
    """
    size = size_of(text)
    found = markings.dimensions(size) if size is not None else None
    if size is None or found is None:
        return None
    diameter_mm = found.outer_diameter_mm
    if diameter_mm is None and found.outer_diameter_range_mm is not None:
        diameter_mm = found.outer_diameter_range_mm[0]
    return None if diameter_mm is None else Dimensions(size.section_width_mm, diameter_mm)


@lru_cache(maxsize=1024)
def size_of(text: str | None) -> markings.Designation | None:
    """The designation without the last words nobody can read: a size keeps its dimensions whatever stands behind it."""
    words = (text or "").split()
    for count in range(len(words), 0, -1):
        size = designation_of(" ".join(words[:count]))
        if size is not None:
            return size
    return None
