"""What was not read in its source is listed, whoever said so: the clause's kind, or the words of its source."""

import re
from dataclasses import replace
from io import StringIO

import pytest
from django.core.management import call_command

from training.rulebook import Unread, edition_names, from_memory, load_edition

pytestmark = pytest.mark.walk  # over everything of a kind: what the README adds passes it too


def test_each_statement_of_a_clause_is_listed_by_itself() -> None:
    edition = load_edition("north-america")
    clause = edition.clause("one-piece-angle")
    first, second = clause.statements
    doubted = replace(clause, statements=(first, replace(second, kind="from-memory")))

    listed = from_memory(replace(edition, clauses={clause.id: doubted}))

    assert [one for one in listed if one.where == "clause"] == [
        Unread("clause", clause.title, "at most 35°; otherwise repair", second.source, clause.id)
    ]


@pytest.mark.parametrize("name", edition_names())
def test_what_is_listed_as_unread_says_so_where_it_is_printed(name: str) -> None:
    listed = [one for one in from_memory(load_edition(name)) if one.where != "table"]

    assert listed
    for one in listed:
        assert re.search(r"\(from memory\)|\(from a summary by |not found again", one.source), one


def test_the_tables_for_markings_are_listed_too() -> None:
    tables = {one.title for one in from_memory(load_edition("north-america")) if one.where == "table"}

    assert "Rim diameters" in tables


def test_the_command_prints_every_unread_value_with_its_edition() -> None:
    out = StringIO()
    call_command("decide", from_memory=True, stdout=out)

    lines = [line.split("\t") for line in out.getvalue().splitlines()]
    assert {line[0] for line in lines} == set(edition_names())
    assert all(len(line) == 5 and all(line) for line in lines)
    assert len(lines) == sum(len(from_memory(load_edition(name))) for name in edition_names())
