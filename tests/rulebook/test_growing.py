"""An injury that grows is never judged milder, whatever lies beside it and whatever the shelf holds."""

from copy import deepcopy
from typing import Any

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from tests.examples import times
from tests.rulebook.cases import SHELF, an_examined_case, decide_as_told, ruling_of
from training.rulebook import CASINGS, Decision, decide, edition_names, severity, units_from
from training.trade.words import PURPOSES

many = settings(max_examples=times(150), deadline=None)
SMALL = {"length": "40 mm", "width": "40 mm"}


def mm(low: int, high: int) -> st.SearchStrategy[str]:
    return st.integers(2 * low, 2 * high).map(lambda halves: f"{halves / 2:g} mm")


def maybe(strategy: st.SearchStrategy[Any]) -> st.SearchStrategy[Any]:
    return st.none() | strategy


STATIONS = st.integers(0, 30).map(lambda degrees: f"{degrees} deg")
UNITS = st.fixed_dictionaries(
    {
        "kind": st.sampled_from(["patch", "one-piece"]),
        "length": mm(20, 110),
        "width": mm(20, 110),
        "injury_max": mm(2, 12),
    }
)
HOLES = st.fixed_dictionaries(
    {
        "kind": st.just("puncture"),
        "diameter": mm(1, 14),
        "angle": maybe(st.integers(0, 60).map(lambda degrees: f"{degrees} deg")),
        "lateral": maybe(mm(-70, 70)),
        "station": maybe(STATIONS),
    }
)
REPAIRS = st.fixed_dictionaries(
    {
        "kind": st.just("two-piece"),
        "sound": st.just(True),
        "injury": mm(2, 6),
        "lateral": maybe(mm(-50, 50)),
        "station": maybe(STATIONS),
        "unit": maybe(st.fixed_dictionaries({"length": mm(30, 90), "width": mm(30, 90)})),
    }
)


@st.composite
def told(draw: st.DrawFn) -> tuple[dict[str, Any], Any]:
    """A tire with one to three holes whose lean has no known direction, with or without earlier repairs and a shelf."""
    case = an_examined_case(
        draw(st.sampled_from(CASINGS)),
        purpose=draw(st.sampled_from(PURPOSES)),
        edition=draw(st.sampled_from(edition_names())),
        proposed=draw(st.sampled_from([None, "one-piece", "two-piece"])),
        tire={"crown_thickness": draw(st.sampled_from([None, "13 mm"]))},
        earlier_repairs=draw(st.lists(REPAIRS, max_size=2)),
    )
    case["injuries"] = draw(st.lists(HOLES, min_size=1, max_size=3))
    shelf = draw(st.lists(UNITS, max_size=5))
    return case, units_from(shelf, "shelf") if shelf else ()


def severities(decision: Decision) -> tuple[int, int]:
    return severity(decision.verdict), severity(decision.if_nothing_else)


def not_milder(grown: dict[str, Any], case: dict[str, Any], shelf: Any) -> bool:
    pairs = zip(severities(decide(grown, units=shelf)), severities(decide(case, units=shelf)), strict=True)
    return all(after >= before for after, before in pairs)


# two holes of 5 mm under units of 40 mm: they overlap, also once one hole is larger than any unit is for
CLOSE = an_examined_case("truck", tire={"crown_thickness": "13 mm"})
CLOSE["injuries"] = [
    {"kind": "puncture", "diameter": "5 mm", "angle": "0 deg", "lateral": lateral, "station": "0 deg"}
    for lateral in ("-18 mm", "20 mm")
]
OUTGROWN = units_from([{"kind": "patch", "injury_max": "8 mm", **SMALL}], "shelf")


@many
@given(told(), st.integers(1, 40))
@example((CLOSE, OUTGROWN), 14)
def test_a_wider_hole_is_never_judged_milder(told: tuple[dict[str, Any], Any], more: int) -> None:
    case, shelf = told
    grown = deepcopy(case)
    size = float(case["injuries"][0]["diameter"].split()[0])
    grown["injuries"][0]["diameter"] = f"{size + more / 4:g} mm"

    assert not_milder(grown, case, shelf)


@many
@given(told(), st.integers(1, 30))
@example((CLOSE, OUTGROWN), 20)
def test_a_steeper_hole_is_never_judged_milder(told: tuple[dict[str, Any], Any], more: int) -> None:
    case, shelf = told
    if case["injuries"][0]["angle"] is None:
        case["injuries"][0]["angle"] = "0 deg"
    grown = deepcopy(case)
    angle = int(case["injuries"][0]["angle"].split()[0])
    grown["injuries"][0]["angle"] = f"{min(angle + more, 80)} deg"

    assert not_milder(grown, case, shelf)


