"""Grave misconceptions: named with a reason, caught three times on every form, and said where that cannot be."""

from collections import Counter
from dataclasses import replace

import pytest

from assessments.questions import (
    CATCHES,
    Blueprint,
    Cell,
    Item,
    blueprint,
    blueprint_names,
    draw_form,
    family,
    mark,
    misconceptions,
    short_of,
)
from assessments.questions.blueprints.blueprint import BlueprintError, parse_blueprint
from assessments.questions.draws.critical import caught_by
from tests.factories import an_item
from tests.questions.many import forms_of
from tests.questions.test_forms import ENTRY
from tests.simulations.learners import intended
from training.rulebook import load_edition


@pytest.fixture(params=blueprint_names())
def plan(request: pytest.FixtureRequest) -> Blueprint:
    return blueprint(request.param)


def test_a_blueprint_names_some_and_at_most_ten_with_a_reason_each(plan) -> None:
    assert 1 <= len(plan.graves) <= 10
    for one in plan.graves:
        assert one.misconception in misconceptions()
        assert one.because.endswith(".")


def test_every_form_catches_each_three_times(plan) -> None:
    for form in forms_of(plan.name):
        assert short_of(form, plan) == {}


def test_whoever_holds_one_answers_a_question_that_catches_it_unsafely(plan) -> None:
    # not by what a question says of itself: the believer answers it, and is marked
    from random import Random

    rng, seen = Random(7), Counter[str]()
    for form in forms_of(plan.name)[:10]:
        for item in form:
            for name in caught_by(item).intersection(plan.grave):
                done = mark(item, intended(item, {name}, rng))
                assert done.unsafe, (item.stem, name)
                assert name in done.misconceptions
                seen[name] += 1
    assert set(seen) == set(plan.grave)


class TestAQuestionCatches:
    def test_what_alone_computes_a_critical_answer(self) -> None:
        assert caught_by(an_item()) == {"size-does-not-matter"}

    @pytest.mark.parametrize(
        "facts",
        [
            {"unsafe": ()},
            # two thoughts compute it: neither alone
            {"distractors": {"1": ("size-does-not-matter", "truck-limit-for-all"), "3": ()}},
            # it takes both at once
            {"routes": {"1": (("size-does-not-matter", "truck-limit-for-all"),)}},
            # the same thought leads to an answer that is not critical too
            {"distractors": {"1": ("size-does-not-matter",), "3": ("size-does-not-matter",)}},
        ],
    )
    def test_nobody_otherwise(self, facts) -> None:
        assert caught_by(an_item(**facts)) == frozenset()


def test_a_form_that_cannot_catch_one_says_which_and_how_often() -> None:
    plan = blueprint("north-america-light")
    [one] = [grave for grave in plan.graves if grave.misconception == "doubt-is-fine"]
    small = replace(plan, cells=(Cell("date-code", 2), Cell("doubt", 1)), bands=(), graves=(one,))

    form = draw_form(small, secret=b"secret", form_id="short", edition=load_edition(plan.edition))

    assert short_of(form, small) == {"doubt-is-fine": 1}
    assert Counter(item.family for item in form) == {"date-code": 2, "doubt": 1}


def test_a_form_that_happens_to_catch_too_few_is_brought_there() -> None:
    # of one draw of `doubt` about half catch it: three of three only by drawing again
    plan = blueprint("north-america-light")
    [one] = [grave for grave in plan.graves if grave.misconception == "doubt-is-fine"]
    small = replace(plan, cells=(Cell("doubt", 3),), bands=(), graves=(one,))
    edition = load_edition(plan.edition)

    def caught(form: list[Item]) -> int:
        return sum("doubt-is-fine" in caught_by(item) for item in form)

    forms = [draw_form(small, secret=b"s", form_id=str(n), edition=edition) for n in range(12)]
    free = [draw_form(replace(small, graves=()), secret=b"s", form_id=str(n), edition=edition) for n in range(12)]
    assert [caught(form) for form in forms] == [CATCHES] * 12
    assert min(map(caught, free)) < CATCHES


def test_the_families_named_for_one_do_ask_about_it(plan) -> None:
    for one in plan.graves:
        asked = Counter(
            item.family for form in forms_of(plan.name) for item in form if one.misconception in caught_by(item)
        )
        assert set(one.asked_by) <= set(asked), one
        assert all(family(name) for name in one.asked_by)


GRAVE = '{ misconception = "doubt-is-fine", because = "It is on the road.", asked_by = ["doubt"] }'


@pytest.mark.parametrize(
    ("graves", "words"),
    [
        (
            GRAVE.replace("doubt-is-fine", "nobody-named-yet"),
            'misconception: "nobody-named-yet" is not',
        ),
        (GRAVE.replace('"It is on the road."', '""'), 'grave "doubt-is-fine", because: "" is not accepted'),
        (GRAVE.replace('["doubt"]', '["tire-age"]'), 'grave "doubt-is-fine", asked_by: "tire-age" is not accepted'),
        (GRAVE.replace('["doubt"]', "[]"), "asked_by: [] is not accepted"),
        (f"{GRAVE}, {GRAVE}", "grave: give each misconception once"),
        (", ".join([GRAVE] * 11), "grave: 11 are not accepted; give at most 10"),
    ],
)
def test_a_wrong_one_is_refused_with_field_and_value(graves, words) -> None:
    with pytest.raises(BlueprintError) as refusal:
        parse_blueprint(ENTRY.replace("cell =", f"grave = [{graves}]\ncell ="), "small.toml")

    assert words in str(refusal.value)
