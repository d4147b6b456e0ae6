"""The printed paper and its key: the same facts give the same bytes, everything is on them, and no key on the paper."""

from dataclasses import replace
from io import BytesIO

import pytest
from pypdf import PdfReader

from certificates.documents.certificate import NotDrawable
from certificates.documents.paper import SAFETY, answer_key_pdf, question_paper_pdf
from tests.documents.papers import FORMATS, ONE, a_paper, an_entry

FORTY = [replace(FORMATS[number % len(FORMATS)], number=number + 1) for number in range(40)]
# ISO 216 A4 is 210 x 297 mm, ANSI Letter 8 1/2 x 11 in; in points of 1/72 in
SHEETS = {"a4": (210 / 25.4 * 72, 297 / 25.4 * 72), "letter": (8.5 * 72, 11 * 72)}


def pages(pdf: bytes) -> list[str]:
    return [" ".join(page.extract_text().split()) for page in PdfReader(BytesIO(pdf)).pages]


def test_the_same_paper_gives_the_same_bytes() -> None:
    entries = [an_entry()]

    assert question_paper_pdf(a_paper()) == question_paper_pdf(a_paper())
    assert answer_key_pdf(a_paper(), entries) == answer_key_pdf(a_paper(), entries)


@pytest.mark.parametrize("page", SHEETS)
def test_every_page_is_of_the_size_asked_for_and_says_which_paper_it_is(page: str) -> None:
    for pdf in (
        question_paper_pdf(a_paper(questions=FORTY), page=page),
        answer_key_pdf(a_paper(), [an_entry()], page=page),
    ):
        found = pages(pdf)
        for number, text in enumerate(found, 1):
            assert "paper 4F2A-91C7" in text
            assert f"page {number} of {len(found)}" in text
            assert "Form 4f2a91c7-1c1e-4d0b-9d4e-0a1b2c3d4e5f" in text
            assert SAFETY in text
        sizes = {(float(one.mediabox.width), float(one.mediabox.height)) for one in PdfReader(BytesIO(pdf)).pages}
        assert len(sizes) == 1
        assert sizes.pop() == pytest.approx(SHEETS[page], abs=0.5)


def test_the_first_page_says_for_whom_how_long_and_what_passes() -> None:
    first = pages(question_paper_pdf(a_paper()))[0]

    for words in (
        "Noor Haddad",
        "Quarry Road Tire",
        "Nov 25, 2026",
        "North America, version 2026.1",
        "6 questions in 60 minutes",
        "32 of 40 right, and at most 1 unsafe release",
        "Measure nothing off the paper",
        "An unsafe release is an answer that puts a tire on the road",
    ):
        assert words in first


def test_every_format_is_printed_with_what_it_offers_and_how_to_answer() -> None:
    text = " ".join(pages(question_paper_pdf(a_paper()))[:-1])

    for words in (
        "A tire, off the wheel. What now? Choose one. A Take it out of service B Repair it by stem and patch C Add air",
        "Which are right? Choose all that are right.",
        "How deep is it? Write the number and mark its unit.",
        "In what order? Write the letters in the right order.",
        "Where does it come out? Read the place off the rulers of the drawing",
        "Which line is wrong? Write the letter of the line and the letter of the reason.",
        "Reasons: A Too fast B Too hot",
        "62 mm",
    ):
        assert words in text


@pytest.mark.parametrize("page", SHEETS)
def test_the_answer_sheet_of_forty_questions_is_one_page_of_its_own(page: str) -> None:
    *_, before, sheet = pages(question_paper_pdf(a_paper(questions=FORTY), page=page))

    assert "Answer sheet Noor Haddad" in sheet
    assert "Answer sheet" not in before
    for number in range(1, 41):
        assert f" {number} " in sheet
    for words in ("across", "reason", "Signature of the trainer"):
        assert words in sheet


def test_more_than_forty_rows_go_on_to_a_second_sheet() -> None:
    sixty = [replace(ONE, number=number + 1) for number in range(60)]

    last = pages(question_paper_pdf(a_paper(questions=sixty)))[-1]

    assert " 41 " in last
    assert " 60 " in last


def test_the_key_gives_the_answer_who_is_caught_what_is_unsafe_and_why() -> None:
    text = " ".join(pages(answer_key_pdf(a_paper(), [an_entry()])))

    for words in (
        "For the trainer alone",
        "A. Take it out of service",
        "C. Add air: Air mends it – unsafe: it releases a rejected tire",
        "After damage removal it may be at most 1/4 in (6 mm) across.",
        "9 mm: not in order",
        "Size of the hole: at most 1/4 in (6 mm)",
        "US association, wall chart (guidance)",
        "Measure the injury",
    ):
        assert words in text


def test_a_name_that_cannot_be_drawn_and_another_page_are_refused_with_words() -> None:
    with pytest.raises(NotDrawable, match="in the learner's name cannot be drawn"):
        question_paper_pdf(a_paper(learner_name="نور"))
    with pytest.raises(ValueError, match='page: "a5" is not accepted; choose a4 or letter'):
        question_paper_pdf(a_paper(), page="a5")
