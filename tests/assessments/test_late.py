"""Answers that arrive after the end: kept as they arrived, counted nowhere, told to whoever gave them and the trainer.

What counts, and that nothing is silently lost, is the site's own rule; no published source.
"""

import base64
from collections.abc import Callable
from datetime import timedelta
from typing import Any

import pytest
from django.db import IntegrityError, transaction
from django.db.utils import DatabaseError
from django.utils import timezone

from assessments import acts
from assessments.models import Attempt, LateAnswer, Moment, Response
from assessments.queries import late_in, terms_of, theory_of
from tests.asking import Asking
from tests.factories import NOW, AttemptFactory, FormFactory, an_item
from tests.pages import ClientAs, text_of, url
from tests.present import present
from training.models import User
from training.pages.kept import kept_of

pytestmark = pytest.mark.django_db

RIGHT, WRONG = '"2"', '"3"'


@pytest.fixture
def sat(asking: Asking) -> Attempt:
    """Two questions, both answered wrong, handed in."""
    return asking.sat(WRONG, WRONG)


def late(attempt: Attempt, position: int = 1, answer: str = RIGHT, minutes: int = 5) -> LateAnswer | None:
    return acts.keep_late_answer(attempt=attempt, position=position, answer=answer, at=NOW + timedelta(minutes=minutes))


def test_a_late_answer_is_kept_and_moves_no_mark(sat: Attempt) -> None:
    before = Attempt.objects.filter(pk=sat.pk).values().get(), list(Response.objects.order_by("pk").values())

    assert late(sat) is not None

    assert (Attempt.objects.filter(pk=sat.pk).values().get(), list(Response.objects.order_by("pk").values())) == before
    assert not Moment.objects.filter(attempt=sat, answer=RIGHT).exists()
    assert list(LateAnswer.objects.values_list("position", "answer", "arrived_at")) == [
        (1, RIGHT, NOW + timedelta(minutes=5))
    ]


def test_the_same_again_none_at_all_and_the_one_that_counts_say_nothing_new(sat: Attempt) -> None:
    late(sat)

    assert late(sat, minutes=9) is None
    assert late(sat, answer="") is None
    assert late(sat, answer=WRONG) is None
    assert LateAnswer.objects.count() == 1


def test_nobody_fills_the_database_with_late_answers(sat: Attempt) -> None:
    kept = [late(sat, answer=f'"{number}"') for number in range(10, 20)]

    assert [one is not None for one in kept] == [True] * 5 + [False] * 5


def test_while_answers_count_none_is_late(asking: Asking) -> None:
    open_attempt = acts.start_assessment(
        shop=asking.shop, learner=asking.apprentice, terms=present(terms_of(asking.shop)), at=NOW
    )

    with pytest.raises(ValueError, match="is still open"):
        late(open_attempt)
    assert present(open_attempt.closes_at) > NOW
    assert late(open_attempt, minutes=24 * 60) is not None  # over by the clock alone, handed in by nobody


def test_what_arrived_late_is_never_changed_nor_deleted(sat: Attempt) -> None:
    kept = late(sat)

    with pytest.raises(DatabaseError), transaction.atomic():
        LateAnswer.objects.filter(pk=present(kept).pk).update(answer=WRONG)
    with pytest.raises(DatabaseError), transaction.atomic():
        LateAnswer.objects.filter(pk=present(kept).pk).delete()
    with pytest.raises(IntegrityError), transaction.atomic():
        LateAnswer.objects.create(attempt=sat, position=1, answer=RIGHT, arrived_at=NOW)
    with pytest.raises(IntegrityError), transaction.atomic():
        LateAnswer.objects.create(attempt=sat, position=2, answer="", arrived_at=NOW)


def test_it_is_told_in_a_sentence(sat: Attempt) -> None:
    assert late_in(sat) is None
    late(sat, 2)
    assert "An answer to question 2 arrived after the end" in present(late_in(sat)).words()
    late(sat, 1, minutes=7)
    assert "Answers to questions 1 and 2 arrived after the end" in present(late_in(sat)).words()


def test_the_result_and_the_trainer_are_told(sat: Attempt, client_as: ClientAs) -> None:
    result = url("assessments:result", sat.form.shop, sat.form.reference)
    asked = url("assessments:asked", sat.form.shop, sat.form.reference)
    person = url("certificates:person", sat.form.shop, sat.form.learner.reference)
    assert "arrived after the end" not in text_of(client_as("apprentice").get(result).content.decode())
    late(sat)

    assert "An answer to question 1 arrived after the end" in text_of(
        client_as("apprentice").get(result).content.decode()
    )
    assert "An answer to question 1 arrived after the end" in text_of(client_as("trainer").get(asked).content.decode())
    assert "answers to 1 question arrived after the end" in text_of(client_as("trainer").get(person).content.decode())


