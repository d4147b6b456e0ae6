"""What passes: the rule on marked answers by hand, the rule of before, and who may be stricter."""

from collections.abc import Mapping
from dataclasses import replace
from datetime import timedelta
from typing import Any

import pytest

from assessments import acts
from assessments.acts.blueprints import TooLax, keep_blueprint
from assessments.measurement.passing import Answered, Condition, PassRule, judge
from assessments.models import Attempt
from assessments.pages.passing import missed, rule_lines
from assessments.queries import judgment_of, terms_of
from tests.factories import NOW, AttemptFactory, BlueprintFactory, FormFactory, ResponseFactory, an_item
from tests.present import present
from training.models import Shop, User

# Our own rule, no published source: two unsafe releases from the same misconception fail, three of any kind fail.
RULE = PassRule(percent=80, unsafe_allowed=2, alike_allowed=1, safety_percent=50)
BEFORE = PassRule(percent=80, unsafe_allowed=1)
RIGHT, SAFE_WRONG = Answered("position", True), Answered("position", False, misconceptions=("narrow-crown",))


def released(*thoughts: str) -> Answered:
    return Answered("position", False, True, thoughts)


def failed(rule: PassRule, *wrong: Answered, right: int = 36) -> tuple[Condition, ...]:
    return judge(rule, [RIGHT] * right + list(wrong)).failed


class TestTheRule:
    @pytest.mark.parametrize(
        ("wrong", "conditions"),
        [
            ([], ()),
            ([released("patch-alone")], ()),
            ([released("patch-alone"), released("stem-alone")], ()),
            ([released("patch-alone"), released("patch-alone")], (Condition.ALIKE,)),
            ([released("patch-alone"), released("stem-alone"), released("tube-instead")], (Condition.UNSAFE,)),
            ([released("patch-alone")] * 3, (Condition.UNSAFE, Condition.ALIKE)),
            # of no known thought: they count, and are like no other
            ([released(), released()], ()),
            ([released(), released(), released()], (Condition.UNSAFE,)),
        ],
    )
    def test_fails_two_from_one_misconception_and_three_of_any_kind(self, wrong, conditions) -> None:
        assert failed(RULE, *wrong) == conditions

    def test_takes_every_thought_that_two_answers_share(self) -> None:
        # each fits two thoughts, and one of them is the same
        both = released("patch-alone", "stem-alone"), released("tube-instead", "stem-alone")

        assert failed(RULE, *both) == (Condition.ALIKE,)
        assert judge(RULE, [RIGHT] * 36 + list(both)).alike == {"stem-alone": 2}

    def test_counts_a_thought_once_in_an_answer(self) -> None:
        assert failed(RULE, released("stem-alone", "stem-alone")) == ()

    def test_counts_no_thought_behind_an_answer_that_is_not_critical(self) -> None:
        assert failed(RULE, *[SAFE_WRONG] * 4) == ()
        assert failed(RULE, SAFE_WRONG, released("narrow-crown")) == ()

    # 80 % of 41 is 32.8: 33 have to be right, whatever rounding does.
    @pytest.mark.parametrize(("right", "conditions"), [(33, ()), (32, (Condition.SHARE,))])
    def test_rounds_the_share_up(self, right, conditions) -> None:
        assert failed(RULE, *[SAFE_WRONG] * (41 - right), right=right) == conditions

    # half of 5 is 2.5: three have to be right
    @pytest.mark.parametrize(("right", "conditions"), [(3, ()), (2, (Condition.FLOOR,))])
    def test_has_a_floor_for_safety(self, right, conditions) -> None:
        safety = [Answered("safety", n < right) for n in range(5)]

        assert failed(RULE, *safety) == conditions

    def test_passes_nothing_of_no_questions(self) -> None:
        assert judge(RULE, []).failed == (Condition.SHARE,)

    def test_of_before_looks_at_neither_likeness_nor_safety(self) -> None:
        safety = [Answered("safety", False)] * 4

        assert failed(BEFORE, released("patch-alone"), *safety) == ()
        assert failed(BEFORE, released("patch-alone"), released("stem-alone")) == (Condition.UNSAFE,)


@pytest.mark.parametrize(
    ("own", "is_strict"),
    [
        (RULE, True),
        (replace(RULE, percent=90), True),
        (replace(RULE, percent=79), False),
        (replace(RULE, unsafe_allowed=1), True),
        (replace(RULE, unsafe_allowed=3), False),
        (replace(RULE, unsafe_allowed=0, alike_allowed=None), True),  # none at all, so none that are alike
        (replace(RULE, unsafe_allowed=1, alike_allowed=None), True),
        (replace(RULE, alike_allowed=None), False),
        (replace(RULE, alike_allowed=2), False),
        (replace(RULE, safety_percent=49), False),
        (replace(RULE, safety_percent=60, percent=85), True),
    ],
)
def test_a_rule_is_at_least_as_strict_as_another(own, is_strict) -> None:
    assert own.is_at_least_as_strict_as(RULE) == is_strict


