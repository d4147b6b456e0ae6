"""One fact left out of a tire of which all was looked at never leaves a release."""

from collections.abc import Iterator, Mapping
from copy import deepcopy
from dataclasses import fields
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.examples import times
from tests.rulebook.cases import CLEAN, POSITIONS, SIZES, VAN
from tests.rulebook.test_properties import cases, many
from training.rulebook import CASINGS, MEASURES, PURPOSES, Edition, decide, load_edition, parse_case, severity
from training.rulebook.case import EarlierRepair, Injury, Position, Pressure, Tire
from training.rulebook.case_words import FINDINGS, WORDS

EDITIONS = ("north-america", "united-kingdom")
CLAUSES = {id: MEASURES[clause.quantity] for name in EDITIONS for id, clause in load_edition(name).clauses.items()} | {
    "not-covered": MEASURES["tire.casing"]
}
CONTRADICTIONS = {
    id for name in EDITIONS for id, clause in load_edition(name).clauses.items()
    if clause.file.endswith("contradictions.toml")
}  # fmt: skip
RELEASES = ("accept", "advise", "repair")
INSPECT = severity("inspect")

# The worst that can be said of each fact; a fact is left out by taking its path away.
WORST: dict[str, tuple[Any, ...]] = {
    "tire.build": tuple(WORDS["tire.build"]),
    "tire.designation": ("unreadable",),
    "tire.date_code": ("unreadable", "0105"),
    "tire.retreaded": (True,),
    "tire.outer_groove": ("1 mm",),
    "tire.tread_width": ("125 mm",),  # narrower than that and the grooves would lie beside it
    "tire.crown_thickness": ("60 mm",),
    "position.vehicle": tuple(WORDS["position.vehicle"]),
    "position.axle": tuple(WORDS["position.axle"]),
    "position.gross_mass": ("1800 kg", "20000 kg"),
    "position.dual": (True, False),
    "position.wheel": tuple(WORDS["position.wheel"]),
    "on_wheel": (True,),
    "pressure.found": ("0 kPa", "120 kPa", "150 kPa"),
    "pressure.recommended": ("450 kPa", "900 kPa"),
    "tread_depths": (["0 mm"],),
    "earlier_repairs": ([{"kind": "string", "zone": "sidewall"}],),
    "injuries": ([{"kind": "puncture", "zone": "sidewall", "diameter": "30 mm"}],),
    **{f"findings.{slug}": (True,) for slug in FINDINGS},
}
WORST_OF_HOLE: dict[str, tuple[Any, ...]] = {
    "diameter": ("40 mm",),
    "angle": ("60 deg",),
    "lateral": ("80 mm",),
}


VOCABULARY = (
    *(f"tire.{field.name}" for field in fields(Tire) if field.name != "casing"),
    *(f"position.{field.name}" for field in fields(Position)),
    *(f"pressure.{field.name}" for field in fields(Pressure)),
    *(f"injuries.{field.name}" for field in fields(Injury) if field.name != "id"),
    *(f"earlier_repairs.{field.name}" for field in fields(EarlierRepair) if field.name != "id"),
    *(f"findings.{slug}" for slug in FINDINGS),
    *("on_wheel", "tread_depths", "injuries", "earlier_repairs", "dual_mate", "jurisdiction", "proposed", "roadside"),
)


@st.composite
def whole_cases(draw: st.DrawFn, edition: str, casing: str, purpose: str) -> dict[str, Any]:
    """A tire of which everything was looked at, mostly in order."""
    told: Mapping[str, Any] = POSITIONS.get(casing, VAN)
    position: dict[str, Any] = {**told}
    position["axle"] = draw(st.sampled_from(["front", "drive", "rear"]))
    position.setdefault("gross_mass", "1800 kg")
    position.setdefault("dual", False)
    position.setdefault("wheel", "single-piece")
    hole = {
        "id": "A",
        "kind": "puncture",
        "diameter": f"{draw(st.integers(20, 80)) / 10} mm",
        "angle": f"{draw(st.integers(0, 30))} deg",
        "lateral": f"{draw(st.integers(-50, 50))} mm",
        "station": "90 deg",
    }
    return {
        "edition": edition,
        "on": "2026-11-25",
        "purpose": purpose,
        "tire": {
            "casing": casing,
            "designation": SIZES.get(casing, "LT245/75R16 120/116S"),
            "date_code": draw(st.sampled_from(["3219", "1024"])),
            "retreaded": False,
            "tread_width": "110 mm" if casing == "motorcycle" else "180 mm",
            "outer_groove": "40 mm" if casing == "motorcycle" else "62 mm",
            "crown_thickness": "13 mm",
            "build": "radial",
        },
        "position": position,
        "on_wheel": False,
        "pressure": {"recommended": "230 kPa", "found": draw(st.sampled_from(["230 kPa", "210 kPa"]))},
        "tread_depths": [f"{draw(st.integers(1, 8))} mm" for _ in range(draw(st.integers(1, 3)))],
        "injuries": [hole] if purpose == "repair" and draw(st.booleans()) else [],
        "findings": dict(CLEAN),
        "earlier_repairs": [],
    }


def without(case: Mapping[str, Any], path: str) -> dict[str, Any]:
    """The same case of which one thing was not said."""
    left = deepcopy(dict(case))
    *groups, last = path.split(".")
    target: Any = left
    for group in groups:
        target = target[int(group)] if isinstance(target, list) else target[group]
    target.pop(last, None)
    return left


