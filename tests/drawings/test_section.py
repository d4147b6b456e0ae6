"""The cross-section, measured back with shapely: what stands on the paper is the case."""

import math

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st
from shapely import LineString, Polygon, STRtree, box

from tests.drawings.cases import drawn_case, measured, measured_tires, puncture, punctures
from tests.drawings.svg import RUBBER, Drawing, read
from training.drawings import cross_section
from training.rulebook import Case

PLACE_MM, LEAN_DEG = 0.5, 1.0  # how true a drawing must be


def cut_at(points: list[tuple[float, float]], depth: float) -> tuple[float, float]:
    """Left and right wall of a channel at a depth."""
    line = LineString([(-1e4, depth), (1e4, depth)]).intersection(Polygon(points))
    left, _, right, _ = line.bounds
    return left, right


def notch_edges(drawing: Drawing) -> list[float]:
    """x of each corner on the tread line of the rubber's outline."""
    outline = next(runs[0] for element, runs in drawing.paths if element.get("fill") == RUBBER)
    return sorted({x for x, y in outline if y == 0})


@settings(max_examples=150, deadline=None)
@given(measured_tires(), punctures())
@example({"outer_groove": "44 mm", "tread_width": "130 mm", "crown_thickness": "14 mm"}, puncture("31 mm", "30 deg"))
@example({"outer_groove": "62 mm", "tread_width": "170 mm", "crown_thickness": "13 mm"}, puncture("66 mm", "10 deg"))
def test_the_channel_measured_back_is_the_case(tire, injury) -> None:
    case = drawn_case(injury, tire=tire)
    drawing = read(cross_section(case).svg)
    hole = measured(case)
    lean = hole.lean * (1 if injury["azimuth"] == "0 deg" else -1)

    (channel,) = drawing.channels()
    low = max(y for _, y in channel)
    top_left, top_right = cut_at(channel, 1e-6)
    end_left, end_right = cut_at(channel, low - 1e-6)

    assert low == pytest.approx(hole.crown_mm, abs=PLACE_MM)
    assert (top_left + top_right) / 2 == pytest.approx(hole.lateral_mm, abs=PLACE_MM)
    drawn = math.atan2((end_left + end_right - top_left - top_right) / 2, low)
    assert math.degrees(drawn) == pytest.approx(math.degrees(lean), abs=LEAN_DEG)
    assert (top_right - top_left) * math.cos(drawn) == pytest.approx(hole.diameter_mm, abs=PLACE_MM)
    assert min(abs(abs(x) - hole.groove_mm) for x in notch_edges(drawing)) <= PLACE_MM


@settings(max_examples=80, deadline=None)
@given(punctures(azimuths=st.integers(0, 359)))
def test_a_channel_running_along_the_tire_shows_only_its_part_across(injury) -> None:
    case = drawn_case(injury)
    hole = measured(case)
    # a unit vector down the channel, scaled until it has gone through 13 mm of crown
    across, down = math.sin(hole.lean) * math.cos(hole.azimuth), math.cos(hole.lean)

    (channel,) = read(cross_section(case).svg).channels()

    end_left, end_right = cut_at(channel, 13 - 1e-6)
    assert (end_left + end_right) / 2 == pytest.approx(hole.lateral_mm + 13 * across / down, abs=PLACE_MM)


@settings(max_examples=80, deadline=None)
@given(measured_tires(), punctures())
def test_a_mirrored_case_is_the_mirrored_drawing(tire, injury) -> None:
    other = {
        **injury,
        "lateral": f"{-float(injury['lateral'].split()[0]):g} mm",
        "azimuth": "180 deg" if injury["azimuth"] == "0 deg" else "0 deg",
    }
    if injury["lateral"] == "0 mm":
        return  # a hole on the centerline shows the right half in both cases
    seen, mirrored = (read(cross_section(drawn_case(each, tire=tire)).svg) for each in (injury, other))

    assert (
        Polygon([(-x, y) for x, y in mirrored.channels()[0]]).symmetric_difference(Polygon(seen.channels()[0])).area
        < 0.1
    )
    assert mirrored.view[2] - mirrored.view[0] == pytest.approx(seen.view[2] - seen.view[0], abs=0.05)
    assert sorted(-x for x in notch_edges(mirrored)) == pytest.approx(notch_edges(seen), abs=0.05)


@settings(max_examples=150, deadline=None)
@given(
    measured_tires(),
    st.one_of(
        st.tuples(punctures()),
        st.tuples(punctures(reach=50), punctures(id="B", reach=50)),
        st.tuples(punctures(azimuths=st.integers(0, 359))),
    ),
)
@example({"outer_groove": "62 mm"}, (puncture("3 mm", "20 deg", "180 deg", diameter="6 mm"),))
@example({"outer_groove": "62 mm"}, (puncture("0 mm", "40 deg", "180 deg"),))
@example(
    {"outer_groove": "2 7/16 in", "crown_thickness": "17/32 in"}, (puncture("1 1/4 in", "15 deg", diameter="1/4 in"),)
)
def test_no_label_lies_on_another_or_off_the_sheet(tire, injuries) -> None:
    drawing = read(cross_section(drawn_case(*injuries, tire=tire), show_liner_exit=True).svg)

    for place, (text, spot) in enumerate(drawing.texts):
        assert drawing.view[0] <= spot[0], text
        assert spot[2] <= drawing.view[2], text
        assert drawing.view[1] <= spot[1], text
        assert spot[3] <= drawing.view[3], text
        for other, (left, top, right, low) in drawing.texts[:place]:
            assert not (left < spot[2] and spot[0] < right and top < spot[3] and spot[1] < low), (text, other)


