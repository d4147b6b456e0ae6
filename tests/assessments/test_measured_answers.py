"""What is stored beside an answer, so that it can be measured: when, how long, what it was before, and of what kind."""

import json
from datetime import datetime, timedelta
from typing import Any

import pytest
from django.db import DatabaseError, connection, transaction
from django.test.utils import CaptureQueriesContext
from django.urls import reverse
from django.utils import timezone

from assessments import acts
from assessments.models import Attempt, FormItem, Moment, Reach, Response
from assessments.questions import FORMATS, Item, family_version
from tests.factories import NOW, AttemptFactory, PaperFactory, a_pictured_item, an_item
from tests.terms import terms_of
from training.models import Shop, User

RIGHT, WRONG = '"2"', '"3"'

pytestmark = pytest.mark.django_db


@pytest.fixture
def attempt(own_shop: Shop, apprentice: User) -> Attempt:
    return AttemptFactory.create(form__shop=own_shop, form__learner=apprentice)


def later(seconds: int) -> datetime:
    return NOW + timedelta(seconds=seconds)


def rows(attempt: Attempt) -> list[tuple[object, ...]]:
    found = Response.objects.filter(attempt=attempt).order_by("position")
    return list(found.values_list("position", "reach", "first_shown_at", "seconds"))


class TestMoments:
    def test_every_change_of_an_answer_is_kept_and_the_same_again_is_not(self, attempt) -> None:
        acts.note_shown(attempt=attempt, position=1, at=NOW)
        for second, (answer, revision) in enumerate([(RIGHT, 0), (RIGHT, 1), (WRONG, 1), ("", 2), (RIGHT, 3)], 1):
            acts.record_response(attempt=attempt, position=1, answer=answer, revision=revision, at=later(second))

        kept = Moment.objects.order_by("pk").values_list("at", "answer", "revision")
        assert [((at - NOW).seconds, *told) for at, *told in kept] == [
            (0, "", 0),
            (1, RIGHT, 1),
            (3, WRONG, 2),
            (4, "", 3),
            (5, RIGHT, 4),
        ]

    def test_a_question_is_shown_once_at_an_instant_however_often_it_is_said(self, attempt) -> None:
        for _ in range(2):
            acts.note_shown(attempt=attempt, position=1, at=NOW)

        assert Moment.objects.count() == 1

    def test_neither_a_change_nor_a_deletion_passes_the_database(self, attempt) -> None:
        acts.note_shown(attempt=attempt, position=1, at=NOW)

        for write in (lambda: Moment.objects.update(at=NOW), lambda: Moment.objects.all().delete()):
            with pytest.raises(DatabaseError, match="kept: what was seen of a question"), transaction.atomic():
                write()

    def test_a_flag_alone_is_no_answer(self, attempt) -> None:
        acts.record_response(attempt=attempt, position=1, answer="", revision=0, at=NOW, flag=True)

        assert not Moment.objects.exists()

    def test_what_is_typed_from_paper_is_kept_change_by_change(self) -> None:
        paper = PaperFactory.create()
        for answers in ({1: RIGHT}, {1: WRONG, 2: RIGHT}):
            acts.type_answers(paper=paper, answers=answers, typed_by=paper.made_by, at=NOW)

        kept = Moment.objects.order_by("pk").values_list("position", "answer", "revision")
        assert list(kept) == [(1, RIGHT, 1), (2, RIGHT, 1), (1, WRONG, 2)]


class TestSaving:
    def test_takes_as_many_queries_whatever_was_saved_before(self, attempt) -> None:
        def counted(position: int, answer: str, revision: int) -> int:
            with CaptureQueriesContext(connection) as found:
                acts.record_response(attempt=attempt, position=position, answer=answer, revision=revision, at=NOW)
            return len([one for one in found if "SAVEPOINT" not in one["sql"]])

        first = counted(1, RIGHT, 0)
        for position in (2, 3):
            assert counted(position, RIGHT, 0) == first
        # the attempt, the answer that stands, the new one, and the row that keeps the change
        assert [first, *(counted(1, answer, 1 + turn) for turn, answer in enumerate([WRONG, RIGHT] * 5))] == [4] * 11


