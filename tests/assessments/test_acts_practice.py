"""Practice: drawn for one person, marked at once, one answer a question."""

from datetime import datetime, timedelta
from random import Random

import pytest

from assessments import acts
from assessments.acts.practice import _ahead
from assessments.models import Attempt, Response
from assessments.questions import Item, canonical
from assessments.questions.diagnosis.diagnosis import Outlook
from assessments.questions.draws.sampling import CannotDraw
from tests.factories import NOW, AttemptFactory
from tests.simulations.learners import intended
from training.models import Shop, User
from training.trade.speech import in_language

RIGHT, UNSAFE = '"2"', '"1"'

pytestmark = pytest.mark.django_db


def start(shop: Shop, learner: User, skill: str, *, at: datetime = NOW) -> Attempt:
    return acts.start_practice(shop=shop, learner=learner, skill=skill, at=at)


def answer(attempt: Attempt, position: int, text: str, *, at: datetime = NOW) -> Response:
    return acts.answer_practice(attempt=attempt, position=position, answer=text, at=at)


@pytest.fixture
def attempt(own_shop, apprentice):
    return AttemptFactory.create(practice=True, form__shop=own_shop, form__learner=apprentice)


def test_a_skill_is_practiced_on_questions_of_that_skill(own_shop, apprentice) -> None:
    attempt = start(own_shop, apprentice, "measuring")
    for position in range(1, 9):
        answer(attempt, position, "")

    assert attempt.form.items.count() == attempt.form.size == 8
    assert set(attempt.form.items.values_list("skill", flat=True)) == {"measuring"}


def test_each_question_is_drawn_when_the_one_before_it_was_answered(own_shop, apprentice) -> None:
    attempt = start(own_shop, apprentice, "measuring")
    drawn = [attempt.form.items.count()]
    for position in range(1, 9):
        answer(attempt, position, "")
        answer(attempt, position, "")  # pressed twice
        drawn.append(attempt.form.items.count())

    assert drawn == [1, 2, 3, 4, 5, 6, 7, 8, 8]
    attempt.refresh_from_db()
    assert attempt.handed_in_at == NOW


def test_a_wrong_answer_brings_a_question_that_speaks_of_the_same_misconception(own_shop, apprentice) -> None:
    attempt = start(own_shop, apprentice, "size-limits")
    believed = None
    for position in range(1, 8):
        item = Item.from_json(attempt.form.items.get(position=position).snapshot)
        if believed is not None:
            assert believed in Outlook(item).names
            return
        meant = intended(item, {"stricter-size"}, Random(1))
        said = answer(attempt, position, canonical(meant or None))
        believed = "stricter-size" if said.misconceptions == ["stricter-size"] else None
    pytest.fail("nobody was asked what this misconception answers wrongly")


def test_an_answer_counts_where_no_other_question_can_be_drawn(own_shop, apprentice, monkeypatch) -> None:
    attempt = start(own_shop, apprentice, "measuring")

    def refuse(*_args, **_kept):
        raise CannotDraw("nothing left")

    monkeypatch.setattr("assessments.acts.practice.draw_practice", refuse)
    answer(attempt, 1, "")

    attempt = Attempt.objects.select_related("form").get()
    assert (attempt.handed_in_at, attempt.form.size) == (NOW, 1)
    assert attempt.responses.count() == 1


def test_mixed_practice_asks_several_skills(own_shop, apprentice) -> None:
    attempt = start(own_shop, apprentice, "")
    for position in range(1, 4):
        answer(attempt, position, "")

    assert len(set(attempt.form.items.values_list("skill", flat=True))) > 1


def test_pressed_twice_goes_on_with_the_unfinished_practice_of_that_skill(own_shop, apprentice, trainer) -> None:
    first = start(own_shop, apprentice, "measuring")

    assert start(own_shop, apprentice, "measuring", at=NOW + timedelta(days=1)) == first
    assert start(own_shop, apprentice, "") != first
    assert start(own_shop, trainer, "measuring") != first


def test_a_finished_practice_is_followed_by_new_questions(own_shop, apprentice) -> None:
    first = start(own_shop, apprentice, "measuring")
    for position in range(1, 9):
        answer(first, position, "")

    second = start(own_shop, apprentice, "measuring", at=NOW + timedelta(minutes=9))

    assert second != first
    stems = [
        set(one.form.items.values_list("open__content__stem", "open__content__figure__description"))
        for one in (first, second)
    ]
    assert stems[0] != stems[1]


def test_an_unknown_skill_is_refused_naming_the_known_ones(own_shop, apprentice) -> None:
    with pytest.raises(acts.UnknownSkill, match=r'Skill: "welding" is not accepted; choose one of .*measuring'):
        start(own_shop, apprentice, "welding")


def test_an_answer_is_marked_at_once_and_the_same_again_changes_nothing(attempt) -> None:
    first = answer(attempt, 1, UNSAFE)
    second = answer(attempt, 1, UNSAFE, at=NOW + timedelta(minutes=1))

    assert (first.is_right, first.is_unsafe, first.misconceptions) == (False, True, ["size-does-not-matter"])
    assert (second.pk, second.saved_at) == (first.pk, NOW)
    assert Attempt.objects.get().by_skill == {"size-limits": [0, 1]}


def test_the_answer_stays_after_its_explanation(attempt) -> None:
    answer(attempt, 1, UNSAFE)

    with pytest.raises(acts.AlreadyAnswered, match="Question 1 was answered before; the first answer stays"):
        answer(attempt, 1, RIGHT)
    assert Attempt.objects.get().by_skill == {"size-limits": [0, 1]}


def test_asking_for_the_explanation_counts_as_not_right_and_never_as_unsafe(attempt) -> None:
    skipped = answer(attempt, 1, "")

    assert (skipped.is_right, skipped.is_unsafe) == (False, False)


def test_the_last_answer_ends_it_without_an_outcome(attempt) -> None:
    for position, text in enumerate((RIGHT, UNSAFE, RIGHT), 1):
        answer(attempt, position, text)

    attempt.refresh_from_db()
    assert (attempt.handed_in_at, attempt.right_count, attempt.unsafe_count, attempt.outcome) == (NOW, 2, 1, "")


def test_what_is_drawn_ahead_is_kept_for_the_language_it_was_drawn_in() -> None:
    alike = ("north-america", "2026.1", "in", None, ("passenger",), ())
    with in_language("en-GB"):
        british = _ahead(*alike)
        assert _ahead(*alike) is british
    with in_language("en-US"):
        assert _ahead(*alike) is not british
