"""A rulebook as a misconception alters it: clauses forgotten, limits shifted, the wrong thing measured."""

from fractions import Fraction

import pytest

from tests.rulebook.cases import an_examined_case, ruling_of, without_injury
from training.rulebook import (
    MEASURES,
    Edition,
    RulebookError,
    UnknownClause,
    audit,
    compare,
    decide,
    edition_names,
    injury_geometry,
    load_edition,
    parse_case,
    parse_quantity,
    procedure,
)
from training.rulebook.altering import Beliefs, Limit
from training.rulebook.geometry import half_crown_mm
from training.rulebook.loader import read_clause

pytestmark = pytest.mark.walk  # over everything of a kind: what the README adds passes it too

NORTH_AMERICA, UNITED_KINGDOM = load_edition("north-america"), load_edition("united-kingdom")


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
    soft = NORTH_AMERICA.altered(consequences={"tread-depth": "advise", "tread-depth-lowest-point": "advise"})

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


def test_a_limit_may_be_that_of_another_clause_bound_and_all() -> None:
    hasty = NORTH_AMERICA.altered(limits={"cutter-speed-steel": "cutter-speed"})

    assert NORTH_AMERICA.clause("cutter-speed-steel").limit_text() == "500 to 700 rpm"
    assert hasty.clause("cutter-speed-steel").limit_text() == "at most 1200 rpm"


@pytest.mark.parametrize(
    ("clause", "limit", "words"),
    [
        ("injury-size", {"of": "injury-size", "times": "1/2"}, "at most 1/8 in (3 mm)"),
        ("injury-size", {"halfway": "injury-size-steel"}, "at most 5/16 in (8 mm)"),
        ("injury-size", {"of": ["no-such-clause", "injury-size-steel"]}, "at most 3/8 in (10 mm)"),
        ("injury-size", {"bound": "below"}, "less than 1/4 in (6 mm)"),
        (
            "run-low-single-piece",
            {"of": "pressure-monitor-threshold", "rest": True, "bound": "above"},
            "more than 75 %",
        ),
        ("torque-recheck", {"end": "upper", "bound": "above"}, "more than 100 mi"),
        ("torque-m22", {"other_unit": True}, "450 to 500 N.m (610 to 678 lbf.ft)"),
        ("cutter-direction", {"accepts": ["counterclockwise"]}, "clockwise or counterclockwise"),
        ("earlier-section-repair", {"refuses": ["two-piece"]}, "not section repair or two-piece"),
    ],
)
def test_a_limit_may_be_reckoned_from_another(clause: str, limit: Limit, words: str) -> None:
    assert NORTH_AMERICA.altered(limits={clause: limit}).clause(clause).limit_text() == words


@pytest.mark.parametrize(
    ("share", "limit_mm"), [("none", "25"), ("smaller", "25"), ("sum", "51.5")]
)  # of 25 mm and a tenth of 265 mm, which is more
def test_a_limit_that_grows_with_the_tire_may_grow_otherwise(share: str, limit_mm: str) -> None:
    altered = UNITED_KINGDOM.altered(limits={"cut-length": {"share": share}}).clause("cut-length").strictest

    (limit,) = altered.for_whole(parse_quantity("265 mm", "length")).quantities

    assert limit.value == Fraction(limit_mm)


def test_a_quantity_may_be_read_otherwise_wherever_it_is_named() -> None:
    birthday = UNITED_KINGDOM.altered(measures={"tire.age": "tire.age_of_casing"})

    assert {birthday.clause(id).quantity for id in ("age-front-axle", "age-minibus")} == {"tire.age_of_casing"}


def test_a_clause_may_depend_on_less_or_on_more() -> None:
    everywhere = NORTH_AMERICA.altered(always={"retread-on-bus-front": ["position.vehicle"]})
    rings_only = NORTH_AMERICA.altered(only={"restraining-device": {"position.wheel": ["multi-piece"]}})

    assert [one.quantity for one in everywhere.clause("retread-on-bus-front").when] == ["position.axle"]
    assert [one.words for one in rings_only.clause("restraining-device").when] == [("multi-piece",)]


def test_a_law_may_count_everywhere() -> None:
    virginia = NORTH_AMERICA.altered(laws={"motorcycle-cut": "US-VA"})

    assert [(one.jurisdictions, one.otherwise) for one in virginia.clause("motorcycle-cut").statements] == [
        ((), "reject")
    ]


def test_a_casing_may_be_taken_for_another_or_for_none_that_the_rulebook_knows() -> None:
    case = an_examined_case(injury={"diameter": "9 mm"})

    assert decide(case).verdict == "reject"
    assert decide(case, edition=NORTH_AMERICA.altered(casings={"passenger": "light-truck-steel"})).verdict == "repair"
    assert decide(case, edition=NORTH_AMERICA.altered(casings={"passenger": ""})).verdict == "refer"