@many
@given(
    st.sampled_from(CASINGS),
    st.sampled_from(PURPOSES),
    st.sampled_from(edition_names()),
    maybe(st.sampled_from(["rubber", "cord"])),
    st.integers(1, 80),
    st.integers(1, 80),
)
def test_a_longer_cut_is_never_judged_milder(
    casing: str, purpose: str, edition: str, reaches: str | None, length: int, more: int
) -> None:
    case = an_examined_case(casing, purpose=purpose, edition=edition)
    cut = {"kind": "cut", "reaches": reaches, "lateral": "0 mm"}
    case["injuries"] = [{**cut, "length": f"{length} mm"}]
    grown = {**case, "injuries": [{**cut, "length": f"{length + more} mm"}]}

    assert not_milder(grown, case, ())


def test_a_hole_that_outgrows_every_unit_still_overlaps() -> None:
    """Holes 38 mm apart under units of 40 mm overlap by 2 mm; a truck's hole of 9 mm is none too large by itself."""
    grown = deepcopy(CLOSE)
    grown["injuries"][0]["diameter"] = "9 mm"

    before, after = (decide(case, units=OUTGROWN) for case in (CLOSE, grown))

    assert (before.verdict, after.verdict) == ("reject", "reject")
    assert ruling_of(before, "repair-overlap").found == "overlap of 2 mm"
    assert ruling_of(after, "repair-overlap").found == "overlap of at least 2 mm"


def test_a_hole_that_outgrows_every_unit_with_room_waits_for_the_right_unit() -> None:
    apart = deepcopy(CLOSE)
    apart["injuries"][0] |= {"diameter": "9 mm", "lateral": "-30 mm"}

    decision = decide(apart, units=OUTGROWN)

    assert (decision.verdict, decision.if_nothing_else) == ("inspect", "repair")
    assert decision.missing == ("units-in-the-drawer",)


# holes 50 mm apart across the tire, on one station: two patches of 60 mm do not fit, two of 45 mm by 70 mm do
LONG = {"name": "long", "kind": "patch", "length": "60 mm", "width": "40 mm"}
WIDE = {"name": "wide", "kind": "patch", "length": "45 mm", "width": "70 mm"}


@pytest.mark.parametrize(
    ("shelf", "verdict", "names"),
    [
        ([LONG], "reject", []),
        ([WIDE], "repair", ["wide", "wide"]),
        ([LONG, WIDE], "repair", ["wide", "wide"]),  # the long one is smaller, yet does not leave room
    ],
)
def test_units_are_taken_that_leave_room(shelf: list[dict[str, str]], verdict: str, names: list[str]) -> None:
    case = deepcopy(CLOSE)
    case["injuries"][0]["lateral"], case["injuries"][1]["lateral"] = "-25 mm", "25 mm"

    decision = decide(case, units=units_from(shelf, "shelf"))

    assert decision.verdict == verdict
    assert [(entry.unit or {}).get("name") for entry in decision.plan or ()] == names


def test_the_smallest_units_are_taken_where_they_leave_room() -> None:
    case = deepcopy(CLOSE)
    case["injuries"][0]["lateral"], case["injuries"][1]["lateral"] = "-30 mm", "30 mm"

    decision = decide(case, units=units_from([WIDE, LONG], "shelf"))

    assert [(entry.unit or {}).get("name") for entry in decision.plan or ()] == ["long", "long"]


def test_in_doubt_about_the_zone_it_is_decided_as_outside_the_crown() -> None:
    """U.S. Tire Manufacturers Association, wall chart: if there is any question, the tire is taken out of service."""
    tire = {"tire": {"casing": "passenger"}, "purpose": "repair"}
    hole = {"diameter": "4 mm", "angle": "0 deg"}

    doubt, shoulder = (decide_as_told({**tire, "injuries": [{**hole, "zone": zone}]}) for zone in ("doubt", "shoulder"))

    assert (doubt.verdict, shoulder.verdict) == ("reject", "reject")
    assert ruling_of(doubt, "injury-zone").found == "in doubt"
    truck = {**tire, "tire": {"casing": "truck"}, "injuries": [{**hole, "zone": "doubt"}]}
    assert decide_as_told(truck).verdict == "refer"  # never graver than the shoulder itself


def test_the_plan_names_what_to_get() -> None:
    """Nothing on the shelf, no stem on it, no stem for the hole."""
    case = an_examined_case(injury={"diameter": "5 mm"}, tire={"designation": "205/55R16 91S"})
    patch = {"kind": "patch", "length": "60 mm", "width": "60 mm", "injury_max": "6 mm"}
    thin = {"kind": "stem", "injury_min": "2 mm", "injury_max": "4 mm"}

    shelves = ((), units_from([patch], "shelf"), units_from([patch, thin], "shelf"))

    assert [decide(case, units=shelf).conditions for shelf in shelves] == [
        (
            "No shelf is entered: choose the unit and stem from their maker's chart, and draw the outline "
            "around the unit.",
        ),
        ("No stems are on the shelf that was entered: choose the stem from its maker's chart.",),
        ("No stem on the shelf fills this hole: get one before the work begins.",),
    ]
    assert decide(case, units=SHELF).conditions == ()
