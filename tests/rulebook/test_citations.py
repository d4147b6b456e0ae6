"""What stands behind a rule: a paragraph of a named source, how far it was read, and law only where it holds."""

from datetime import date

import pytest

from training.rulebook.bibliography import read_library
from training.rulebook.citations import Cited
from training.rulebook.clauses import KINDS
from training.rulebook.loader import Place, RulebookError

ON = date(2026, 11, 30)
READ = [{"what": "paragraph", "at": ["5"], "on": ON}]
WHOLE = [{"what": "whole text", "on": ON}]
TOLD = [{"what": "summary", "by": "the Guild", "on": ON}]
SOURCES = [
    {"id": "isle", "kind": "law", "law_in": "IS", "place": "the Isle", "cited": "Isle Code {at}", "read": READ},
    {"id": "north", "kind": "law", "law_in": "IS-N", "place": "North", "cited": "North Code {at}", "read": READ},
    {"id": "south", "kind": "law", "law_in": "IS-S", "place": "South", "cited": "South Code {at}", "read": READ},
    {"id": "chart", "kind": "guidance", "cited": "Guild of Menders, Chart", "read": WHOLE},
    {"id": "norm", "kind": "standard", "cited": "Norm 1, {at}", "read": TOLD},
]  # fmt: skip
LIBRARY = read_library(
    {"sources.toml": {"source": [{"publisher": "P", "title": "T", "year": "2000"} | one for one in SOURCES]}}, "IS"
)


def cited(kind: str, *cites: object) -> Cited:
    return LIBRARY.cited({"kind": kind, "cites": list(cites)}, Place("a.toml", 'clause "size"'), KINDS)


def test_a_citation_names_source_and_paragraph() -> None:
    assert cited("law", {"source": "isle", "at": "5(b)"}).generally.source == "Isle Code 5(b)"
    note = {"source": "isle", "at": "5", "note": "carts over 1,000 lb"}
    assert cited("law", note, "chart").generally.source == "Isle Code 5, carts over 1,000 lb; Guild of Menders, Chart"


@pytest.mark.parametrize(
    ("citation", "text", "unread"),
    [
        ({"source": "isle", "at": "5"}, "Isle Code 5", False),
        ({"source": "isle", "at": "5(a)"}, "Isle Code 5(a)", False),
        ({"source": "isle", "at": "50"}, "Isle Code 50 (from memory)", True),
        ({"source": "norm", "at": "annex B"}, "Norm 1, annex B (from a summary by the Guild)", True),
    ],
)
def test_what_was_not_read_in_its_own_text_says_so(citation: dict[str, str], text: str, unread: bool) -> None:
    kind = "standard" if citation["source"] == "norm" else "from-memory" if unread else "law"
    found = cited(kind, citation)

    assert (found.generally.source, found.is_unread) == (text, unread)


@pytest.mark.parametrize(
    ("place", "kind", "source"),
    [
        ("IS-N", "law", "North Code 5"),
        ("IS-S", "common-practice", "law in North; common practice here: North Code 5"),
        ("IS", "common-practice", "law in North; common practice here: North Code 5"),
        (None, "common-practice", "law in North; common practice elsewhere: North Code 5"),
    ],
)
def test_a_states_law_is_law_in_that_state_only(place: str | None, kind: str, source: str) -> None:
    said = cited("law", {"source": "north", "at": "5"}).said_in(place)

    assert (said.kind, said.source) == (kind, source)


def test_a_countrys_law_is_law_in_all_its_states_and_in_no_other_country() -> None:
    found = cited("law", {"source": "isle", "at": "5"})

    assert [found.said_in(place).kind for place in (None, "IS", "IS-N", "IX", "IS2")] == ["law"] * 3 + [
        "common-practice"
    ] * 2
    assert found.said_in("IX").source == "law in the Isle; common practice here: Isle Code 5"


def test_the_law_of_the_state_comes_first_and_that_of_others_is_named_as_theirs() -> None:
    found = cited("law", {"source": "north", "at": "5"}, {"source": "south", "at": "5"})

    assert found.said_in("IS-S").source == "South Code 5; law in North: North Code 5"
    assert found.said_in("IS-X").source == "law in North and South; common practice here: North Code 5; South Code 5"


def test_where_it_is_no_law_what_a_guild_publishes_counts_as_that() -> None:
    said = cited("law", {"source": "north", "at": "5"}, "chart").said_in("IS-S")

    assert (said.kind, said.source) == (
        "guidance",
        "law in North; guidance here: North Code 5; Guild of Menders, Chart",
    )


