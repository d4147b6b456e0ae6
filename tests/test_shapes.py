"""Shapes that nobody should read: units as files spell them, doubled words, words of the engine."""

import re

import pytest

from assessments.questions import Item, draw
from tests.examples import times
from tests.rulebook.test_clauses import CLAUSES, casing_of, example_case
from tests.shapes import BANNED, EDITIONS, EXACT, faults_of, look, main
from training import course
from training.rulebook import decide, decision_text, edition_names, load_edition, parse_case
from training.trade.speech import in_language


@pytest.mark.parametrize("country", EDITIONS)
def test_no_question_has_a_shape_that_nobody_should_read(country: str) -> None:
    looked, faults = look(load_edition(country), draws=times(4), seed="shape")

    assert looked > 300
    assert not faults


@pytest.mark.parametrize(
    ("tag", "stem", "faults"),
    [
        ("en-US", "A nail at 12 deg", {"banned"}),
        # numbers by CLDR, both languages
        ("en-US", "At 80 % of its pressure", {"banned"}),
        ("en-GB", "At 80 % of its pressure", {"banned"}),
        ("en-US", "A cutter at 1200 rpm", {"banned"}),
        ("en-US", "At 80% of its pressure, a cutter at 1,200 rpm, the other at 900 rpm", set()),
        ("en-US", "Found: found on the the tread", {"banned"}),
        ("en-US", "It has injury-size against it", {"identifier"}),
        # dates by CLDR, spelling by common practice, no published source
        ("en-US", "Made on November 20, 2026", set()),
        ("en-US", "Made on 20 November 2026", {"date of elsewhere"}),
        ("en-US", "Made on 2026-11-20", {"date of elsewhere"}),
        ("en-US", "The tyre", {"spelling of elsewhere"}),
        ("en-US", "A hole 1/4 in across, 20 mm from the edge", {"two units"}),
        ("en-GB", "Made on 20 November 2026", set()),
        ("en-GB", "Made on November 20, 2026", {"date of elsewhere"}),
        ("en-GB", "The tire", {"spelling of elsewhere"}),
        ("en-GB", "At 40 psi (2.75 bar)", {"psi first"}),
        ("en-GB", "At 2.75 bar (40 psi)", set()),
    ],
)
def test_what_nobody_should_read_is_seen(tag: str, stem: str, faults: set[str]) -> None:
    edition = load_edition("united-kingdom" if tag == "en-GB" else "north-america")
    with in_language(tag):
        item = draw("tire-age", seed="1", edition=edition, prefer="mm")
        assert not list(faults_of(item, edition, "mm"))
        told = Item.from_json(item.to_json() | {"stem": stem})

        assert {fault for fault, _, _ in faults_of(told, edition, "mm")} == faults


def test_the_command_says_how_much_it_looked_at(capsys) -> None:
    assert main(["--draws", "1", "--edition", "united-kingdom"]) == 0
    assert re.fullmatch(r"united-kingdom, en-GB: \d+ questions, 0 faults\n", capsys.readouterr().out)


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
