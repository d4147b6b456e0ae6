"""What questions, their explanations and the tables behind them say passes the seam for language, and nothing that
decides depends on it."""

from __future__ import annotations

import re
from calendar import month_name
from collections.abc import Iterator
from dataclasses import replace
from functools import lru_cache
from typing import Any

import pytest

from assessments.questions import (
    FORMAT_WORDS,
    SERIES,
    TOLD_TIRES,
    Answer,
    AnswerError,
    CannotDraw,
    Item,
    NoSuchLimit,
    OpenItem,
    Option,
    blueprint,
    blueprint_names,
    check_answer,
    coverage,
    draw,
    family,
    family_names,
    lines_of,
    mark,
    misconceptions,
    read_texts,
    right_answer,
    right_in_words,
    wrong_in_words,
)
from assessments.questions.diagnosis.diagnosis import CERTAIN, PROBABLE, Belief
from assessments.questions.draws.fairness import COUNTED_TITLES
from assessments.questions.items.digest import determinant, digest
from assessments.questions.items.numbers import NotANumber, parse_number
from assessments.questions.items.shapes import Frame, Region
from assessments.questions.items.wordings import groups, plain, wordings
from assessments.questions.work.facts import facts
from assessments.questions.work.job_log import spoils
from tests.speaking import CLOSE, OPEN, bracketed, outside
from training.rulebook import edition_names, load_edition
from training.trade.speech import LANGUAGES, in_language, marked

# Marks that stand in every language: letters and numbers molded on a sidewall, and names of an earlier repair.
_MARKS = re.compile(r"\b(?:R\d+|DOT [A-Z0-9 ]+|[A-Z0-9/.-]*\d[A-Z0-9/.-]*|M/C|ST|LT)\b")
_MONTHS = frozenset(month_name)  # which Babel writes, in every language it knows


@lru_cache(maxsize=1)
def spoken() -> tuple[tuple[Item, str], ...]:
    """A question of each family under each edition that has one, drawn in brackets, with the name of its edition."""
    found = []
    with bracketed():
        for name in edition_names():
            for one in family_names():
                try:
                    found.append((draw(one, seed="brackets", edition=load_edition(name), prefer="mm"), name))
                except (CannotDraw, NoSuchLimit):
                    continue
    return tuple(found)


def unspoken(text: str) -> list[str]:
    """The words of a text that never passed the seam, marks left out."""
    return [word for word in outside(_MARKS.sub(" ", text)) if word not in _MONTHS]


class TestPhrasesThatStandForOneAnother:
    @pytest.mark.parametrize("tag", LANGUAGES)
    def test_each_leads_back_to_the_plain_one_in_every_language(self, tag) -> None:
        with in_language(tag):
            spoken = [[str(phrase) for phrase in group] for group in groups()]
            phrases = [phrase for group in spoken for phrase in group]

            assert len(set(phrases)) == len(phrases)
            for group in spoken:
                assert {plain(phrase) for phrase in group} == {group[0]}

    def test_they_are_those_of_the_language_spoken(self) -> None:
        with bracketed():
            said = f"12 {OPEN}mm to spare{CLOSE}"

            assert wordings(said) == (
                said,
                f"12 {OPEN}mm to spare between the units{CLOSE}",
                f"12 {OPEN}mm left over{CLOSE}",
            )
            assert plain(f"12 {OPEN}mm left over{CLOSE}") == said
            assert wordings("12 mm to spare") == ("12 mm to spare",)
        assert wordings("12 mm to spare")[1:] == ("12 mm to spare between the units", "12 mm left over")

    def test_a_letter_with_an_accent_is_a_letter_too(self) -> None:
        assert plain("éup to") == "éup to"
        assert plain("up to 5 mm") == "at most 5 mm"


class TestTables:
    def test_titles_statements_and_refutations_pass(self) -> None:
        with bracketed():
            for one in misconceptions().values():
                for text in (one.title, one.statement, one.refutation):
                    assert not outside(str(text)), (one.id, text)

    def test_families_blueprints_and_what_is_counted_pass(self) -> None:
        told = [*FORMAT_WORDS.values(), *TOLD_TIRES.values(), *SERIES.values(), *COUNTED_TITLES.values()]
        told += [family(name).title for name in family_names()]
        plans = [blueprint(name) for name in blueprint_names()]
        with bracketed():
            for text in (*told, *(plan.title for plan in plans), *(plan.note for plan in plans)):
                assert text
                assert not outside(str(text)), text

    def test_the_catalogues_know_what_the_data_files_say(self) -> None:
        read_texts()
        said = {phrase for group in groups() for phrase in group}
        said |= {one.statement for one in misconceptions().values()} | {fact.right for fact in facts() if fact.right}
        said |= {spoil.reason for spoil in spoils()} | {blueprint(name).note for name in blueprint_names()}

        assert len(said) > 500
        assert said <= set(marked())

    def test_how_surely_something_is_believed_passes(self) -> None:
        with bracketed():
            assert [Belief("lean-ignored", chance).words for chance in (PROBABLE, CERTAIN)] == [
                f"{OPEN}probably{CLOSE}",
                f"{OPEN}almost certainly{CLOSE}",
            ]