@pytest.mark.parametrize(
    ("crown", "half_mm"), [("share of another width", 136.5 / 2), ("share of the tread", 110.5 / 2)]
)  # 70 % of the section's 195 mm; 65 % of the tread's 170 mm
def test_the_share_of_a_crown_may_be_taken_of_something_else(crown: str, half_mm: float) -> None:
    case = parse_case({"tire": {"designation": "195/55R16 91V", "casing": "passenger", "tread_width": "170 mm"}})

    assert half_crown_mm(case, UNITED_KINGDOM.altered(crown=crown).crowns["passenger"]) == half_mm


@pytest.mark.parametrize(("lean", "exit_mm"), [("turned", 7.0), ("ignored", 20.0)])
def test_a_channel_may_be_thought_to_lean_the_other_way_or_not_at_all(lean: str, exit_mm: float) -> None:
    case = parse_case(an_examined_case(injury={"lateral": "20 mm", "angle": "45 deg", "azimuth": "0 deg"}))
    injury = (case.injuries or ())[0]

    assert injury_geometry(case, injury, edition=NORTH_AMERICA).exit_lateral_mm == 33.0
    assert injury_geometry(case, injury, edition=NORTH_AMERICA.altered(lean=lean)).exit_lateral_mm == exit_mm


def test_a_step_may_be_needless_and_a_rule_of_the_work_free() -> None:
    log = {"case": {"tire": {"casing": "passenger"}}, "steps": [{"step": "demount"}, {"step": "deflate"}]}

    def faults(edition: Edition) -> set[tuple[str, str]]:
        return {
            (one.fault, one.name) for one in audit(log, edition=edition).faults if one.fault in ("missing", "order")
        }

    hasty = NORTH_AMERICA.altered(work={"needless": ["leak-test"], "free": ["air-out-first"]})

    assert faults(NORTH_AMERICA) - faults(hasty) == {("missing", "leak-test"), ("order", "demount")}


def test_a_step_may_be_done_before_another() -> None:
    pulled = NORTH_AMERICA.altered(work={"moved": {"remove-object": "deflate"}})

    first, second, *_ = procedure(pulled, method="two-piece")

    assert (first.id, second.id) == ("remove-object", "deflate")
    assert pulled.work is not None
    assert not pulled.work.order("two-piece", pulled.orders["two-piece"]).must_precede("mark", "remove-object")


@pytest.mark.parametrize(
    ("beliefs", "words"),
    [
        (
            {"limits": {"injury-size": {"twice": "2"}}},
            r"injury-size: \['twice'\] is not accepted; choose from of, halfway",
        ),
        (
            {"limits": {"injury-size": "cutter-speed"}},
            "cannot have the limit of cutter-speed, which measures something",
        ),
        ({"purposes": {"recalled": ["racing"]}}, r"recalled: \['racing'\] is not accepted; choose from repair"),
        ({"always": {"recalled": ["position.axle"]}}, "recalled: it does not depend on position.axle"),
        ({"only": {"recalled": {"position.axle": ["middle"]}}}, "recalled: position.axle is middle is no condition"),
        ({"crown": "share of the rim"}, 'crown: "share of the rim" is not accepted; choose from share of another'),
        ({"lean": "upward"}, 'lean: "upward" is not accepted; choose from turned, ignored'),
        ({"work": {"needless": ["whistle"]}}, r"work: \['whistle'\] is no step of it; choose from all, "),
        ({"work": {"free": ["whistle"]}}, r"work: \['whistle'\] is no rule of it; choose from air-out-first, "),
    ],
)
def test_what_cannot_be_believed_is_named(beliefs: Beliefs, words: str) -> None:
    with pytest.raises(ValueError, match=words):
        NORTH_AMERICA.altered(**beliefs)


def test_what_is_believed_of_clauses_that_an_edition_has_not_alters_nothing_there() -> None:
    believed = UNITED_KINGDOM.believed(
        {"limits": {"injury-size": "tread-depth-steer-axle-truck"}, "without": ["bulge"]}
    )

    assert compare(UNITED_KINGDOM, believed) == compare(UNITED_KINGDOM, UNITED_KINGDOM.altered(without=["bulge"]))


def test_no_clause_of_an_edition_measures_a_misreading() -> None:
    for name in edition_names():
        for clause in load_edition(name).clauses.values():
            assert not MEASURES[clause.quantity].misreads
    with pytest.raises(RulebookError, match=r'quantity: "tire\.age_of_casing" is not accepted'):
        read_clause({"id": "age", "quantity": "tire.age_of_casing"}, "tire.toml", 1)
