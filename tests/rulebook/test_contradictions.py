"""Facts that cannot both be true: both are named, nothing is released, and the stricter of the two readings decides."""

from copy import deepcopy
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.rulebook.cases import decide_as_told, ruling_of
from tests.rulebook.test_properties import cases, many
from training.rulebook import CaseError, decide, parse_case, severity

RELEASES = ("accept", "advise", "repair")
WORN = {"kind": "surface", "reaches": "cord"}

# Two facts that cannot both be true, the clause that says so, and both as they are shown (common practice; what each
# says of a tire stands with its source in tests/published/cases_contradictions.toml).
PAIRS: tuple[tuple[dict[str, Any], str, str], ...] = (
    ({"tire": {"casing": "passenger", "designation": "11R22.5"}}, "class-against-size",
     "passenger tire, marking 11R22.5"),
    ({"tire": {"casing": "light-truck-steel", "designation": "205/55R16 91V"}}, "class-against-size",
     "light truck tire with a steel body, marking 205/55R16 91V"),
    ({"tire": {"casing": "passenger", "designation": "205/55RF16", "build": "radial"}}, "build-against-size",
     "radial build, marking 205/55RF16"),
    ({"tire": {"casing": "passenger", "tread_width": "170 mm", "outer_groove": "90 mm"}}, "groove-against-width",
     "groove 90 mm from the centerline, tread 170 mm wide"),
    ({"tire": {"casing": "passenger", "designation": "205/55R16", "tread_width": "210 mm"}}, "tread-against-size",
     "tread 210 mm wide, marking 205/55R16"),
    ({"tire": {"casing": "truck", "retreaded": False, "retreaded_on": "1022"}}, "retread-against-day",
     "not a retread, retreaded by its date code 1022"),
    ({"tire": {"casing": "passenger", "date_code": "3227"}}, "date-code-against-day",
     "date code 3227, today Nov 25, 2026"),
    ({"tire": {"casing": "truck"}, "position": {"vehicle": "car"}}, "vehicle-against-tire", "truck tire on a car"),
    ({"tire": {"casing": "truck"}, "position": {"dual": True, "axle": "front"}}, "dual-against-axle",
     "one of a pair, on the front axle"),
    ({"tire": {"casing": "passenger"}, "position": {"gross_mass": "1 kg"}}, "vehicle-too-light", "1 kg"),
    ({"tire": {"casing": "passenger"}, "tread_depths": ["20 mm"]}, "tread-too-deep", "20 mm"),
    ({"tire": {"casing": "passenger"}, "pressure": {"recommended": "33 psi", "found": "230 psi"}},
     "pressure-in-another-unit", "230 psi, 33 psi recommended"),
    ({"tire": {"casing": "truck"}, "findings": {"exposed-cord": False}, "injuries": [WORN]}, "cord-against-cut",
     "no cord showing, A reaches cord"),
    ({"tire": {"casing": "passenger", "designation": "T125/70D16"}, "findings": {"temporary-spare": False}},
     "finding-against-size", "no temporary spare, marking T125/70D16"),
    ({"tire": {"casing": "passenger", "tread_width": "170 mm"}, "injuries": [{"lateral": "10 mm", "zone": "bead"}]},
     "zone-against-place", "zone bead, 10 mm from the centerline of a tread 170 mm wide"),
    ({"tire": {"casing": "passenger"}, "injuries": [{"before_removal": "5 mm", "diameter": "4 mm"}]},
     "hole-before-against-after", "5 mm before damage removal, 4 mm after"),
)  # fmt: skip


def laid_over(case: dict[str, Any], facts: dict[str, Any]) -> dict[str, Any]:
    """The case with these facts in it, whatever was said of them before."""
    said = deepcopy(case)
    for name, value in facts.items():
        said[name] = {**(said.get(name) or {}), **value} if isinstance(value, dict) else value
    return said


