"""An assessment on paper: it takes the one open place, is marked like the screen, counts, and is kept."""

from datetime import datetime, timedelta
from itertools import pairwise

import pytest
from django.db import DatabaseError, connection, transaction
from django.test.utils import CaptureQueriesContext

from assessments import acts
from assessments.acts.blueprints import keep_blueprint
from assessments.models import Attempt, Form, Outcome, Paper, Purpose, Response
from assessments.queries import State, theory_of
from tests.factories import NOW, AttemptFactory, ExtraRoundFactory, PaperFactory, an_item
from tests.terms import terms_of
from training.models import Shop, User

RIGHT, UNSAFE, WRONG = '"2"', '"1"', '"3"'  # the options of `an_item`

pytestmark = pytest.mark.django_db


def make(shop: Shop, learner: User, by: User, *, at: datetime = NOW) -> Paper:
    return acts.make_paper(shop=shop, learner=learner, terms=terms_of(shop), made_by=by, at=at)


@pytest.fixture
def paper(own_shop, apprentice, trainer):
    """A paper of three hand-written questions under the shop's own blueprint."""
    return PaperFactory.create(
        form__shop=own_shop,
        form__learner=apprentice,
        form__blueprint=keep_blueprint(terms_of(own_shop)),
        form__items=[an_item(), an_item(format="number"), an_item()],
        form__drawn_at=NOW - timedelta(days=1),
        made_by=trainer,
    )


def type_in(paper: Paper, by: User, answers: dict[int, str], *, at: datetime = NOW) -> None:
    acts.type_answers(paper=paper, answers=answers, typed_by=by, at=at)


class TestMaking:
    def test_draws_a_form_of_the_blueprint_for_this_person_and_says_who_made_it(
        self, own_shop, apprentice, trainer
    ) -> None:
        paper = make(own_shop, apprentice, trainer)

        assert (paper.form.purpose, paper.form.size) == (Purpose.PAPER, terms_of(own_shop).count)
        assert paper.form.items.count() == paper.form.size
        assert (paper.made_by, paper.made_at) == (trainer, NOW)
        assert theory_of(own_shop, apprentice, terms_of(own_shop)).state(NOW) is State.PAPER

    def test_a_second_press_gives_the_paper_that_is_out(self, own_shop, apprentice, trainer) -> None:
        first = make(own_shop, apprentice, trainer)

        assert make(own_shop, apprentice, trainer, at=NOW + timedelta(hours=1)) == first
        assert Form.objects.count() == 1

    def test_nobody_makes_a_paper_for_themselves(self, own_shop, trainer) -> None:
        with pytest.raises(acts.NotNow, match="must come from another trainer: its maker can see the key"):
            make(own_shop, trainer, trainer)

    def test_while_it_is_out_no_assessment_starts_on_the_screen(self, own_shop, apprentice, trainer) -> None:
        make(own_shop, apprentice, trainer)

        with pytest.raises(acts.NotNow, match="A paper is printed for you"):
            acts.start_assessment(shop=own_shop, learner=apprentice, terms=terms_of(own_shop), at=NOW)

    def test_while_one_is_open_on_the_screen_no_paper_is_made(self, own_shop, apprentice, trainer) -> None:
        acts.start_assessment(shop=own_shop, learner=apprentice, terms=terms_of(own_shop), at=NOW)

        with pytest.raises(acts.NotNow, match="has an assessment open on the screen"):
            make(own_shop, apprentice, trainer)

    def test_used_up_attempts_and_the_waiting_time_hold_on_paper_too(self, own_shop, apprentice, trainer) -> None:
        blueprint = keep_blueprint(terms_of(own_shop))
        for days in (9, 6, 3):
            AttemptFactory.create(
                not_passed=True,
                form__shop=own_shop,
                form__learner=apprentice,
                form__blueprint=blueprint,
                started_at=NOW - timedelta(days=days),
                handed_in_at=NOW - timedelta(days=days) + timedelta(minutes=30),
            )

        with pytest.raises(acts.NotNow, match="All 3 attempts are used"):
            make(own_shop, apprentice, trainer)

        ExtraRoundFactory.create(
            shop=own_shop, learner=apprentice, blueprint=blueprint, given_at=NOW - timedelta(hours=1)
        )
        assert make(own_shop, apprentice, trainer, at=NOW + timedelta(days=1))


class TestTyping:
    def test_answers_are_kept_with_who_typed_them_and_can_be_changed(self, paper, trainer, owner) -> None:
        type_in(paper, trainer, {1: RIGHT, 2: "", 3: WRONG})
        type_in(paper, owner, {1: RIGHT, 2: "", 3: UNSAFE}, at=NOW + timedelta(minutes=5))

        paper.refresh_from_db()
        kept = dict(Response.objects.values_list("position", "answer"))
        assert kept == {1: RIGHT, 3: UNSAFE}
        assert (paper.typed_by, paper.typed_at) == (owner, NOW + timedelta(minutes=5))

    def test_the_same_answers_again_change_nothing(self, paper, trainer, owner) -> None:
        type_in(paper, trainer, {1: RIGHT})
        type_in(paper, owner, {1: RIGHT}, at=NOW + timedelta(minutes=5))

        paper.refresh_from_db()
        assert paper.typed_by == trainer
        assert Response.objects.get().revision == 1

    def test_a_row_can_be_emptied_again(self, paper, trainer) -> None:
        type_in(paper, trainer, {1: RIGHT})
        type_in(paper, trainer, {1: ""})

        assert Response.objects.get().answer == ""

    def test_a_position_it_does_not_have_is_refused(self, paper, trainer) -> None:
        with pytest.raises(ValueError, match=r"positions \[4\] are not accepted; the paper has 1 to 3"):
            type_in(paper, trainer, {4: RIGHT})

    def test_after_thirty_days_it_takes_no_more_and_is_handed_in_as_it_stands(self, paper, trainer) -> None:
        type_in(paper, trainer, {1: RIGHT})
        late = NOW + timedelta(days=31)

        with pytest.raises(acts.AttemptClosed, match="takes no more answers"):
            type_in(paper, trainer, {2: RIGHT}, at=late)

        acts.close_overdue(at=late)
        attempt = Attempt.objects.get()
        assert (attempt.right_count, attempt.outcome) == (1, Outcome.NOT_PASSED)


