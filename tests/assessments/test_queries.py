"""Where people stand: theory by state, skills by their latest answers, at a constant number of queries."""

from collections.abc import Callable
from datetime import timedelta
from itertools import islice
from typing import Any

import pytest

from assessments.acts.blueprints import keep_blueprint
from assessments.models import Attempt, Blueprint
from assessments.queries import (
    SkillResult,
    State,
    Summary,
    skill_results,
    summary_of,
    theories_of,
    theory_of,
    theory_of_shop,
)
from assessments.queries.theory import below_pass_mark
from assessments.questions import misconceptions
from tests.factories import (
    NOW,
    AttemptFactory,
    ExtraRoundFactory,
    FormFactory,
    MembershipFactory,
    ResponseFactory,
    UserFactory,
    an_item,
)
from tests.pages import queries_of
from tests.present import present
from tests.terms import terms_of
from training.models import Shop, User

pytestmark = pytest.mark.django_db


@pytest.fixture
def blueprint(own_shop):
    return keep_blueprint(terms_of(own_shop))


@pytest.fixture
def tried(own_shop: Shop, apprentice: User, blueprint: Blueprint) -> Callable[..., Attempt]:
    def make(
        *, ago: timedelta = timedelta(days=3), learner: User = apprentice, passed: bool = False, **facts: Any
    ) -> Attempt:
        trait = {"passed": True} if passed else {"not_passed": True}
        at = NOW - ago
        given = {"started_at": at - timedelta(minutes=30), "handed_in_at": at}
        return AttemptFactory.create(
            form__shop=own_shop, form__learner=learner, form__blueprint=blueprint, **trait, **given | facts
        )

    return make


class TestTheory:
    def test_somebody_new_is_ready_with_all_attempts(self, own_shop, apprentice) -> None:
        theory = theory_of(own_shop, apprentice, terms_of(own_shop))

        assert (theory.state(NOW), theory.left, theory.latest) == (State.READY, 3, None)

    def test_an_open_attempt_is_open_until_its_deadline_and_then_time_is_up(
        self, own_shop, apprentice, blueprint
    ) -> None:
        attempt = AttemptFactory.create(form__shop=own_shop, form__learner=apprentice, form__blueprint=blueprint)

        theory = theory_of(own_shop, apprentice, terms_of(own_shop))

        assert theory.open == attempt
        closes_at = present(attempt.closes_at)
        assert theory.state(closes_at) is State.OPEN
        assert theory.state(closes_at + timedelta(seconds=1)) is State.TIME_UP

    def test_a_failed_attempt_names_the_skills_below_the_pass_mark(self, own_shop, apprentice, tried) -> None:
        tried(by_skill={"safety": [4, 4], "position": [3, 4], "measuring": [5, 6]})

        # 81 % of 4 is 3.24, of 6 it is 4.86
        assert theory_of(own_shop, apprentice, terms_of(own_shop)).failed_skills == ("position",)

    def test_the_wait_counts_from_the_last_hand_in(self, own_shop, apprentice, tried) -> None:
        tried(ago=timedelta(days=4))
        tried(ago=timedelta(hours=1))

        theory = theory_of(own_shop, apprentice, terms_of(own_shop))

        assert theory.waits_until == NOW + timedelta(hours=terms_of(own_shop).wait_hours - 1)
        assert (theory.state(NOW), theory.left) == (State.WAIT, 1)

    def test_a_pass_stands_and_nothing_failed_is_listed(self, own_shop, apprentice, tried) -> None:
        tried(ago=timedelta(days=5))
        done = tried(passed=True)

        theory = theory_of(own_shop, apprentice, terms_of(own_shop))

        assert (theory.state(NOW), theory.passed, theory.failed_skills) == (State.PASSED, done, ())

    def test_an_extra_round_counts_from_when_it_was_given(self, own_shop, apprentice, tried, blueprint) -> None:
        for days in (9, 8, 7):
            tried(ago=timedelta(days=days))
        ExtraRoundFactory.create(
            shop=own_shop, learner=apprentice, blueprint=blueprint, given_at=NOW - timedelta(days=6)
        )
        tried(ago=timedelta(days=3))

        assert theory_of(own_shop, apprentice, terms_of(own_shop)).left == 2

    def test_the_whole_shop_reads_the_same_as_each_one(self, own_shop, apprentice, trainer, tried) -> None:
        tried()
        tried(learner=trainer, passed=True)

        everyone = theory_of_shop(own_shop)

        for learner in (apprentice, trainer):
            assert everyone[learner.pk] == theories_of(own_shop, learner)
        assert everyone[UserFactory.create().pk][terms_of(own_shop).name].state(NOW) is State.READY

    def test_another_shop_is_not_read(self, own_shop, other_shop, apprentice, tried) -> None:
        tried()

        assert theory_of_shop(other_shop)[apprentice.pk][terms_of(other_shop).name].latest is None

    def test_thirty_people_cost_as_many_queries_as_three(self, own_shop, tried) -> None:
        def count(people: int) -> int:
            for _ in range(people):
                tried(learner=MembershipFactory.create(shop=own_shop).user)
            return queries_of(lambda: theory_of_shop(own_shop))

        assert count(3) == count(27) == 2