def saying(case: Mapping[str, Any], path: str, value: Any) -> dict[str, Any]:
    """The same case with one thing said otherwise."""
    said = deepcopy(dict(case))
    *groups, last = path.split(".")
    target: Any = said
    for group in groups:
        target = target[int(group)] if isinstance(target, list) else target[group]
    target[last] = value
    return said


def facts_of(case: Mapping[str, Any]) -> Iterator[tuple[str, tuple[Any, ...]]]:
    yield from WORST.items()
    for name, worst in WORST_OF_HOLE.items() if case["injuries"] else ():
        yield f"injuries.0.{name}", worst


def worst_of(case: Mapping[str, Any]) -> int:
    """How hard a case is ruled, by what was found; that a value contradicts others is no fact left out."""
    rulings = [one for one in decide(case).rulings if not one.holds]
    if any(one.clause in CONTRADICTIONS for one in rulings):
        return 0
    return max((severity(one.consequence) for one in rulings if not CLAUSES[one.clause].is_rare), default=0)


def is_excepted(edition: Edition, case: Mapping[str, Any], path: str) -> bool:
    """Does the edition give a reason to release a tire without it, or is the fact stated in another way?"""
    field = path.replace("injuries.0.", "injuries.")
    facts = [fact for fact in edition.essentials.facts.values() if field in fact.fields]
    casing, purpose = case["tire"]["casing"], case["purpose"]
    told = parse_case(without(case, path))
    return any(edition.essentials.exception(fact.id, casing, purpose) or fact.is_stated(told, None) for fact in facts)


@pytest.mark.parametrize("purpose", PURPOSES)
@pytest.mark.parametrize("name", EDITIONS)
@settings(max_examples=times(40), deadline=None)
@given(data=st.data())
def test_one_fact_left_out_never_leaves_a_release(name: str, purpose: str, data: st.DataObject) -> None:
    edition = load_edition(name)
    case = data.draw(whole_cases(name, data.draw(st.sampled_from(CASINGS)), purpose))
    whole = decide(case)
    if whole.verdict not in RELEASES:
        return

    for path, values in facts_of(case):
        left = decide(without(case, path))
        if path != "injuries":  # what is to be repaired is not in order
            assert left.if_nothing_else == whole.verdict, path  # said again, in order, it is the whole case
        worst = max(worst_of(saying(case, path, value)) for value in values)
        if worst >= INSPECT and not is_excepted(edition, case, path):
            assert left.verdict not in RELEASES, path


@many
@given(cases)
def test_a_verdict_is_never_milder_than_what_was_found_says(case: dict[str, Any]) -> None:
    decision = decide(case)

    assert severity(decision.verdict) >= severity(decision.if_nothing_else)
    assert decision.verdict not in RELEASES or not decision.missing


@many
@given(cases, st.sampled_from(FINDINGS))
def test_doubt_is_never_graver_than_the_finding(case: dict[str, Any], slug: str) -> None:
    found = decide({**case, "findings": {**case["findings"], slug: True}})
    doubted = decide({**case, "findings": {**case["findings"], slug: "doubt"}})

    assert severity(doubted.if_nothing_else) <= severity(found.if_nothing_else)


@pytest.mark.parametrize("purpose", PURPOSES)
@pytest.mark.parametrize("casing", CASINGS)
@pytest.mark.parametrize("name", EDITIONS)
def test_nothing_is_released_of_a_tire_that_nobody_looked_at(name: str, casing: str, purpose: str) -> None:
    decision = decide({"edition": name, "on": "2026-11-25", "purpose": purpose, "tire": {"casing": casing}})

    assert decision.verdict not in RELEASES
    assert decision.plan is None


@pytest.mark.parametrize("purpose", PURPOSES)
@pytest.mark.parametrize("casing", CASINGS)
@pytest.mark.parametrize("name", EDITIONS)
def test_every_field_of_a_case_is_essential_or_used_or_says_why_not(name: str, casing: str, purpose: str) -> None:
    edition = load_edition(name)
    clauses = [one for one in edition.clauses.values() if casing in one.casings and purpose in one.purposes]
    read = {one.quantity for one in clauses} | {condition.quantity for one in clauses for condition in one.when}
    feeding = {field for quantity in read for fact in edition.essentials.feeding(quantity) for field in fact.fields}

    unsorted = [
        path
        for path in VOCABULARY
        if path not in feeding and edition.essentials.reason_unused(path, casing, purpose) is None
    ]
    assert not unsorted


@pytest.mark.parametrize("name", EDITIONS)
def test_every_clause_that_can_stop_a_tire_says_where_to_look(name: str) -> None:
    edition = load_edition(name)
    grave = [
        clause
        for clause in edition.clauses.values()
        if not clause.is_for_job()
        and not MEASURES[clause.quantity].is_rare
        and max(severity(one.otherwise) for one in clause.statements) >= INSPECT
    ]

    known = {"tire.casing", "finding.doubt", "proposed.kind", "repairs.proper", "injury.reach_known"}  # never unsaid
    assert not [one.id for one in grave if one.quantity not in known and not edition.essentials.feeding(one.quantity)]


def test_what_is_asked_of_an_earlier_repair_is_asked_only_where_there_is_one() -> None:
    case = {"on": "2026-11-25", "purpose": "service", "tire": {"casing": "passenger"}}

    assert not {"earlier-repairs", "repair-kind"} & set(decide(case).missing)
    assert "repair-kind" in decide({**case, "earlier_repairs": [{"zone": "crown", "sound": True}]}).missing
    assert "earlier-repairs" in decide({**case, "purpose": "repair"}).missing
