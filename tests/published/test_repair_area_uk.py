"""The repairable area of the United Kingdom against its printed table, and the rule behind it by hand."""

import csv
from pathlib import Path

import pytest

from tests.rulebook.cases import decide_as_told
from training.rulebook import injury_geometry, load_edition, parse_case

# BS AU 159g, minor repair area T, as published in a trade-association summary.
ROWS = list(csv.DictReader(Path(__file__).with_name("repair_area_uk.csv").open(newline="")))


def case_of(width: int, *, diameter: str = "4 mm", lateral: str = "0 mm") -> dict[str, object]:
    injury = {"diameter": diameter, "angle": "0 deg", "lateral": lateral}
    tire = {"casing": "passenger", "designation": f"{width}/65R15"}
    return {"edition": "united-kingdom", "on": "2026-11-25", "tire": tire, "injuries": [injury]}


def area_mm(width: int) -> float:
    case = parse_case(case_of(width))
    half = injury_geometry(case, (case.injuries or ())[0], edition=load_edition("united-kingdom")).half_crown_mm
    assert half is not None
    return 2 * half


@pytest.mark.parametrize("row", ROWS, ids=[row["nominal_section_width_mm"] for row in ROWS])
def test_area_t_is_the_printed_figure(row: dict[str, str]) -> None:
    assert area_mm(int(row["nominal_section_width_mm"])) == int(row["T_mm"])


# 60 % up to 155, 65 % over 155 to 200, 70 % over 200: worked by hand for widths that the table does not print.
@pytest.mark.parametrize(
    ("width", "area"), [(115, 69.0), (150, 90.0), (160, 104.0), (200, 130.0), (205, 143.5), (255, 178.5)]
)
def test_area_t_of_a_width_that_is_not_printed_is_its_percentage(width: int, area: float) -> None:
    assert area_mm(width) == pytest.approx(area)


@pytest.mark.parametrize("row", ROWS, ids=[row["nominal_section_width_mm"] for row in ROWS])
def test_the_whole_hole_lies_in_area_t_or_the_tire_is_out(row: dict[str, str]) -> None:
    width, half_mm = int(row["nominal_section_width_mm"]), int(row["T_mm"]) / 2

    # a hole of 4 mm reaches 2 mm to each side of its middle
    on_the_line = decide_as_told(case_of(width, lateral=f"{half_mm - 2} mm"))
    beyond = decide_as_told(case_of(width, lateral=f"{half_mm - 1.9:.1f} mm"))

    assert (on_the_line.verdict, beyond.verdict) == ("repair", "reject")


# "At most 6 mm at the base after preparation": the standard as summarised; 1/4 in is 6.35 mm and too large.
@pytest.mark.parametrize(
    ("diameter", "verdict"), [("5.9 mm", "repair"), ("6 mm", "repair"), ("6.1 mm", "reject"), ("1/4 in", "reject")]
)
def test_a_minor_repair_is_at_most_6_mm(diameter: str, verdict: str) -> None:
    assert decide_as_told(case_of(185, diameter=diameter)).verdict == verdict
