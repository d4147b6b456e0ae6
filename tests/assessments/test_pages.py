"""The pages of practice and assessment as people of a shop meet them."""

import json
import re
from datetime import datetime, timedelta
from typing import Any
from zoneinfo import ZoneInfo

import pytest
from django.utils import timezone

from assessments import acts
from assessments.models import Attempt, ExtraRound, Response
from assessments.questions import Picture
from tests.factories import AttemptFactory, FormFactory, MembershipFactory, ResponseFactory, an_item
from tests.pages import Answer, Visit, cost_of, text_of, url
from training.models import Shop, User

pytestmark = pytest.mark.django_db


LIGHT = "north-america-light"


@pytest.fixture
def now() -> datetime:
    return timezone.now()


@pytest.fixture
def attempt(own_shop: Shop, apprentice: User, now: datetime) -> Attempt:
    return AttemptFactory.create(form__shop=own_shop, form__learner=apprentice, started_at=now)


@pytest.fixture
def practice(own_shop: Shop, apprentice: User, now: datetime) -> Attempt:
    return AttemptFactory.create(practice=True, form__shop=own_shop, form__learner=apprentice, started_at=now)


class TestWhoSees:
    def test_an_attempt_of_one_shop_is_not_found_in_another(
        self, visit, own_shop, other_shop, attempt, apprentice
    ) -> None:
        MembershipFactory.create(user=apprentice, shop=other_shop)

        assert visit(url("assessments:review", other_shop, attempt.form.reference)).status_code == 404
        assert visit(url("assessments:review", own_shop, attempt.form.reference)).status_code == 200

    def test_practice_is_no_assessment_and_the_other_way_round(self, visit, own_shop, attempt, practice) -> None:
        assert visit(url("assessments:item", own_shop, practice.form.reference, 1)).status_code == 404
        acts.hand_in(attempt=attempt, at=timezone.now())  # while it is open, practice is closed
        assert visit(url("assessments:practice_item", own_shop, attempt.form.reference, 1)).status_code == 404

    @pytest.mark.parametrize("position", [0, 4])
    def test_a_position_the_form_does_not_have_is_not_found(self, visit, own_shop, attempt, position) -> None:
        assert visit(url("assessments:item", own_shop, attempt.form.reference, position)).status_code == 404

    def test_a_new_round_is_for_people_of_the_shop(self, visit, own_shop, person) -> None:
        stranger = person("apprentice_of_other_shop")

        assert (
            visit(url("assessments:extra_round", own_shop, stranger.reference, LIGHT), as_role="trainer").status_code
            == 404
        )


