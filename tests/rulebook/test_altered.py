"""A rulebook as a misconception alters it: clauses forgotten, limits shifted, the wrong thing measured."""

import pytest

from tests.rulebook.cases import an_examined_case, ruling_of, without_injury
from training.rulebook import UnknownClause, decide, load_edition

NORTH_AMERICA = load_edition("north-america")


def test_a_forgotten_clause_is_not_noticed() -> None:
    forgetful = NORTH_AMERICA.altered(without=["crown-at-liner"])
    case = an_examined_case(injury={"lateral": "56 mm", "angle": "45 deg", "azimuth": "0 deg"})

    assert decide(case).verdict == "reject"
    assert decide(case, edition=forgetful).verdict == "repair"


def test_forgetting_an_essential_clause_does_not_make_the_tire_uncovered() -> None:
    forgetful = NORTH_AMERICA.altered(without=["injury-size"])

    assert decide(an_examined_case(injury={"diameter": "20 mm"}), edition=forgetful).verdict == "repair"


def test_a_shifted_limit_is_compared_in_its_own_unit() -> None:
    generous = NORTH_AMERICA.altered(limits={"injury-size": ["3/8 in", "10 mm"]})

    decision = decide(an_examined_case(injury={"diameter": "10 mm"}), edition=generous)

    assert decision.verdict == "repair"
    assert ruling_of(decision, "injury-size").limit == "at most 3/8 in (10 mm)"


def test_statements_that_disagree_give_way_to_the_shifted_limit() -> None:
    generous = NORTH_AMERICA.altered(limits={"one-piece-angle": ["45 deg"]})

    plan = decide(an_examined_case(injury={"angle": "40 deg", "azimuth": "90 deg"}), edition=generous).plan

    assert plan is not None
    assert "one-piece" in plan[0].methods_allowed


def test_words_may_be_shifted_too() -> None:
    lenient = NORTH_AMERICA.altered(limits={"proposed-repair": ["one-piece", "two-piece", "string"]})

    assert decide(an_examined_case(proposed="string"), edition=lenient).verdict == "repair"


def test_another_quantity_may_be_measured_in_its_place() -> None:
    hasty = NORTH_AMERICA.altered(measures={"injury-size": "injury.before_removal"})
    case = an_examined_case(injury={"before_removal": "4 mm", "diameter": "8 mm"})

    assert decide(case).verdict == "reject"
    assert decide(case, edition=hasty).verdict == "repair"


def test_another_consequence_may_follow() -> None:
    soft = NORTH_AMERICA.altered(consequences={"tread-depth": "advise"})

    assert decide(without_injury(purpose="service", tread_depths=["1/32 in"]), edition=soft).verdict == "advise"


def test_an_altered_rulebook_leaves_the_first_as_it_was() -> None:
    case = an_examined_case(injury={"diameter": "20 mm"})
    decide(case)

    NORTH_AMERICA.altered(without=["injury-size"])

    assert decide(case).verdict == "reject"


def test_an_unknown_clause_is_named_with_the_known_ones() -> None:
    with pytest.raises(UnknownClause, match=r'2026\.1 has no clause "injury-length"; it has .*injury-size'):
        NORTH_AMERICA.altered(without=["injury-length"])


def test_a_quantity_of_another_kind_cannot_stand_in() -> None:
    with pytest.raises(ValueError, match=r'injury-size: "injury\.angle" cannot stand for injury\.diameter'):
        NORTH_AMERICA.altered(measures={"injury-size": "injury.angle"})


def test_a_consequence_must_be_a_verdict() -> None:
    with pytest.raises(ValueError, match='injury-size: "forbid" is not a verdict; choose accept'):
        NORTH_AMERICA.altered(consequences={"injury-size": "forbid"})


def test_a_limit_must_have_its_unit() -> None:
    with pytest.raises(ValueError, match='"10" is not a length'):
        NORTH_AMERICA.altered(limits={"injury-size": ["10"]})
