"""The work on steel bodies: what is asked of which tire, and that the second look finds another key."""

from dataclasses import replace
from typing import Any

import pytest

from assessments.questions import Blame, Item, draw, family, family_names
from assessments.questions.cases.bodies import REPAIRED
from assessments.questions.drafts.rules import NoSuchLimit
from assessments.questions.work.facts import facts
from tests.present import as_a
from tests.proof.bench import Bench
from tests.proof.holding import claimed
from tests.questions.solvers_steel import STEEL as FAMILIES
from training.rulebook import Edition, load_edition
from training.trade.words import CASING_WORDS, LIGHT, STEEL

STATEMENTS = ("preparation-statements", "installation-statements", "return-to-service-statements", "safety-statements")
OF_THE_WORK = [
    name for name in family_names() if name.startswith(("order-of-", "next-", "fault-in-")) or name in STATEMENTS
]


def drawn(name: str, casing: str, edition: Edition, count: int = 40) -> list[Item]:
    return [draw(name, seed=f"steel {n}", edition=edition, casings=[casing]) for n in range(count)]


@pytest.mark.parametrize("name", [*OF_THE_WORK, "drying", "cutter-setting", "unit-from-shelf", "after-the-cutter"])
def test_the_repair_of_a_tire_that_nothing_here_allows_to_repair_is_not_asked(name, edition) -> None:
    # the summary of BS AU 159g says nothing of truck tires; North America repairs no motorcycle tire
    with pytest.raises(NoSuchLimit):
        draw(name, seed="1", edition=load_edition("united-kingdom"), casings=["truck"])
    with pytest.raises(NoSuchLimit):
        draw(name, seed="1", edition=edition, casings=["motorcycle"])


@pytest.mark.parametrize("name", OF_THE_WORK)
def test_the_work_is_asked_of_every_body_that_is_repaired(name, edition) -> None:
    assert set(family(name).casings) == set(REPAIRED)
    for casing in REPAIRED:
        assert len({item.content for item in drawn(name, casing, edition, 12)}) > 3


def test_what_is_said_of_some_tires_is_offered_for_those_only(edition) -> None:
    # 29 CFR 1910.177 leaves out the wheels of cars and light trucks: no cage is asked of them, whatever their body
    of_trucks = ("restraining device", "clip-on chuck", "inner valve", "leaves the axle")
    for name in STATEMENTS:
        for casing in REPAIRED:
            said = " ".join(option.text for item in drawn(name, casing, edition) for option in item.options)
            assert any(words in said for words in of_trucks) == (
                casing == "truck" and name in ("return-to-service-statements", "safety-statements")
            )


def test_a_light_tire_is_cut_by_light_limits_and_a_steel_body_by_its_own(edition) -> None:
    # trade press: at most 1,200 rpm, for truck tires 500 to 700; common practice: 3 and 5 passes each way
    for casing, right, wrong in (("passenger", "900 rpm", "1,800 rpm"), ("truck", "600 rpm", "900 rpm")):
        for item in drawn("preparation-statements", casing, edition, 120):
            for option in item.options:
                if option.text.startswith("Run the cutter") and right in option.text:
                    assert option.id in as_a(tuple, item.key)
                if option.text.startswith("Run the cutter") and wrong in option.text:
                    assert option.id not in as_a(tuple, item.key)


def test_only_the_log_of_a_truck_tire_tells_of_its_cage(edition) -> None:
    for casing in REPAIRED:
        lines = " ".join(item.stem for item in drawn("fault-in-return", casing, edition))
        assert ("restraining device" in lines) == (casing == "truck")


def test_a_truck_tire_filled_without_a_cage_is_a_fault(edition) -> None:
    # 29 CFR 1910.177(d)
    reasons = {
        next((one.text for one in item.reasons if one.id == as_a(Blame, item.key).reason), "")
        for item in drawn("fault-in-return", "truck", edition, 150)
    }
    assert {"Nothing held the tire while it was filled", "The chuck was held by hand"} <= reasons
    # oil on the threads: some truck hubs want it, so it is no fault there
    assert "The threads were not as they should be" not in reasons


@pytest.mark.parametrize("casing", [*LIGHT, *STEEL])
def test_the_body_that_is_cut_is_told(casing, edition) -> None:
    for item in drawn("cutter-setting", casing, edition, 10):
        assert f"in a {CASING_WORDS[casing].one}:" in item.stem


def test_a_statement_without_step_or_clause_says_why() -> None:
    for fact in facts():
        assert bool(fact.step or fact.clause or fact.quantity) != bool(fact.because)


@pytest.mark.parametrize("name", FAMILIES)
def test_the_second_look_finds_another_key(name, edition) -> None:
    for number in range(20):
        item = draw(name, seed=f"tampered {number}", edition=edition)
        key: Any = item.key
        if item.format == "one":
            others = [replace(item, key=option.id) for option in item.options if option.id != item.key]
        elif item.format == "several":
            others = [replace(item, key=key[1:])]
        elif item.format == "order":
            others = [replace(item, key=(key[1], key[0], *key[2:]))]
        else:
            value, _, unit = key.partition(" ")
            others = [replace(item, key=f"{float(value) + 20:g} {unit}")]
        for other in others:
            assert not holds(other, claimed(Bench(other, edition)))
        assert holds(item, claimed(Bench(item, edition)))


def holds(item: Item, found: Any) -> bool:
    if found.complaints is not None:
        return not found.complaints
    if found.number is not None:
        value, _, unit = str(item.key).partition(" ")
        return bool(abs(float(value) * (6.894757 if unit == "psi" else 1) - found.number) < 1)
    return bool(found.right == ({item.key} if isinstance(item.key, str) else set(as_a(tuple, item.key))))
