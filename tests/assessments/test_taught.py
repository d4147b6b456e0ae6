"""Practice that stops to teach: after two like mistakes something to read, then the same rule again until it holds."""

from typing import Any

import pytest
from django.db import DatabaseError, transaction

from assessments import acts
from assessments.models import Attempt, FormItem, Response, Taught
from assessments.questions import Item, asks_about, canonical, right_answer
from tests.factories import NOW, AttemptFactory, FamilyOffFactory, an_item
from tests.pages import Visit, cost_of, url
from training.models import Shop, User

RIGHT, UNSAFE, WRONG = '"2"', '"1"', '"3"'  # the options of `an_item`
SIZE = "size-does-not-matter"

pytestmark = pytest.mark.django_db


@pytest.fixture
def practice(own_shop: Shop, apprentice: User) -> Attempt:
    """Three hand-written questions, all drawn already."""
    items = [an_item(seed=f"by hand {number}") for number in range(3)]
    made: Attempt = AttemptFactory.create(
        practice=True, form__shop=own_shop, form__learner=apprentice, form__items=items
    )
    return made


@pytest.fixture
def drawn(own_shop: Shop, apprentice: User) -> Attempt:
    """A practice of one family, drawn question by question, with `one` right answer to each."""
    for family in ("holes-by-size", "limit-for-casing", "cut-limit"):
        FamilyOffFactory.create(shop=own_shop, family=family)
    return acts.start_practice(shop=own_shop, learner=apprentice, skill="size-limits", at=NOW)


def answer(attempt: Attempt, position: int, given: str) -> Response:
    return acts.answer_practice(attempt=attempt, position=position, answer=given, at=NOW)


def item_at(attempt: Attempt, position: int) -> Item:
    return Item.from_json(FormItem.objects.get(form=attempt.form, position=position).snapshot)


def wrongly(item: Item) -> tuple[str, tuple[str, ...]]:
    """A wrong answer with the misconceptions that explain it, SIZE among them where it can be."""
    ways = sorted(item.distractors.items(), key=lambda one: SIZE not in one[1])
    return canonical(ways[0][0]), tuple(ways[0][1])


class TestAct:
    def test_after_two_answers_of_one_misconception_it_is_to_be_read_about(self, practice) -> None:
        answer(practice, 1, UNSAFE)
        assert not Taught.objects.exists()
        answer(practice, 2, UNSAFE)

        taught = Taught.objects.get()
        assert (taught.position, taught.misconception, taught.read_at) == (2, SIZE, None)

    def test_the_same_answer_again_teaches_nothing_twice(self, practice) -> None:
        for _ in range(2):
            answer(practice, 1, UNSAFE)
            answer(practice, 2, UNSAFE)

        assert Taught.objects.count() == 1

    def test_right_answers_and_unlike_mistakes_teach_nothing(self, practice) -> None:
        for position, given in ((1, UNSAFE), (2, WRONG), (3, RIGHT)):
            answer(practice, position, given)

        assert not Taught.objects.exists()

    def test_reading_it_twice_keeps_the_first_time(self, practice) -> None:
        answer(practice, 1, UNSAFE)
        answer(practice, 2, UNSAFE)
        acts.read_taught(attempt=practice, at=NOW)
        acts.read_taught(attempt=practice, at=NOW.replace(year=2027))

        assert Taught.objects.get().read_at == NOW

    def test_a_withdrawn_answer_does_not_count_toward_it(self, practice, trainer) -> None:
        answer(practice, 1, UNSAFE)
        row = FormItem.objects.get(form=practice.form, position=1)
        acts.withdraw_question(item=row, reason="Drawn badly.", by=trainer, at=NOW)
        answer(practice, 2, UNSAFE)

        assert not Taught.objects.exists()

    def test_the_database_keeps_what_was_taught(self, practice) -> None:
        answer(practice, 1, UNSAFE)
        answer(practice, 2, UNSAFE)
        acts.read_taught(attempt=practice, at=NOW)

        for write in (lambda: Taught.objects.update(read_at=None), lambda: Taught.objects.all().delete()):
            with pytest.raises(DatabaseError, match="kept: what practice taught"), transaction.atomic():
                write()

    def test_then_it_asks_about_the_same_until_two_answers_in_a_row_are_right(self, drawn) -> None:
        position = 1
        while not Taught.objects.exists():
            given, _ = wrongly(item_at(drawn, position))
            answer(drawn, position, given)
            position += 1
        taught = Taught.objects.get().misconception
        acts.read_taught(attempt=drawn, at=NOW)

        for _ in range(2):
            item = item_at(drawn, position)
            assert taught in asks_about(item)
            answer(drawn, position, canonical(right_answer(item)))
            position += 1

        assert Taught.objects.count() == 1
        drawn.form.refresh_from_db()
        assert drawn.form.size == acts.PRACTICE_ITEMS

    def test_a_mistake_at_the_end_makes_it_longer_and_never_endless(self, drawn) -> None:
        for position in range(1, acts.PRACTICE_ITEMS - 1):
            answer(drawn, position, canonical(right_answer(item_at(drawn, position))))
        position = acts.PRACTICE_ITEMS - 1
        while FormItem.objects.filter(form=drawn.form, position=position).exists():
            answer(drawn, position, wrongly(item_at(drawn, position))[0])
            position += 1

        drawn.refresh_from_db()
        drawn.form.refresh_from_db()
        assert Taught.objects.exists()
        assert acts.PRACTICE_ITEMS < drawn.form.size <= acts.MOST_ITEMS
        assert drawn.handed_in_at is not None


