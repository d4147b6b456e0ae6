"""How a lesson is laid out: its sections, what lies on the bench beside which text, and sources in one fold."""

import re

import pytest

from tests.course.lessons import LESSONS, NAMES, html_of, worked
from tests.pages import text_of
from tests.present import present
from training.course import render
from training.rulebook import Edition, edition_names, load_edition

pytestmark = pytest.mark.walk  # over everything of a kind: what the README adds passes it too

NAIL = worked("9/32 in", "reject", figure="cross-section")
LONG = "Words that stand beside a drawing and go on for a while. " * 8


@pytest.fixture(scope="module")
def edition() -> Edition:
    return load_edition("north-america")


def pieces(html: str) -> list[str]:
    """The columns of a page in the order of its text, with the words that stand for each."""
    return re.findall(r'<div class="(scene[a-z -]*|bench)">|(MARK-[A-Z]+|<svg viewBox="0 0 48 48")', html)


@pytest.mark.parametrize("lesson", LESSONS, ids=NAMES)
@pytest.mark.parametrize("name", edition_names())
def test_every_heading_of_a_lesson_is_a_section_with_a_place_of_its_own(lesson, name) -> None:
    rendered = render(lesson, edition=load_edition(name))
    sections = dict(re.findall(r'(?s)<section class="lesson-part" id="([a-z0-9-]+)">.*?<h2>(.*?)</h2>', rendered.html))
    written = [line[3:] for block in lesson.blocks if block.kind == "text" and block.is_read_under(name)
               for line in block.body.splitlines() if line.startswith("## ")]  # fmt: skip

    told = [(part.anchor, part.title) for part in rendered.parts if part.anchor != "sources"]
    assert [title for _, title in told] == written
    assert {anchor: text_of(title) for anchor, title in sections.items()} == dict(told)


@pytest.mark.parametrize("lesson", LESSONS, ids=NAMES)
def test_who_says_so_stands_in_the_fold_at_the_end_and_nowhere_else(lesson, edition) -> None:
    before, fold = present(re.fullmatch(r'(?s)(.*)(<details class="lesson-sources".*)', render(
        lesson, edition=edition).html)).groups()  # fmt: skip

    assert "Checked on" not in text_of(before)
    assert "Checked on" in text_of(fold)
    assert fold.count("<details") == 1
    linked = re.findall(r'href="#(source-[a-z0-9-]+)"', before)
    assert [fold.count(f'id="{name}"') for name in linked] == [1] * len(linked)


def test_a_drawing_lies_beside_the_text_before_and_after_it(edition) -> None:
    html = html_of(
        "## Cut\n\nMARK-ONE\n\n::figure exit-outside\n\nMARK-TWO\n\n::figure exit-outside\n\nMARK-THREE\n", edition
    )

    assert ["".join(one) for one in pieces(html)] == [
        "scene", "scene-text", "MARK-ONE", "bench", "scene-text", "MARK-TWO",
        "scene", "bench", "scene-text", "MARK-THREE",
    ]  # fmt: skip


@pytest.mark.parametrize(("text", "kind"), [("Short.", "scene scene--across"), (LONG, "scene")])
def test_a_worked_example_with_little_text_beside_it_lies_across(text, kind, edition) -> None:
    html = html_of(f"## Cut\n\n{text}\n\n{NAIL}", edition)

    assert re.findall(r'<div class="(scene(?: [a-z-]+)?)">', html) == [kind]


def test_a_worked_example_shows_its_drawing_first_and_what_was_measured_last_and_folded(edition) -> None:
    html = html_of(NAIL, edition)

    places = [html.index(mark) for mark in (
        "A nail in the middle", "<figure", 'class="verdict verdict--reject"><svg', "Reject",
        "<strong>Injury A, size of the hole</strong>", '<details class="worked-facts">', "Crown thickness",
    )]  # fmt: skip
    assert places == sorted(places)
    assert html.index("Crown thickness") < html.index("</details>", html.index("worked-facts"))


def test_a_limit_card_keeps_title_value_and_reason_and_leads_to_its_source(edition) -> None:
    html = html_of("::limit injury-size\n", edition)
    card = present(re.search(r'(?s)<section class="limit-card".*?</section>', html))[0]

    assert text_of(card).startswith("Size of the hole At most 1/4 in (6 mm)")
    assert text_of(card).endswith("Source")
    assert 'href="#source-injury-size" aria-label="Source: Size of the hole"' in card
    # US association, puncture repair procedures, passenger and light truck (wall chart)
    assert "wall chart" in text_of(html.partition('id="source-injury-size"')[2].partition("</div>")[0])


def test_what_is_no_rule_here_is_said_on_the_card_and_not_in_the_fold_alone() -> None:
    html = html_of("::limit tread-depth-steer-axle\n", load_edition("united-kingdom"))
    card = present(re.search(r'(?s)<section class="limit-card".*?</section>', html))[0]

    assert "Not a rule of United Kingdom" in text_of(card)