class TestPractice:
    def test_lists_the_skills_with_their_state_in_words(self, visit, own_shop, apprentice) -> None:
        AttemptFactory.create(
            practice=True, form__shop=own_shop, form__learner=apprentice, by_skill={"measuring": [5, 10]}
        )

        page = text_of(visit(url("assessments:practice", own_shop)))

        assert "Measuring" in page
        assert "5 of the last 10 right" in page
        assert "No answers yet" in page

    def test_start_leads_to_the_first_question_and_an_unknown_skill_back_with_words(self, visit, own_shop) -> None:
        started = visit(url("assessments:practice_start", own_shop), post={"skill": "measuring"})
        refused = visit(url("assessments:practice_start", own_shop), post={"skill": "welding"})

        reference = Attempt.objects.get().form.reference
        assert started.url == url("assessments:practice_item", own_shop, reference, 1)
        assert refused.url == url("assessments:practice", own_shop)

    def test_a_question_shows_no_explanation_before_its_answer(self, visit, own_shop, practice) -> None:
        page = text_of(visit(url("assessments:practice_item", own_shop, practice.form.reference, 1)))

        assert "Practice question 1 of 3" in page
        assert "What do you do with this tire?" in page
        assert "at most 1/4 in" not in page

    def test_a_wrong_answer_brings_the_ruling_the_belief_and_the_lesson(self, visit, own_shop, practice) -> None:
        item = url("assessments:practice_item", own_shop, practice.form.reference, 1)
        answered = visit(item, post={"answer": "1", "go": "answer"})
        page = text_of(visit(item))

        assert answered.url == item
        for words in (
            "Not right",
            "the rulebook takes out of service",
            "9 mm (not in order)",
            "at most 1/4 in (6 mm)",
            "US association, puncture repair procedures",
            "Your answer; not right",
            "The right answer",
            "If the stem fills the hole",
            "Measure the injury",
        ):
            assert words in page

    def test_nothing_chosen_is_refused_beside_the_field_and_in_the_summary(self, visit, own_shop, practice) -> None:
        page = visit(url("assessments:practice_item", own_shop, practice.form.reference, 1), post={"go": "answer"})

        assert page.status_code == 200
        assert page.content.decode().count("nothing was given; answer, or choose") == 2
        assert "<title>Error: " in page.content.decode()
        assert not Response.objects.exists()

    def test_the_explanation_can_be_asked_for_without_an_answer(self, visit, own_shop, practice) -> None:
        visit(url("assessments:practice_item", own_shop, practice.form.reference, 1), post={"go": "explain"})

        assert "No answer given" in text_of(
            visit(url("assessments:practice_item", own_shop, practice.form.reference, 1))
        )

    def test_the_end_sums_up_by_skill_and_names_what_to_read(self, visit, own_shop, practice) -> None:
        for position, answer in enumerate(("2", "1", "2"), 1):
            visit(
                url("assessments:practice_item", own_shop, practice.form.reference, position),
                post={"answer": answer, "go": "answer"},
            )

        page = text_of(visit(url("assessments:practice_end", own_shop, practice.form.reference)))

        assert "2 of 3 right." in page
        assert "Size limits" in page
        assert "1 answer would have put a tire on the road" in page


class TestNumbers:
    @pytest.fixture
    def numbers(self, own_shop, apprentice, now):
        form = FormFactory.create(
            shop=own_shop, learner=apprentice, items=[an_item(format="number", figure=None), an_item()]
        )
        return AttemptFactory.create(form=form, started_at=now)

    @pytest.mark.parametrize(
        ("typed", "unit", "kept"),
        [
            ("5,5", "mm", '{"unit":"mm","value":"5.5"}'),
            ("11/32", "in", '{"unit":"in","value":"11/32"}'),
            ("5.5mm", "in", '{"unit":"mm","value":"5.5"}'),
            ("1-1/2", "in", '{"unit":"in","value":"1 1/2"}'),
        ],
    )
    def test_a_number_is_kept_as_it_was_understood_and_shown_again(
        self, visit, own_shop, numbers, typed, unit, kept
    ) -> None:
        address = url("assessments:item", own_shop, numbers.form.reference, 1)
        visit(address, post={"answer": typed, "answer_u": unit, "revision": "0"})

        page = visit(address).content.decode()

        answer = json.loads(kept)
        assert Response.objects.get().answer == kept
        assert f'value="{answer["value"]}"' in page
        assert f'<option value="{answer["unit"]}" selected>' in page
        assert f'<output class="read-as">{answer["value"]} {answer["unit"]} (' in page

    @pytest.mark.parametrize(
        ("typed", "unit", "words"),
        [
            ("1,234", "mm", 'Value: "1,234" can be 1234 or 1.234; write it without the comma'),
            ("11/32", "mm", 'Value: "11/32" is a fraction, and the unit beside it is mm'),
            ("5.5", "", 'Value: "5.5" is not a length; give a number and a unit'),
            ("0.5 cm", "mm", 'Unit: "cm" is not accepted; choose'),
            ("-5", "mm", "Value:"),
        ],
    )
    def test_what_cannot_be_understood_is_refused_and_nothing_is_kept(
        self, visit, own_shop, numbers, typed, unit, words
    ) -> None:
        address = url("assessments:item", own_shop, numbers.form.reference, 1)
        page = visit(address, post={"answer": typed, "answer_u": unit, "revision": "0"})

        assert words in text_of(page)
        assert f'value="{typed}"' in page.content.decode()
        assert not Response.objects.exists()

    def test_beside_a_drawing_the_unit_is_chosen_by_who_reads_it(self, visit, own_shop, apprentice, now) -> None:
        figure = Picture("<svg></svg>", "A caliper in millimeters.")
        form = FormFactory.create(shop=own_shop, learner=apprentice, items=[an_item(format="number", figure=figure)])
        AttemptFactory.create(form=form, started_at=now)
        address = url("assessments:item", own_shop, form.reference, 1)
        before = visit(address).content.decode()
        page = visit(address, post={"answer": "3.5", "answer_u": "", "revision": "0"})

        assert '<option value="" selected>unit</option>' in before
        assert 'Value: "3.5" is not a length; give a number and a unit' in text_of(page)
        assert not Response.objects.exists()

    @pytest.mark.parametrize(("units", "first"), [("in", "in"), ("mm", "mm")])
    def test_the_unit_of_the_shop_is_chosen_beforehand(self, visit, own_shop, numbers, units, first) -> None:
        own_shop.units = units
        own_shop.save()
        page = visit(url("assessments:item", own_shop, numbers.form.reference, 1)).content.decode()

        assert re.findall(r'<option value="(\w*)"( selected)?', page)[0] == (first, " selected")