class TestHandIn:
    def test_says_of_each_question_whether_it_was_answered_skipped_or_never_reached(self, attempt) -> None:
        acts.note_shown(attempt=attempt, position=1, at=NOW)
        acts.record_response(attempt=attempt, position=1, answer=RIGHT, revision=0, at=later(20))
        acts.note_shown(attempt=attempt, position=2, at=later(30))
        acts.note_shown(attempt=attempt, position=0, at=later(45))
        acts.hand_in(attempt=attempt, at=later(100))

        assert rows(attempt) == [
            (1, Reach.ANSWERED, NOW, 30),
            (2, Reach.SKIPPED, NOW + timedelta(seconds=30), 15),
            (3, Reach.NOT_REACHED, None, 0),
        ]
        assert list(Response.objects.order_by("position").values_list("answer", "is_right")) == [
            (RIGHT, True),
            ("", False),
            ("", False),
        ]

    def test_counts_no_second_after_the_clock_ran_out(self, attempt) -> None:
        last = attempt.closes_at - timedelta(seconds=10)
        acts.note_shown(attempt=attempt, position=1, at=last)
        acts.hand_in(attempt=attempt, at=attempt.closes_at + timedelta(hours=2))

        assert rows(attempt)[0] == (1, Reach.SKIPPED, last, 10)

    def test_of_paper_nobody_knows_what_was_looked_at(self) -> None:
        paper = PaperFactory.create()
        acts.type_answers(paper=paper, answers={1: RIGHT, 2: ""}, typed_by=paper.made_by, at=NOW)
        acts.hand_in_paper(paper=paper, at=NOW)

        assert rows(Attempt.objects.get(form=paper.form)) == [
            (1, Reach.ANSWERED, None, None),
            (2, "", None, None),
            (3, "", None, None),
        ]

    def test_the_database_refuses_a_reach_that_its_answer_denies(self, attempt) -> None:
        acts.record_response(attempt=attempt, position=1, answer=RIGHT, revision=0, at=NOW)

        with pytest.raises(DatabaseError, match="response_reach_fits_its_answer"), transaction.atomic():
            Response.objects.update(reach="skipped")


class TestPages:
    def test_a_question_is_seen_when_its_page_is_and_the_page_before_handing_in_too(
        self, client_as, own_shop, apprentice
    ) -> None:
        attempt = AttemptFactory.create(form__shop=own_shop, form__learner=apprentice, started_at=timezone.now())
        client, place = client_as(apprentice), [own_shop.slug, attempt.form.reference]

        client.get(reverse("assessments:item", args=[*place, 2]))
        client.get(reverse("assessments:review", args=place))

        assert list(Moment.objects.order_by("pk").values_list("position", "revision")) == [(2, 0), (0, 0)]

    def test_a_practice_question_is_seen_until_it_is_explained(self, client_as, own_shop, apprentice) -> None:
        attempt = AttemptFactory.create(practice=True, form__shop=own_shop, form__learner=apprentice)
        page = reverse("assessments:practice_item", args=[own_shop.slug, attempt.form.reference, 1])
        client = client_as(apprentice)

        client.get(page)
        client.post(page, {"answer": "2"})
        client.get(page)

        assert list(Moment.objects.order_by("pk").values_list("revision", flat=True)) == [0, 1]
        response = Response.objects.get()
        assert response.reach == Reach.ANSWERED
        assert response.first_shown_at == Moment.objects.get(revision=0).at
        assert response.seconds is not None


class TestDrawn:
    def test_each_question_of_a_form_is_stored_with_what_it_is_measured_by(self, own_shop, apprentice) -> None:
        attempt = acts.start_assessment(shop=own_shop, learner=apprentice, terms=terms_of(own_shop), at=NOW)

        for row in FormItem.objects.filter(form=attempt.form):
            item = Item.from_json(row.snapshot)
            assert row.family_version == family_version(row.family)
            assert row.template == item.template != ""
            assert row.format == item.format in FORMATS
            assert row.traits.keys() == {
                "limit_steps",
                "computing",
                "cues",
                "conversions",
                "irrelevant",
                "words",
            }
            assert row.traits["words"] > 0
            case: Any = item.case or {}
            assert row.casing == (case["tire"]["casing"] if "tire" in case else "")
            assert item.template not in str(row.open)

    @pytest.mark.parametrize("item", [an_item(), a_pictured_item()], ids=["drawn", "pictured"])
    def test_what_was_stored_before_a_question_said_its_sentence_is_read(self, own_shop, apprentice, item) -> None:
        attempt = AttemptFactory.create(form__shop=own_shop, form__learner=apprentice, form__items=[item])
        row = FormItem.objects.get(form=attempt.form)
        told = {name: value for name, value in item.to_json().items() if name != "template"}
        table = FormItem._meta.db_table
        with connection.cursor() as cursor:
            cursor.execute(
                f"UPDATE {table} SET snapshot = %s WHERE id = %s",
                [json.dumps({"schema": 2, "content": told}), row.pk],
            )

        assert Item.from_json(FormItem.objects.get(pk=row.pk).snapshot) == item
