"""The pages of papers: what is printed, what is typed in, who sees it, and that the paper gives nothing away."""

from io import BytesIO
from typing import Any

import pytest
from django.urls import reverse
from django.utils import timezone
from pypdf import PdfReader

from assessments import acts
from assessments.acts.blueprints import keep_blueprint
from assessments.models import FormItem, Paper, Response
from assessments.questions import family
from certificates.forms.papers import PaperAnswersForm
from certificates.queries.papers import sheet_lines, short_answer
from tests.certificates.sheets import FACTS, SHEET
from tests.factories import FormFactory, MembershipFactory, PaperFactory, a_pictured_item, an_item
from tests.pages import cost_of, text_of, url
from tests.terms import terms_of

pytestmark = pytest.mark.django_db

ALL_FORMATS = [an_item(**facts) for facts in FACTS]


@pytest.fixture
def paper(own_shop, apprentice, trainer) -> Paper:
    return PaperFactory.create(
        form__shop=own_shop,
        form__learner=apprentice,
        form__blueprint=keep_blueprint(terms_of(own_shop)),
        form__items=ALL_FORMATS,
        form__drawn_at=timezone.now(),
        made_by=trainer,
    )


def pdf_text(response) -> str:
    assert response.headers["Content-Type"] == "application/pdf"
    return " ".join(" ".join(page.extract_text().split()) for page in PdfReader(BytesIO(response.content)).pages)


def answers_to(sheet: dict[str, Any]) -> PaperAnswersForm:
    from django.http import QueryDict

    data = QueryDict(mutable=True)
    for name, value in sheet.items():
        data.setlist(name, value if isinstance(value, list) else [value])
    return PaperAnswersForm(data, asked=[item.open() for item in ALL_FORMATS], saved={})


class TestSheet:
    def test_every_format_is_read_as_it_is_stored(self) -> None:
        form = answers_to(SHEET)

        assert form.is_valid(), form.errors
        assert form.answers() == {
            1: '"2"',
            2: '["1","2"]',
            3: '{"unit":"mm","value":"9"}',
            4: '["2","1","3"]',
            5: '{"x":"60","y":"8"}',
            6: '{"reason":"2","step":"1"}',
        }

    def test_a_sheet_left_open_is_no_answer_at_all(self) -> None:
        form = answers_to({})

        assert form.is_valid(), form.errors
        assert set(form.answers().values()) == {""}

    @pytest.mark.parametrize(
        ("typed", "words"),
        [
            ({"a1": "9"}, 'Question 1. Answer: "9" is not one of the options; choose 1, 2 or 3'),
            ({"a3": "7-5"}, 'Question 3. Value: "7-5" is not a length; give a number and a unit'),
            ({"a3_u": ""}, 'Question 3. Value: "9" is not a length; give a number and a unit'),
            ({"a4": "A A B"}, 'Question 4. Order: "A A B" is not accepted; write each of the letters A to C once'),
            ({"a4": "A B"}, 'Question 4. Order: "A B" is not accepted; write each of the letters A to C once'),
            ({"a5_1": ""}, "Question 5. Up: nothing was given; read it on the ruler beside the drawing"),
            ({"a6_1": ""}, "Question 6. Reason: nothing was given; choose what is wrong with the line"),
        ],
    )
    def test_what_cannot_stand_on_the_sheet_is_refused_naming_the_question(self, typed, words) -> None:
        form = answers_to(SHEET | typed)

        [[said]] = form.errors.values()
        assert str(said).startswith(words)

    def test_what_was_typed_is_said_back_in_letters(self) -> None:
        typed: dict[int, str | list[str] | dict[str, str] | None] = {
            1: "2",
            2: ["1", "2"],
            3: {"unit": "mm", "value": "9"},
            4: ["2", "1", "3"],
            5: {"x": "60", "y": "8"},
            6: {"step": "1", "reason": "2"},
        }

        assert [words for _, words in sheet_lines([item.open() for item in ALL_FORMATS], typed)] == [
            "B",
            "A B",
            "9 mm",
            "B – A – C",
            "60 mm across, 8 mm up",
            "line A, reason B",
        ]
        assert [short_answer(item) for item in ALL_FORMATS] == [
            "B",
            "A B",
            "9 mm, within 0.5 mm",
            "B – A – C",
            "across 59 to 65 mm, up 4 to 12 mm",
            "A, reason B",
        ]


