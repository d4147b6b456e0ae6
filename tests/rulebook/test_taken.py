"""What every country takes from the trade has one limit in all of them; law is law only in the country that made it.

Common practice of the work has no border. Law of the one country is not law of the other: the pressure monitor's
threshold is a regulation of the United States (49 CFR 571.138), so it is not taken.
"""

from collections.abc import Mapping
from itertools import chain
from typing import cast

import pytest

from training.rulebook import Clause, edition_names, load_edition
from training.rulebook.clauses import BOUNDS
from training.rulebook.header import HEADER
from training.rulebook.registry import EDITIONS
from training.rulebook.taking import TRADE, WHOLE, read_files

pytestmark = pytest.mark.walk  # over everything of a kind: what the README adds passes it too

TAKEN = [
    str(table["id"])
    for file, data in read_files(EDITIONS / TRADE).items()
    if file not in WHOLE
    for table in cast("list[dict[str, object]]", data["clause"])
]
COUNTRIES = [load_edition(name) for name in edition_names()]


def own_limits(name: str) -> set[object]:
    """The clauses of the trade that a country leaves out, or gives a limit of its own."""
    files = read_files(EDITIONS / name)
    left_out = cast("Mapping[str, list[str]]", files[HEADER].get("trade", {})).get("without", [])
    changes = [cast("list[dict[str, object]]", data.get("trade", [])) for file, data in files.items() if file != HEADER]
    return {*left_out, *(one["clause"] for one in chain(*changes) if {*BOUNDS, "statement", "otherwise"} & one.keys())}


OWN = {name: own_limits(name) for name in edition_names()}


def limits(clause: Clause) -> list[tuple[object, ...]]:
    return [
        (one.bound, [each.text for each in one.quantities], [each.text for each in one.upper], one.words, one.otherwise)
        for one in clause.statements
    ]


@pytest.mark.parametrize("id", TAKEN)
def test_a_taken_clause_has_the_same_limits_in_every_country(id: str) -> None:
    first, *others = [edition.clause(id) for edition in COUNTRIES if id not in OWN[edition.name]]

    assert all(one.quantity == first.quantity for one in others)
    assert all(limits(one) == limits(first) for one in others)


def test_the_work_is_taken_by_every_country() -> None:
    # how the work is done, the findings both know, and what a tire is asked to do everywhere
    assert len(TAKEN) > 130
    assert len({edition.procedure[0].id for edition in COUNTRIES}) == 1


@pytest.mark.parametrize("id", ["pressure-monitor-threshold", "pressure-monitor-time"])
def test_the_pressure_monitor_goes_by_the_regulation_in_force_there(id: str) -> None:
    assert id not in TAKEN
    assert "UN Regulation No. 141" in load_edition("united-kingdom").clause(id).source
    assert "49 CFR 571.138" in load_edition("north-america").clause(id).source


def test_the_trade_makes_no_law() -> None:
    for edition in COUNTRIES:
        assert not [one.id for one in edition.clauses.values() if one.file.startswith(TRADE) and one.kind == "law"]


def test_law_of_the_one_country_counts_as_practice_in_the_other() -> None:
    here, there = (load_edition(name).clause("wheel-sound") for name in ("north-america", "united-kingdom"))

    assert (here.kind, there.kind) == ("law", "common-practice")
    assert here.source == "29 CFR 1910.177(e)(2), wheels of large vehicles; common practice for every wheel"
    assert there.source == f"common practice for every wheel; law in the United States: {here.source.partition(';')[0]}"