@pytest.mark.parametrize(
    ("right", "asked", "is_below"), [(32, 40, False), (31, 40, True), (0, 1, True), (1, 1, False), (4, 5, False)]
)
def test_the_pass_mark_of_80_percent_is_exact(right, asked, is_below) -> None:
    assert bool(below_pass_mark({"safety": [right, asked]}, 80)) is is_below


class TestSkills:
    def results(self, shop: Shop, learner: User) -> dict[str, SkillResult]:
        return {result.skill: result for result in skill_results(shop, learner)}

    def practiced(self, shop: Shop, learner: User, *, days: int, right: int, asked: int) -> Attempt:
        return AttemptFactory.create(
            practice=True,
            form__shop=shop,
            form__learner=learner,
            started_at=NOW - timedelta(days=days),
            by_skill={"measuring": [right, asked]},
        )

    def test_older_answers_drop_out_once_there_are_twenty_newer_ones(self, own_shop, apprentice) -> None:
        self.practiced(own_shop, apprentice, days=30, right=0, asked=8)
        for days in (3, 2, 1):
            self.practiced(own_shop, apprentice, days=days, right=8, asked=8)

        measuring = self.results(own_shop, apprentice)["measuring"]

        assert (measuring.right, measuring.asked) == (24, 24)

    def test_every_skill_is_listed_and_an_unpracticed_one_has_no_tick(self, own_shop, apprentice) -> None:
        results = self.results(own_shop, apprentice)

        assert len(results) == 10
        assert (results["safety"].at, results["safety"].lo, results["safety"].words()) == (None, None, "No answers yet")

    def test_the_other_shops_practice_does_not_count_here(self, own_shop, other_shop, apprentice) -> None:
        self.practiced(other_shop, apprentice, days=1, right=8, asked=8)

        assert self.results(own_shop, apprentice)["measuring"].asked == 0

    # 90 % score intervals: 20 of 20 is 88.1 to 100, 19 of 20 is 80.4 to 98.9, 17 of 20 is 67.8 to 93.8,
    # 14 of 20 is 51.6 to 83.6, 12 of 20 is 41.9 to 75.8 (by hand from Wilson's formula with z = 1.6449).
    @pytest.mark.parametrize(
        ("right", "asked", "words"),
        [
            (20, 20, "Solid"),
            (19, 20, "Solid"),
            (17, 20, "Good so far"),
            (14, 20, "Nearly"),
            (12, 20, "Not yet"),
            (4, 4, "Too few answers"),
        ],
    )
    def test_the_words_follow_from_the_interval_and_the_pass_mark(
        self, own_shop, apprentice, right, asked, words
    ) -> None:
        self.practiced(own_shop, apprentice, days=1, right=right, asked=asked)

        assert self.results(own_shop, apprentice)["measuring"].words(80).startswith(words)


def test_a_summary_counts_misconceptions_and_puts_the_lesson_missed_most_first(own_shop, apprentice) -> None:
    where = an_item(lesson="measure-and-choose/where-it-may-be", distractors={"1": ("tread-is-all-crown",)})
    form = FormFactory.create(shop=own_shop, learner=apprentice, items=[an_item(), where, where, an_item()])
    attempt = AttemptFactory.create(
        form=form,
        not_passed=True,
        handed_in_at=None,
        outcome="",
        first_outcome="",
        right_count=None,
        by_skill={"size-limits": [1, 4]},
    )
    ResponseFactory.create(attempt=attempt, position=1, is_right=True)
    for position in (2, 3):
        ResponseFactory.create(
            attempt=attempt, position=position, is_right=False, misconceptions=["tread-is-all-crown"]
        )
    ResponseFactory.create(attempt=attempt, position=4, is_right=False, is_unsafe=True, misconceptions=["gone-since"])

    summary = summary_of(attempt, 80)

    assert [(belief.id, times) for belief, times in summary.beliefs] == [("tread-is-all-crown", 2)]
    assert [lesson.slug for lesson in summary.lessons] == ["where-it-may-be", "measure-the-injury"]
    assert (summary.right, summary.asked, summary.unsafe) == (1, 4, 1)
    assert [(line.skill, line.is_below) for line in summary.skills] == [("size-limits", True)]


@pytest.mark.parametrize(
    ("times", "read", "folded"),
    [([1, 1, 1], 3, 0), ([2, 1, 1, 1, 1, 1], 6, 0), ([3, 2, 1, 1, 1, 1, 1], 2, 5), ([1] * 7, 0, 7)],
)
def test_a_long_list_of_wrong_rules_is_read_from_those_that_several_answers_fit(times, read, folded) -> None:
    beliefs = tuple(zip(islice(misconceptions().values(), len(times)), times, strict=True))
    summary = Summary(right=0, asked=40, unsafe=0, skills=(), beliefs=beliefs, lessons=())

    assert (summary.beliefs_to_read, summary.beliefs_folded) == (beliefs[:read], tuple(b for b, _ in beliefs[read:]))
    assert len(summary.beliefs_folded) == folded
