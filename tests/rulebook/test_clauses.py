"""Every clause of every edition: what it must carry, and its own examples on both sides of its limit, executed."""

from collections.abc import Mapping
from datetime import date
from typing import Any

import pytest

from tests.rulebook.cases import decide_with_units
from training.rulebook import (
    CASINGS,
    MEASURES,
    PURPOSES,
    Clause,
    Edition,
    edition_names,
    load_edition,
    parse_quantity,
)
from training.rulebook.case_words import FINDINGS
from training.rulebook.clauses import KINDS

pytestmark = pytest.mark.walk  # over everything of a kind: what the README adds passes it too

CLAUSES = [(load_edition(name), clause) for name in edition_names() for clause in load_edition(name).clauses.values()]
IDS = [f"{edition.name}-{clause.id}" for edition, clause in CLAUSES]
# These speak only where there is something to say: no ruling is as good as one that holds.
SILENT = {"finding.doubt", "injury.kind"} | {name for name, measure in MEASURES.items() if measure.is_rare}
SILENT_CLAUSES = {"motorcycle-proposal"}  # no proposal for a motorcycle tire is the shop's to accept

each_clause = pytest.mark.parametrize(("edition", "clause"), CLAUSES, ids=IDS)


def example_case(clause: Clause, example: Mapping[str, Any], casing: str, purpose: str) -> dict[str, Any]:
    tire = {"casing": casing, **example.get("tire", {})}
    return {"purpose": purpose, "on": "2026-11-25", **example, "tire": tire}


@each_clause
def test_a_clause_says_where_it_comes_from_and_why(edition: Edition, clause: Clause) -> None:
    assert clause.kind in KINDS
    assert len(clause.source) > 8
    assert clause.because.endswith(".")
    assert date(2026, 1, 1) <= clause.checked_on
    assert clause.limit_text()
    assert clause.quantity in MEASURES
    for statement in clause.statements:
        assert statement.kind in KINDS
        assert statement.source


def casing_of(example: Mapping[str, Any], casing: str) -> str:
    """The casing an example is about; without one of its own it is about all of the clause."""
    return str(example.get("tire", {}).get("casing", casing))


@each_clause
def test_a_clause_holds_and_fails_on_its_own_examples(edition: Edition, clause: Clause) -> None:
    if clause.is_for_job():
        check_job_examples(clause)
        return
    for casing in clause.casings:
        for purpose in clause.purposes:
            for example in clause.passes:
                if casing_of(example, casing) == casing:
                    rulings = rulings_of(edition, clause, example_case(clause, example, casing, purpose))
                    assert all(rulings), (casing, purpose, example)
                    assert rulings or clause.quantity in SILENT or clause.id in SILENT_CLAUSES, (
                        casing,
                        purpose,
                        example,
                    )
            for example in clause.fails:
                if casing_of(example, casing) == casing:
                    rulings = rulings_of(edition, clause, example_case(clause, example, casing, purpose))
                    assert False in rulings, (casing, purpose, example)


def rulings_of(edition: Edition, clause: Clause, case: dict[str, Any]) -> list[bool]:
    return [ruling.holds for ruling in decide_with_units(case, edition=edition).rulings if ruling.clause == clause.id]


def check_job_examples(clause: Clause) -> None:
    dimension = MEASURES[clause.quantity].dimension
    for examples, expected in ((clause.passes, True), (clause.fails, False)):
        for example in examples:
            value = str(example["value"])
            if not dimension:
                holds = (value in clause.strictest.words) == (clause.bound == "must_be")
            elif clause.bound == "about":
                holds = parse_quantity(value, dimension) == clause.strictest.quantity
            else:
                holds = clause.strictest.permits(parse_quantity(value, dimension))
            assert holds is expected, value


@each_clause
def test_the_examples_of_a_clause_stand_on_each_side_of_its_limit(edition: Edition, clause: Clause) -> None:
    assert clause.passes
    assert clause.fails
    assert clause.passes != clause.fails


# A finding that decides nothing for a purpose, and why.
NOT_ASKED = {
    ("audible-leak", "repair"): "every punctured tire leaks",
    **dict.fromkeys(
        [(slug, "repair") for slug in ("trailer-only", "not-for-steering", "mixed-on-axle", "bias-behind-radial")],
        "whether it may run where it ran is asked when it goes back",
    ),
}


@pytest.mark.parametrize("name", edition_names())
def test_every_finding_decides_for_every_purpose_or_says_why_not(name: str) -> None:
    edition = load_edition(name)
    covered_casings = {casing for casing, _ in edition.covered}

    for slug in FINDINGS:
        for purpose in PURPOSES:
            for casing in covered_casings:
                speaking = [
                    one
                    for one in edition.clauses.values()
                    if one.quantity == f"finding.{slug}" and casing in one.casings and purpose in one.purposes
                ]
                assert bool(speaking) != ((slug, purpose) in NOT_ASKED), (slug, purpose, casing)