class TestHandingIn:
    def test_it_is_marked_by_the_same_rules_as_the_screen(self, paper, trainer, own_shop, apprentice) -> None:
        # 9 mm is right within 0.5 mm: 9.4 mm is; 80 % of three questions are three
        type_in(paper, trainer, {1: RIGHT, 2: '{"unit":"mm","value":"9.4"}', 3: RIGHT})

        attempt = acts.hand_in_paper(paper=paper, at=NOW)

        assert (attempt.right_count, attempt.unsafe_count, attempt.outcome) == (3, 0, Outcome.PASSED)
        theory = theory_of(own_shop, apprentice, terms_of(own_shop))
        assert (theory.state(NOW), theory.passed, theory.used) == (State.PASSED, attempt, 1)

    def test_an_open_row_is_not_right_and_an_unsafe_one_is_counted(self, paper, trainer) -> None:
        type_in(paper, trainer, {1: UNSAFE, 3: RIGHT})

        attempt = acts.hand_in_paper(paper=paper, at=NOW)

        assert (attempt.right_count, attempt.unsafe_count, attempt.outcome) == (1, 1, Outcome.NOT_PASSED)
        assert attempt.by_skill == {"size-limits": [1, 3]}

    def test_twice_is_once(self, paper, trainer) -> None:
        type_in(paper, trainer, {1: RIGHT})
        first = acts.hand_in_paper(paper=paper, at=NOW)

        assert acts.hand_in_paper(paper=paper, at=NOW + timedelta(hours=1)).handed_in_at == first.handed_in_at

    def test_nothing_typed_in_is_not_handed_in(self, paper) -> None:
        with pytest.raises(acts.NotNow, match="No answers are typed in yet"):
            acts.hand_in_paper(paper=paper, at=NOW)

    def test_the_database_keeps_it_as_it_was_handed_in(self, paper, trainer, owner) -> None:
        type_in(paper, trainer, {1: RIGHT})
        acts.hand_in_paper(paper=paper, at=NOW)

        for change in (
            lambda: Paper.objects.filter(pk=paper.pk).update(typed_by=owner),
            lambda: Paper.objects.filter(pk=paper.pk).delete(),
            lambda: Response.objects.update(answer=WRONG),
        ):
            with pytest.raises(DatabaseError, match="kept"), transaction.atomic():
                change()


class TestWithdrawing:
    def test_a_paper_nobody_sat_counts_as_no_attempt_and_stays_on_record(
        self, paper, trainer, own_shop, apprentice
    ) -> None:
        acts.withdraw_paper(paper=paper, by=trainer, reason="Printed for the wrong person.", at=NOW)
        acts.withdraw_paper(paper=paper, by=trainer, reason="Again.", at=NOW)

        theory = theory_of(own_shop, apprentice, terms_of(own_shop))
        assert (theory.state(NOW), theory.used, theory.latest) == (State.READY, 0, None)
        paper.refresh_from_db()
        assert (paper.withdrawn_by, paper.withdrawn_because) == (trainer, "Printed for the wrong person.")
        assert make(own_shop, apprentice, trainer) != paper

    def test_once_answers_are_typed_in_it_counts(self, paper, trainer) -> None:
        type_in(paper, trainer, {1: UNSAFE})

        with pytest.raises(acts.AttemptClosed, match="so it counts and cannot be withdrawn"):
            acts.withdraw_paper(paper=paper, by=trainer, reason="It went badly.", at=NOW)

    @pytest.mark.parametrize(
        "press",
        [
            lambda paper, by: type_in(paper, by, {1: RIGHT}),
            lambda paper, by: acts.withdraw_paper(paper=paper, by=by, reason="Printed twice.", at=NOW),
        ],
        ids=["typing", "withdrawing"],
    )
    def test_takes_the_attempt_first_as_the_other_does_so_that_neither_waits_for_the_other(
        self, press, paper, trainer
    ) -> None:
        with CaptureQueriesContext(connection) as captured:
            press(paper, trainer)

        said = [query["sql"] for query in captured]
        (locked,) = [after for sql, after in pairwise(said) if sql.startswith("SAVEPOINT")]
        assert 'FROM "assessments_attempt"' in locked

    def test_a_withdrawn_paper_takes_no_answers_and_is_not_handed_in(self, paper, trainer) -> None:
        acts.withdraw_paper(paper=paper, by=trainer, reason="Printed twice.", at=NOW)

        with pytest.raises(acts.AttemptClosed):
            type_in(paper, trainer, {1: RIGHT})
        with pytest.raises(acts.AttemptClosed, match="was withdrawn"):
            acts.hand_in_paper(paper=paper, at=NOW)
