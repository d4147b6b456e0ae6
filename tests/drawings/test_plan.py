"""The unrolled crown, measured back: exits, units, outlines and what lies across station 0."""

import math
import re

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import box

from tests.drawings.cases import drawn_case, measured, measured_tires, puncture, punctures
from tests.drawings.svg import WHITE, read
from tests.present import present
from tests.rulebook.cases import SHELF
from training.drawings import crown_plan
from training.rulebook import load_edition, mm, parse_quantity

# 205/65R15: overall diameter 647 mm in a published size table (UN Regulation No. 30); 13 mm of crown on both sides.
LINER_AROUND_MM = math.pi * (647 - 2 * 13)


def mouths(svg: str) -> list[tuple[float, ...]]:
    """Center and half axes of each hole's mouth on the liner."""
    return [
        tuple(float(element.attrib[name]) for name in ("cx", "cy", "rx", "ry"))
        for element in read(svg).root.iter("{http://www.w3.org/2000/svg}ellipse")
        if element.get("fill") == WHITE
    ]


def rectangles(svg: str, *, dashed: bool) -> list[tuple[float, float, float, float]]:
    """Rectangles as (center x, center y, width, height)."""
    found = []
    for element in read(svg).root.iter("{http://www.w3.org/2000/svg}rect"):
        if element.get("stroke") and (element.get("stroke-dasharray") is not None) == dashed:
            x, y, w, h = (float(element.attrib[name]) for name in ("x", "y", "width", "height"))
            found.append((x + w / 2, y + h / 2, w, h))
    return found


@settings(max_examples=100, deadline=None)
@given(measured_tires(), punctures(azimuths=st.integers(0, 359)))
def test_the_mouth_lies_where_the_channel_comes_out(tire, injury) -> None:
    case = drawn_case(injury, tire=tire)
    hole = measured(case)
    # a unit vector down the channel, scaled until it has gone through the crown
    over = math.sin(hole.lean) * math.cos(hole.azimuth) / math.cos(hole.lean) * hole.crown_mm

    ((x, _, rx, ry),) = mouths(crown_plan(case).svg)

    assert x == pytest.approx(hole.lateral_mm + over, abs=0.5)
    assert 2 * ry == pytest.approx(hole.diameter_mm, abs=0.5)
    assert 2 * rx == pytest.approx(hole.diameter_mm / math.cos(hole.lean), abs=0.5)


def test_a_channel_toward_increasing_station_comes_out_farther_up() -> None:
    # 13 mm of crown at 45 deg along the tire: 13 mm up, none across
    svg = crown_plan(drawn_case(puncture("20 mm", "45 deg", "90 deg"))).svg
    ellipses = list(read(svg).root.iter("{http://www.w3.org/2000/svg}ellipse"))
    on_tread = next(float(element.attrib["cy"]) for element in ellipses if element.get("fill") == "none")

    ((x, y, _, _),) = mouths(svg)

    assert (x, y) == pytest.approx((20, on_tread - 13), abs=0.1)


@pytest.mark.parametrize(("first", "second"), [(350, 4), (2, 357), (90, 101), (359, 0)])
def test_two_holes_lie_as_far_apart_as_on_the_liner_also_across_station_0(first, second) -> None:
    case = drawn_case(puncture(station=f"{first} deg"), puncture("-10 mm", id="B", station=f"{second} deg"))

    (_, first_y, _, _), (_, second_y, _, _) = mouths(crown_plan(case).svg)

    turn = (second - first + 180) % 360 - 180
    assert first_y - second_y == pytest.approx(turn / 360 * LINER_AROUND_MM, abs=0.5)  # upward is increasing station


def test_what_lies_far_apart_is_broken_into_strips() -> None:
    near = drawn_case(puncture(station="90 deg"), puncture(id="B", station="100 deg"))
    far = drawn_case(puncture(station="90 deg"), puncture(id="B", station="250 deg"))

    heights = [read(crown_plan(case).svg).view[3] - read(crown_plan(case).svg).view[1] for case in (near, far)]

    assert heights[1] < heights[0] + 60


def test_units_and_outlines_lie_around_the_mouth_in_true_size() -> None:
    case = drawn_case(puncture("20 mm", "20 deg", "60 deg"))
    margin = mm(parse_quantity("1/2 in", "length"))  # common practice, no published source: half an inch on each side

    svg = crown_plan(case, show_units=True, show_outline=True, units=SHELF).svg

    ((x, y, _, _),) = mouths(svg)
    (unit,) = rectangles(svg, dashed=False)
    (outline,) = rectangles(svg, dashed=True)
    assert unit[:2] == pytest.approx((x, y), abs=0.1)
    assert outline[:2] == pytest.approx((x, y), abs=0.1)
    assert outline[2] - unit[2] == pytest.approx(2 * margin, abs=0.1)
    assert outline[3] - unit[3] == pytest.approx(2 * margin, abs=0.1)


def test_a_stricter_rulebook_draws_its_own_outline() -> None:
    edition = load_edition("north-america")
    clause = present(edition.limit("job.outline_margin", "passenger"))
    wider = edition.altered(limits={clause.id: ["1 in"]})
    case = drawn_case(puncture())

    usual, wide = (
        crown_plan(case, show_outline=True, show_units=True, edition=each, units=SHELF).svg for each in (edition, wider)
    )

    (usual_outline,), (wide_outline,) = (rectangles(svg, dashed=True) for svg in (usual, wide))
    assert wide_outline[2] - usual_outline[2] == pytest.approx(2 * 12.7, abs=0.1)


def test_an_earlier_repair_is_drawn_hatched_in_the_size_it_was_measured() -> None:
    repair = {
        "id": "R1",
        "kind": "two-piece",
        "zone": "crown",
        "lateral": "-10 mm",
        "station": "100 deg",
        "sound": True,
        "unit": {"length": "75 mm", "width": "65 mm"},
    }
    figure = crown_plan(drawn_case(puncture("20 mm"), earlier_repairs=[repair]))

    ((x, _, w, h),) = rectangles(figure.svg, dashed=False)

    assert (x, w, h) == pytest.approx((-10, 75, 65), abs=0.1)
    assert "Earlier repair R1 lies 13/32 in (10 mm) left of the centerline at station 100 degrees" in figure.description


@settings(max_examples=100, deadline=None)
@given(measured_tires(), st.one_of(st.tuples(punctures()), st.tuples(punctures(reach=50), punctures(id="B", reach=50))))
def test_labels_keep_off_one_another_and_on_the_sheet(tire, injuries) -> None:
    drawing = read(crown_plan(drawn_case(*injuries, tire=tire)).svg)

    for place, (text, (left, top, right, low)) in enumerate(drawing.texts):
        assert drawing.view[0] <= left, text
        assert right <= drawing.view[2], text
        for other, letters in drawing.texts[:place]:
            assert not box(left, top, right, low).intersects(box(*letters)), (text, other)


def test_without_a_size_the_stations_are_printed_and_nothing_is_said_in_between() -> None:
    figure = crown_plan(
        drawn_case(puncture(station="10 deg"), puncture(id="B", station="20 deg"), tire={"designation": None})
    )

    assert {"10°", "20°"} <= {text for text, _ in read(figure.svg).texts}
    assert not re.search(r"\d+ mm (apart|up|down)", figure.description)


def test_a_case_without_places_says_so() -> None:
    assert "no place across the tread was measured" in crown_plan(drawn_case()).description
