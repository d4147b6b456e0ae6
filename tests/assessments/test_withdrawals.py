"""A question that was asked is flagged, withdrawn and taken back; results are counted anew, worked out here by hand."""

from dataclasses import replace
from datetime import timedelta
from typing import Any

import pytest
from django.db import DatabaseError, IntegrityError, transaction

from assessments import acts
from assessments.measurement.passing import judge
from assessments.models import Attempt, DrawFlag, Withdrawal
from assessments.queries import diagnosis_of, judgment_of, summary_of, theory_of
from certificates import acts as certificate_acts
from certificates.queries import rests
from tests.asking import RIGHT, UNSAFE, WHY, WRONG, Asking
from tests.factories import NOW, AttemptFactory, an_item
from tests.factories_certificates import SCOPE, HandsOnFactory
from tests.terms import terms_of
from training.models import Notice

pytestmark = pytest.mark.django_db


def counts(attempt: Attempt) -> tuple[object, ...]:
    return attempt.right_count, attempt.asked_count, attempt.unsafe_count, attempt.outcome, attempt.first_outcome


class TestWithdrawing:
    def test_a_right_answer_can_make_a_pass_fall(self, asking) -> None:
        attempt = asking.sat(RIGHT, RIGHT, RIGHT, RIGHT, WRONG)
        assert counts(attempt) == (4, 5, 0, "passed", "passed")  # 80 of 100

        attempt = asking.withdraw(attempt, 1)

        assert counts(attempt) == (3, 4, 0, "not-passed", "passed")  # 75 of 100
        assert attempt.has_fallen

    def test_wrong_answers_can_make_a_failure_a_pass_that_counts(self, asking) -> None:
        attempt = asking.sat(RIGHT, RIGHT, RIGHT, WRONG, WRONG)
        assert counts(asking.withdraw(attempt, 4)) == (3, 4, 0, "not-passed", "not-passed")

        attempt = asking.withdraw(attempt, 5)

        assert counts(attempt) == (3, 3, 0, "passed", "not-passed")
        assert attempt.has_risen
        terms = replace(terms_of(asking.shop), name=attempt.form.blueprint.scope)
        assert theory_of(asking.shop, asking.apprentice, terms).passed_this_round

    def test_an_unsafe_release_counts_no_more(self, asking) -> None:
        attempt = asking.sat(*[RIGHT] * 8, UNSAFE, UNSAFE)
        assert counts(attempt) == (8, 10, 2, "not-passed", "not-passed")

        assert counts(asking.withdraw(attempt, 10)) == (8, 9, 1, "passed", "not-passed")

    def test_of_no_questions_nothing_passes(self, asking) -> None:
        attempt = asking.sat(RIGHT)

        assert counts(asking.withdraw(attempt, 1)) == (0, 0, 0, "not-passed", "passed")

    def test_twice_is_once_and_keeps_the_first_reason(self, asking) -> None:
        attempt = asking.sat(RIGHT, RIGHT, RIGHT, RIGHT, WRONG)
        once = counts(asking.withdraw(attempt, 1))

        assert counts(asking.withdraw(attempt, 1, "Another reason.")) == once
        assert Withdrawal.objects.get().reason == WHY
        assert Notice.objects.count() == 1

    def test_taken_back_it_counts_as_before_and_both_reasons_stay(self, asking) -> None:
        attempt = asking.sat(RIGHT, RIGHT, RIGHT, RIGHT, WRONG)
        asking.withdraw(attempt, 1)

        for _ in range(2):
            assert counts(asking.take_back(attempt, 1)) == (4, 5, 0, "passed", "passed")
        row = Withdrawal.objects.get()
        assert (row.reason, row.taken_back_because, row.taken_back_by) == (
            WHY,
            "It was right after all.",
            asking.trainer,
        )

    def test_it_can_be_withdrawn_again_after_that(self, asking) -> None:
        attempt = asking.sat(RIGHT, RIGHT, RIGHT, RIGHT, WRONG)
        asking.withdraw(attempt, 1)
        asking.take_back(attempt, 1)

        assert counts(asking.withdraw(attempt, 1))[:2] == (3, 4)
        assert Withdrawal.objects.count() == 2

    def test_nobody_judges_a_question_they_were_asked_themselves(self, asking) -> None:
        attempt = asking.sat(RIGHT, WRONG)

        for act in (acts.withdraw_question, acts.take_back_withdrawal):
            with pytest.raises(acts.WithdrawalRefused, match="judged by another trainer or the owner"):
                act(item=asking.item(attempt, 1), reason=WHY, by=asking.apprentice, at=NOW)

    def test_what_never_was_withdrawn_cannot_be_taken_back(self, asking) -> None:
        attempt = asking.sat(RIGHT, WRONG)

        with pytest.raises(acts.WithdrawalRefused, match="nobody has withdrawn it"):
            asking.take_back(attempt, 1)

    def test_an_open_assessment_lets_none_go(self, asking) -> None:
        attempt = AttemptFactory.create(form__shop=asking.shop, form__learner=asking.apprentice)
        acts.record_response(attempt=attempt, position=1, answer=RIGHT, revision=0, at=NOW)

        with pytest.raises(acts.WithdrawalRefused, match="not answered yet"):
            asking.withdraw(attempt, 1)

    def test_the_person_reads_what_became_of_the_result(self, asking) -> None:
        asking.withdraw(asking.sat(RIGHT, RIGHT, RIGHT, RIGHT, WRONG), 1)

        notice = Notice.objects.get(person=asking.apprentice)
        assert "question 1: the result was counted anew. Not passed, 3 of 4 right." in notice.text

    def test_an_answer_marked_meanwhile_is_counted_too(self, asking, monkeypatch) -> None:
        attempt = asking.sat(RIGHT, RIGHT, RIGHT, RIGHT, WRONG)
        others = iter([2])

        def slow(*given: Any) -> Any:
            if (position := next(others, None)) is not None:
                asking.withdraw(attempt, position)
            return judge(*given)

        monkeypatch.setattr("assessments.acts.withdrawals.judge", slow)

        assert counts(asking.withdraw(attempt, 1))[:2] == (2, 3)