class TestPrinting:
    def test_the_paper_holds_every_question_and_the_name_and_the_key_nothing_of_the_kind(
        self, visit, own_shop, paper
    ) -> None:
        printed = pdf_text(visit(url("certificates:paper_pdf", own_shop, paper.form.reference), as_role="trainer"))
        key = pdf_text(visit(url("certificates:paper_key_pdf", own_shop, paper.form.reference), as_role="trainer"))

        assert paper.form.learner.name in printed
        assert printed.count("What do you do with this tire?") == 6
        assert str(paper.form.reference) in printed
        for words in ("Right", "If the stem fills the hole", "After damage removal the hole may be", "unsafe: it"):
            assert words not in printed
        assert "After damage removal the hole may be at most 1/4 in (6 mm) across" in key
        assert "9 mm: not in order" in key
        assert "US association, puncture repair procedures (wall chart)" in key

    def test_the_paper_is_the_same_whichever_answer_is_right(self, visit, own_shop, paper) -> None:
        address = url("certificates:paper_pdf", own_shop, paper.form.reference)
        before = visit(address, as_role="trainer").content

        for row in FormItem.objects.filter(form=paper.form, position=1):
            row.snapshot |= {"key": "3", "unsafe": ["2"], "distractors": {}}
            row.save()

        assert visit(address, as_role="trainer").content == before

    @pytest.mark.parametrize(("page", "width"), [("a4", 595), ("letter", 612)])
    def test_both_page_sizes_are_printed_and_another_is_refused(self, visit, own_shop, paper, page, width) -> None:
        address = url("certificates:paper_pdf", own_shop, paper.form.reference)

        made = visit(f"{address}?page={page}", as_role="trainer")
        refused = visit(f"{address}?page=a5", as_role="trainer")

        assert round(float(PdfReader(BytesIO(made.content)).pages[0].mediabox.width)) == width
        assert refused.url == url("certificates:paper", own_shop, paper.form.reference)

    def test_a_name_that_cannot_be_printed_is_said_in_words(self, client_as, own_shop, paper) -> None:
        paper.form.learner.name = "نور"
        paper.form.learner.save()

        page = client_as("trainer").get(url("certificates:paper_pdf", own_shop, paper.form.reference), follow=True)

        assert "in the learner's name cannot be drawn by the paper's fonts." in text_of(page)