class TestQuestions:
    def test_the_reason_of_each_line_passes(self) -> None:
        told = 0
        with bracketed():
            for item, name in spoken():
                for line in lines_of(item, load_edition(name), prefer="mm").values():
                    assert not unspoken(line.reason), (item.family, line.reason)
                    assert not outside(line.verdict_word), (item.family, line.verdict_word)
                    told += 1
        assert told > 100

    def test_right_and_wrong_answers_in_words_pass(self) -> None:
        with bracketed():
            for item, _ in spoken():
                for text in (*right_in_words(item), *(one.words for one in wrong_in_words(item)), item.key_text):
                    assert not unspoken(re.sub(r"^[A-Z]\. ", "", text)), (item.family, text)

    def test_every_text_of_a_stored_question_is_plain(self) -> None:
        def texts(value: object) -> Iterator[str]:
            if isinstance(value, dict):
                for key, under in value.items():
                    yield key
                    yield from texts(under)
            elif isinstance(value, list | tuple):
                for one in value:
                    yield from texts(one)
            elif isinstance(value, str):
                yield value

        for item, _ in spoken():
            for text in texts(item.to_json()):
                assert type(text) is str, (item.family, text)
            for text in texts(item.open().to_json()):
                assert type(text) is str, (item.family, text)

    def test_what_tells_two_questions_apart_has_no_word_of_a_language(self) -> None:
        for item, _ in spoken():
            assert OPEN not in determinant(item), item.family
            mute = replace(
                item,
                stem="",
                explanation=(),
                options=tuple(Option(one.id, "", one.claim) for one in item.options),
                reasons=tuple(Option(one.id, "", one.claim) for one in item.reasons),
            )
            assert digest(mute) == digest(item)

    def test_marks_depend_on_no_language(self) -> None:
        for item, _ in spoken():
            named = [*item.distractors, *item.unsafe, *item.routes, *item.omissions]
            assert not [one for one in named if OPEN in one], item.family
            assert mark(item, right_answer(item)).right, item.family

    def test_what_an_edition_asks_is_the_same_whoever_asks_first(self) -> None:
        one, other = (replace(load_edition("north-america")) for _ in range(2))
        with bracketed():
            asked = coverage(one)

        assert asked == coverage(other)


OPTIONS = (Option("1", "Buff"), Option("2", "Measure"))
REFUSED: list[tuple[str, Any]] = [
    ("several", 5),
    ("one", "9"),
    ("order", 5),
    ("order", {"1": "1"}),
    ("order", {"1": "7", "2": "2"}),
    ("order", {"1": "1", "2": "1"}),
    ("place", 5),
    ("place", {"x": "", "y": "3"}),
    ("place", {"x": "three", "y": "3"}),
    ("place", {"x": "3", "y": "900"}),
    ("fault", 5),
    ("fault", {"reason": "1"}),
    ("fault", {"step": "1"}),
    ("fault", {"step": "1", "reason": "9"}),
    ("number", 5),
    ("number", {"value": 5}),
    ("number", {"value": "5"}),
    ("number", {"value": "1,5", "unit": "mm"}),
    ("number", {"value": "1/0", "unit": "mm"}),
]


class TestAnswers:
    @pytest.mark.parametrize(("form", "given"), REFUSED)
    def test_a_refusal_passes_but_for_what_was_given(self, form, given) -> None:
        item = OpenItem(form, "", None, OPTIONS, ("mm", "in") if form == "number" else (), OPTIONS, Frame(0, 0, 60, 60))

        with bracketed(), pytest.raises(AnswerError) as refused:
            check_answer(item, given)

        told = str(refused.value)
        assert told.startswith(OPEN)
        assert told.endswith(CLOSE)
        assert not outside(told)

    def test_a_region_is_read_again_in_every_language(self) -> None:
        region = Region(59, 65, 4, 12)
        with bracketed():
            assert Region.from_text(region.text) == region
            assert region.words.startswith(OPEN)

    def test_an_answer_of_another_kind_is_refused_in_the_language_spoken(self) -> None:
        answers: dict[str, Answer] = {"one": {}, "several": {}, "number": "1", "order": "1", "place": "1", "fault": "1"}
        for item, _ in spoken():
            with bracketed(), pytest.raises(AnswerError) as refused:
                mark(item, answers[item.format])
            assert not outside(str(refused.value))

    def test_a_number_that_is_none_is_refused_in_the_language_spoken(self) -> None:
        for text in ("five", "1,5", "1/0"):
            with bracketed(), pytest.raises(NotANumber) as refused:
                parse_number(text)
            assert not outside(str(refused.value))
