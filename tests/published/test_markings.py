"""Markings against printed tables: load index, speed symbols, tire sizes, weeks of manufacture.

The tables beside this file say for each row where it was printed, or that it is from memory.
"""

import csv
from datetime import date
from fractions import Fraction
from pathlib import Path

import pytest

from training.rulebook.markings import (
    Dimensions,
    dimensions,
    load_capacity_kg,
    load_capacity_text,
    load_ranges,
    measuring_rim_mm,
    read_date_code,
    read_designation,
    speed_limit,
)


def table(name: str) -> list[dict[str, str]]:
    with Path(__file__).with_name(f"{name}.csv").open(newline="") as lines:
        return list(csv.DictReader(lines))


def dimensions_of(size: str) -> Dimensions:
    found = dimensions(read_designation(size))
    assert found is not None
    return found


def named(row: dict[str, str]) -> str:
    return next(iter(row.values()))


@pytest.mark.parametrize("row", table("load_index"), ids=named)
def test_a_load_index_allows_the_printed_load(row: dict[str, str]) -> None:
    assert load_capacity_kg(int(row["load_index"])) == Fraction(row["max_load_kg"])


def test_the_printed_table_of_load_indexes_is_whole() -> None:
    assert [int(row["load_index"]) for row in table("load_index")] == list(range(181))


@pytest.mark.parametrize("row", table("speed_symbols"), ids=named)
def test_a_speed_symbol_allows_the_printed_speed(row: dict[str, str]) -> None:
    limit = speed_limit(row["symbol"])

    assert f"{'>' if limit.is_above else ''}{limit.km_h}" == row["km_h"]


@pytest.mark.parametrize("row", [row for row in table("tire_sizes") if "-" not in row["outer_diameter_mm"]], ids=named)
def test_a_size_has_the_printed_dimensions(row: dict[str, str]) -> None:
    found = dimensions_of(row["designation"])

    assert found.outer_diameter_mm == int(row["outer_diameter_mm"])
    if row["section_width_mm"]:
        assert found.section_width_mm == int(row["section_width_mm"])


@pytest.mark.parametrize("row", [row for row in table("tire_sizes") if "-" in row["outer_diameter_mm"]], ids=named)
def test_a_truck_size_names_the_printed_range_over_makers(row: dict[str, str]) -> None:
    found = dimensions_of(row["designation"])

    assert found.section_width_range_mm == tuple(map(int, row["section_width_mm"].split("-")))
    assert found.outer_diameter_range_mm == tuple(map(int, row["outer_diameter_mm"].split("-")))


@pytest.mark.parametrize("row", table("tin_weeks"), ids=named)
def test_a_date_code_names_the_printed_week(row: dict[str, str]) -> None:
    code = read_date_code(row["date_code"])

    assert code.first_day == date.fromisoformat(row["week_start_sunday"])
    assert code.last_day == date.fromisoformat(row["week_end_saturday"])


# UN Regulation No. 54 annex 5 (from memory): section width and outer diameter [mm] of sizes not in the table.
# H of 265/70 is 185.5 and of 285/70 is 199.5, so they tell rounding half up from rounding half to even.
@pytest.mark.parametrize(
    ("size", "section_mm", "diameter_mm"),
    [
        ("225/70R19.5", 226, 811),
        ("245/70R19.5", 248, 839),
        ("265/70R19.5", 262, 867),
        ("285/70R19.5", 283, 895),
        ("315/80R22.5", 312, 1076),
        ("385/55R22.5", 386, 996),
    ],
)
def test_a_truck_size_kept_aside_has_the_dimensions_of_the_annex(size: str, section_mm: int, diameter_mm: int) -> None:
    found = dimensions_of(size)

    assert (found.section_width_mm, found.outer_diameter_mm) == (section_mm, diameter_mm)


# UN Regulation No. 54 annex 5 (from memory): code-designated sizes, which no formula gives.
@pytest.mark.parametrize(
    ("size", "section_mm", "diameter_mm"),
    [
        ("10R22.5", 254, 1020),
        ("12R22.5", 300, 1084),
        ("13R22.5", 320, 1124),
        ("10.00R20", 275, 1052),
        ("11.00R20", 286, 1082),
        ("12.00R20", 313, 1122),
    ],
)
def test_a_code_size_has_the_dimensions_of_the_annex(size: str, section_mm: int, diameter_mm: int) -> None:
    found = dimensions_of(size)

    assert (found.section_width_mm, found.outer_diameter_mm) == (section_mm, diameter_mm)
    assert [row.status for row in found.published] == ["from memory"]


