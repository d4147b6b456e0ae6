"""Versions of an edition: values are dated where they stand, the day chooses, and what changed is told in words."""

from datetime import date
from pathlib import Path
from typing import Any

import pytest

from training.rulebook import (
    RulebookError,
    compare,
    compare_text,
    decide,
    edition_names,
    edition_versions,
    in_force,
    load_edition,
    read_edition,
    read_versions,
)

HEADER = """name = "{name}"
title = "{name}"
country = "an invented island"
units = "mm"

[[version]]
id = "2026.1"
in_force_from = 2026-01-01

[[version]]
id = "2027.1"
in_force_from = 2027-03-01
"""
CLAUSE = """
[[clause]]
id = "{id}"
title = "Size of the hole"
quantity = "injury.diameter"
casings = ["passenger"]
at_most = ["6 mm"]
otherwise = "reject"
because = "After damage removal the injury may be at most this far across."
kind = "guidance"
cites = [{{source = "guild", at = "2"}}]
checked_on = 2026-11-20
passes = {{injuries = [{{diameter = "1 mm"}}]}}
fails = {{injuries = [{{diameter = "9 mm"}}]}}
"""
EARLIER = """
[[clause.earlier]]
before = 2027-03-01
at_most = ["5 mm"]
cites = [{source = "guild", at = "1"}]
"""
SOURCES = """
[[source]]
id = "guild"
kind = "guidance"
publisher = "Guild of Menders (invented)"
title = "Rules"
year = "2026"
cited = "Rule {at}"
read = []

[[source]]
id = "act"
kind = "law"
publisher = "Parliament (invented)"
title = "Rock Act"
year = "2026"
cited = "Rock Act {at}"
read = [{what = "whole text", on = 2026-11-20}]
"""


def write(folder: Path, *, injury: str, more: str = "") -> Path:
    folder.mkdir(parents=True, exist_ok=True)
    (folder / "edition.toml").write_text(HEADER.format(name=folder.name) + more)
    (folder / "injury.toml").write_text(injury)
    (folder / "sources.toml").write_text(SOURCES)
    return folder


@pytest.fixture
def island(tmp_path: Path) -> Path:
    """An edition whose limit went from 5 mm to 6 mm on 1 March 2027."""
    return write(tmp_path / "island", injury=CLAUSE.format(id="injury-size") + EARLIER)


@pytest.mark.parametrize(
    ("day", "version", "verdict"),
    [("2020-01-01", "2026.1", "reject"), ("2027-02-28", "2026.1", "reject"), ("2027-03-01", "2027.1", "refer")],
)
def test_the_day_chooses_the_version(island: Path, day: str, version: str, verdict: str) -> None:
    edition = in_force(read_versions(island), date.fromisoformat(day))

    decision = decide({"tire": {"casing": "passenger"}, "injuries": [{"diameter": "5.5 mm"}]}, edition=edition)

    assert (decision.version, decision.verdict) == (version, verdict)  # refer: nothing else covers the tire


def test_a_clause_said_earlier_what_its_entry_says_and_otherwise_what_it_says_now(island: Path) -> None:
    before, after = (edition.clause("injury-size") for edition in read_versions(island))

    assert (before.limit_text(), before.source, before.kind) == ("at most 5 mm", "Rule 1 (from memory)", "guidance")
    assert (after.limit_text(), after.source, after.kind) == ("at most 6 mm", "Rule 2 (from memory)", "guidance")


def test_of_several_earlier_values_each_holds_until_the_next(island: Path) -> None:
    header, injury = island / "edition.toml", island / "injury.toml"
    header.write_text(header.read_text() + '[[version]]\nid = "2027.10"\nin_force_from = 2027-09-01\n')
    injury.write_text(injury.read_text() + '[[clause.earlier]]\nbefore = 2027-09-01\nbelow = ["7 mm"]\n')

    limits = [edition.clause("injury-size").limit_text() for edition in read_versions(island)]

    assert limits == ["at most 5 mm", "less than 7 mm", "at most 6 mm"]