class TestPractice:
    @pytest.fixture
    def practice(self, asking) -> Attempt:
        items = [an_item(seed=f"by hand {number}") for number in range(3)]
        attempt: Attempt = AttemptFactory.create(
            practice=True, form__shop=asking.shop, form__learner=asking.apprentice, form__items=items
        )
        for position, answer in ((1, RIGHT), (2, UNSAFE)):
            acts.answer_practice(attempt=attempt, position=position, answer=answer, at=NOW)
        return attempt

    def test_is_counted_anew_and_goes_on(self, asking, practice) -> None:
        attempt = asking.withdraw(practice, 2)
        assert attempt.by_skill == {"size-limits": [1, 1]}
        assert attempt.handed_in_at is None

        acts.answer_practice(attempt=attempt, position=3, answer=WRONG, at=NOW)

        attempt.refresh_from_db()
        assert (attempt.by_skill, attempt.right_count, attempt.unsafe_count) == ({"size-limits": [1, 2]}, 1, 0)

    def test_what_was_withdrawn_says_nothing_of_what_somebody_believes(self, asking, practice) -> None:
        before = diagnosis_of(asking.shop, asking.apprentice)
        asking.withdraw(practice, 2)
        after = diagnosis_of(asking.shop, asking.apprentice)

        assert before.answers == after.answers + 1
        assert summary_of(practice, 80).beliefs[0][0].id == "size-does-not-matter" if before.probable else True
        assert summary_of(Attempt.objects.get(pk=practice.pk), 80).beliefs == ()

    def test_a_question_that_is_open_cannot_be_withdrawn(self, asking, practice) -> None:
        with pytest.raises(acts.WithdrawalRefused, match="not answered yet"):
            asking.withdraw(practice, 3)


