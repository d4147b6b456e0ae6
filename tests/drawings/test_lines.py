"""What the lines and letters of a drawing keep to: room, size, one dimension to a height, a hatching for each layer."""

import math
import re
from itertools import combinations, pairwise
from pathlib import Path

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st
from shapely import LineString, Polygon, box
from shapely.prepared import prep

from tests.drawings.cases import drawn_case, measured_tires, puncture, punctures
from tests.drawings.svg import CRAYON, RUBBER, WHITE, Drawing, read
from tests.drawings.test_figures import figures
from tests.present import present
from training.drawings import cross_section, crown_plan

HATCH, LINE = "#9c9891", "#211f1d"
PHONE_PX, DESK_PX = 340, (410, 1000)  # how wide a drawing is shown on a screen of 390 px, and on wider ones
BODY_PX, HEADING_PX = 14, 19  # the smallest letters of a drawing; the smallest heading on a desk
ROOT_PX = 17  # the site's rem

any_holes = st.one_of(
    st.tuples(punctures()),
    st.tuples(punctures(reach=50), punctures(id="B", reach=50)),
    st.tuples(punctures(azimuths=st.integers(0, 359))),
)


def dimension_heights(drawing: Drawing) -> list[tuple[float, int]]:
    """The heights of all level arrowheads, with how many tips lie on each."""
    tips: dict[float, int] = {}
    for element, runs in drawing.paths:
        if element.get("fill") != "none":
            continue
        for run in runs:
            if len(run) == 3 and run[0][0] == run[2][0] and abs(run[0][1] + run[2][1] - 2 * run[1][1]) < 0.03:
                tips[run[1][1]] = tips.get(run[1][1], 0) + 1
    return sorted(tips.items())


@settings(max_examples=100, deadline=None)
@given(measured_tires(), any_holes, st.booleans())
@example({"outer_groove": "62 mm"}, (puncture("31 mm"), puncture("-31 mm", id="B")), True)
@example({"outer_groove": "62 mm"}, (puncture("31 mm"), puncture("31.5 mm", id="B", station="100 deg")), False)
def test_no_two_dimensions_of_a_section_or_a_plan_lie_on_one_height(tire, injuries, exit_too) -> None:
    case = drawn_case(*injuries, tire=tire)

    for figure in (cross_section(case, show_liner_exit=exit_too), crown_plan(case)):
        drawing = read(figure.svg)
        heights = dimension_heights(drawing)

        assert heights
        assert all(count <= 2 for _, count in heights)  # one dimension has at most two arrowheads
        for (one, _), (other, _) in pairwise(heights):
            assert other - one >= 28 / PHONE_PX * 0.95 * (drawing.view[2] - drawing.view[0]), (one, other)


def test_a_dimension_from_beyond_the_drawing_is_broken_once_and_has_one_arrowhead() -> None:
    drawing = read(cross_section(drawn_case(puncture("54 mm", "10 deg"))).svg)
    heights = dimension_heights(drawing)

    assert [count for _, count in heights] == [1, 1]  # the groove's and the hole's: the centerline is out of view
    for y, _ in heights:
        broken = [run for _, runs in drawing.paths for run in runs if run[0][1] == y and len(run) > 4]
        (line,) = broken
        assert min(at for _, at in line) < y < max(at for _, at in line)
    assert {"54 mm from the center", "62 mm to the outer groove"} <= {text for text, _ in drawing.texts}


@pytest.mark.parametrize("name", sorted(figures()))
def test_no_label_of_any_drawing_lies_on_another(name) -> None:
    for (one, first), (other, second) in combinations(read(figures()[name].svg).texts, 2):
        assert not box(*first).intersects(box(*second)), (one, other)


@pytest.mark.parametrize("name", sorted(figures()))
def test_letters_can_be_read_on_a_phone(name) -> None:
    drawing = read(figures()[name].svg)
    wide, high = drawing.view[2] - drawing.view[0], drawing.view[3] - drawing.view[1]

    # 340 px wide, or as tall as three quarters of the phone's 844 px
    assert drawing.size * min(PHONE_PX / wide, 633 / high) >= BODY_PX