@pytest.mark.parametrize(("facts", "clause", "found"), PAIRS, ids=[f"{pair[1]}: {pair[2]}" for pair in PAIRS])
def test_both_facts_are_shown_and_looked_at_again(facts: dict[str, Any], clause: str, found: str) -> None:
    decision = decide({"on": "2026-11-25", **facts})

    ruling = ruling_of(decision, clause)
    assert (ruling.holds, ruling.found, ruling.consequence) == (False, found, "inspect")
    assert "again" in ruling.because
    assert ruling.limit
    assert clause not in decision.unexamined


@pytest.mark.parametrize("size", ["11R22.5", "LT245/75R16", "120/70ZR17"])
def test_the_facts_shown_are_those_of_this_tire_and_of_none_before_it(size: str) -> None:
    for other in ("11R24.5", size):
        decision = decide({"on": "2026-11-25", "tire": {"casing": "passenger", "designation": other}})

    assert ruling_of(decision, "class-against-size").found == f"passenger tire, marking {size}"


# Speed symbols in the order of speed_symbols.csv: T is slower than H, and H than W.
@pytest.mark.parametrize("asked", ["H", "W"])
def test_the_speed_asked_is_the_one_of_this_placard(asked: str) -> None:
    tire = {"casing": "passenger", "designation": "205/55R16 91T"}
    for placard in ("V", asked):
        decision = decide_as_told(
            {"on": "2026-11-25", "purpose": "service", "tire": tire, "position": {"asked_speed": placard}}
        )

    assert ruling_of(decision, "speed-for-the-vehicle").found == f"T for {asked}"


@many
@given(cases, st.sampled_from(PAIRS))
def test_what_cannot_both_be_true_never_releases(case: dict[str, Any], pair: tuple[dict[str, Any], str, str]) -> None:
    assert decide_as_told(laid_over(case, pair[0])).verdict not in RELEASES


# A pair, and the case as it reads when one or the other of the two is believed.
READINGS: tuple[tuple[dict[str, Any], dict[str, Any], dict[str, Any]], ...] = (
    ({"tire": {"casing": "light-truck-steel", "designation": "205/55R16 91V"}},
     {"tire": {"casing": "passenger", "designation": "205/55R16 91V"}},
     {"tire": {"casing": "light-truck-steel", "designation": None}}),
    ({"tire": {"casing": "passenger", "designation": "LT245/75R16"}},
     {"tire": {"casing": "light-truck", "designation": "LT245/75R16"}},
     {"tire": {"casing": "passenger", "designation": None}}),
    ({"tire": {"casing": "truck", "designation": "120/70ZR17"}},
     {"tire": {"casing": "motorcycle", "designation": "120/70ZR17"}},
     {"tire": {"casing": "truck", "designation": None}}),
    ({"tire": {"designation": "205/55RF16", "build": "radial"}},
     {"tire": {"designation": "205/55RF16", "build": "self-supporting"}},
     {"tire": {"designation": "205/55R16", "build": "radial"}}),
    ({"tire": {"retreaded": False, "retreaded_on": "1010"}},
     {"tire": {"retreaded": True, "retreaded_on": "1010"}},
     {"tire": {"retreaded": False, "retreaded_on": None}}),
    ({"position": {"dual": True, "axle": "front", "vehicle": "bus"}},
     {"position": {"dual": False, "axle": "front", "vehicle": "bus"}},
     {"position": {"dual": True, "axle": "drive", "vehicle": "bus"}}),
    ({"tire": {"casing": "motorcycle"}, "position": {"vehicle": "car"}},
     {"tire": {"casing": "passenger"}, "position": {"vehicle": "car"}},
     {"tire": {"casing": "motorcycle"}, "position": {"vehicle": "motorcycle"}}),
    ({"findings": {"exposed-cord": False}, "injuries": [{"kind": "surface", "reaches": "cord"}]},
     {"findings": {"exposed-cord": True}, "injuries": [{"kind": "surface", "reaches": "cord"}]},
     {"findings": {"exposed-cord": False}, "injuries": [{"kind": "surface", "reaches": "rubber"}]}),
    ({"injuries": [{"before_removal": "7 mm", "diameter": "4 mm", "lateral": "5 mm"}]},
     {"injuries": [{"diameter": "7 mm", "lateral": "5 mm"}]},
     {"injuries": [{"diameter": "4 mm", "lateral": "5 mm"}]}),
    ({"tire": {"tread_width": "140 mm", "outer_groove": "90 mm"}},
     {"tire": {"tread_width": "140 mm", "outer_groove": None}},
     {"tire": {"tread_width": None, "outer_groove": "90 mm"}}),
)  # fmt: skip


