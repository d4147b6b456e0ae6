"""What the words of the lessons promise: no number of the trade typed by hand, cautions, deference."""

import re
from collections.abc import Sequence

import pytest

from tests.course.lessons import LESSONS, NAMES
from training.course import Lesson, render
from training.course.lessons import DATA, Block
from training.course.loader import modules
from training.rulebook import edition_names, load_edition
from training.trade.words import SKILLS

pytestmark = pytest.mark.walk  # over everything of a kind: what the README adds passes it too

# those whose lessons have passages of their own: a country that is added reads the trade's until it has some
_WITH_PASSAGES = {block.only for lesson in LESSONS for block in lesson.blocks if block.only}
EDITIONS = [name for name in edition_names() if name in _WITH_PASSAGES]
UNITS = (
    r"inch(?:es)?|in\.?|mm|millimet(?:er|re)s?|cm|deg(?:rees?)?|°|psi|kpa|bar|rpm|min(?:ute)?s?"
    r"|seconds?|hours?|days?|years?|percent|%|miles?|km|kilomet(?:er|re)s?|n·m|newton|foot-pounds?|ft|lb|pounds?|times|passes"
)
NUMBER_WORDS = (
    r"one|two|three|four|five|six|seven|eight|nine|ten|twelve|fifteen|twenty|thirty|forty|fifty|sixty|hundred|thousand"
    r"|half|quarter|third|eighth|sixteenth|thirty-second"
)


def read_under(lesson: Lesson, edition: str) -> list[Block]:
    """The blocks that a reader under this edition sees."""
    return [block for block in lesson.blocks if block.only in ("", edition)]


def typed_words(blocks: Sequence[Block]) -> str:
    """The words a writer typed: no directives, no worked cases, no numbers of a list."""
    typed = [block.body for block in blocks if block.kind not in DATA]
    typed += [block.argument for block in blocks if block.kind == "caution"]
    text = "\n".join(typed)
    text = re.sub(r"\{(?:limit|lesson):[a-z0-9/-]+\}", "", text)
    return re.sub(r"(?m)^\d+\. ", "", text)


def typed_numbers(text: str) -> list[str]:
    """Every digit, and every number word that carries a unit."""
    digits = re.findall(r".{0,20}\d.{0,20}", text)
    spelled = re.findall(
        rf"(?i)\b(?:{NUMBER_WORDS})(?:[ -](?:and|of|to|a|an|or|{NUMBER_WORDS}))*[ -](?:{UNITS})(?![a-z])", text
    )
    return digits + spelled


@pytest.mark.parametrize(
    "sentence",
    ["at most 6 mm", "a quarter of an inch", "three to five minutes", "half an inch", "twenty-five degrees", "40 psi"],
)
def test_the_search_for_typed_numbers_finds_them(sentence) -> None:
    assert typed_numbers(sentence)


@pytest.mark.parametrize("lesson", LESSONS, ids=NAMES)
def test_no_number_of_the_trade_is_typed_into_a_lesson(lesson) -> None:
    assert typed_numbers(typed_words(lesson.blocks)) == []


@pytest.mark.parametrize("edition", EDITIONS)
@pytest.mark.parametrize("lesson", LESSONS, ids=NAMES)
def test_a_lesson_can_be_read_in_the_time_it_tells(lesson, edition) -> None:
    words = len(typed_words(read_under(lesson, edition)).split())

    assert 200 <= words <= 1000
    # Technical text with tables and drawings, 90 to 180 words a minute: common practice, no published source.
    assert 90 <= words / lesson.minutes <= 180


@pytest.mark.parametrize("edition", EDITIONS)
@pytest.mark.parametrize("lesson", LESSONS, ids=NAMES)
def test_a_lesson_warns_stops_asks_and_defers(lesson, edition) -> None:
    blocks = read_under(lesson, edition)
    kinds = [block.kind for block in blocks]
    text = typed_words(blocks)

    assert "caution" in kinds
    assert kinds.count("stop") == kinds.count("self-check") == 1
    assert kinds[-1] == "self-check"
    assert 2 <= len(re.findall(r"(?m)^- .*\?$", blocks[-1].body)) <= 4
    assert re.search(r"(?i)\blocal (?:codes?|rules|inspection)|\bcodes?\b", text)
    assert re.search(r"maker", text)


@pytest.mark.parametrize("edition", EDITIONS)
@pytest.mark.parametrize("lesson", LESSONS, ids=NAMES)
def test_a_lesson_shows_a_drawing(lesson, edition) -> None:
    assert any(
        block.kind in ("figure", "movable") or (block.kind == "worked" and '"none"' not in block.body)
        for block in read_under(lesson, edition)
    )


@pytest.mark.parametrize("edition", EDITIONS)
@pytest.mark.parametrize("lesson", LESSONS, ids=NAMES)
def test_a_lesson_names_no_rule_that_its_readers_do_not_work_under(lesson, edition) -> None:
    html = render(lesson, edition=load_edition(edition)).html

    others = [load_edition(name).title for name in EDITIONS if name != edition]
    assert not [title for title in others if f"({title})" in html or f", {title}" in html]
    assert "Not a rule of" not in html
    assert "the answer differs from the one in the text" not in html


def test_both_countries_of_the_house_have_passages_of_their_own() -> None:
    assert {"north-america", "united-kingdom"} <= set(EDITIONS)


def test_the_course_teaches_every_skill() -> None:
    taught = {skill for lesson in LESSONS for skill in lesson.skills}

    assert taught == set(SKILLS)


def test_the_course_has_the_modules_in_the_order_of_the_work() -> None:
    in_order = {
        "inspect-and-reject": ["off-the-wheel", "reject-on-sight", "tread-and-wear", "read-the-sidewall"],
        "measure-and-choose": ["measure-the-injury", "where-it-may-be", "angle-and-method", "two-injuries"],
        "prepare-install-return": [
            "clean-and-cut",
            "outline-and-buff",
            "cement-and-dry",
            "install-and-stitch",
            "return-to-service",
        ],
        "steel-bodies": [
            "what-a-steel-body-is",
            "run-soft-and-the-cage",
            "injury-in-a-steel-body",
            "repair-a-steel-body",
            "duals-and-axles",
        ],
        "motorcycles": ["motorcycle-tires", "what-law-says-of-motorcycles"],
    }

    assert list(in_order) == [module.slug for module in modules() if module.slug in in_order]
    for module in modules():
        known = in_order.get(module.slug, [])
        assert [lesson.slug for lesson in module.lessons if lesson.slug in known] == known


def test_only_the_modules_about_single_kinds_of_tires_name_casings() -> None:
    assert {module.slug: module.casings for module in modules() if module.casings} == {
        "steel-bodies": ("light-truck-steel", "truck"),
        "motorcycles": ("motorcycle",),
    }
