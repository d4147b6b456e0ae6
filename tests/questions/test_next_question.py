"""Choosing the next question of a practice: what it costs, that each is asked once, and that nothing shown comes again.

The cost is held by calls of Python functions, which a busy machine does not change: on one core of a small server a
thousand of them take about 0.3 ms here, so that the bound stands for less than 30 ms.
"""

from collections.abc import Collection
from functools import partial

import pytest

from assessments.questions import (
    Ahead,
    Diagnosis,
    Item,
    diagnose,
    digest,
    draw_practice,
    family,
    family_names,
    right_answer,
)
from tests.calls import calls_of
from training.rulebook import Edition, load_edition
from training.trade.words import LIGHT, SKILLS

MOST_CALLS = 90_000


def asked(skill: str, edition: Edition, ahead: Ahead, number: int, shown: Collection[str] = ()) -> Item:
    """A question of a skill, of all when it is empty, chosen for somebody of whom something is known."""
    names = [name for name in family_names() if skill in ("", family(name).skill) and not family(name).series]
    known = Diagnosis(by_name={"lean-ignored": 0.4}, unseen=0.005, answers=40)
    (item,) = draw_practice(
        names, seed=str(number), count=1, edition=edition, casings=LIGHT, beliefs=known, ahead=ahead, shown=shown
    )
    return item


@pytest.mark.parametrize("skill", [*SKILLS, ""])
@pytest.mark.parametrize("name", ["north-america", "united-kingdom"])
def test_choosing_costs_at_most_30_ms_at_first_and_later(name: str, skill: str) -> None:
    edition, ahead = load_edition(name), Ahead()
    asked(skill, edition, Ahead(), 0)  # what a process does only once is done before

    costs = [calls_of(partial(asked, skill, edition, ahead, number)) for number in range(1, 12)]

    assert max(costs) <= MOST_CALLS, costs


def test_what_forty_answers_say_is_found_in_a_few_ms(edition: Edition) -> None:
    items = [asked("", edition, Ahead(), number) for number in range(40)]
    told = [(item, right_answer(item)) for item in items]

    assert calls_of(lambda: diagnose(told)) <= 30_000


def test_a_question_drawn_ahead_is_asked_once(edition: Edition) -> None:
    ahead = Ahead()

    items = [asked("measuring", edition, ahead, number) for number in range(30)]

    assert len({(item.family, item.seed) for item in items}) == 30
    assert any(item.seed.split("/")[0] != str(number) for number, item in enumerate(items))  # some were drawn before


def test_nothing_that_was_shown_comes_again_while_there_is_something_else(edition: Edition) -> None:
    first = asked("position", edition, Ahead(), 1)

    again = asked("position", edition, Ahead(), 1, shown={digest(first)})

    assert digest(again) != digest(first)


def test_where_all_that_is_drawn_ahead_was_shown_another_is_drawn(edition: Edition) -> None:
    ahead = Ahead()
    shown = {digest(asked("safety", edition, ahead, 1)), *(one.digest for one in ahead.of(family_names()))}

    item = asked("safety", edition, Ahead(), 1, shown=shown)

    assert digest(item) not in shown