def test_a_trainer_may_give_a_round_for_it_while_attempts_are_left_once(asking: Asking) -> None:
    terms = present(terms_of(asking.shop))
    attempt = acts.start_assessment(shop=asking.shop, learner=asking.apprentice, terms=terms, at=NOW)
    acts.hand_in(attempt=attempt, at=NOW)

    def give(minutes: int) -> object:
        return acts.give_extra_round(
            shop=asking.shop,
            learner=asking.apprentice,
            terms=terms,
            given_by=asking.trainer,
            reason="No connection in the yard.",
            at=NOW + timedelta(minutes=minutes),
        )

    assert give(1) is None
    late(attempt, minutes=2)
    assert give(3) is not None
    assert theory_of(asking.shop, asking.apprentice, terms).left == terms.attempts
    assert give(4) is None


def test_the_page_of_a_new_round_has_the_reason_filled_in(asking: Asking, client_as: ClientAs) -> None:
    terms = present(terms_of(asking.shop))
    attempt = acts.start_assessment(shop=asking.shop, learner=asking.apprentice, terms=terms, at=NOW)
    acts.hand_in(attempt=attempt, at=NOW)
    address = url("assessments:extra_round", asking.shop, asking.apprentice.reference, terms.name)
    assert "<textarea" not in client_as("trainer").get(address).content.decode()
    late(attempt)

    page = client_as("trainer").get(address).content.decode()
    assert "An answer to question 1 arrived after the end" in page.split("<textarea")[1].split("</textarea>")[0]


class TestSending:
    """What a browser sends of what it kept, and what it is told."""

    @pytest.fixture
    def attempt(self, asking: Asking) -> Attempt:
        form = FormFactory.create(
            shop=asking.shop, learner=asking.apprentice, items=[an_item(seed="one"), an_item(seed="two")]
        )
        return AttemptFactory.create(
            form=form, started_at=timezone.now(), closes_at=timezone.now() + timedelta(hours=1)
        )

    @pytest.fixture
    def send(self, attempt: Attempt, client_as: ClientAs) -> Callable[..., dict[str, Any]]:
        client, address = client_as("apprentice"), url("assessments:keep", attempt.form.shop, attempt.form.reference, 1)

        def sent(answer: str, revision: int = 0, **more: str) -> dict[str, Any]:
            told: dict[str, Any] = client.post(address, {"answer": answer, "revision": revision, **more}).json()
            return told

        return sent

    def test_the_same_again_is_saved_once(self, send, attempt) -> None:
        assert [(told["state"], told["revision"]) for told in (send("2"), send("2"))] == [("saved", 1)] * 2
        assert Moment.objects.filter(attempt=attempt, revision=1).count() == 1

    def test_both_are_told_where_another_window_was_quicker(self, send) -> None:
        send("2")
        told = send("3")

        assert (told["state"], told["revision"]) == ("stale", 1)
        assert Response.objects.get().answer == RIGHT
        texts = {option.id: option.text for option in an_item(seed="one").options}
        assert f'"{texts["2"]}"' in told["words"]
        assert f'"{texts["3"]}"' in told["words"]
        assert send("3", revision=1)["state"] == "saved"

    def test_a_question_seen_without_a_connection_was_first_shown_when_its_answer_came(self, send, attempt) -> None:
        send("2", unseen="1")

        shown, answered = Moment.objects.filter(attempt=attempt, position=1).order_by("pk")
        assert (shown.revision, answered.revision) == (0, 1)
        assert shown.at == answered.at

    def test_after_the_end_it_is_late(self, send, attempt) -> None:
        acts.hand_in(attempt=attempt, at=timezone.now())

        assert [send("2")["state"], send("2")["state"]] == ["late", "late"]
        assert LateAnswer.objects.get().answer == RIGHT

    def test_what_cannot_be_read_is_refused(self, send) -> None:
        told = send("of no option")
        assert told["state"] == "refused"
        assert "of no option" in told["words"]

    def test_what_is_fetched_ahead_was_not_shown(self, attempt, client_as) -> None:
        client, address = client_as("apprentice"), url("assessments:item", attempt.form.shop, attempt.form.reference, 2)
        ahead = client.get(address, headers={"Kept-Ahead": "1"})
        assert ahead.status_code == 200
        assert not Moment.objects.filter(attempt=attempt).exists()
        client.get(address)
        assert Moment.objects.filter(attempt=attempt, position=2).count() == 1


def test_a_seal_is_of_one_person_and_one_attempt(apprentice: User, trainer: User) -> None:
    seals = {kept_of(person, thing).seal for person in (apprentice, trainer) for thing in ("a", "b")}
    assert len(seals) == 4
    assert kept_of(apprentice, "a") == kept_of(apprentice, "a")
    assert {len(base64.b64decode(seal)) for seal in seals} == {32}  # AES-256, NIST FIPS 197