class TestStory:
    def test_from_the_making_to_the_result_on_the_learners_own_page(self, visit, own_shop, apprentice, trainer) -> None:
        visit(url("certificates:paper_make", own_shop, apprentice.reference), as_role="trainer", post={})
        reference = Paper.objects.get().form.reference
        person = text_of(visit(url("certificates:person", own_shop, apprentice.reference), as_role="trainer"))
        own = text_of(visit(reverse("assessments:assessment", args=[own_shop.slug, "north-america-light"])))

        assert "answers not typed in yet" in person
        assert "A paper is printed for you" in own
        position = FormItem.objects.filter(form__reference=reference, snapshot__content__format="one")[0].position
        visit(url("certificates:paper_answers", own_shop, reference), as_role="trainer", post={f"a{position}": "1"})
        shown = text_of(visit(url("certificates:paper", own_shop, reference), as_role="trainer"))
        assert f"By {trainer.name}" in shown
        assert "59 left open" in shown
        visit(url("certificates:paper_hand_in", own_shop, reference), as_role="trainer", post={})

        result = text_of(visit(reverse("assessments:result", args=[own_shop.slug, reference])))
        assert "Not passed" in result
        assert f"typed in by {trainer.name}" in text_of(
            visit(url("certificates:paper", own_shop, reference), as_role="trainer")
        )

    def test_the_learner_cannot_answer_the_paper_on_the_screen(self, visit, own_shop, paper) -> None:
        for name, args in (("item", (1,)), ("review", ()), ("clock", ()), ("result", ())):
            address = reverse(f"assessments:{name}", args=[own_shop.slug, paper.form.reference, *args])
            answer = visit(address)
            assert answer.status_code in (302, 404), name
            if answer.status_code == 302:
                assert visit(answer.url).status_code == 404
        posted = visit(
            reverse("assessments:item", args=[own_shop.slug, paper.form.reference, 1]),
            post={"answer": "2", "revision": "0"},
        )
        assert posted.status_code == 404
        assert not Response.objects.exists()

    def test_a_trainer_sees_no_paper_of_their_own(self, visit, own_shop, trainer, person) -> None:
        own = PaperFactory.create(
            form__shop=own_shop, form__learner=trainer, made_by=MembershipFactory.create(shop=own_shop).user
        )

        for page in ("paper", "paper_pdf", "paper_key_pdf", "paper_answers"):
            assert (
                visit(url(f"certificates:{page}", own_shop, own.form.reference), as_role="trainer").status_code == 404
            )

    def test_withdrawing_needs_a_reason(self, visit, own_shop, paper) -> None:
        address = url("certificates:paper_withdraw", own_shop, paper.form.reference)

        refused = visit(address, as_role="trainer", post={"reason": ""})
        done = visit(address, as_role="trainer", post={"reason": "Printed twice."})

        assert "Why is it withdrawn?: nothing was given; say it in a sentence" in text_of(refused)
        assert done.status_code == 302
        assert "Printed twice. It does not count as an attempt." in text_of(
            visit(url("certificates:paper", own_shop, paper.form.reference), as_role="trainer")
        )

    def test_a_stand_in_is_named_where_the_paper_is_made_and_on_the_paper(
        self, visit, own_shop, apprentice, trainer
    ) -> None:
        acts.switch_family_off(
            shop=own_shop, family_name="torque-recheck", reason="Not here.", by=trainer, at=timezone.now()
        )

        before = text_of(visit(url("certificates:paper_make", own_shop, apprentice.reference), as_role="trainer"))
        visit(url("certificates:paper_make", own_shop, apprentice.reference), as_role="trainer", post={})
        after = text_of(
            visit(url("certificates:paper", own_shop, Paper.objects.get().form.reference), as_role="trainer")
        )

        assert f"stands in for {family('torque-recheck').title}." in before
        assert "not asked in this shop" in after


@pytest.mark.parametrize("page", ["paper", "paper_pdf", "paper_key_pdf", "paper_answers"])
def test_a_page_costs_the_same_with_three_questions_and_with_forty(own_shop, trainer, client_as, page) -> None:
    client, counts = client_as("trainer"), []
    for size in (3, 40):
        learner = MembershipFactory.create(shop=own_shop).user
        form = FormFactory.create(shop=own_shop, learner=learner, purpose="paper", size=size, drawn_at=timezone.now())
        paper = PaperFactory.create(form=form)
        acts.type_answers(
            paper=paper, answers=dict.fromkeys(range(1, size), '"2"'), typed_by=trainer, at=timezone.now()
        )
        counts.append(cost_of(client, url(f"certificates:{page}", own_shop, form.reference)))

    assert counts[0] == counts[1] <= 7


@pytest.mark.parametrize("pdf", ["paper_pdf", "paper_key_pdf"])
def test_pictures_are_printed_and_said_to_be_computed(own_shop, trainer, apprentice, client_as, pdf) -> None:
    items = [a_pictured_item(), a_pictured_item(pictures=6), an_item()]
    form = FormFactory.create(shop=own_shop, learner=apprentice, purpose="paper", items=items, drawn_at=timezone.now())
    PaperFactory.create(form=form)

    got = client_as("trainer").get(url(f"certificates:{pdf}", own_shop, form.reference)).content

    pages = PdfReader(BytesIO(got)).pages
    words = " ".join(page.extract_text() for page in pages)
    sizes = [image.image.size for page in pages for image in page.images if image.image is not None]
    # seven are shown; the first of the six is the first of the one, and a file is embedded once a page at least
    assert set(sizes) == {(640, 480)}
    assert len(sizes) >= 6
    assert words.count("Computed, not photographed.") == words.count("All computed, none photographed.") == 1
    assert [number for number in range(1, 7) if f"Picture {number}" in words] == [1, 2, 3, 4, 5, 6]
    assert "bulge" not in words