@many
@given(cases, st.sampled_from(READINGS))
def test_believing_either_fact_alone_is_never_harder(
    case: dict[str, Any], pair: tuple[dict[str, Any], dict[str, Any], dict[str, Any]]
) -> None:
    both, *alone = (decide_as_told(laid_over(case, facts)) for facts in pair)

    assert both.verdict not in RELEASES
    assert severity(both.verdict) >= max(severity(one.verdict) for one in alone)


# 49 CFR 393.75(d): no retread on the front wheels of a bus. What a motorcycle's tire does there is a second question.
def test_of_two_pairs_at_once_the_gravest_reading_of_both_decides() -> None:
    tire = {"casing": "motorcycle", "retreaded": False, "retreaded_on": "1010"}
    position = {"vehicle": "bus", "axle": "front"}

    decision = decide_as_told({"on": "2026-11-25", "purpose": "service", "tire": tire, "position": position})

    assert decision.verdict == "reject"


# ustma-chart: over 1/4 in a light truck tire whose body was not read is not repaired. Taken for a motorcycle's by its
# size, the tire cannot be on a light truck.
def test_what_disagrees_only_in_a_reading_is_read_further() -> None:
    tire = {"casing": "truck", "designation": "120/70ZR17"}
    hole = {"diameter": "8 mm", "angle": "0 deg", "zone": "crown"}

    decision = decide_as_told(
        {"on": "2026-11-25", "tire": tire, "position": {"vehicle": "light-truck"}, "injuries": [hole]}
    )

    assert decision.verdict == "reject"


# C&U Regulations 1986, regulation 27(1)(c) lets a cut of 25 mm to the cord stay, and 27(1)(e) speaks of cord exposed.
def test_a_short_cut_to_the_cord_shows_no_cord_in_the_united_kingdom() -> None:
    cut = {"kind": "cut", "length": "20 mm", "reaches": "cord"}
    said = {"findings": {"exposed-cord": False}, "injuries": [cut], "tire": {"casing": "passenger"}}

    decision = decide_as_told({"edition": "united-kingdom", "on": "2026-11-25", "purpose": "service", **said})

    assert decision.verdict != "reject"
    assert not [one for one in decision.rulings if "cord showing" in one.found]


# ustma-chart: over 1/4 in a passenger tire is not repaired, one with a steel body is.
def test_the_stricter_limit_is_shown_beside_the_facts_that_disagree() -> None:
    hole = {"diameter": "8 mm", "angle": "0 deg", "zone": "crown"}
    tire = {"casing": "light-truck-steel", "designation": "205/55R16 91V"}

    decision = decide({"on": "2026-11-25", "tire": tire, "injuries": [hole]})

    assert decision.verdict == decision.if_nothing_else == "reject"
    assert not ruling_of(decision, "class-against-size").holds
    assert [ruling.found for ruling in decision.deciding] == ["8 mm"]


@pytest.mark.parametrize("size", ["banana", "205/55R99", "9999/55R16", "55/205R16", "20x10R30", "R16", "91V"])
def test_a_size_that_is_none_is_refused_by_name_and_value(size: str) -> None:
    with pytest.raises(CaseError) as refused:
        parse_case({"tire": {"casing": "passenger", "designation": size}})

    (problem,) = refused.value.problems
    assert problem.startswith(f'tire.designation: "{size}" is not a size designation; give it as molded')
    assert '"unreadable"' in problem


def test_a_size_that_cannot_be_read_stays_so() -> None:
    assert parse_case({"tire": {"casing": "passenger", "designation": "unreadable"}}).tire.designation == "unreadable"