def test_common_practice_says_whether_anything_was_published() -> None:
    alone = cited("common-practice", "common-practice")
    noted = cited("common-practice", {"source": "common-practice", "note": "the maker's date prevails"})
    beside = cited(
        "common-practice", {"source": "common-practice", "note": "for every cart"}, {"source": "isle", "at": "5"}
    )

    assert alone.generally.source == "common practice, no published source"
    assert noted.generally.source == "common practice, no published source; the maker's date prevails"
    assert beside.generally.source == "common practice for every cart; Isle Code 5"
    assert beside.said_in("IX").source == "common practice for every cart; law in the Isle: Isle Code 5"
    assert not alone.is_unread


REFUSED = [
    ({"kind": "law"}, 'cites: nothing is not accepted; give [{source = "...", at = "..."}]'),
    ({"kind": "law", "cites": [{"source": "isla", "at": "5"}]}, 'source: "isla" is not accepted; choose common-'),
    ({"kind": "law", "cites": [{"source": "isle"}]}, 'at: nothing is not accepted for "isle"; name the paragraph'),
    ({"kind": "guidance", "cites": [{"source": "chart", "at": "3"}]}, 'at: "3" is not accepted for "chart"; it is'),
    ({"kind": "law", "cites": [{"source": "isle", "at": "50"}]}, 'kind: "law" is not accepted; no law of this country'),
    ({"kind": "law", "cites": ["chart"]}, 'kind: "law" is not accepted; no law of this country that was read is cited'),
    ({"kind": "standard", "cites": ["chart"]}, 'kind: "standard" is not accepted; cite a source of kind "standard"'),
    ({"kind": "common-practice", "cites": ["chart"]}, 'cite a source of kind "common-practice"'),
    ({"kind": "rumor", "cites": ["chart"]}, 'kind: "rumor" is not accepted; choose law'),
]  # fmt: skip


@pytest.mark.parametrize(("table", "words"), REFUSED)
def test_what_cannot_be_looked_up_is_refused(table: dict[str, object], words: str) -> None:
    with pytest.raises(RulebookError) as refused:
        LIBRARY.cited(table, Place("a.toml", 'clause "size"'), KINDS)

    assert str(refused.value).startswith('a.toml: clause "size", ')
    assert words in str(refused.value)


def test_a_law_of_another_country_makes_no_law_here() -> None:
    abroad = read_library(
        {"sources.toml": {"source": [{"publisher": "P", "title": "T", "year": "1"} | SOURCES[0]]}}, "IX"
    )

    with pytest.raises(RulebookError, match="no law of this country that was read"):
        abroad.cited({"kind": "law", "cites": [{"source": "isle", "at": "5"}]}, Place("a.toml"), KINDS)


GOOD = {"id": "a", "kind": "guidance", "publisher": "P", "title": "T", "year": "1", "cited": "A", "read": []}


@pytest.mark.parametrize(
    ("change", "words"),
    [
        ({"publisher": " "}, 'source "a", publisher: " " is not accepted; give a text'),
        ({"kind": "rumor"}, 'source "a", kind: "rumor" is not accepted; choose law'),
        ({"law_in": "IS"}, 'law_in: "IS" is not accepted; only a law holds in a place'),
        ({"read": "all"}, 'read: "all" is not accepted; give what was read of it, [] for nothing'),
        ({"read": [{"what": "half", "on": ON}]}, 'what: "half" is not accepted; choose whole text'),
        ({"read": [{"what": "summary", "on": ON}]}, "by: nothing is not accepted; give a text"),
        ({"read": [{"what": "paragraph", "on": ON}]}, "at: nothing is not accepted; give a list"),
        ({"read": [{"what": "whole text"}]}, "on: nothing is not accepted; give a day"),
        ({"id": "common-practice"}, 'id: "common-practice" is used twice'),
    ],
)
def test_a_source_that_nobody_could_find_is_refused(change: dict[str, object], words: str) -> None:
    with pytest.raises(RulebookError) as refused:
        read_library({"sources.toml": {"source": [GOOD | change]}}, "")

    assert words in str(refused.value)


def test_a_source_stands_once() -> None:
    with pytest.raises(RulebookError, match='id: "a" is used twice'):
        read_library({"trade/sources.toml": {"source": [GOOD]}, "sources.toml": {"source": [GOOD]}}, "")
