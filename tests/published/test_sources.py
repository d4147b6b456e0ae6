"""Whose rule it is: what is printed of a source can be looked up, and a state's law is called law in that state only.

Texts: Utah Administrative Code R714-160-8; South Carolina Code 39-75-210; 8 CCR 3325(e); 92 Illinois Administrative
Code 428, which is for passenger car tires; 49 CFR 393.75(a)(3), commercial vehicles.
"""

from typing import Any

import pytest

from training.rulebook import audit, cited_sources, decide, edition_names, load_edition
from training.rulebook.citations import SAID_OUTRIGHT, Cited
from training.rulebook.registry import EDITIONS
from training.rulebook.taking import read_files

pytestmark = pytest.mark.walk  # over everything of a kind: what the README adds passes it too


def ruling(clause: str, place: str | None, case: dict[str, Any]) -> tuple[str, str]:
    given = {"purpose": "service", "tire": {"casing": "passenger"}} | case
    if place:
        given["jurisdiction"] = place
    found = next(one for one in decide(given).rulings if one.clause == clause)
    return found.kind, found.source


CHECKED = {"findings": {"weather-checking": True}}
BLISTER = {"purpose": "fit-used", "findings": {"liner-blistered": True}}
PLUG = {"earlier_repairs": [{"kind": "stem-only", "zone": "sidewall"}]}
NO_SIZE = {"findings": {"size-unreadable": True}}


@pytest.mark.parametrize(
    ("clause", "place", "case", "kind", "opening"),
    [
        ("weather-checking", "US-UT", CHECKED, "law", "Utah Administrative Code R714-160-8(1)(a)(i)"),
        ("weather-checking", "US-CA", CHECKED, "common-practice", "law in Utah; common practice here: Utah Admin"),
        ("weather-checking", None, CHECKED, "common-practice", "law in Utah; common practice elsewhere: Utah Admin"),
        ("liner-blistered", "US-SC", BLISTER, "law", "South Carolina Code 39-75-210(A)(6), used tires"),
        ("liner-blistered", "US-UT", BLISTER, "common-practice", "law in South Carolina, California and New Jersey; "),
        ("earlier-repair-zone", "US-UT", PLUG, "law", "Utah Administrative Code R714-160-8(1)(a)(ii), sidewall plugs"),
        ("earlier-repair-zone", "US-TX", PLUG, "guidance", "law in Utah and South Carolina; guidance here: "),
        ("size-unreadable", "US-IL", NO_SIZE, "law", "92 Illinois Administrative Code 428.20(d)"),
    ],
)
def test_law_of_a_state_is_called_law_there_and_nowhere_else(
    clause: str, place: str | None, case: dict[str, Any], kind: str, opening: str
) -> None:
    said, source = ruling(clause, place, case)

    assert said == kind
    assert source.startswith(opening)


def test_a_rule_for_passenger_car_tires_is_no_law_for_a_truck_tire() -> None:
    case = {"tire": {"casing": "truck"}, **NO_SIZE}

    assert ruling("size-unreadable-of-other-tires", "US-IL", case)[0] == "common-practice"


@pytest.mark.parametrize(("place", "here"), [(None, "law"), ("US-UT", "law"), ("CA-ON", "common-practice")])
def test_federal_law_is_law_in_every_state_and_not_in_canada(place: str | None, here: str) -> None:
    assert ruling("audible-leak", place, {"findings": {"audible-leak": True}})[0] == here


def test_a_log_of_california_names_its_law_on_seating_the_beads() -> None:
    job = {"case": {"tire": {"casing": "passenger"}}, "steps": [{"step": "seat-beads", "pressure": "45 psi"}]}

    def fault(**place: str) -> tuple[str, str]:
        faults = audit(job | {"case": {"tire": {"casing": "passenger"}, **place}}).faults
        found = next(one for one in faults if one.clause == "bead-seating-pressure")
        return found.kind, found.source

    assert fault(jurisdiction="US-CA") == ("law", "8 CCR 3325(e); common practice")
    assert fault() == ("common-practice", "law in California; common practice elsewhere: 8 CCR 3325(e)")


def all_cited(name: str) -> list[Cited]:
    edition = load_edition(name)
    cited = [one.cited for clause in edition.clauses.values() for one in clause.statements]
    cited += [crown.cited for crown in edition.crowns.values()]
    cited += [one.cited for step in edition.procedure for one in step.criteria]
    return [one for one in cited if one is not None]


@pytest.mark.parametrize("name", edition_names())
def test_every_rule_of_the_kind_law_cites_a_law_that_somebody_read(name: str) -> None:
    for cited in all_cited(name):
        laws = [one for one in cited.citations if one.source.kind == "law" and one.reading is not None]
        assert laws or cited.kind != "law", cited


@pytest.mark.parametrize("name", edition_names())
def test_every_citation_prints_its_source_and_its_paragraph(name: str) -> None:
    for cited in all_cited(name):
        for one in cited.citations:
            assert one.named.replace(one.at, "").strip(", ") or one.source.id in SAID_OUTRIGHT
            assert one.at in cited.generally.source
            assert "trade press" not in cited.generally.source.lower()


@pytest.mark.parametrize("name", edition_names())
def test_every_source_says_who_published_it_and_where_it_stands(name: str) -> None:
    for source in cited_sources(load_edition(name)):
        assert source.publisher
        assert source.title
        assert source.year
        if source.read and source.kind == "law" and source.law_in:
            assert source.address.startswith("http")
        for reading in source.read:
            assert reading.what == "whole text" or reading.at


def test_every_source_that_is_listed_is_cited_by_a_country() -> None:
    cited = {source.id for name in edition_names() for source in cited_sources(load_edition(name))}
    tables = [read_files(path.parent) for path in EDITIONS.glob("*/sources.toml")]
    listed = {str(one["id"]) for files in tables for one in files["sources.toml"]["source"]}  # type: ignore[attr-defined]

    assert listed == cited