class TestAssessmentPage:
    def test_states_the_terms_and_asks_for_a_mark_before_the_clock_starts(self, visit, own_shop) -> None:
        page = text_of(visit(url("assessments:assessment", own_shop, LIGHT)))
        refused = visit(url("assessments:assessment_start", own_shop, LIGHT), post={})

        for words in ("90 minutes", "81 percent", "At most 2 unsafe", "3, with 24 hours between them", "by simulation"):
            assert words in page
        assert "I am ready: the box is empty" in text_of(refused)
        assert not Attempt.objects.exists()

    def test_start_leads_to_question_1(self, visit, own_shop) -> None:
        started = visit(url("assessments:assessment_start", own_shop, LIGHT), post={"is_ready": "on"})

        assert started.url == url("assessments:item", own_shop, Attempt.objects.get().form.reference, 1)

    def test_a_shop_whose_rulebook_has_no_assessment_says_so(self, visit, own_shop) -> None:
        own_shop.edition = "nowhere"
        own_shop.save()

        assert "There is no assessment for your shop's rulebook yet" in text_of(
            visit(url("assessments:assessments", own_shop))
        )


class TestQuestion:
    def answer(self, visit: Visit, shop: Shop, attempt: Attempt, position: int = 1, **data: Any) -> Answer:
        address = url("assessments:item", shop, attempt.form.reference, position)
        headers = {"HX-Request": "true"} if data.pop("htmx", False) else {}
        return visit(address, post={"answer": "2", "revision": "0", "go": "next"} | data, **headers)

    def test_next_back_and_the_last_one_lead_on(self, visit, own_shop, attempt) -> None:
        reference = attempt.form.reference

        assert self.answer(visit, own_shop, attempt).url == url("assessments:item", own_shop, reference, 2)
        assert self.answer(visit, own_shop, attempt, 2, go="back").url == url(
            "assessments:item", own_shop, reference, 1
        )
        assert self.answer(visit, own_shop, attempt, 3).url == url("assessments:review", own_shop, reference)

    def test_the_page_shows_the_saved_answer_with_the_time_in_the_shops_zone(self, visit, own_shop, attempt) -> None:
        self.answer(visit, own_shop, attempt)

        page = visit(url("assessments:item", own_shop, attempt.form.reference, 1))

        local = Response.objects.get().saved_at.astimezone(ZoneInfo(own_shop.time_zone))
        assert f"Answer saved {local:%-I:%M %p}" in text_of(page)
        assert re.search(r'value="2"[^>]*checked', page.content.decode())
        assert "Question 1, answered" in text_of(page)

    def test_a_flag_is_a_notch_in_the_tread_row(self, visit, own_shop, attempt) -> None:
        self.answer(visit, own_shop, attempt, answer="", go="flag")

        page = text_of(visit(url("assessments:item", own_shop, attempt.form.reference, 1)))

        assert "Question 1, open, flagged" in page
        assert "Remove the flag" in page

    def test_a_stale_tab_is_told_and_nothing_is_overwritten(self, visit, own_shop, attempt) -> None:
        self.answer(visit, own_shop, attempt)

        page = self.answer(visit, own_shop, attempt, answer="3")

        assert "Question 1 was answered in another window" in text_of(page)
        assert Response.objects.get().answer == '"2"'

    def test_after_the_deadline_an_answer_is_refused_and_the_way_is_to_hand_in(
        self, visit, own_shop, attempt, now
    ) -> None:
        Attempt.objects.filter(pk=attempt.pk).update(
            started_at=now - timedelta(minutes=90), closes_at=now - timedelta(minutes=30)
        )

        posted = self.answer(visit, own_shop, attempt)
        got = visit(url("assessments:item", own_shop, attempt.form.reference, 1))

        assert "The clock ran out at" in text_of(posted)
        assert "An answer that comes later does not count" in text_of(posted)
        assert got.url == url("assessments:review", own_shop, attempt.form.reference)
        assert not Response.objects.exists()

    def test_htmx_gets_only_the_part_and_the_address_it_shows(self, visit, own_shop, attempt) -> None:
        address = url("assessments:item", own_shop, attempt.form.reference, 1)

        part = visit(address, **{"HX-Request": "true"})
        restored = visit(address, **{"HX-Request": "true", "HX-History-Restore-Request": "true"})

        assert "<html" not in part.content.decode()
        assert part.headers["HX-Push-Url"] == address
        assert "HX-Request" in part.headers["Vary"]
        assert "<html" in restored.content.decode()

    def test_the_review_opens_as_a_page_of_its_own(self, visit, own_shop, attempt) -> None:
        last = self.answer(visit, own_shop, attempt, 3, htmx=True)

        assert last.status_code == 200
        assert last.headers["HX-Redirect"] == url("assessments:review", own_shop, attempt.form.reference)

    def test_a_choice_is_saved_as_it_is_made(self, visit, own_shop, attempt) -> None:
        saved = self.answer(visit, own_shop, attempt, go="stay", htmx=True)
        changed = self.answer(visit, own_shop, attempt, go="stay", htmx=True, answer="3", revision="1")
        refused = self.answer(visit, own_shop, attempt, go="stay", htmx=True, answer="9", revision="2")

        assert "Answer saved" in text_of(saved)
        assert 'name="revision" value="2"' in changed.content.decode()
        assert "Not saved." in text_of(refused)
        assert 'name="revision" value="2"' in refused.content.decode()
        assert Response.objects.get().answer == '"3"'

    def test_the_clock_counts_down_and_says_when_it_is_up(self, visit, own_shop, attempt, now) -> None:
        running = text_of(visit(url("assessments:clock", own_shop, attempt.form.reference)))
        Attempt.objects.filter(pk=attempt.pk).update(
            started_at=now - timedelta(minutes=90), closes_at=now - timedelta(minutes=30)
        )
        up = visit(url("assessments:clock", own_shop, attempt.form.reference)).content.decode()

        assert running.startswith("60 min left, until ")
        assert "Time is up" in up
        assert "hx-trigger" not in up


