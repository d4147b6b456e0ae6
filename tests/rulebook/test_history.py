"""Versions of an edition: the day chooses, earlier ones stay readable, and what changed is told in words."""

import shutil
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
    read_versions,
)

HEADER = """name = "island"
version = "{version}"
title = "Island"
country = "an invented island"
in_force_from = {day}
units = "mm"
"""
CLAUSE = """[[clause]]
id = "injury-size"
quantity = "injury.diameter"
casings = ["passenger"]
at_most = ["{limit}"]
otherwise = "reject"
because = "After damage removal the injury may be at most {limit} across."
kind = "guidance"
source = "an invented text"
checked_on = 2026-11-20
passes = {{injuries = [{{diameter = "1 mm"}}]}}
fails = {{injuries = [{{diameter = "9 mm"}}]}}
"""


def release(folder: Path, version: str, day: str, *, limit: str, more: str = "") -> None:
    folder.mkdir(parents=True, exist_ok=True)
    (folder / "edition.toml").write_text(HEADER.format(version=version, day=day) + more)
    (folder / "injury.toml").write_text(CLAUSE.format(limit=limit))


@pytest.fixture
def island(tmp_path: Path) -> Path:
    """An edition whose limit went from 5 mm to 6 mm on 1 March 2027: the newest above, the earlier one in a folder."""
    release(tmp_path / "island", "2027.1", "2027-03-01", limit="6 mm")
    release(tmp_path / "island" / "2026.1", "2026.1", "2026-01-01", limit="5 mm")
    return tmp_path / "island"


@pytest.mark.parametrize(
    ("day", "version", "verdict"),
    [("2020-01-01", "2026.1", "reject"), ("2027-02-28", "2026.1", "reject"), ("2027-03-01", "2027.1", "refer")],
)
def test_the_day_chooses_the_version(island: Path, day: str, version: str, verdict: str) -> None:
    edition = in_force(read_versions(island), date.fromisoformat(day))

    decision = decide({"tire": {"casing": "passenger"}, "injuries": [{"diameter": "5.5 mm"}]}, edition=edition)

    assert (decision.version, decision.verdict) == (version, verdict)  # refer: nothing else covers the tire


def test_later_numbers_come_later_also_beyond_nine(tmp_path: Path) -> None:
    release(tmp_path / "island", "2026.10", "2026-01-01", limit="6 mm")
    release(tmp_path / "island" / "2026.9", "2026.9", "2026-01-01", limit="5 mm")

    assert [one.version for one in read_versions(tmp_path / "island")] == ["2026.9", "2026.10"]


def test_a_version_that_stands_twice_is_refused(island: Path) -> None:
    shutil.copytree(island / "2026.1", island / "copy")

    with pytest.raises(RulebookError, match=r'version: "2026\.1" of island stands in two folders'):
        read_versions(island)


def test_a_version_of_another_edition_in_the_folder_is_refused(island: Path) -> None:
    header = island / "2026.1" / "edition.toml"
    header.write_text(header.read_text().replace('"island"', '"mainland"'))

    with pytest.raises(RulebookError, match='name: "mainland" stands in a folder of "island"'):
        read_versions(island)


def test_a_version_is_a_year_and_a_number(island: Path) -> None:
    header = island / "edition.toml"
    header.write_text(header.read_text().replace('"2027.1"', '"spring"'))

    with pytest.raises(RulebookError, match='version: "spring" is not accepted; give year and number'):
        read_versions(island)


