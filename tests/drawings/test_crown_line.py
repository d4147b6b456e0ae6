"""Where a drawing ends the repairable crown: by the groove, by the width of the section, by the shoulder."""

import pytest

from tests.drawings.cases import drawn_case, puncture
from tests.drawings.svg import read
from tests.present import present
from training.drawings import cross_section, crown_plan, end_of_crown
from training.rulebook import load_edition

HOLE = puncture("54 mm", "20 deg")


@pytest.mark.parametrize(
    ("edition", "tire", "at_mm", "name"),
    [
        # U.S. Tire Manufacturers Association wall chart: between the outer grooves
        ("north-america", {"designation": "205/55R16 91V"}, 62.0, "outer groove"),
        # BS AU 159g as summarized: 70 % of a section width over 200, 0.7 x 205 / 2
        ("united-kingdom", {"designation": "205/55R16 91V"}, 71.75, "edge of area T"),
        # the same, as printed for 195: 127 mm, half of it on each side
        ("united-kingdom", {"designation": "195/65R15 91H"}, 63.5, "edge of area T"),
        # a section too wide for its tread: never past the tread's own edge, 0.7 x 275 / 2 = 96.25
        ("united-kingdom", {"designation": "275/45R20 110W", "tread_width": "180 mm"}, 90.0, "limit"),
        # from memory: 1 1/2 in inside the shoulder of a steel body, 100 - 38.1
        ("north-america", {"designation": "295/75R22.5", "casing": "truck", "tread_width": "200 mm"}, 61.9, "limit"),
    ],
)
def test_the_line_lies_where_the_rulebook_ends_the_crown(edition, tire, at_mm, name) -> None:
    line = present(end_of_crown(drawn_case(HOLE, tire=tire, edition=edition), load_edition(edition)))

    assert line.at_mm == pytest.approx(at_mm)
    assert line.name == name


def test_no_line_where_the_rulebook_measures_no_hole_or_the_size_is_not_known() -> None:
    uk = load_edition("united-kingdom")

    truck = {"designation": "295/75R22.5", "casing": "truck", "tread_width": "220 mm"}
    assert end_of_crown(drawn_case(HOLE, tire=truck, edition=uk.name), uk) is None
    assert end_of_crown(drawn_case(HOLE, tire={"designation": "unreadable"}, edition=uk.name), uk) is None


def test_a_british_section_marks_and_names_area_t_and_not_the_groove() -> None:
    uk = load_edition("united-kingdom")
    case = drawn_case(HOLE, tire={"designation": "205/55R16 91V"}, edition="united-kingdom")

    figure = cross_section(case, prefer="mm", show_liner_exit=True, edition=uk)
    drawing = read(figure.svg)

    limits = [
        run
        for element, runs in drawing.paths
        if len(element.get("stroke-dasharray", "").split()) == 4
        for run in runs
        if run[0][0] == run[-1][0]
    ]
    assert {round(run[0][0], 2) for run in limits} == {71.75}
    # rounded down, so that no hole reads as inside that is not
    assert "71.7 mm to the edge of area T" in {text for text, _ in drawing.texts}
    assert not any("to the outer groove" in text for text, _ in drawing.texts)
    assert "71.7 mm from the centerline: edge of area T." in figure.description
    assert "groove begins" not in figure.description


def test_a_section_by_the_groove_is_the_same_with_its_rulebook_and_without() -> None:
    case = drawn_case(HOLE)

    with_it = cross_section(case, show_liner_exit=True, edition=load_edition("north-america"))

    assert with_it == cross_section(case, show_liner_exit=True)


def lines_of_limit(svg: str) -> set[float]:
    """Where upright lines of long and short dashes lie, the centerline's thinner one apart."""
    upright = [
        (float(element.get("stroke-width", "0")), run[0][0])
        for element, runs in read(svg).paths
        if len(element.get("stroke-dasharray", "").split()) == 4
        for run in runs
        if run[0][0] == run[-1][0] != 0
    ]
    widest = max(width for width, _ in upright)
    return {round(x, 2) for width, x in upright if width == widest}


def test_a_british_plan_marks_and_names_area_t_on_both_sides_and_no_groove() -> None:
    uk = load_edition("united-kingdom")
    two = (puncture("-25 mm", station="10 deg"), puncture("25 mm", id="B", station="20 deg"))
    case = drawn_case(*two, tire={"designation": "205/55R16 91V"}, edition="united-kingdom")

    figure = crown_plan(case, prefer="mm", edition=uk)

    # BS AU 159g as summarized: 0.7 x 205 / 2
    assert lines_of_limit(figure.svg) == {-71.75, 71.75}
    texts = {text for text, _ in read(figure.svg).texts}
    assert {"71.7 mm", "edge of area T"} <= texts
    assert not {"62 mm", "outer groove"} & texts
    assert "71.7 mm from the centerline: edge of area T." in figure.description
    assert "groove" not in figure.description


def test_a_british_section_without_its_exit_marks_area_t_too() -> None:
    case = drawn_case(HOLE, tire={"designation": "205/55R16 91V"}, edition="united-kingdom")

    drawing = read(cross_section(case, prefer="mm", edition=load_edition("united-kingdom")).svg)

    assert "71.7 mm to the edge of area T" in {text for text, _ in drawing.texts}
    assert not any("to the outer groove" in text for text, _ in drawing.texts)


def test_a_plan_whose_size_cannot_be_read_marks_no_end_of_the_crown_there() -> None:
    case = drawn_case(HOLE, tire={"designation": "unreadable"}, edition="united-kingdom")

    figure = crown_plan(case, prefer="mm", edition=load_edition("united-kingdom"))

    assert not {"62 mm", "outer groove", "edge of area T"} & {text for text, _ in read(figure.svg).texts}


def test_a_plan_by_the_groove_is_the_same_with_its_rulebook_and_without() -> None:
    case = drawn_case(HOLE)

    assert crown_plan(case, edition=load_edition("north-america")) == crown_plan(case)
