"""Shapes that nobody should read: units as files spell them, doubled words, words of the engine."""

import re
from collections.abc import Iterator

import pytest

from assessments.questions import Item, draw, families_of, lines_of
from tests.examples import times
from tests.rulebook.test_clauses import CLAUSES, casing_of, example_case
from training import course
from training.rulebook import decide, decision_text, edition_names, load_edition, parse_case

BANNED = re.compile(
    r"(?<![\w.])[0-9]+ (?:deg|F|C)\b"  # units as files spell them
    r"|lbf\.ft|N\.m\b|\bunits? per\b"
    r"|\b(?!had\b)([A-Za-z]+) \1\b"  # a word twice
    r"|\bTrue\b|\bFalse\b|[{}]|\bnan\b"
    r"|\b\d+/(?:64|128) in\b|\b\d+\.\d{2,} mm\b"  # finer than anybody reads
)
# what a rule itself says may be finer than an instrument
EXACT = re.compile(r"\(usually [^)]*\)")


def read_of(item: Item) -> Iterator[str]:
    """What a learner reads of a question and of its explanation."""
    yield item.stem
    yield from (option.text for option in (*item.options, *item.reasons))
    for line in item.explanation:
        yield from (str(line[name]) for name in ("found", "limit", "because"))
    if item.figure:
        yield item.figure.description


@pytest.mark.parametrize("prefer", ["in", "mm"])
@pytest.mark.parametrize("country", ["north-america", "united-kingdom"])
def test_no_question_has_a_shape_that_nobody_should_read(country: str, prefer: str) -> None:
    edition = load_edition(country)
    for name in families_of(edition):
        for number in range(times(2)):
            item = draw(name, seed=f"shape {number}", edition=edition, prefer=prefer)
            told = [*read_of(item), *(line.reason for line in lines_of(item, edition, prefer=prefer).values())]
            for text in told:
                assert not (found := BANNED.search(EXACT.sub("", text))), (name, found and found[0], text)


@pytest.mark.parametrize("country", ["north-america", "united-kingdom"])
def test_no_lesson_has_one(country: str) -> None:
    edition = load_edition(country)
    for module in course.modules():
        for lesson in module.lessons:
            html = str(course.render(lesson, edition=edition, prefer="in").html)
            text = re.sub(r"\s+", " ", re.sub(r"<[^>]+>", " ¦ ", html))
            assert not (found := BANNED.search(EXACT.sub("", text))), (lesson.slug, found and found[0])


@pytest.mark.parametrize("country", edition_names())
def test_no_answer_of_the_command_has_one(country: str) -> None:
    edition = load_edition(country)
    for found_in, clause in CLAUSES:
        if found_in.name != country or clause.is_for_job():
            continue
        casing, purpose = clause.casings[0], clause.purposes[0]
        for example in (*clause.passes[:1], *clause.fails[:1]):
            case = parse_case(example_case(clause, example, casing_of(example, casing), purpose))
            text = decision_text(decide(case, edition=edition), case, edition=edition)
            assert not (found := BANNED.search(EXACT.sub("", text))), (clause.id, found and found[0], text)