@settings(max_examples=150, deadline=None)
@given(
    measured_tires(),
    st.one_of(st.tuples(punctures()), st.tuples(punctures(reach=50), punctures(id="B", reach=50))),
    st.booleans(),
)
@example({"outer_groove": "62 mm"}, (puncture("3 mm", "20 deg", "180 deg", diameter="6 mm"),), False)
@example({"outer_groove": "62 mm"}, (puncture("0 mm", "40 deg", "180 deg"),), False)
@example({"outer_groove": "44 mm", "tread_width": "130 mm"}, (puncture("31 mm", "30 deg"),), False)
@example({"outer_groove": "62 mm"}, (puncture("80 mm", "20 deg"),), True)
@example(
    {"outer_groove": "38 mm", "tread_width": "105 mm", "crown_thickness": "10.5 mm"},
    (puncture("8 mm", diameter="2 mm"), puncture("-16.5 mm", diameter="2 mm", id="B")),
    True,
)
def test_no_line_runs_through_a_label(tire, injuries, exit_too) -> None:
    drawing = read(cross_section(drawn_case(*injuries, tire=tire), show_liner_exit=exit_too).svg)

    lines = STRtree([LineString(line) for line in drawing.lines()])
    for text, letters in drawing.texts:
        crossing = lines.query(box(*letters), predicate="intersects")
        assert not len(crossing), (text, [drawing.lines()[i] for i in crossing])


def test_the_drawing_is_cropped_to_the_half_with_the_injury() -> None:
    right, left = (read(cross_section(drawn_case(puncture(at))).svg).view for at in ("31 mm", "-31 mm"))
    both = read(cross_section(drawn_case(puncture("31 mm"), puncture("-31 mm", id="B"))).svg).view

    assert right[0] > -30
    assert left[2] < 30
    assert both[0] < -85
    assert both[2] > 85


def test_text_is_at_least_14_px_high_where_a_phone_shows_the_drawing_340_px_wide() -> None:
    for case in (drawn_case(puncture()), drawn_case(puncture(), puncture("-31 mm", id="B"))):
        drawing = read(cross_section(case).svg)
        assert drawing.size * 340 / (drawing.view[2] - drawing.view[0]) >= 14


def test_the_description_says_what_is_drawn_in_the_preferred_unit_first() -> None:
    case = drawn_case(puncture("-31 mm", "30 deg", "180 deg"))

    assert cross_section(case, prefer="mm").description == (
        "Cross-section of the crown to scale, tread up, liner down. The crown is 13 mm (1/2 in) thick. "
        "The outermost groove begins 62 mm (2 7/16 in) from the centerline. "
        "The injury enters the tread 31 mm (1 7/32 in) left of the centerline, "
        "is 5 mm (3/16 in) across and leans 30 degrees to the left on its way in."
    )
    assert "1 7/32 in (31 mm) left" in cross_section(case).description


def test_the_exit_is_dimensioned_only_when_asked_for() -> None:
    case = drawn_case(puncture("31 mm", "30 deg"))  # 31 + 13 tan 30 deg = 38.5

    assert "38.5 mm" not in cross_section(case).svg
    assert "38.5 mm right of the centerline" in cross_section(case, show_liner_exit=True).description
    assert "38.5 mm" in [text for text, _ in read(cross_section(case, show_liner_exit=True).svg).texts]


def test_one_of_two_injuries_can_be_drawn_alone() -> None:
    case = drawn_case(puncture(), puncture("-20 mm", id="B"))

    (channel,) = read(cross_section(case, injury="B").svg).channels()

    assert sum(cut_at(channel, 1)) / 2 == pytest.approx(-20, abs=PLACE_MM)


@pytest.mark.parametrize("missing", ["lateral", "angle", "azimuth", "diameter", "station"])
def test_what_was_not_measured_is_not_claimed(missing) -> None:
    injury = puncture("31 mm", "30 deg")
    del injury[missing]

    figure = cross_section(drawn_case(injury))

    words = {
        "lateral": "its place across the tread was not measured",
        "angle": "its channel not shown",
        "azimuth": "in a direction that was not measured",
        "diameter": "leans 30 degrees",
        "station": "leans 30 degrees",
    }
    assert words[missing] in figure.description
    assert ("5 mm" in figure.description) == (missing not in ("diameter", "lateral"))


def _cases() -> list[Case]:
    bare: dict[str, object] = {"designation": None, "tread_width": None, "outer_groove": None, "crown_thickness": None}
    return [
        drawn_case(),
        drawn_case(tire=bare),
        drawn_case(puncture("31 mm", "89 deg"), tire=bare),
        drawn_case(puncture("900 mm", "50 deg")),
        drawn_case(puncture(kind="surface", angle=None)),
        drawn_case(puncture(kind="cut", length="20 mm", reaches="cord", diameter=None)),
        drawn_case({"id": "A", "kind": "puncture", "zone": "shoulder", "diameter": "5 mm"}),
    ]


@pytest.mark.parametrize("case", _cases(), ids=str)
def test_a_case_with_little_in_it_still_gives_a_drawing(case) -> None:
    drawing = read(cross_section(case, show_liner_exit=True).svg)

    assert drawing.view[2] > drawing.view[0]
    assert drawing.view[3] > drawing.view[1]
