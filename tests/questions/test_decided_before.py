"""A tire that somebody else began on: the note stands, is changed, is taken back or waits, each as often."""

from collections import Counter

import pytest
from scipy.stats import chisquare

from assessments.questions import Item, blueprint, blueprint_names, draw
from assessments.questions.items.wordings import plain
from tests.questions.solving import LENGTH, first, mm
from training.rulebook import HouseRule, HouseRules, lay_over, load_edition

DRAWS, RARE = 240, 5e-4  # what is meant to be even looks as uneven as this in 5 of 10,000 tries
STANDS, CHANGED, BACK, WAITS = (
    "It stands: a one-piece unit may go in",
    "It is changed: a stem and a separate patch",
    "It is taken back: no repair in this shop",
    "It waits: off the wheel, and look inside",
)


def drawn(form: str, count: int = DRAWS) -> list[Item]:
    plan = blueprint(form)
    edition = load_edition(plan.edition)
    return [draw("decided-before", seed=f"note {n}", edition=edition, casings=plan.casings) for n in range(count)]


@pytest.mark.parametrize("form", blueprint_names())
def test_each_answer_is_right_as_often_in_every_scope(form) -> None:
    keys = Counter(plain(item.key_text) for item in drawn(form))

    assert set(keys) == {STANDS, CHANGED, BACK, WAITS}
    assert chisquare(list(keys.values())).pvalue > RARE, keys


@pytest.mark.parametrize("form", blueprint_names())
def test_what_nobody_looked_at_from_inside_waits_whatever_was_measured(form) -> None:
    for item in drawn(form, 60):
        is_unseen = "still on its wheel" in item.stem
        assert (plain(item.key_text) == WAITS) == is_unseen
        if is_unseen:  # the units of a repair let it run unseen; to take it back does not
            released = {plain(option.text) for option in item.options if option.id in item.unsafe}
            assert released == {STANDS, CHANGED}


def test_the_note_names_a_hole_that_would_do_whatever_became_of_it(edition) -> None:
    # US association wall chart: 1/4 in (6 mm), once the damage is removed
    grown = 0
    for number in range(80):
        item = draw("decided-before", seed=f"grown {number}", edition=edition, casings=("passenger",))
        noted, cut = first("Nail hole, " + LENGTH, item.stem), first("the hole is " + LENGTH, item.stem)
        assert mm(noted) < mm(cut)
        assert mm(noted) < 6
        grown += mm(cut) > mm("1/4 in")
    assert grown > 3


def test_a_house_rule_takes_a_decision_back(edition) -> None:
    # A shop that repairs holes of up to 3/16 in (5 mm) only, where the wall chart allows 1/4 in (6 mm).
    strict = lay_over(edition, HouseRules((HouseRule("injury-size", ("3/16 in", "5 mm")),)))
    between = 0
    for number in range(160):
        item = draw("decided-before", seed=f"house {number}", edition=strict, casings=("passenger",))
        size = mm(first("the hole is " + LENGTH, item.stem))
        if size > 5 and "still on its wheel" not in item.stem:
            assert plain(item.key_text) == BACK
            between += size < 6
    assert between > 0
