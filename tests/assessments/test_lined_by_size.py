"""A list of holes by their size at one ruler: every number beside a subtraction done here, from limits in print.

Sources: US association puncture repair procedures (wall chart), at most 1/4 in (6 mm); BS AU 159g as summarized, 6 mm;
3/8 in in a steel body is common practice.
"""

import re
from fractions import Fraction

import pytest

from assessments.pages.lined_up import LinedUp, lined_up
from assessments.questions import Item, draw, lines_of
from tests.drawings.svg import CRAYON, read
from tests.examples import times
from tests.present import present
from training.rulebook import Edition, HouseRule, HouseRules, lay_over, load_edition

EACH = {"in": Fraction("25.4"), "mm": Fraction(1)}


def number(text: str) -> Fraction:
    """ "1 1/4" or "6.5" as a number."""
    return sum(map(Fraction, text.split()), Fraction(0))


def told(item: Item, prefer: str, chosen: list[str] | None, edition: Edition | None = None) -> LinedUp:
    edition = edition or load_edition(item.edition)
    return present(lined_up(item, edition, lines_of(item, edition, prefer=prefer), prefer=prefer, chosen=chosen))


def bars(svg: str) -> list[tuple[float, float]]:
    """From where to where the heavy level line below the rubber runs, and the dash-dot line's place twice [mm]."""
    drawing = read(svg)
    low = max(run[0][1] for _, runs in drawing.paths for run in runs if len(run) == 2 and run[0][1] == run[1][1])
    return [
        (run[0][0], run[1][0])
        for _, runs in drawing.paths
        for run in runs
        if len(run) == 2 and (run[0][1] == run[1][1] == low)
    ]


@pytest.mark.parametrize(
    ("edition", "prefer", "casing", "limit", "refused"),
    [
        ("north-america", "in", "passenger", "1/4 in", "reject"),
        ("north-america", "mm", "passenger", "6 mm", "reject"),
        ("north-america", "in", "light-truck-steel", "3/8 in", "refer"),
        ("united-kingdom", "mm", "passenger", "6 mm", "reject"),
    ],
)
def test_each_reason_is_what_a_subtraction_leaves(edition, prefer, casing, limit, refused) -> None:
    rulebook, most = load_edition(edition), number(limit.split()[0])
    for seed in range(times(4)):
        item = draw("holes-by-size", seed=f"left {seed}", edition=rulebook, prefer=prefer, casings=[casing])
        found = told(item, prefer, [])

        assert limit.split()[0] in [text for text, _ in read(found.ruler).texts]
        assert len(found.lines) == 5
        for line in found.lines:
            size = number(line.text.removesuffix(f" {prefer}"))
            said = present(re.fullmatch(r"(.+) (?:in|mm) (smaller|larger) than the limit of (.+)\.", line.reason))
            assert number(said[1]) == abs(size - most)
            assert (said[2], said[3]) == ("larger" if size > most else "smaller", limit)
            assert line.verdict == (refused if size > most else "repair")
            ((start, end),) = bars(line.svg)
            assert (start, end) == pytest.approx((0, float(size * EACH[prefer])), abs=0.006)


def test_what_was_said_stands_beside_each_line_and_only_a_wrong_yes_gets_the_ring() -> None:
    item = draw("holes-by-size", seed="said", edition=load_edition("north-america"), casings=["passenger"])
    right, wrong = sorted(item.key_ids), [one.id for one in item.options if one.id not in item.key_ids]

    found = told(item, "in", [*right[1:], wrong[0]])

    said = {line.option: (line.said, CRAYON in line.svg) for line in found.lines}
    assert said.pop(right[0]) == ("You: no repair, wrong", False)
    assert said.pop(wrong[0]) == ("You: repair, wrong", True)
    assert set(said.values()) <= {("You: repair", False), ("You: no repair", False)}
    letters = {line.option: line.letter for line in found.lines}
    assert found.outcome == (f"{letters[wrong[0]]} is larger than the limit and {letters[right[0]]} keeps to the limit")


def test_a_limit_stated_in_the_other_unit_is_told_as_it_is_stated() -> None:
    item = draw("holes-by-size", seed="inches", edition=load_edition("united-kingdom"), prefer="in")

    for line in told(item, "in", None).lines:
        assert "6 mm" in line.reason
        assert line.said == ""


def test_a_house_rule_is_the_limit() -> None:
    rules = HouseRules(rules=(HouseRule("injury-size", ("3/16 in",)),))
    edition = lay_over(load_edition("north-america"), rules)
    item = draw("holes-by-size", seed="house", edition=edition, prefer="in", casings=["passenger"])

    assert {line.reason.rsplit(" of ")[-1] for line in told(item, "in", [], edition).lines} == {"3/16 in."}
