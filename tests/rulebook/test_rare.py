"""What a measure needs to have something to say: without it, it says nothing, whatever else is stated."""

from operator import attrgetter
from typing import Any

import pytest

from tests.rulebook.test_clauses import CLAUSES, example_case
from training.rulebook import MEASURES, Case, parse_case
from training.rulebook.measures import NOT_HERE, Facts

RARE = {name: measure for name, measure in MEASURES.items() if measure.is_rare}


@pytest.fixture(scope="module")
def known_cases() -> list[Case]:
    """The examples of every clause on a tire, both sides of its limit, for each casing."""
    examples = [
        example_case(clause, example, casing, clause.purposes[0])
        for _, clause in CLAUSES if not clause.is_for_job()
        for example in (*clause.passes, *clause.fails) for casing in clause.casings
    ]  # fmt: skip
    return [parse_case(one) for one in examples]


def subjects_of(case: Case, about: str) -> tuple[Any, ...]:
    return {"tire": (case,), "injury": case.injuries or (), "repair": case.earlier_repairs or ()}[about]


@pytest.mark.parametrize("name", RARE)
def test_a_measure_says_nothing_without_what_it_needs(name: str, known_cases: list[Case]) -> None:
    measure = RARE[name]
    without = 0
    for case in known_cases:
        facts = Facts(case, None, (), 0.0)
        for subject in subjects_of(case, measure.about):
            if not attrgetter(measure.needs)(subject):
                without += 1
                assert measure.read is not None
                assert measure.read(facts, subject) == NOT_HERE, (case, subject)

    assert without or measure.needs in ("tire", "position")  # what every case has, such as the tire, is always there
