"""A list of holes lined up at one ruler: verdicts beside trigonometry done here, what was said, which were wrong."""

import re
from fractions import Fraction
from math import cos, radians, tan

import pytest

from assessments.pages.lined_up import LinedUp, lined_up
from assessments.questions import Decided, Item, draw, lines_of
from tests.examples import times
from tests.present import present
from training.rulebook import load_edition, parse_case

MM = {"in": 25.4, "mm": 1.0}


def told(item: Item, prefer: str, chosen: list[str] | None) -> LinedUp | None:
    edition = load_edition(item.edition)
    return lined_up(item, edition, lines_of(item, edition, prefer=prefer), prefer=prefer, chosen=chosen)


def past_mm(item: Item, place: int, limit_mm: float) -> float:
    """How far past the limit a hole reaches at the end that lies farther out."""
    claim = item.options[place].claim
    assert isinstance(claim, Decided)
    case = parse_case({**present(item.case), **present(claim.case), "edition": item.edition})
    hole = present(case.injuries)[0]
    lean, turned = radians(present(hole.angle).number), radians(present(hole.azimuth).number)
    at = present(hole.lateral).number
    exits = at + present(case.tire.crown_thickness).number * tan(lean) * cos(turned)
    return max(abs(at), abs(exits)) + present(hole.diameter).number / 2 / cos(lean) - limit_mm


@pytest.mark.parametrize("prefer", ["in", "mm"])
def test_each_reason_gives_the_room_that_trigonometry_leaves(prefer) -> None:
    edition, seen = load_edition("north-america"), 0
    for number in range(times(6)):
        item = draw("holes-by-place", seed=f"room {number}", edition=edition, prefer=prefer, casings=["passenger"])
        limit_mm = present(parse_case({**present(item.case), "edition": item.edition}).tire.outer_groove).number
        for place, line in enumerate(present(told(item, prefer, [])).lines):
            past = past_mm(item, place, limit_mm)
            assert line.verdict == ("reject" if past > 0 else "repair")
            assert (" past " in line.reason) == (past > 0), line.reason
            if " to spare" in line.reason:
                room = present(re.search(r"(\d[\d ./]*) (?:in|mm) to spare", line.reason))[1]
                shown = float(sum(map(Fraction, room.split()), Fraction(0))) * MM[prefer]
                assert shown == pytest.approx(-past, abs=1.3 if prefer == "in" else 0.16)
            seen += 1
    assert seen == 6 * times(6)


def test_what_was_answered_stands_beside_each_line_and_the_wrong_ones_in_the_head() -> None:
    item = draw("holes-by-place", seed="said", edition=load_edition("north-america"), casings=["passenger"])
    right, wrong = sorted(item.key_ids), [one.id for one in item.options if one.id not in item.key_ids]
    chosen = [*right[1:], wrong[0]]

    found = present(told(item, "in", chosen))

    said = {line.option: (line.said, line.is_wrong) for line in found.lines}
    assert said[right[0]] == ("You: no repair, wrong", True)
    assert said[right[1]] == ("You: repair", False)
    assert said[wrong[0]] == ("You: repair, wrong", True)
    letters = {line.option: line.letter for line in found.lines}
    assert f"{letters[wrong[0]]} reaches past the limit" in found.outcome
    assert f"{letters[right[0]]} stays inside the limit" in found.outcome


def test_an_answer_that_is_right_or_was_not_given_names_no_line() -> None:
    item = draw("holes-by-place", seed="right", edition=load_edition("north-america"))

    assert present(told(item, "in", list(item.key_ids))).outcome == ""
    nothing = present(told(item, "in", None))
    assert nothing.outcome == ""
    assert {line.said for line in nothing.lines} == {""}


def test_only_a_wrong_line_past_the_limit_gets_the_ring() -> None:
    item = draw("holes-by-place", seed="ring", edition=load_edition("north-america"), casings=["passenger"])
    found = present(told(item, "in", [one.id for one in item.options]))

    for line in found.lines:
        assert ("#f5c400" in line.svg) == (line.option not in item.key_ids)


def test_a_british_list_is_judged_at_area_t() -> None:
    # BS AU 159g as summarized: half of 70 % of a section width over 200
    edition, seen = load_edition("united-kingdom"), 0
    for number in range(times(12)):
        item = draw("holes-by-place", seed=f"area {number}", edition=edition, prefer="mm", casings=["passenger"])
        tire = parse_case({**present(item.case), "edition": item.edition}).tire
        width = int(str(tire.designation)[:3])
        if width > 200:
            assert (
                f">{width * 0.35 - width * 0.35 % 0.1:.1f}<".replace(".0<", "<") in present(told(item, "mm", [])).ruler
            )
            seen += 1
    assert seen


@pytest.mark.parametrize("family", ["size-verdict", "one-piece-list", "lean-and-exit", "rejecting-list"])
def test_other_questions_have_no_strips(family) -> None:
    item = draw(family, seed="other", edition=load_edition("north-america"))

    assert told(item, "in", []) is None


@pytest.mark.parametrize("family", ["holes-by-place", "holes-by-size"])
def test_what_stands_beside_a_strip_is_not_said_before_it_as_well(family) -> None:
    item = draw(family, seed="head", edition=load_edition("north-america"), casings=["passenger"])
    found = present(told(item, "in", []))

    assert found.situation
    assert all(paragraph in item.stem for paragraph in found.situation)
    assert not [line.text for line in found.lines if any(line.text in one for one in found.situation)]
