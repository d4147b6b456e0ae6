"""Every misconception that alters the rulebook: what it alters, and something that its believer answers otherwise."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from functools import lru_cache
from typing import Any

import pytest

from assessments.questions.drafts.draft import Draft
from assessments.questions.draws.registry import family
from assessments.questions.mistakes.misconceptions import Misconception, misconceptions
from assessments.questions.work.facts import facts, permits
from assessments.questions.work.job_log import Spoil, spoils, write_log
from assessments.questions.work.sequence import METHODS
from tests.rulebook.cases import SHELF
from training.rulebook import (
    MEASURES,
    Case,
    Edition,
    audit,
    decide,
    edition_names,
    load_edition,
    parse_case,
)
from training.rulebook.altering import named_clauses

pytestmark = pytest.mark.walk  # over everything of a kind: what the README adds passes it too

EDITIONS = edition_names()
ALTERING = [one for one in misconceptions().values() if one.alteration]
# What an edition says itself, so that whoever believes it has that edition right.
TRUE_THERE = {
    ("car-tread-for-all", "north-america"): "one depth for cars, heavy vehicles and trucks, steer axles apart",
    ("heavy-tread-for-all", "north-america"): "one depth for cars, heavy vehicles and trucks, steer axles apart",
    ("light-limit-for-steel", "united-kingdom"): "6 mm for steel bodies too",
}
# Cases in which the belief shows, beside the examples of the clauses: of the whole tire, and of one with a nail hole.
TIRES: tuple[dict[str, Any], ...] = (
    {"tire": {"casing": "passenger"}, "purpose": "service", "tread_depths": ["1 mm", "6 mm"]},
    {"tire": {"casing": "truck", "retreaded": True}, "purpose": "service",
     "position": {"vehicle": "truck", "axle": "front"}},
    *(
        {"tire": {"casing": "truck", "designation": f"11R22.5 {load}"}, "purpose": "service", "findings": ["regrooved"],
         "position": {"vehicle": "truck", "axle": "front"}}
        for load in ("135/133L", "136/133L")  # 4920 lb lie between the two
    ),
    {"tire": {"casing": "truck", "date_code": "1012", "retreaded": True, "retreaded_on": "1024"}, "purpose": "service",
     "on": "2026-11-25", "position": {"vehicle": "bus", "axle": "front", "gross_mass": "12500 kg"}},
    *(
        {"tire": {"casing": "truck", "date_code": code}, "purpose": "service", "on": "2026-11-25",
         "position": {"vehicle": "bus", "axle": "front", "gross_mass": "12500 kg"}}
        for code in ("1017", "1018", "0515", "1716", "1126", "4816", "0817")
    ),
    {"tire": {"casing": "truck"}, "purpose": "repair", "on_wheel": True,
     "pressure": {"recommended": "100 psi", "found": "85 psi"}, "position": {"wheel": "single-piece"}},
    *(
        {"tire": {"casing": "truck"}, "purpose": "service", "on_wheel": True,
         "pressure": {"recommended": "100 kPa", "found": f"{found} kPa"}, "position": {"wheel": "single-piece"}}
        for found in (30, 60, 77, 90)
    ),
)  # fmt: skip
HOLES = tuple(
    {"diameter": "4 mm", "angle": angle, "azimuth": azimuth, "lateral": f"{lateral} mm", "station": "0 deg"}
    for lateral in (20, 30, 45, 50, 52, 55, 58, 60, 62, 65, 70, 80, 83)
    for angle, azimuth in (("0 deg", "0 deg"), ("30 deg", "0 deg"), ("30 deg", "180 deg"))
)
CUTS = tuple(
    {"kind": "cut", "length": f"{length} mm", **reaches}
    for length in (18, 24, 26, 30, 48, 60)
    for reaches in ({"reaches": "cord"}, {"reaches": "rubber"}, {})
)
TIRE = {
    "designation": "265/70R17 121/118S",
    "outer_groove": "62 mm",
    "tread_width": "170 mm",
    "crown_thickness": "13 mm",
}


def in_hand(casing: str, **more: Any) -> dict[str, Any]:
    """A tire of which nothing is said but this."""
    return {"tire": {"casing": casing, **TIRE}, "purpose": "repair", "on": "2026-11-25", **more}


@lru_cache
def cases(edition: Edition) -> tuple[Case, ...]:
    """The examples of all clauses about a tire, and what is above."""
    found = [*TIRES]
    for clause in edition.clauses.values():
        for example in () if clause.is_for_job() else (*clause.passes, *clause.fails):
            tire: Any = example.get("tire", {})
            for casing in {("casing" in tire and tire["casing"]) or clause.casings[0], clause.casings[-1]}:
                for purpose in clause.purposes:
                    about = {"purpose": purpose, "on": "2026-11-25", **example}
                    found.append({**about, "tire": {"casing": casing, **tire}})
    for casing in ("passenger", "light-truck-fabric", "light-truck-steel", "truck", "motorcycle"):
        found += [in_hand(casing, injuries=[{"id": "A", "kind": "puncture", **hole}]) for hole in HOLES]
        found += [in_hand(casing, purpose="service", injuries=[{"id": "A", **cut}]) for cut in CUTS]
        found += [
            in_hand(casing, injuries=[{"id": name, "kind": "puncture", "diameter": "4 mm", "angle": "0 deg",
                                       "lateral": f"{lateral} mm", "station": station}
                                      for name, lateral, station in (("A", 0, "0 deg"), ("B", apart, around))])
            for apart, around in ((30, "0 deg"), (0, "8 deg"), (0, "10 deg"), (0, "15 deg"), (60, "0 deg"))
        ]  # fmt: skip
    return tuple(parse_case(one) for one in found)


def answer(edition: Edition, case: Case) -> tuple[object, ...]:
    """What the rulebook says to a case: verdict, which clauses hold, and by which methods it is repaired."""
    decision = decide(case, edition=edition, units=SHELF)
    rulings = {(one.clause, one.subject, one.holds, one.consequence) for one in decision.rulings}
    return decision.verdict, rulings, [one.methods_allowed for one in decision.plan or ()]


@lru_cache(maxsize=100_000)
def right_answer(edition: Edition, place: int) -> tuple[object, ...]:
    return answer(edition, cases(edition)[place])


def work_accepted(edition: Edition, tried: Mapping[str, Sequence[str]]) -> dict[str, object]:
    """Of each clause about the work what it accepts, for which tires; which steps are needed, and their order."""
    accepted: dict[str, object] = {
        clause.id: (
            clause.casings,
            [one.words for one in clause.when],
            [one for one in tried[clause.id] if permits(clause, one)],
        )
        for clause in edition.clauses.values()
        if clause.is_for_job()
    }
    if edition.work is not None:
        accepted["needs"] = set(edition.work.needs)
        accepted |= {
            method: (steps, set(edition.work.order(method, steps).rules)) for method, steps in edition.orders.items()
        }
    return accepted


@lru_cache
def to_try(edition: Edition) -> Mapping[str, Sequence[str]]:
    """By clause about the work: every word of its quantity, or values around every limit of the same dimension."""
    limits = [
        limit
        for clause in edition.clauses.values()
        for statement in clause.statements
        for limit in (*statement.quantities, *statement.upper)
    ]
    return {
        clause.id: measure.words or [
            f"{float(one.value) * part:.6f} {_BASE[one.dimension]}"
            for one in limits if one.dimension == measure.dimension for part in _PARTS
        ]
        for clause in edition.clauses.values()
        if clause.is_for_job() and (measure := MEASURES[clause.quantity])
    }  # fmt: skip


_PARTS = (0.1, 0.5, 0.9, 1, 1.1, 1.5, 10)
_BASE = {"count": "times", "speed": "rpm", "length": "mm", "time": "min", "pressure": "kPa", "distance": "km",
         "percent": "%", "torque": "N.m", "temperature": "C", "mass": "kg"}  # fmt: skip


def is_altered(edition: Edition, believed: Edition) -> bool:
    """Whether anything in the two is not the same."""
    fields = ("clauses", "crowns", "covered", "orders", "work")
    return any(getattr(edition, name) != getattr(believed, name) for name in fields)


def otherwise(edition: Edition, believed: Edition) -> Iterator[str]:
    """What is answered otherwise."""
    right, wrong = (work_accepted(one, to_try(edition)) for one in (edition, believed))
    yield from (name for name in right if right[name] != wrong.get(name))
    for place, case in enumerate(cases(edition)):
        if right_answer(edition, place) != answer(believed, case):
            yield str(case.to_json())


def test_at_least_170_of_the_misconceptions_alter_the_rulebook_and_the_others_say_why_they_cannot() -> None:
    assert len(misconceptions()) >= 226
    assert len(ALTERING) >= 170
    for one in misconceptions().values():
        assert bool(one.alteration) != bool(one.beyond), one.id
        assert len(one.beyond.split()) <= 20, one.id


def test_every_clause_named_stands_in_some_edition() -> None:
    known = {clause for name in EDITIONS for clause in load_edition(name).clauses}
    for one in ALTERING:
        assert set(named_clauses(one.alteration)) <= known, one.id


def test_a_number_is_typed_only_where_no_clause_has_it_and_says_why() -> None:
    for one in ALTERING:
        limits = one.alteration.get("limits", {})
        typed = [
            texts for texts in limits.values() if isinstance(texts, list) and any(text[0].isdigit() for text in texts)
        ]
        assert bool(typed) == bool(one.typed), one.id


@pytest.mark.parametrize("name", EDITIONS)
@pytest.mark.parametrize("belief", ALTERING, ids=lambda one: one.id)
def test_an_altered_rulebook_answers_something_otherwise(belief: Misconception, name: str) -> None:
    edition = load_edition(name)
    believed = edition.believed(belief.alteration)

    differs = next(otherwise(edition, believed), "")

    # an edition that has nothing of it, or says it itself, answers as before
    shows = is_altered(edition, believed) and (belief.id, name) not in TRUE_THERE
    assert bool(differs) == shows, (
        f'no example of a clause of {name} shows what "{belief.id}" answers otherwise: add one to passes or fails'
        if shows
        else f'{name} answers "{differs}" otherwise, though nothing in it is altered'
    )


@pytest.mark.parametrize("belief", ALTERING, ids=lambda one: one.id)
def test_every_alteration_is_one_in_some_edition(belief: Misconception) -> None:
    editions = [load_edition(name) for name in EDITIONS if (belief.id, name) not in TRUE_THERE]

    assert any(is_altered(edition, edition.believed(belief.alteration)) for edition in editions)


def test_what_is_said_wrongly_at_the_bench_is_right_to_who_believes_so() -> None:
    told = 0
    for name in EDITIONS:
        edition = load_edition(name)
        for fact in facts():
            belief = misconceptions()[fact.wrong]
            for casing in fact.casings or ("passenger",):
                clause = edition.limit(fact.quantity, casing) if fact.values else None
                if clause is None or belief.beyond:
                    continue
                believed = edition.believed(belief.alteration).clauses.get(clause.id)
                wrong = [value for value, _ in fact.values if not permits(clause, value)]
                restricted = believed is not None and believed.when != clause.when
                assert restricted or believed is None or all(permits(believed, value) for value in wrong), fact
                told += 1
    assert told > 60


@pytest.mark.parametrize("unit", ["in", "mm"])
@pytest.mark.parametrize("spoil", spoils(), ids=lambda one: f"{one.part}-{one.step}-{one.wrong}")
def test_a_spoiled_log_is_sound_to_who_believes_so(spoil: Spoil, edition: Edition, unit: str) -> None:
    draft = Draft(family("fault-in-preparation"), seed="believer", edition=edition, prefer=unit, units=None)
    believed = edition.believed(misconceptions()[spoil.wrong].alteration)
    casing = spoil.casings[0] if spoil.casings else "passenger"
    methods = [method for method in METHODS if spoil.step in edition.orders[method]]

    for method in methods:
        spoiled, right = (write_log(draft, method, one, None, draft.model_of(casing))[0] for one in (spoil, None))

        assert audit(spoiled, edition=edition, rest_in_order=True).faults
        found = audit(spoiled, edition=believed, rest_in_order=True)
        assert found.sound, found.faults
        assert not spoil.contrary or audit(right, edition=believed, rest_in_order=True).faults
    assert methods
