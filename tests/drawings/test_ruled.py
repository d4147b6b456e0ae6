"""Drawings to mark a place on, measured back: the nail's line leads to where the channel comes out."""

import math
import re
from collections.abc import Iterator
from fractions import Fraction
from itertools import combinations, pairwise

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from shapely import LineString, Polygon, box

from tests.drawings.cases import drawn_case, measured, measured_tires, puncture
from tests.drawings.svg import RUBBER, read
from tests.present import present
from training.drawings import Ruled, level_plan, nail_section, repair_plan

leans = st.integers(15, 55).map(lambda angle: f"{angle} deg")
laterals = st.integers(-34, 34).filter(lambda lateral: abs(lateral) > 8).map(lambda lateral: f"{lateral} mm")


def inches(text: str) -> float:
    return float(sum(map(Fraction, text.split()), Fraction(0)))


def number(pattern: str, words: str) -> float:
    return float(present(re.search(pattern, words))[1])


@settings(max_examples=120, deadline=None)
@given(measured_tires(), laterals, leans, st.booleans())
def test_the_line_of_the_nail_leads_to_the_exit(tire, lateral, angle, outward) -> None:
    away = "0 deg" if lateral.startswith("-") != outward else "180 deg"
    case = drawn_case(puncture(lateral, angle) | {"azimuth": away}, tire=tire)
    entry, thick = measured(case).lateral_mm, measured(case).crown_mm
    lean = math.tan(math.radians(int(angle.split()[0]))) * (1 if away == "0 deg" else -1)
    assume((entry + thick * lean) * entry > 0)  # one half is drawn; a channel across the centerline leaves it
    drawn = nail_section(case)
    shank = Polygon(next(points for points in read(drawn.svg).channels()))

    # The long axis of the shank, run on from the tread to the liner.
    corners = list(shank.minimum_rotated_rectangle.exterior.coords)
    sides = sorted((LineString(pair) for pair in pairwise(corners)), key=lambda side: side.length)
    (x1, y1), (x2, y2) = (side.centroid.coords[0] for side in sides[:2])
    slope = (x2 - x1) / (y2 - y1)
    at_tread = x1 - y1 * slope

    assert abs(at_tread - entry) < 0.5
    assert abs(math.degrees(math.atan(slope)) - math.degrees(math.atan(lean))) < 1
    assert abs(at_tread + thick * slope - (entry + thick * lean)) < 1
    left, low, width, height = drawn.rulers
    assert left < at_tread + thick * slope < left + width
    assert low - height < thick < low
    assert abs(number(r"enters the tread at ([\d.]+)", drawn.description) - (at_tread - left)) <= 0.5
    assert abs(number(r"liner lies at ([\d.]+)", drawn.description) - (low - thick)) <= 0.5


@pytest.mark.parametrize("lateral", ["9 mm", "30 mm", "-41 mm"])
def test_the_rubber_is_drawn_the_same_however_the_nail_leans(lateral) -> None:
    drawings = []
    for away in ("0 deg", "180 deg"):
        for lean in ("16 deg", "45 deg", "55 deg"):
            drawn = nail_section(drawn_case(puncture(lateral, lean, away)))
            outline = next(runs for element, runs in read(drawn.svg).paths if element.get("fill") == RUBBER)
            drawings.append((outline, drawn.rulers))

    assert all(drawing == drawings[0] for drawing in drawings)


@pytest.mark.parametrize("below", [0.0, 17.0])
def test_room_shown_under_the_liner_lifts_it_on_the_ruler_and_moves_nothing_else(below) -> None:
    case = drawn_case(puncture("30 mm", "45 deg"))
    usual, drawn = nail_section(case), nail_section(case, below=below)

    # Lengths on the ruler beside begin at the lower left corner, so that as much room below adds as much to each.
    for word in (r"liner lies at ([\d.]+)", r"and the tread at ([\d.]+)"):
        assert number(word, drawn.description) == number(word, usual.description) + below
    assert drawn.rulers[3] == usual.rulers[3] + below
    assert number(r"enters the tread at ([\d.]+)", drawn.description) == number(
        r"enters the tread at ([\d.]+)", usual.description
    )


def every_kind() -> Iterator[Ruled]:
    yield nail_section(drawn_case(puncture("30 mm", "45 deg")), below=22)
    yield nail_section(drawn_case(puncture("30 mm", "45 deg")))
    yield nail_section(drawn_case(puncture("-24 mm", "20 deg")))
    for side in (1, -1):
        yield level_plan(drawn_case(puncture("0 mm", "0 deg")), up=32, side=side)
    yield repair_plan((75, 65), at=(44, 40), size=(190, 80))
    yield repair_plan((50, 40), at=(37, 100), size=(74, 132))


def in_inches() -> Iterator[Ruled]:
    yield nail_section(drawn_case(puncture("30 mm", "45 deg")), below=22, prefer="in")
    yield nail_section(drawn_case(puncture("30 mm", "45 deg")), prefer="in")
    yield nail_section(drawn_case(puncture("-24 mm", "20 deg")), prefer="in")
    for side in (1, -1):
        yield level_plan(drawn_case(puncture("0 mm", "0 deg")), up=32, side=side, prefer="in")
    yield repair_plan((75, 65), at=(44, 40), size=(190, 80), prefer="in")
    yield repair_plan((50, 40), at=(37, 100), size=(74, 132), prefer="in")


