"""A worked example reads as somebody with a rule in the shop's unit measured it, unless a mark turns the answer."""

import re

import pytest

from tests.course.lessons import LESSONS, lesson_of, worked
from training.course import render
from training.rulebook import Edition, load_edition

EXAMPLE = re.compile(r'<section class="worked".*?</section>', re.DOTALL)
DRAWN = re.compile(r"<text[^>]*>([^<]*)</text>")


def drawn_in_examples(edition: Edition, prefer: str) -> list[str]:
    """Every text in a drawing of a worked example of the course."""
    pages = (render(lesson, edition=edition, prefer=prefer).html for lesson in LESSONS)
    return [text for page in pages for example in EXAMPLE.findall(page) for text in DRAWN.findall(example)]


@pytest.mark.parametrize(("name", "prefer", "other"), [("north-america", "in", "mm"), ("united-kingdom", "mm", "in")])
def test_drawings_of_worked_examples_measure_in_the_unit_of_the_shop(name: str, prefer: str, other: str) -> None:
    texts = drawn_in_examples(load_edition(name), prefer)
    assert len([text for text in texts if re.search(rf"\d {prefer}\b", text)]) > 20
    assert [text for text in texts if re.search(rf"\d {other}\b", text)] == []


# Source: US association puncture repair procedures (wall chart): at most 1/4 in (6 mm) after damage removal
@pytest.mark.parametrize(("typed", "expect", "read"), [("5 mm", "repair", "3/16 in"), ("6.5 mm", "reject", "6.5 mm")])
def test_what_a_mark_would_turn_stays_as_it_was_typed(typed: str, expect: str, read: str) -> None:
    # 6.5 mm is nearest to 1/4 in, which may be repaired
    lesson = lesson_of(worked(typed, expect, figure="cross-section"))
    example = EXAMPLE.findall(render(lesson, edition=load_edition("north-america"), prefer="in").html)[0]
    assert f"Ø {read}" in example.replace("\u00a0", " ").replace("\u2009", " ")