def test_letters_are_no_larger_than_a_heading_on_a_desk() -> None:
    css = (Path(__file__).parents[2] / "training/static/training/site.css").read_text()
    steps = re.findall(r"@container \(min-width: (\d+)px\) \{ \.figure svg text.*?font-size: ([\d.]+)em", css)
    drawing = read(figures()["cross-section"].svg)
    part = drawing.size / (drawing.view[2] - drawing.view[0])

    most = int(present(re.search(r"\.figure svg \{[^}]*max-width: (\d+)rem", css))[1]) * ROOT_PX

    for wide in range(*DESK_PX, 10):
        share = [float(em) for least, em in steps if int(least) <= wide][-1]
        assert BODY_PX < min(wide, most) * part * share <= HEADING_PX, wide


def _slopes(drawing: Drawing, stroke: str, least_width: float = 0.0) -> set[int]:
    """Degrees, counted upward to the right, of all straight pieces drawn slanting in a color."""
    found = set()
    for element, runs in drawing.paths:
        if element.get("stroke") == stroke and element.get("fill") == "none":
            for run in runs:
                (x1, y1), (x2, y2) = sorted(run)[0], sorted(run)[-1]
                if len(run) == 2 and x1 != x2 and y1 != y2 and math.hypot(x2 - x1, y2 - y1) > least_width:
                    found.add(round(math.degrees(math.atan2(y1 - y2, x2 - x1))))
    return found


@pytest.mark.parametrize(("casing", "belts"), [("passenger", 2), ("light-truck-steel", 3), ("truck", 4)])
def test_each_layer_of_a_section_has_its_own_hatching(casing, belts) -> None:
    case = drawn_case(puncture("31 mm", "0 deg"), tire={"casing": casing, "crown_thickness": "20 mm"})
    drawing = read(cross_section(case).svg)

    assert _slopes(drawing, HATCH) == {45}  # tread: rising, gray
    assert _slopes(drawing, LINE) == {-45}  # liner: falling, black; nothing else slants beside a straight hole
    rows = [runs[0] for element, runs in drawing.paths if element.get("stroke-linecap") == "round"]
    cords = [row[0] for row in rows if row[0][1] < 20]  # the key below shows the same
    assert len(cords) == belts
    heights = [y for _, y in cords]
    assert heights == sorted(heights)
    level = [
        run
        for element, runs in drawing.paths
        if element.get("stroke") == LINE and not element.get("stroke-dasharray")
        for run in runs
        if len(run) == 2 and run[0][1] == run[1][1] and heights[-1] < run[0][1] < 20 and run[1][0] - run[0][0] > 20
    ]
    assert len(level) == 2  # the body ply: two long lines, under the belts
    (liner,) = [
        points
        for fill, points in drawing.polygons
        if fill != WHITE and max(y for _, y in points) == 20 and min(y for _, y in points) > level[1][0][1]
    ]
    assert liner


def test_every_other_belt_is_offset_by_half_a_cord() -> None:
    drawing = read(cross_section(drawn_case(puncture("31 mm"))).svg)
    rows = [
        (runs[0][0][0], float(element.attrib["stroke-dasharray"].split()[1]) + 0.05)
        for element, runs in drawing.paths
        if element.get("stroke-linecap") == "round"
    ][:2]

    (first, pitch), (second, other_pitch) = rows
    assert pitch == other_pitch
    assert abs((first - second) / pitch % 1 - 0.5) < 0.05