class TestDatabase:
    def test_lets_a_result_change_only_where_a_question_was_withdrawn(self, asking) -> None:
        attempt = asking.sat(RIGHT, WRONG)

        with pytest.raises(DatabaseError, match="handed in: an attempt"), transaction.atomic():
            Attempt.objects.update(outcome="passed")
        asking.withdraw(attempt, 2)
        for field, value in (("first_outcome", "passed"), ("handed_in_at", NOW + timedelta(days=1))):
            with pytest.raises(DatabaseError, match="handed in: an attempt"), transaction.atomic():
                Attempt.objects.update(**{field: value})

    def test_keeps_a_withdrawal_as_it_was_written(self, asking) -> None:
        attempt = asking.sat(RIGHT, WRONG)
        asking.withdraw(attempt, 1)
        with pytest.raises(DatabaseError, match="kept: "), transaction.atomic():
            Withdrawal.objects.update(reason="Another.")
        asking.take_back(attempt, 1)
        with pytest.raises(DatabaseError, match="kept: "), transaction.atomic():
            Withdrawal.objects.update(taken_back_because="Another.")
        with pytest.raises(DatabaseError, match="kept: "), transaction.atomic():
            Withdrawal.objects.all().delete()

    def test_refuses_two_withdrawals_of_one_question_at_a_time(self, asking) -> None:
        attempt = asking.sat(RIGHT, WRONG)
        asking.withdraw(attempt, 1)

        with pytest.raises(IntegrityError), transaction.atomic():
            Withdrawal.objects.create(item=asking.item(attempt, 1), reason=WHY, by=asking.trainer, at=NOW)


class TestFlags:
    def flag(self, asking: Asking, attempt: Attempt, comment: str = "Two are right.") -> DrawFlag:
        return acts.flag_question(item=asking.item(attempt, 1), comment=comment, by=asking.apprentice, at=NOW)

    def test_points_to_that_very_question(self, asking) -> None:
        attempt = asking.sat(RIGHT, WRONG)
        flag = self.flag(asking, attempt)

        assert flag.item == asking.item(attempt, 1)
        assert flag.stem == an_item().stem

    def test_the_same_words_again_are_one_flag_and_others_are_refused(self, asking) -> None:
        attempt = asking.sat(RIGHT, WRONG)
        assert self.flag(asking, attempt) == self.flag(asking, attempt)

        with pytest.raises(acts.FlagRefused, match="You flagged this question on Nov 25, 2026"):
            self.flag(asking, attempt, "Something else.")

    def test_waits_for_the_answer(self, asking) -> None:
        attempt = AttemptFactory.create(form__shop=asking.shop, form__learner=asking.apprentice)

        with pytest.raises(acts.FlagRefused, match="Answer the question first"):
            self.flag(asking, attempt)

    def test_the_database_refuses_one_on_nothing_and_one_on_both(self, asking) -> None:
        flag = self.flag(asking, asking.sat(RIGHT))

        for fields in ({"item": None, "seed": ""}, {"item": flag.item, "seed": "bench:1/1"}):
            with pytest.raises(IntegrityError), transaction.atomic():
                DrawFlag.objects.create(
                    shop=asking.shop, family="a", edition="b", edition_version="c", units="in", stem="d", comment="e",
                    by=asking.trainer, at=NOW, **fields,
                )  # fmt: skip


class TestCertificates:
    def test_a_certificate_stands_when_its_pass_falls_and_no_new_one_rests_on_it(
        self, asking, own_shop, apprentice, owner
    ) -> None:
        attempt = asking.sat(RIGHT, RIGHT, RIGHT, RIGHT, WRONG)
        HandsOnFactory.create(shop=own_shop, learner=apprentice)
        asking.withdraw(attempt, 1)

        found = rests(shop=own_shop, scope=SCOPE, at=NOW, learner=apprentice)[apprentice.pk]
        assert found.attempt is None
        with pytest.raises(certificate_acts.CertificateRefused, match="no passed assessment"):
            certificate_acts.issue_certificate(shop=own_shop, holder=apprentice, issuer=owner, scope=SCOPE, at=NOW)

    def test_a_failure_that_became_a_pass_is_certified_with_todays_counts(
        self, asking, own_shop, apprentice, owner
    ) -> None:
        attempt = asking.sat(RIGHT, RIGHT, RIGHT, WRONG)
        HandsOnFactory.create(shop=own_shop, learner=apprentice)
        asking.withdraw(attempt, 4)

        made = certificate_acts.issue_certificate(shop=own_shop, holder=apprentice, issuer=owner, scope=SCOPE, at=NOW)

        assert (made.right_count, made.asked_count) == (3, 3)


def test_the_judgment_that_a_page_tells_is_the_one_that_is_stored(asking) -> None:
    attempt = asking.withdraw(asking.sat(RIGHT, RIGHT, RIGHT, UNSAFE, WRONG), 5)
    judgment = judgment_of(attempt)

    assert (judgment.right, judgment.asked, judgment.unsafe, judgment.passed) == (3, 4, 1, False)
    assert (attempt.right_count, attempt.asked_count, attempt.unsafe_count) == (3, 4, 1)