@pytest.mark.parametrize(
    ("dated", "versions"),
    [
        ("in_force_from = 2027-03-01", ["2027.1"]),
        ("in_force_from = 2026-06-01", ["2026.1", "2027.1"]),  # a day within a version: the case's own day decides
        ("in_force_before = 2027-03-01", ["2026.1"]),
    ],
)
def test_a_clause_begins_and_ends_on_its_day(island: Path, dated: str, versions: list[str]) -> None:
    (island / "more.toml").write_text(CLAUSE.format(id="more") + dated)

    assert [edition.version for edition in read_versions(island) if "more" in edition.clauses] == versions


def test_a_crown_is_dated_like_a_clause(island: Path) -> None:
    crown = """
[[crown]]
casings = ["passenger"]
basis = "shoulder"
inset = "30 mm"
kind = "guidance"
cites = [{source = "guild", at = "3"}]
earlier = [{before = 2027-03-01, inset = "25 mm"}]
"""
    header = island / "edition.toml"
    header.write_text(header.read_text() + crown)

    assert [edition.crowns["passenger"].inset_mm for edition in read_versions(island)] == [25, 30]


@pytest.mark.parametrize(
    ("file", "old", "new", "message"),
    [
        ("edition.toml", '"2026.1"', '"spring"', 'version, id: "spring" is not accepted; give year and number'),
        ("edition.toml", '"2027.1"', '"2026.1"', 'version, id: "2026.1" of 2027-03-01 does not come after "2026.1"'),
        ("edition.toml", "2026-01-01", "2028-01-01", 'id: "2027.1" of 2027-03-01 does not come after "2026.1"'),
        ("injury.toml", "before = 2027-03-01", "before = 2027-02-01", 'clause "injury-size", before: 2027-02-01'),
        ("injury.toml", "before = 2027-03-01", "before = 2026-01-01", "of no later version: choose 2027-03-01"),
        ("injury.toml", "before = 2027-03-01", "", "before: nothing is not accepted; give a day"),
        ("injury.toml", '"5 mm"', "5", 'clause "injury-size", at_most: 5 is not a length'),
    ],
)
def test_a_wrong_date_or_earlier_value_is_named(island: Path, file: str, old: str, new: str, message: str) -> None:
    (island / file).write_text((island / file).read_text().replace(old, new))

    with pytest.raises(RulebookError) as refused:
        read_versions(island)

    assert message in str(refused.value)


class TestWhatChanged:
    def test_is_told_clause_by_clause_in_words(self, island: Path) -> None:
        before, after = read_versions(island)

        (change,) = compare(before, after)

        assert (change.about, change.kind) == ("Size of the hole (injury-size)", "changed")
        assert change.lines[0] == (
            "limit: at most 5 mm; otherwise reject (Guidance: Rule 1 (from memory)) -> "
            "at most 6 mm; otherwise reject (Guidance: Rule 2 (from memory))"
        )

    def test_names_what_came_and_what_went(self, island: Path) -> None:
        (island / "more.toml").write_text(CLAUSE.format(id="injury-size-more") + "in_force_from = 2027-03-01")
        before, after = read_versions(island)

        assert ("Size of the hole (injury-size-more)", "new") in [
            (one.about, one.kind) for one in compare(before, after)
        ]
        assert ("Size of the hole (injury-size-more)", "gone") in [
            (one.about, one.kind) for one in compare(after, before)
        ]

    def test_is_nothing_between_a_version_and_itself(self) -> None:
        for name in edition_names():
            edition = load_edition(name)

            assert compare(edition, edition) == ()
            assert compare_text(edition, edition).endswith("Nothing differs.")

    @pytest.mark.parametrize(
        ("change", "words"),
        [
            ({"limits": {"injury-size": ["5 mm"]}}, "limit: at most 1/4 in (6 mm)"),
            ({"consequences": {"injury-size": "refer"}}, "otherwise refer"),
            (
                {"measures": {"injury-size": "injury.before_removal"}},
                "measures: Diameter of the injury after damage removal",
            ),
        ],
    )
    def test_sees_every_way_a_clause_can_change(self, change: dict[str, Any], words: str) -> None:
        edition = load_edition("north-america")

        (found,) = compare(edition, edition.altered(**change))

        assert found.about == "Size of the hole (injury-size)"
        assert words in " ".join(found.lines)

    def test_between_the_countries_names_the_size_and_the_crown(self) -> None:
        text = compare_text(load_edition("north-america"), load_edition("united-kingdom"))

        assert "at most 1/4 in (6 mm)" in text
        assert "crown of passenger tires: changed" in text
        assert "60% up to 155 mm, 65% up to 200 mm, 70% over 200 mm" in text