class TestPages:
    @pytest.fixture
    def place(self, practice, own_shop) -> tuple[Shop, Any]:
        answer(practice, 1, UNSAFE)
        answer(practice, 2, UNSAFE)
        return own_shop, practice.form.reference

    def test_the_next_question_waits_until_it_is_read(self, place, visit: Visit) -> None:
        asked, taught = url("assessments:practice_item", *place, 3), url("assessments:practice_taught", *place)
        for post in (None, {"answer": "2"}):
            waiting = visit(asked, post=post)
            assert (waiting.status_code, waiting["Location"]) == (302, taught)
        assert Response.objects.count() == 2

        read = visit(taught, post={})

        assert (read.status_code, read["Location"]) == (302, asked)
        assert visit(asked).status_code == 200

    def test_the_explanation_leads_to_it(self, place, visit: Visit) -> None:
        page = visit(url("assessments:practice_item", *place, 2)).text

        assert url("assessments:practice_taught", *place) in page
        assert "Next question" not in page

    def test_it_shows_the_thought_the_pair_and_the_section_of_the_course(self, place, visit: Visit) -> None:
        page = visit(url("assessments:practice_taught", *place)).text

        for said in (
            "If the stem fills the hole, its size does not matter.",
            "Size of the hole",
            "1/4\N{NO-BREAK SPACE}in",
            "9/32\N{NO-BREAK SPACE}in",
            "How to measure a hole in rubber",
            "Read, ask me again",
        ):
            assert said in page, said

    def test_it_can_be_read_again_while_the_practice_goes_on(self, place, visit: Visit) -> None:
        acts.read_taught(attempt=Attempt.objects.get(form__reference=place[1]), at=NOW)

        assert visit(url("assessments:practice_taught", *place)).status_code == 200

    def test_there_is_nothing_to_read_before_two_mistakes(self, practice, own_shop, visit: Visit) -> None:
        assert visit(url("assessments:practice_taught", own_shop, practice.form.reference)).status_code == 404

    def test_after_the_last_answer_it_leads_to_what_the_practice_showed(
        self, own_shop, apprentice, visit: Visit
    ) -> None:
        items = [an_item(seed=f"by hand {number}") for number in range(2)]
        attempt = AttemptFactory.create(
            practice=True,
            form__shop=own_shop,
            form__learner=apprentice,
            form__items=items,
            form__edition="north-america",
        )
        for position in (1, 2):
            answer(attempt, position, UNSAFE)
        attempt.refresh_from_db()
        place = (own_shop, attempt.form.reference)
        end = url("assessments:practice_end", *place)

        read = visit(url("assessments:practice_taught", *place), post={})

        following = FormItem.objects.filter(form=attempt.form, position=3).exists()
        assert read["Location"] == (url("assessments:practice_item", *place, 3) if following else end)

    def test_its_page_takes_as_many_queries_whatever_was_answered(self, own_shop, apprentice, client_as) -> None:
        costs = []
        for count in (2, 6):
            items = [an_item(seed=f"by hand {count} {number}") for number in range(count + 1)]
            attempt = AttemptFactory.create(
                practice=True, form__shop=own_shop, form__learner=apprentice, form__items=items
            )
            for position in range(1, count + 1):
                answer(attempt, position, UNSAFE)
            costs.append(
                cost_of(client_as("apprentice"), url("assessments:practice_taught", own_shop, attempt.form.reference))
            )

        assert costs[0] == costs[1]
