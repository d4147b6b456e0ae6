"""Holes in strips at one ruler: every strip on the same scale, every mark where its number says, openings by sums."""

import re
from fractions import Fraction
from math import cos, radians, tan

import pytest

from tests.drawings.cases import drawn_case, puncture
from tests.drawings.svg import CRAYON, Drawing, read
from tests.present import present
from training.drawings import Strips, channel_strips, end_of_crown
from training.rulebook import load_edition

# place [mm], lean [deg], outward
HOLES = ((31, 0, True), (44, 12, True), (63, 35, False), (61, 24, True), (67, 0, True), (48, 47, True), (-57, 45, True))
THICK, GROOVE, ACROSS = 13, 68, 5


def lined_up(prefer: str = "mm", ringed=()) -> Strips:
    cases = [
        drawn_case(
            puncture(f"{at} mm", f"{lean} deg", "0 deg" if out == (at > 0) else "180 deg"),
            tire={"outer_groove": f"{GROOVE} mm"},
        )
        for at, lean, out in HOLES
    ]
    line = present(end_of_crown(cases[0], load_edition("north-america")))
    return channel_strips(cases, line, prefer=prefer, ringed=ringed)


def bars(drawing: Drawing) -> list[tuple[float, float]]:
    """The heavy level lines under the rubber, from end to end."""
    return [
        (run[0][0], run[1][0])
        for element, runs in drawing.paths
        if element.get("stroke") not in (None, CRAYON) and not element.get("stroke-dasharray")
        for run in runs
        if len(run) == 2 and run[0][1] == run[1][1] > THICK
    ]


def test_every_strip_and_the_ruler_share_one_scale() -> None:
    found = lined_up()
    views = {read(figure.svg).view for figure in found.figures}
    ruler = read(found.ruler).view

    assert len(views) == 1
    ((left, _, right, _),) = views
    assert (ruler[0], ruler[2]) == (left, right)


def test_each_hole_comes_out_where_trigonometry_puts_it() -> None:
    for (at, lean, out), figure in zip(HOLES, lined_up().figures, strict=True):
        ((start, end),) = bars(read(figure.svg))
        middle = abs(at) + THICK * tan(radians(lean)) * (1 if out else -1)
        half = ACROSS / 2 / cos(radians(lean))
        assert (start, end) == pytest.approx((middle - half, middle + half), abs=0.02)


@pytest.mark.parametrize(("prefer", "each"), [("mm", 1.0), ("in", 25.4)])
def test_a_number_of_the_ruler_stands_over_the_place_it_names(prefer, each) -> None:
    found = lined_up(prefer)
    drawing = read(found.ruler)
    numbers = [(text, box) for text, box in drawing.texts if re.fullmatch(r"[\d ./]+", text)]

    assert len(numbers) >= 4
    for text, (left, _, right, _) in numbers:
        at = float(sum(map(Fraction, text.split()), Fraction(0))) * each
        if text != found.limit.removesuffix(f" {prefer}"):  # the limit's own number stands beside its line
            assert (left + right) / 2 == pytest.approx(at, abs=0.3), text


def test_the_limit_runs_through_the_ruler_and_every_strip() -> None:
    found = lined_up()
    for svg in (found.ruler, *(figure.svg for figure in found.figures)):
        lines = [
            run
            for element, runs in read(svg).paths
            if len(element.get("stroke-dasharray", "").split()) == 4
            for run in runs
            if run[0][0] == run[-1][0] == GROOVE
        ]
        assert lines


def test_the_crayon_rings_what_it_is_told_to_and_nothing_else() -> None:
    ringed = [CRAYON in figure.svg for figure in lined_up(ringed=(3, 6)).figures]

    assert ringed == [place in (3, 6) for place in range(len(HOLES))]


def test_a_strip_says_in_words_where_its_hole_lies() -> None:
    # 61 + 13 tan 24 = 66.79, half the hole 2.5 / cos 24 = 2.74
    assert lined_up().figures[3].description == (
        "On the tread the hole reaches from 58.3 mm to 63.7 mm from the center, on the liner from 64.1 mm to 69.5 mm; "
        "the limit lies at 68 mm."
    )


def test_a_case_without_a_measured_lean_has_no_strip() -> None:
    case = drawn_case(puncture("31 mm", None, None))
    line = present(end_of_crown(case, load_edition("north-america")))

    with pytest.raises(ValueError, match="measured place and lean"):
        channel_strips([case], line, prefer="mm")