class TestTaking:
    """Every country takes what stands in the folder of the trade beside it; law stands in the country."""

    @pytest.fixture
    def rock(self, tmp_path: Path) -> Path:
        write(tmp_path / "trade", injury=CLAUSE.format(id="injury-size") + EARLIER)
        (tmp_path / "trade" / "edition.toml").unlink()
        (tmp_path / "trade" / "sources.toml").unlink()
        return write(tmp_path / "rock", injury=CLAUSE.format(id="own"))

    def test_takes_the_clause_as_it_was_when_the_version_came_into_force(self, rock: Path) -> None:
        before, after = read_versions(rock)

        assert before.clause("injury-size").limit_text() == "at most 5 mm"
        assert after.clause("injury-size").limit_text() == "at most 6 mm"
        assert list(after.clauses) == ["injury-size", "own"]
        assert after.clause("injury-size").file == "trade/injury.toml"

    def test_a_version_moves_with_its_own_days_and_not_with_those_of_the_trade(self, rock: Path) -> None:
        trade = rock.parent / "trade" / "injury.toml"
        trade.write_text(trade.read_text().replace("before = 2027-03-01", "before = 2028-01-01"))

        assert [one.clause("injury-size").limit_text() for one in read_versions(rock)] == ["at most 5 mm"] * 2

    def test_says_what_differs_here_and_keeps_the_rest(self, rock: Path) -> None:
        law = '[[trade]]\nclause = "injury-size"\nkind = "law"\ncites = [{source = "act", at = "1"}]\n'
        (rock / "law.toml").write_text(law)

        clause = read_edition(rock).clause("injury-size")

        assert (clause.kind, clause.source, clause.limit_text()) == ("law", "Rock Act 1", "at most 6 mm")

    def test_leaves_out_what_it_says(self, rock: Path) -> None:
        header = rock / "edition.toml"
        header.write_text(header.read_text() + '\n[trade]\nwithout = ["injury-size"]\n')

        assert list(read_edition(rock).clauses) == ["own"]

    @pytest.mark.parametrize(
        ("file", "text", "message"),
        [
            ("law.toml", '[[trade]]\nclause = "tread"', 'law.toml: trade "tread", clause: is not accepted'),
            ("law.toml", '[[trade]]\nclause = "injury-size"\n' * 2, "it says otherwise of it twice"),
            ("law.toml", '[[trade]]\nkind = "law"', 'law.toml: trade "None", clause: is not accepted'),
            ("law.toml", '[[trade]]\nclause = "injury-size"\nkind = "rumor"', 'law.toml: clause "injury-size", kind'),
            ("law.toml", CLAUSE.format(id="injury-size"), "id: is used twice, also in trade/injury.toml"),
            ("edition.toml", '\n[trade]\nwithout = ["tread"]', 'without: "tread" is no clause of the trade'),
            ("edition.toml", '\n[trade]\nfiles = ["injury.toml"]', "edition.toml: trade, files: is not a field"),
        ],
    )
    def test_what_is_not_there_is_named(self, rock: Path, file: str, text: str, message: str) -> None:
        with (rock / file).open("a") as open_file:
            open_file.write(text)

        with pytest.raises(RulebookError) as refused:
            read_versions(rock)

        assert message in str(refused.value)


@pytest.mark.parametrize("name", edition_names())
def test_every_version_that_is_kept_loads_by_its_number_and_on_its_day(name: str) -> None:
    for edition in edition_versions(name):
        assert load_edition(name, version=edition.version) is edition
        assert load_edition(name, on=edition.in_force_from).in_force_from == edition.in_force_from