class TestABlueprintOfAShop:
    def test_may_be_stricter_and_is_its_own(self, own_shop) -> None:
        terms = terms_of(own_shop)
        assert terms is not None

        row = keep_blueprint(replace(terms, pass_percent=90), shop=own_shop)

        assert (row.shop, row.rule.percent) == (own_shop, 90)
        assert row.curve == {}  # the curve was made for the built-in one
        assert keep_blueprint(terms, shop=own_shop).shop is None

    def test_may_not_be_laxer(self, own_shop) -> None:
        terms = terms_of(own_shop)
        assert terms is not None

        with pytest.raises(TooLax, match="a shop may only be stricter"):
            keep_blueprint(replace(terms, alike_allowed=2), shop=own_shop)


# the misconception of option "1" of `an_item` is size-does-not-matter, and it is unsafe
UNSAFE, WRONG = '"1"', '"3"'


class TestAnAttempt:
    def handed_in(self, shop: Shop, learner: User, answers: Mapping[int, str], **terms: Any) -> Attempt:
        blueprint = BlueprintFactory.create(**terms)
        form = FormFactory.create(shop=shop, learner=learner, items=[an_item() for _ in range(20)], blueprint=blueprint)
        attempt = AttemptFactory.create(form=form)
        for position in range(1, 21):
            ResponseFactory.create(attempt=attempt, position=position, answer=answers.get(position, '"2"'))
        return acts.hand_in(attempt=attempt, at=NOW + timedelta(minutes=1))

    def test_of_today_fails_by_two_of_one_misconception(self, own_shop, apprentice) -> None:
        done = self.handed_in(own_shop, apprentice, {3: UNSAFE, 9: UNSAFE}, unsafe_allowed=2, alike_allowed=1)

        assert (done.outcome, done.right_count, done.unsafe_count) == ("not-passed", 18, 2)
        judgment = judgment_of(done)
        assert (judgment.failed, judgment.alike) == ((Condition.ALIKE,), {"size-does-not-matter": 2})
        [told] = missed(judgment, present(done.form.blueprint).rule)
        assert told.words == "2 unsafe releases from the same mistaken idea."
        [(belief, lesson)] = told.beliefs
        assert belief.id == "size-does-not-matter"
        assert lesson is not None

    def test_of_before_is_judged_by_the_rule_of_before(self, own_shop, apprentice) -> None:
        # two of one misconception: then as now no pass, but by their number; one is a pass
        before = {"unsafe_allowed": 1, "alike_allowed": None, "safety_percent": 0}

        assert self.handed_in(own_shop, apprentice, {3: UNSAFE}, **before).outcome == "passed"
        done = self.handed_in(own_shop, apprentice, {3: UNSAFE, 9: UNSAFE}, **before)
        assert judgment_of(done).failed == (Condition.UNSAFE,)

    def test_with_two_releases_of_its_day_stays_passed_by_its_own_rule(self, own_shop, apprentice) -> None:
        done = self.handed_in(own_shop, apprentice, {3: UNSAFE, 9: UNSAFE}, unsafe_allowed=2, alike_allowed=None)

        assert done.outcome == "passed"
        assert judgment_of(done).passed

    def test_that_nobody_answered_fails_by_its_share_alone(self, own_shop, apprentice) -> None:
        form = FormFactory.create(shop=own_shop, learner=apprentice)
        done = acts.hand_in(attempt=AttemptFactory.create(form=form), at=NOW)

        assert judgment_of(done).failed == (Condition.SHARE,)

    def test_of_practice_has_no_rule(self, own_shop, apprentice) -> None:
        form = FormFactory.create(practice=True, shop=own_shop, learner=apprentice)

        with pytest.raises(ValueError, match="give an assessment"):
            judgment_of(AttemptFactory.create(form=form))


def test_the_rule_is_told_condition_by_condition() -> None:
    assert rule_lines(replace(RULE, percent=81), asked=60, safety_asked=6) == [
        "49 of 60 questions right (81 percent).",
        "Of the 6 questions on safety, 3 right.",
        "At most 2 unsafe releases.",
        "No two unsafe releases from the same mistaken idea.",
    ]
    assert rule_lines(BEFORE, asked=40, safety_asked=4) == [
        "32 of 40 questions right (80 percent).",
        "At most 1 unsafe release.",
    ]