class TestHandIn:
    def test_review_names_what_is_open_and_flagged(self, visit, own_shop, attempt, now) -> None:
        ResponseFactory.create(attempt=attempt, position=1)
        ResponseFactory.create(attempt=attempt, position=2, answer="", is_flagged=True)

        page = text_of(visit(url("assessments:review", own_shop, attempt.form.reference)))

        assert "Answered 1 of 3" in page
        assert "Open Question 2 Question 3" in page
        assert "Flagged Question 2" in page

    def test_hand_in_shows_the_result_and_a_second_press_the_same(self, visit, own_shop, attempt) -> None:
        first = visit(url("assessments:hand_in", own_shop, attempt.form.reference), post={})
        second = visit(url("assessments:hand_in", own_shop, attempt.form.reference), post={})

        assert first.url == second.url == url("assessments:result", own_shop, attempt.form.reference)
        page = text_of(visit(first.url))
        assert "Not passed" in page
        assert "Right 0 of 3" in page
        assert "Provisional" in page

    def test_the_result_shows_no_question_and_no_key(self, visit, own_shop, attempt) -> None:
        ResponseFactory.create(attempt=attempt, position=1, answer='"1"')
        visit(url("assessments:hand_in", own_shop, attempt.form.reference), post={})

        page = text_of(visit(url("assessments:result", own_shop, attempt.form.reference)))

        assert "What do you do with this tire?" not in page
        assert "Take it out of service" not in page
        assert "Measure the injury" in page  # the lesson to read again

    def test_the_result_is_not_there_before_hand_in(self, visit, own_shop, attempt) -> None:
        assert visit(url("assessments:result", own_shop, attempt.form.reference)).url == url(
            "assessments:review", own_shop, attempt.form.reference
        )


