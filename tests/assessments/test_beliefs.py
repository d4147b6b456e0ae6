"""What answers say somebody believes, where it is shown, and that nobody is asked the same question again."""

from collections.abc import Callable
from datetime import datetime, timedelta

import pytest
from django.urls import reverse

from assessments import acts
from assessments.models import Attempt, FormItem
from assessments.queries import beliefs_of, diagnosis_of, exposure_of, shown_to
from tests.factories import NOW, AttemptFactory, ResponseFactory, UserFactory, an_item
from tests.pages import queries_of
from tests.present import present
from tests.terms import terms_of
from training.models import Shop, User

pytestmark = pytest.mark.django_db
STATEMENT = "If the stem fills the hole, its size does not matter."


@pytest.fixture
def practiced(own_shop: Shop, apprentice: User) -> Callable[..., Attempt]:
    """A practice in which these answers were given, to questions whose option 1 is what one misconception computes."""

    def make(*answers: str, learner: User = apprentice, shop: Shop = own_shop) -> Attempt:
        attempt = AttemptFactory.create(
            practice=True,
            form__shop=shop,
            form__learner=learner,
            form__items=[an_item(seed=str(n)) for n, _ in enumerate(answers)],
            handed_in_at=NOW,
        )
        for position, answer in enumerate(answers, 1):
            ResponseFactory.create(attempt=attempt, position=position, answer=answer)
        return attempt

    return make


def test_one_wrong_answer_says_nothing_and_several_of_a_kind_do(own_shop, apprentice, practiced) -> None:
    practiced('"1"')
    assert beliefs_of(own_shop, apprentice) == ()

    practiced('"1"', '"1"', '"1"')  # four in a row by now

    (belief,) = beliefs_of(own_shop, apprentice)
    assert belief.misconception.statement == STATEMENT
    assert belief.words in ("probably", "almost certainly")
    assert present(belief.lesson).slug == "measure-the-injury"


def test_right_answers_and_open_questions_accuse_nobody(own_shop, apprentice, practiced) -> None:
    practiced('"2"', '"2"', "", '"1"')

    assert beliefs_of(own_shop, apprentice) == ()


def test_an_assessment_says_nothing_before_it_is_handed_in(own_shop, apprentice) -> None:
    attempt = AttemptFactory.create(form__shop=own_shop, form__learner=apprentice)
    for position in (1, 2, 3):
        ResponseFactory.create(attempt=attempt, position=position, answer='"1"')

    before = diagnosis_of(own_shop, apprentice).answers
    acts.hand_in(attempt=attempt, at=NOW)

    assert before == 0
    assert diagnosis_of(own_shop, apprentice).answers == 3


def test_answers_of_other_people_and_other_shops_do_not_count(own_shop, other_shop, apprentice, practiced) -> None:
    practiced('"1"', '"1"', '"1"', '"1"', learner=UserFactory.create())
    practiced('"1"', '"1"', '"1"', '"1"', shop=other_shop)

    assert beliefs_of(own_shop, apprentice) == ()


def test_it_costs_the_same_with_few_answers_and_with_many(own_shop, apprentice, practiced) -> None:
    practiced('"1"')
    few = queries_of(lambda: diagnosis_of(own_shop, apprentice))
    for _ in range(6):
        practiced('"1"', '"2"', '"1"')

    assert few == queries_of(lambda: diagnosis_of(own_shop, apprentice)) == 2


def test_the_end_of_a_practice_says_what_is_probably_believed_and_links_the_lesson(own_shop, practiced, visit) -> None:
    attempt = practiced('"1"', '"1"', '"1"', '"1"')

    page = visit(reverse("assessments:practice_end", args=[own_shop.slug, attempt.form.reference])).content.decode()

    assert "What your latest answers say you think" in page
    assert STATEMENT in page
    assert "Read: " in page


def test_the_end_of_a_practice_accuses_nobody_of_a_single_slip(own_shop, practiced, visit) -> None:
    attempt = practiced('"1"', '"2"', '"2"')

    page = visit(reverse("assessments:practice_end", args=[own_shop.slug, attempt.form.reference])).content.decode()

    assert "What your latest answers say you think" not in page


def test_the_trainer_reads_it_on_the_page_of_the_person(own_shop, apprentice, practiced, visit) -> None:
    address = reverse("certificates:person", args=[own_shop.slug, apprentice.reference])
    empty = visit(address, as_role="trainer").content.decode()

    practiced('"1"', '"1"', '"1"', '"1"')
    page = visit(address, as_role="trainer").content.decode()

    assert "No one wrong idea explains the latest answers." in empty
    assert STATEMENT in page
    assert "Talk it over before you rely on it." in page


# -- the same question twice -------------------------------------------------------------------------------------------


def sit(shop: Shop, learner: User, *, at: datetime) -> list[FormItem]:
    attempt = acts.start_assessment(shop=shop, learner=learner, terms=terms_of(shop), at=at)
    acts.hand_in(attempt=attempt, at=at + timedelta(minutes=1))
    return list(FormItem.objects.filter(form=attempt.form).order_by("position"))


def test_a_repeated_attempt_asks_nothing_again(own_shop, apprentice) -> None:
    first, second = (sit(own_shop, apprentice, at=NOW + timedelta(days=days)) for days in (0, 3))

    assert all(row.digest for row in (*first, *second))
    assert len({row.digest for row in first}) == len(first)
    # where a family has no more than a handful of questions, one of them may have to come again
    again = {row.digest for row in first} & {row.digest for row in second}
    assert again == set(), [row.family for row in second if row.digest in again]


def test_another_person_may_be_asked_what_the_first_was(own_shop, apprentice, trainer) -> None:
    sit(own_shop, apprentice, at=NOW)

    assert shown_to(own_shop, apprentice)
    assert shown_to(own_shop, trainer) == frozenset()


def test_exposure_is_counted_by_family(own_shop, other_shop, apprentice) -> None:
    rows = sit(own_shop, apprentice, at=NOW)

    counted = [exposure_of(own_shop, name, at=NOW) for name in {row.family for row in rows}]
    assert sum(one.asked for one in counted) == len(rows)
    assert all(one.different <= one.asked for one in counted)
    assert exposure_of(other_shop, rows[0].family, at=NOW).asked == 0