@pytest.mark.parametrize("drawn", in_inches())
def test_a_ruler_in_inches_has_its_numbers_at_their_marks_and_its_marks_at_sixteenths_or_eighths(drawn) -> None:
    left, low, width, _ = drawn.rulers
    drawing = read(drawn.svg)
    numbers = [(inches(text), spot) for text, spot in drawing.texts if re.fullmatch(r"\d+|(?:\d+ )?1/2", text)]
    below = {value: spot for value, spot in numbers if spot[1] > low}
    beside = {value: spot for value, spot in numbers if spot[2] < left}

    assert 0.0 in below
    assert max(below) > width / 25.4 - 1.01
    assert len(beside) >= 3
    for value, spot in below.items():
        assert abs((spot[0] + spot[2]) / 2 - (left + value * 25.4)) < 0.5
    for value, spot in beside.items():
        assert abs((spot[1] + spot[3]) / 2 - (low - value * 25.4)) < drawing.size * 0.2
    marks = {
        round((run[0][0] - left) / 25.4 * 16, 2)
        for _, runs in drawing.paths
        for run in runs
        if len(run) == 2 and run[0][0] == run[1][0] and low < run[0][1] < run[1][1]
    }
    assert {1.0, 2.0} & marks
    assert all(abs(mark - round(mark)) < 0.02 for mark in marks)
    assert "in" in {text for text, _ in drawing.texts}
    assert "mm" not in {text for text, _ in drawing.texts}
    assert "rulers, in inches, begin" in drawn.description


@pytest.mark.parametrize("drawn", every_kind())
def test_rulers_are_true_and_their_numbers_stand_at_their_marks(drawn) -> None:
    left, low, width, height = drawn.rulers
    drawing = read(drawn.svg)
    below = {int(text): spot for text, spot in drawing.texts if text.isdigit() and spot[1] > low}
    beside = {int(text): spot for text, spot in drawing.texts if text.isdigit() and spot[2] < left}

    assert set(below) == set(range(0, int(width) + 1, 20))
    assert len(beside) >= 3
    for value, spot in below.items():
        assert abs((spot[0] + spot[2]) / 2 - (left + value)) < 0.5
    for value, spot in beside.items():
        assert abs((spot[1] + spot[3]) / 2 - (low - value)) < drawing.size * 0.2
    view = drawing.view
    assert view[0] < left
    assert left + width < view[2]
    assert low < view[3]
    assert low - height >= view[1]


@pytest.mark.parametrize("drawn", [*every_kind(), *in_inches()])
def test_no_label_lies_on_another_or_off_the_sheet_and_all_can_be_read_on_a_phone(drawn) -> None:
    drawing = read(drawn.svg)
    sheet = box(*drawing.view)

    for text, spot in drawing.texts:
        assert sheet.contains(box(*spot)), text
    for (one, first), (other, second) in combinations(drawing.texts, 2):
        assert not box(*first).intersects(box(*second)), (one, other)
    # 340 px wide on a phone, or as tall as three quarters of its 844 px.
    scale = min(340 / (drawing.view[2] - drawing.view[0]), 633 / (drawing.view[3] - drawing.view[1]))
    assert drawing.size * scale >= 13


def test_a_plan_of_one_side_draws_grooves_and_hole_where_the_case_has_them() -> None:
    tire = {"outer_groove": "62 mm", "tread_width": "170 mm", "crown_thickness": "13 mm"}
    drawn = level_plan(drawn_case(puncture("0 mm", "0 deg") | {"diameter": "5 mm"}, tire=tire), up=32, side=-1)
    left, low, _, _ = drawn.rulers
    lines = [line for line in read(drawn.svg).lines() if line[0][0] == line[1][0]]
    x, y, radius = map(float, present(re.search(r'<circle cx="(.+?)" cy="(.+?)" r="(.+?)"', drawn.svg)).groups())

    assert -62.0 in {line[0][0] for line in lines}
    assert (x, low - y, radius) == (0, 32, 2.5)
    assert number(r"outermost groove at ([\d.]+)", drawn.description) == -62 - left
    assert number(r"centerline stands at ([\d.]+)", drawn.description) == -left


def test_a_plan_of_a_repair_draws_its_unit_where_it_says() -> None:
    drawn = repair_plan((75, 65), at=(44, 40), size=(190, 80))
    spots = [tuple(map(float, found)) for found in re.findall(
        r'<rect x="(.+?)" y="(.+?)" width="(.+?)" height="(.+?)"', drawn.svg)]  # fmt: skip

    assert (44 - 37.5, -40 - 32.5, 75.0, 65.0) in spots
    assert "reaches from 6.5 to 81.5 on the one below" in drawn.description
    assert "from 7.5 to 72.5 on the one beside" in drawn.description


def test_what_was_not_measured_is_refused_by_name() -> None:
    case = drawn_case(puncture("0 mm", "0 deg"), tire={"outer_groove": None, "tread_width": None})

    with pytest.raises(ValueError, match="tread width, outer groove and an injury are needed"):
        level_plan(case)