class TestWhatChanged:
    def test_is_told_clause_by_clause_in_words(self, island: Path) -> None:
        before, after = read_versions(island)

        (change,) = compare(before, after)

        assert (change.about, change.kind) == ("injury-size", "changed")
        assert change.lines[0] == (
            "limit: at most 5 mm; otherwise reject (guidance: an invented text) -> "
            "at most 6 mm; otherwise reject (guidance: an invented text)"
        )

    def test_names_what_came_and_what_went(self, island: Path) -> None:
        (island / "more.toml").write_text(CLAUSE.format(limit="9 mm").replace("injury-size", "injury-size-more"))
        before, after = read_versions(island)

        assert ("injury-size-more", "new") in [(one.about, one.kind) for one in compare(before, after)]
        assert ("injury-size-more", "gone") in [(one.about, one.kind) for one in compare(after, before)]

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
            ({"measures": {"injury-size": "injury.before_removal"}}, "injury.diameter -> injury.before_removal"),
        ],
    )
    def test_sees_every_way_a_clause_can_change(self, change: dict[str, Any], words: str) -> None:
        edition = load_edition("north-america")

        (found,) = compare(edition, edition.altered(**change))

        assert found.about == "injury-size"
        assert words in " ".join(found.lines)

    def test_between_the_countries_names_the_size_and_the_crown(self) -> None:
        text = compare_text(load_edition("north-america"), load_edition("united-kingdom"))

        assert "at most 1/4 in (6 mm)" in text
        assert "crown of passenger: changed" in text
        assert "60 % up to 155 mm, 65 % up to 200 mm, 70 % over 200 mm" in text


class TestTaking:
    """An edition takes what the trade does everywhere from a version of another, with the source it has there."""

    def take(self, folder: Path, table: str) -> None:
        release(folder / "rock", "2026.1", "2026-01-01", limit="4 mm", more=f"\n[[take]]\n{table}\n")
        (folder / "rock" / "injury.toml").unlink()
        header = folder / "rock" / "edition.toml"
        header.write_text(header.read_text().replace('name = "island"', 'name = "rock"'))

    def test_takes_the_clause_of_the_version_named(self, island: Path) -> None:
        self.take(island.parent, 'edition = "island"\nversion = "2026.1"\nfiles = ["injury.toml"]')

        (edition,) = read_versions(island.parent / "rock")

        assert edition.clause("injury-size").limit_text() == "at most 5 mm"
        assert edition.clause("injury-size").file == "island/injury.toml"

    def test_takes_law_as_the_practice_it_is_elsewhere(self, island: Path) -> None:
        law = island / "injury.toml"
        law.write_text(law.read_text().replace('"guidance"', '"law"'))
        self.take(island.parent, 'edition = "island"\nversion = "2027.1"\nclauses = ["injury-size"]')

        (edition,) = read_versions(island.parent / "rock")

        taken = edition.clause("injury-size")
        assert (taken.kind, taken.source) == ("common-practice", "common practice; law elsewhere: an invented text")
        assert read_versions(island)[-1].clause("injury-size").kind == "law"

    def test_leaves_out_what_it_says(self, island: Path) -> None:
        self.take(
            island.parent,
            'edition = "island"\nversion = "2026.1"\nfiles = ["injury.toml"]\nwithout = ["injury-size"]',
        )

        (edition,) = read_versions(island.parent / "rock")

        assert not edition.clauses

    @pytest.mark.parametrize(
        ("table", "message"),
        [
            ('edition = "island"\nversion = "1999.1"', 'there is no "island" of version "1999.1"'),
            ('edition = "atlantis"\nversion = "2026.1"', 'there is no "atlantis" of version "2026.1"'),
            ('edition = "island"\nversion = "2026.1"\nfiles = ["tread.toml"]', '"tread.toml" is not a file of island'),
            ('edition = "island"\nversion = "2026.1"\nclauses = ["tread"]', '"tread" is not a clause of island 2026.1'),
            ('edition = "island"\nversion = "2026.1"\nwithout = ["tread"]', '"tread" is not a clause of island 2026.1'),
            ('edition = "island"\nversion = "2026.1"\nfile = "injury.toml"', "take, file: is not a field"),
        ],
    )
    def test_what_is_not_there_is_named(self, island: Path, table: str, message: str) -> None:
        self.take(island.parent, table)

        with pytest.raises(RulebookError, match=message):
            read_versions(island.parent / "rock")


@pytest.mark.parametrize("name", edition_names())
def test_every_version_that_is_kept_loads_by_its_number_and_on_its_day(name: str) -> None:
    for edition in edition_versions(name):
        assert load_edition(name, version=edition.version) is edition
        assert load_edition(name, on=edition.in_force_from).in_force_from == edition.in_force_from