# Measuring rims in the annexes of UN Regulations No. 30 and No. 54 (from memory), width code in inches.
@pytest.mark.parametrize(
    ("section_mm", "aspect", "rims", "code"),
    [
        (155, 70, "5-degree", "4.5"),
        (195, 65, "5-degree", "6"),
        (205, 55, "5-degree", "6.5"),
        (225, 45, "5-degree", "7.5"),
        (225, 40, "5-degree", "8"),
        (295, 80, "15-degree", "9.00"),
        (275, 70, "15-degree", "8.25"),
        (385, 65, "15-degree", "11.75"),
    ],
)
def test_a_size_is_measured_on_the_rim_of_the_annex(section_mm: int, aspect: int, rims: str, code: str) -> None:
    rim_mm = measuring_rim_mm(section_width_mm=section_mm, aspect_percent=aspect, rims=rims)

    assert rim_mm == Fraction(code) * Fraction("25.4")


# US trade table of speed symbols, miles an hour (published; R to Y on every sidewall chart).
@pytest.mark.parametrize(
    ("symbol", "mph"),
    [("Q", 99), ("R", 106), ("S", 112), ("T", 118), ("U", 124), ("H", 130), ("V", 149), ("W", 168), ("Y", 186)],
)
def test_a_speed_symbol_allows_the_printed_speed_in_miles(symbol: str, mph: int) -> None:
    assert speed_limit(symbol).mph == mph


# US trade table of load indexes in pounds (published).
@pytest.mark.parametrize(("load_index", "pounds"), [(75, "853"), (91, "1,356"), (100, "1,764"), (121, "3,197")])
def test_a_load_index_allows_the_printed_pounds(load_index: int, pounds: str) -> None:
    assert load_capacity_text(load_index).startswith(f"{pounds} lb (")


# US trade table, load range to ply rating (published); I and K are not used.
def test_a_load_range_stands_for_the_printed_ply_rating() -> None:
    printed = {"A": 2, "B": 4, "C": 6, "D": 8, "E": 10, "F": 12, "G": 14, "H": 16, "J": 18, "L": 20, "M": 22, "N": 24}

    assert load_ranges() == printed


# A 22.5 inch code size is not 88 % of 11 inches high: that gives 1,063 mm where charts print 1,046 to 1,054.
def test_a_code_size_is_looked_up_and_not_derived_from_an_aspect_ratio() -> None:
    found = dimensions_of("11R22.5")

    assert found.basis == "published"
    assert found.outer_diameter_mm is not None
    assert 1046 <= found.outer_diameter_mm <= 1054


# Vehicle owner's manuals (published): in 31x10.5 R15 LT, 31 is the overall diameter and 10.5 the width in inches.
def test_a_flotation_size_names_its_diameter_and_width_in_inches() -> None:
    found = dimensions_of("31x10.50R15LT")

    assert (found.basis, found.outer_diameter_mm, found.section_width_mm) == ("named", 787, 267)  # 787.4 and 266.7


# Vehicle owner's manuals (published): "0301" is the 3rd week of 2001; "031" can be that of 1981 or 1991.
def test_the_codes_of_an_owners_manual_read_as_printed() -> None:
    assert (read_date_code("0301").week, read_date_code("0301").year) == (3, 2001)
    assert {1981, 1991} <= {week.year for week in read_date_code("031").weeks}


# Trade chart of motorcycle sizes (published): letters of a width beside the size in millimeters that it stands for.
@pytest.mark.parametrize(
    ("letters", "metric"),
    [("MH90", "80/90"), ("MJ90", "90/90"), ("MM90", "100/90"), ("MN90", "110/90"), ("MR90", "120/90"),
     ("MP85", "120/85"), ("MT90", "130/90"), ("MU90", "140/90"), ("MV85", "150/85")],
)  # fmt: skip
def test_letters_of_a_motorcycle_size_are_the_printed_millimeters(letters: str, metric: str) -> None:
    found, printed = read_designation(f"{letters}-18"), read_designation(f"{metric}-18")

    assert (found.section_width_mm, found.aspect_percent) == (printed.section_width_mm, printed.aspect_percent)