def test_north_america_covers_every_casing_for_every_purpose() -> None:
    assert load_edition("north-america").covered == {(casing, purpose) for casing in CASINGS for purpose in PURPOSES}


@pytest.mark.parametrize("name", edition_names())
def test_a_version_is_found_by_its_name_and_by_a_day(name: str) -> None:
    newest = load_edition(name)

    assert load_edition(name, version=newest.version) is newest
    assert load_edition(name, on=newest.in_force_from) is newest
    assert load_edition(name, on=date(1990, 1, 1)).version


# The values of released versions, from the sources; a changed fact is a new version, never a changed line here.
RELEASED = {
    ("north-america", "2026.1"): {
        "injury-size": "at most 1/4 in (6 mm)",  # association wall chart
        "one-piece-angle": "at most 25 deg",  # recommended practice 2017, the stricter statement
        "tread-depth": "at least 2/32 in",  # 49 CFR 570.9
        "tread-depth-used": "more than 2/32 in",  # California 2019, South Carolina 39-75-210
        "tread-depth-steer-axle": "at least 4/32 in",  # 49 CFR 393.75(b)
        "pressure-found": "at least 50 %",  # Utah R714-160-8(1)(c)
        "cutter-speed": "at most 1200 rpm",  # trade press
        "buffer-speed": "at most 5000 rpm",  # recommended practice 2017
        "bead-seating-pressure": "at most 40 psi (275 kPa)",  # 8 CCR 3325(e)
        "torque-recheck": "50 to 100 mi",  # trade press
        "torque-m22": "450 to 500 lbf.ft (610 to 678 N.m)",  # trade press
        "torque-m20": "280 to 330 lbf.ft (380 to 447 N.m)",  # a truck maker's maintenance manual, 2024
        "restraint-capacity": "good for 150% of the maximum pressure, or more",  # 29 CFR 1910.177(d)(3)
        # 49 CFR 571.138 S4.2(a)
        "pressure-monitor-threshold": "25% below the recommended cold pressure, or at the pressure of a table for the "
        "kind of tire, whichever is higher",
        "pressure-monitor-time": "at most 20 min",  # 49 CFR 571.138 S4.2
        "drying-time": "at least 3 min (usually 3 to 5 min, longer when cold or humid)",  # common practice
        "dual-diameter": "at most 1/2 in",  # Maryland COMAR 11.14.05.05(g)
        "injury-size-steel": "at most 3/8 in (10 mm)",  # association guidance, common practice
        "crown-at-tread-steel": "at least 1 1/2 in",  # association article 2008, the stricter statement
        "cutter-speed-steel": "500 to 700 rpm",  # trade press
        "cutter-passes-steel": "at least 5 passes",  # common practice
        "tread-depth-steer-axle-truck": "at least 4/32 in",  # 49 CFR 393.75(b)
        "tread-depth-truck": "at least 2/32 in",  # 49 CFR 393.75(c)
        "run-low-multi-piece": "more than 80 %",  # 29 CFR 1910.177(f)(2)
        "tread-depth-motorcycle": "at least 2/32 in",  # Virginia 19VAC30-70-400 item 5
        "used-repair-size": "at most 1/4 in",  # California 9889.30(a)(2)(F), New Jersey 2017
    },
    ("united-kingdom", "2026.1"): {
        "injury-size": "at most 6 mm",  # BS AU 159g as summarised
        "crown-at-tread": "the whole hole inside area T",  # BS AU 159g as summarised
        "tread-depth": "at least 1.6 mm",  # C&U Regulations 1986, regulation 27
        "tread-depth-heavy-vehicle": "at least 1 mm",  # the same
        "tread-depth-truck": "at least 1 mm",  # the same
        # the same, regulation 27(1)
        "cut-length": "at most 25 mm or 10 % of the section width, whichever is larger",
        "age-front-axle": "less than 10 years",  # the same, from 1 February 2021
        "age-minibus": "less than 10 years",  # the same
        "tread-depth-used": "at least 2 mm",  # Motor Vehicle Tyres (Safety) Regulations 1994, from memory
    },
}


@pytest.mark.parametrize(("name", "version"), RELEASED)
def test_a_released_version_keeps_its_values(name: str, version: str) -> None:
    edition = load_edition(name, version=version)

    for clause, limit in RELEASED[name, version].items():
        assert edition.clause(clause).limit_text() == limit