def test_a_new_round_needs_a_reason(visit, own_shop, apprentice, monkeypatch) -> None:
    from assessments.acts import rounds
    from assessments.queries import State

    monkeypatch.setattr(
        rounds, "theory_of", lambda shop, learner, terms: type("T", (), {"state": lambda self, at: State.USED_UP})()
    )
    address = url("assessments:extra_round", own_shop, apprentice.reference, LIGHT)

    refused = visit(address, as_role="trainer", post={"reason": "  "})
    given = visit(address, as_role="trainer", post={"reason": "We went through it."})

    assert "nothing was given; write at least a few words" in text_of(refused)
    assert given.url == address
    assert ExtraRound.objects.get().reason == "We went through it."


class TestQueries:
    """A page costs the same with few rows and with many."""

    # one of an item's and of the review's keeps the moment at which the page was shown
    @pytest.mark.parametrize(("name", "most"), [("item", 6), ("review", 6), ("clock", 4)])
    def test_pages_of_an_open_attempt(self, own_shop, apprentice, trainer, client_as, now, name, most) -> None:
        counts = []
        for learner, size in ((apprentice, 3), (trainer, 40)):
            form = FormFactory.create(shop=own_shop, learner=learner, size=size)
            attempt = AttemptFactory.create(form=form, started_at=now)
            for position in range(1, size):
                ResponseFactory.create(attempt=attempt, position=position)
            args = (form.reference, 1) if name == "item" else (form.reference,)
            counts.append(cost_of(client_as(learner), url(f"assessments:{name}", own_shop, *args)))

        assert counts[0] == counts[1] <= most

    @pytest.mark.parametrize("name", ["practice", "assessment"])
    def test_start_pages(self, own_shop, apprentice, client_as, name) -> None:
        client = client_as(apprentice)

        def more(count: int) -> None:
            for _ in range(count):
                AttemptFactory.create(not_passed=True, form__shop=own_shop, form__learner=apprentice)
                AttemptFactory.create(
                    practice=True, form__shop=own_shop, form__learner=apprentice, by_skill={"measuring": [1, 2]}
                )

        more(1)
        address = url(f"assessments:{name}", own_shop, *([LIGHT] if name == "assessment" else []))
        few = cost_of(client, address)
        more(10)

        assert cost_of(client, address) == few <= 8


def test_the_page_of_practice_draws_nothing_to_see_whether_it_could(visit, own_shop, monkeypatch) -> None:
    first = visit(url("assessments:practice", own_shop))

    def refuse(*_: object, **__: object) -> None:
        raise AssertionError("a question was drawn")

    for place in ("coverage", "sampling", "practice"):
        monkeypatch.setattr(f"assessments.questions.draws.{place}.draw", refuse)

    assert text_of(visit(url("assessments:practice", own_shop))) == text_of(first)
