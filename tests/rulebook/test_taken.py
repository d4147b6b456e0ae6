"""What the United Kingdom takes from North America stands there as it stands here: the same clauses, the same limits.

Common practice of the work has no border. Law of the one country is not law of the other: the pressure monitor's
threshold is a regulation of the United States (49 CFR 571.138), so it is not taken.
"""

import pytest

from training.rulebook import Clause, load_edition

GIVEN = load_edition("north-america")
TAKEN = load_edition("united-kingdom")
FILES = ("workmanship.toml", "job.toml", "around.toml")
NOT_TAKEN = {"pressure-monitor-threshold", "pressure-monitor-time"}
SINGLE = [
    "run-flat-damage",
    "liner-separation",
    "casing-separation",
    "ozone-cracking",
    "impact-damage",
    "excessive-wear",
    "contamination",
    "sealant-residue",
    "size-unreadable-in-service",
    "tin-unreadable-in-service",
    "in-doubt",
    "off-the-wheel",
    "injured-tire-off-the-wheel",
    "build",
    "build-of-injured-tire",
    "one-piece-angle",
    "proposed-one-piece-angle",
    "chunking",
    "restricted-use",
    "recalled",
    "recalled-in-service",
    "regrooved",
    "regrooved-truck-tire",
]
IDS = [id for id, clause in GIVEN.clauses.items() if clause.file in FILES and id not in NOT_TAKEN] + SINGLE


def limits(clause: Clause) -> list[tuple[object, ...]]:
    return [
        (one.bound, [each.text for each in one.quantities], [each.text for each in one.upper], one.words, one.otherwise)
        for one in clause.statements
    ]


@pytest.mark.parametrize("id", IDS)
def test_a_taken_clause_has_the_limits_it_was_taken_with(id: str) -> None:
    clause = TAKEN.clause(id)

    assert clause.quantity == GIVEN.clause(id).quantity
    assert limits(clause) == limits(GIVEN.clause(id))


@pytest.mark.parametrize("id", sorted(NOT_TAKEN))
def test_the_pressure_monitor_goes_by_the_regulation_in_force_there(id: str) -> None:
    assert "UN Regulation No. 141" in TAKEN.clause(id).source
    assert "49 CFR 571.138" in GIVEN.clause(id).source


def test_law_of_the_one_country_counts_as_practice_in_the_other() -> None:
    taken = [clause for clause in TAKEN.clauses.values() if clause.file.startswith("north-america/")]

    assert len(taken) >= len(IDS) - 1
    assert not [clause.id for clause in taken if clause.kind == "law"]