@settings(max_examples=60, deadline=None)
@given(measured_tires(), any_holes)
def test_nothing_is_hatched_in_a_groove(tire, injuries) -> None:
    drawing = read(cross_section(drawn_case(*injuries, tire=tire)).svg)
    rubber = Polygon(next(runs[0] for element, runs in drawing.paths if element.get("fill") == RUBBER))
    inside = prep(rubber.buffer(0.05))

    for element, runs in drawing.paths:
        if element.get("stroke") == HATCH:
            for run in runs:
                if run[0][1] <= rubber.bounds[3]:  # not the key
                    assert inside.covers(LineString(run)), run


def test_a_groove_is_named_in_its_own_white_where_it_has_room() -> None:
    drawing = read(cross_section(drawn_case(puncture("54 mm", "20 deg"), tire={"outer_groove": "68 mm"})).svg)
    words = {text: spot for text, spot in drawing.texts if text in ("outer", "groove")}

    for left, top, right, low in words.values():
        assert 68 < left < right < 76
        assert 0 < top < low < 7
    assert set(words) == {"outer", "groove"}


@settings(max_examples=40, deadline=None)
@given(measured_tires(), any_holes)
def test_no_crayon_lies_over_what_has_to_be_judged(tire, injuries) -> None:
    case = drawn_case(*injuries, tire=tire)

    for figure in (cross_section(case), cross_section(case, show_liner_exit=True), crown_plan(case)):
        assert CRAYON not in figure.svg


def test_the_line_of_the_groove_runs_past_the_rubber_only_where_the_exit_is_shown() -> None:
    case = drawn_case(puncture("54 mm", "20 deg"))

    def upright(svg: str) -> list[tuple[float, float]]:
        drawing = read(svg)
        lines = [line for line in drawing.lines() if line[0][0] == line[1][0] == 62]
        return [(min(a[1], b[1]), max(a[1], b[1])) for a, b in lines]

    assert all(low <= 13 for _, low in upright(cross_section(case).svg))
    assert any(top < 0 and low > 13 for top, low in upright(cross_section(case, show_liner_exit=True).svg))


def test_the_opening_on_the_liner_is_marked_in_its_width() -> None:
    # 5 mm across at 30 deg: 5 / cos 30 = 5.77 mm along the liner, its center at 31 + 13 tan 30 = 38.51 mm
    drawing = read(cross_section(drawn_case(puncture("31 mm", "30 deg")), show_liner_exit=True).svg)
    heavy = max(
        (element for element, _ in drawing.paths if element.get("fill") == "none"),
        key=lambda element: float(element.get("stroke-width", "0")) if element.get("stroke") == LINE else 0.0,
    )
    ((start, end),) = next(runs for element, runs in drawing.paths if element is heavy)

    assert (start[0] + end[0]) / 2 == pytest.approx(38.51, abs=0.02)
    assert end[0] - start[0] == pytest.approx(5.77, abs=0.02)
    assert start[1] > 13


@pytest.mark.parametrize(
    ("injury", "edge"),
    [
        # 31 + 13 tan 30 + 2.5 / cos 30 = 41.39: told as the next tenth outward
        (puncture("31 mm", "30 deg"), "41.4 mm"),
        # straight, 3/16 in across: 1 1/2 + 3/32, on a mark and not moved
        (puncture("1 1/2 in", "0 deg", diameter="3/16 in"), "1 19/32 in"),
        (puncture("-31 mm", "30 deg", "180 deg"), "41.4 mm"),
    ],
)
def test_the_far_edge_of_the_exit_is_dimensioned_and_never_told_nearer_than_it_is(injury, edge) -> None:
    figure = cross_section(drawn_case(injury), show_liner_exit=True)

    assert edge in {text.removesuffix(" to its far edge") for text, _ in read(figure.svg).texts}
    assert f"its far edge {edge} from it." in figure.description


def test_the_words_beside_a_far_edge_stand_where_they_have_room() -> None:
    drawing = read(cross_section(drawn_case(puncture("54 mm", "20 deg")), show_liner_exit=True).svg)

    # 54 + 13 tan 20 + 2.5 / cos 20 = 61.39
    assert "61.4 mm to its far edge" in {text for text, _ in drawing.texts}
