"""Dimensions: which basis a size has, other rims, and what is not known."""

from decimal import ROUND_HALF_UP, Decimal
from fractions import Fraction

import pint
import pytest

from training.rulebook.markings import (
    MarkingError,
    dimensions,
    published_sizes,
    read_designation,
    rim_diameter_mm,
    section_height_mm,
    section_width_mm,
    values_from_memory,
)
from training.rulebook.markings.tables import rim_diameters, rows

UNITS: pint.UnitRegistry[Decimal] = pint.UnitRegistry(non_int_type=Decimal)


# The nominal rim diameter is the code in inches, in whole millimeters, half up; pint does the inches.
@pytest.mark.parametrize("code", list(rim_diameters()))
def test_a_rim_diameter_is_its_code_in_inches_to_the_millimeter(code: str) -> None:
    inches = UNITS.Quantity(Decimal(code), "inch").to("mm").magnitude

    assert rim_diameter_mm(code) == int(inches.quantize(Decimal(1), ROUND_HALF_UP))


# Worked by hand: 205 mm * 0.55 = 112.75 -> 113; 265 * 0.70 = 185.5 -> 186; 305 * 0.70 = 213.5 -> 214.
@pytest.mark.parametrize(
    ("width", "aspect", "height"), [(205, 55, 113), (265, 70, 186), (305, 70, 214), (155, 70, 109)]
)
def test_the_section_height_rounds_half_up(width: int, aspect: int, height: int) -> None:
    assert section_height_mm(section_width_mm=width, aspect_percent=aspect) == height


# UN Regulation No. 30: S = S1 + 0.4 (A - A1). By hand: 245 + 0.4 (177.8 - 171.5) = 247.52 -> 248.
def test_the_section_width_follows_the_rim() -> None:
    assert section_width_mm(nominal_mm=245, rim_mm=Fraction("177.8"), theoretical_rim_mm=Fraction("171.5")) == 248


# 205 + 0.4 (177.8 - 143.5) = 218.72; 0.4 * 12.7 mm is 5 mm wider for each half inch of rim (published rule of thumb).
@pytest.mark.parametrize("rim", ["7 in", "7.0 in", "177.8 mm", "7J", "7.0 J"])
def test_another_rim_gives_another_section_width(rim: str) -> None:
    found = dimensions(read_designation("205/55R16"), rim_width=rim)

    assert found is not None
    assert found.section_width_mm == 219
    assert found.outer_diameter_mm == 632


@pytest.mark.parametrize("rim", ["7", "7,5 in", "wide", "", "0.1 in", "400 in", "900 mm"])
def test_a_rim_width_without_unit_or_out_of_range_is_refused(rim: str) -> None:
    with pytest.raises(MarkingError) as refused:
        dimensions(read_designation("205/55R16"), rim_width=rim)

    assert (refused.value.part, refused.value.found) == ("rim width", rim)


@pytest.mark.parametrize("size", ["195R14C", "7.50R16LT", "11-22.5", "11.5R22.5"])
def test_a_size_without_formula_or_printed_row_has_no_dimensions(size: str) -> None:
    assert dimensions(read_designation(size)) is None


def test_a_size_printed_only_as_a_range_has_no_design_value() -> None:
    found = dimensions(read_designation("11R24.5"))

    assert found is not None
    assert (found.section_width_mm, found.outer_diameter_mm) == (None, None)
    assert found.outer_diameter_range_mm == (1100, 1110)  # truck tire size chart, range over makers
    assert found.source == "truck tire size chart, range over makers"


def test_a_published_row_is_only_used_for_the_size_it_was_printed_for() -> None:
    light_truck = dimensions(read_designation("11R22.5LT"))

    assert light_truck is None
    assert published_sizes("11R22") == ()


def test_a_motorcycle_tire_has_no_section_width_from_the_rules_for_cars() -> None:
    found = dimensions(read_designation("120/70ZR17M/C"))

    assert found is not None
    assert found.section_width_mm is None
    assert found.outer_diameter_mm == 600  # 432 + 2 * 84, UN Regulation No. 75 (from memory)


def test_every_value_has_a_status_and_a_source() -> None:
    tables = (
        "load_index",
        "speed_symbols",
        "load_ranges",
        "rims",
        "rim_widths",
        "rim_factors",
        "published_sizes",
        "sizes_in_use",
    )
    everything = [row for table in tables for row in rows(table)]

    assert all(row["source"] and row["status"].startswith(("published", "from memory")) for row in everything)
    assert len(values_from_memory()) == sum(row["status"] == "from memory" for row in everything)
    assert any("13R22.5" in value.row for value in values_from_memory())
