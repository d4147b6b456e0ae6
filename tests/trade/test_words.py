"""Everything a case can say has a name for people, and lists read as sentences do."""

from datetime import datetime

import pytest

from training.rulebook import CASINGS, FINDINGS, PURPOSES, VERDICTS, WORDS
from training.trade.days import written_instant
from training.trade.lists import all_of, one_of
from training.trade.words import CASING_WORDS, FINDING_WORDS, METHOD_WORDS, casings_in_words, tires_in_words


def test_every_finding_has_a_name_and_no_name_is_of_nothing() -> None:
    assert set(FINDING_WORDS) == set(FINDINGS)


def test_the_vocabulary_of_a_case_knows_the_casings_and_purposes_that_have_names() -> None:
    assert tuple(WORDS["tire.casing"]) == CASINGS == tuple(CASING_WORDS)
    assert tuple(WORDS["purpose"]) == PURPOSES


def test_verdicts_stand_mildest_first() -> None:
    assert VERDICTS == ("accept", "advise", "repair", "inspect", "refer", "reject")


@pytest.mark.parametrize("table", [FINDING_WORDS, METHOD_WORDS])
def test_no_two_names_are_the_same(table: dict[str, str]) -> None:
    assert len(set(table.values())) == len(table)


def test_casings_are_told_apart_in_every_form() -> None:
    for form in ("one", "many", "short", "label", "meaning"):
        assert len({getattr(words, form) for words in CASING_WORDS.values()}) == len(CASING_WORDS), form


def test_kinds_that_hold_an_and_themselves_are_kept_apart() -> None:
    assert casings_in_words(["light-truck-steel", "truck"]) == (
        "light truck tires with a steel body, and truck and bus tires"
    )
    assert casings_in_words([]) == ""


def test_tires_make_a_heading() -> None:
    assert tires_in_words(["passenger", "light-truck-fabric"]) == "Passenger and fabric-body light truck tires"


def test_lists_of_one_two_and_three() -> None:
    assert [all_of("abc"[:count]) for count in range(4)] == ["", "a", "a and b", "a, b and c"]
    assert [one_of("abc"[:count]) for count in range(4)] == ["", "a", "a or b", "a, b or c"]


def test_an_instant_is_written_with_its_year_and_two_digits_each_for_hour_and_minute() -> None:
    assert written_instant(datetime(2026, 9, 5, 7, 3)) == "Sep 5, 2026, 7:03\N{NO-BREAK SPACE}AM"
