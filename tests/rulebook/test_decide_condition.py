"""What `decide` says of everything beside the injury: findings, tread, vehicle, earlier repairs, markings, age."""

from typing import Any

import pytest

from tests.rulebook.cases import (
    CLEAN,
    FABRIC,
    a_case,
    an_examined_case,
    decide_as_told,
    decide_with_units,
    ruling_of,
    without_injury,
)
from training.rulebook import MEASURES, load_edition, parse_case
from training.rulebook.measures import Facts, Found

REJECTING = (
    "run-flat-damage",
    "liner-separation",
    "liner-blistered",
    "liner-cracked",
    "casing-separation",
    "tread-separation",
    "exposed-cord",
    "bead-damage",
    "ozone-cracking",
    "impact-damage",
    "bulge",
    "excessive-wear",
    "uneven-wear-separation",
    "contamination",
)


@pytest.mark.parametrize("casing", FABRIC)
@pytest.mark.parametrize("purpose", ["repair", "service", "fit-used"])
@pytest.mark.parametrize("finding", REJECTING)
def test_a_rejecting_finding_ends_the_evaluation(finding: str, purpose: str, casing: str) -> None:
    """Published lists of rejecting conditions (common practice); 49 CFR 393.75(a); South Carolina 39-75-210."""
    case = an_examined_case(casing, purpose=purpose, findings={**CLEAN, finding: True})

    assert decide_with_units(case).verdict == "reject"


@pytest.mark.parametrize(("purpose", "verdict"), [("repair", "accept"), ("service", "reject"), ("fit-used", "reject")])
def test_an_audible_leak_decides_for_service_and_fitting_only(purpose: str, verdict: str) -> None:
    assert (
        decide_with_units(without_injury(purpose=purpose, findings={**CLEAN, "audible-leak": True})).verdict == verdict
    )


@pytest.mark.parametrize(
    ("found", "purpose", "verdict"),
    [
        ("114 kPa", "service", "reject"),  # 49.6 % of 230 kPa; Utah R714-160-8(1)(c): below 50 %
        ("115 kPa", "service", "advise"),  # exactly half
        ("184 kPa", "service", "advise"),  # exactly 80 %
        ("185 kPa", "service", "accept"),
        ("114 kPa", "fit-used", "reject"),
        ("0 kPa", "repair", "accept"),  # every punctured tire leaks
    ],
)
def test_low_pressure_as_found_decides_for_service_and_fitting_only(found: str, purpose: str, verdict: str) -> None:
    case = without_injury(purpose=purpose, pressure={"recommended": "230 kPa", "found": found})

    assert decide_with_units(case).verdict == verdict


def test_in_doubt_is_out_of_service_and_a_ruling_of_its_own() -> None:
    decision = decide_with_units(an_examined_case(findings={**CLEAN, "liner-separation": "doubt"}))

    assert decision.verdict == "reject"
    (ruling,) = decision.deciding
    assert (ruling.clause, ruling.subject, ruling.found) == ("in-doubt", "liner-separation", "in doubt: a loose liner")
    assert "liner-separation" not in decision.unexamined


def test_a_finding_not_listed_was_not_examined() -> None:
    decision = decide_with_units(an_examined_case(findings=["weather-checking"]))

    assert decision.provisional
    assert "bulge" in decision.unexamined
    assert "weather-checking" not in decision.unexamined


@pytest.mark.parametrize(
    ("jurisdiction", "verdict"),
    [("US-UT", "advise"), ("US-MD", "reject"), ("US-NC", "reject"), (None, "reject"), ("US-TX", "reject")],
)
def test_flush_wear_indicators_go_by_the_state_else_by_the_stricter(jurisdiction: str | None, verdict: str) -> None:
    """Utah R714-160-8(1)(g)(i) advises; Maryland and North Carolina reject."""
    case = without_injury(
        purpose="service",
        jurisdiction=jurisdiction,
        findings={**CLEAN, "wear-indicators-flush": True},
        tread_depths=["3/32 in"],
    )

    decision = decide_with_units(case)

    assert decision.verdict == verdict
    assert ruling_of(decision, "wear-indicators-flush").between_statements


# 49 CFR 570.9(a), Utah R714-160-8: less than 2/32 in is unsafe.
@pytest.mark.parametrize(
    ("depth", "verdict"),
    [("3/32 in", "accept"), ("2/32 in", "accept"), ("1/32 in", "reject"), ("1.6 mm", "accept"), ("1.5 mm", "reject")],
)
@pytest.mark.parametrize("casing", ["passenger", "light-truck-fabric"])
def test_tread_below_2_32_is_out_of_service(casing: str, depth: str, verdict: str) -> None:
    assert (
        decide_with_units(without_injury(casing, purpose="service", tread_depths=["5/32 in", depth])).verdict == verdict
    )


def test_tread_below_2_32_is_not_repaired() -> None:
    assert decide_with_units(an_examined_case(tread_depths=["1/32 in"])).verdict == "reject"


# California 2019, South Carolina 39-75-210: 2/32 or less is unsafe. Utah R714-160-8: less than 2/32.
@pytest.mark.parametrize(
    ("depth", "jurisdiction", "verdict", "between"),
    [
        ("2/32 in", "US-CA", "reject", True),
        ("2/32 in", "US-SC", "reject", True),
        ("2/32 in", "US-UT", "accept", True),
        ("2/32 in", None, "reject", True),
        ("3/32 in", None, "accept", False),
        ("1/32 in", "US-UT", "reject", False),
    ],
)
def test_a_used_tire_at_2_32_goes_by_the_state(
    depth: str, jurisdiction: str | None, verdict: str, between: bool
) -> None:
    decision = decide_with_units(without_injury(purpose="fit-used", jurisdiction=jurisdiction, tread_depths=[depth]))

    assert decision.verdict == verdict
    assert ruling_of(decision, "tread-depth-used").between_statements is between


def readings(**grooves: list[int]) -> list[dict[str, Any]]:
    return [
        {"groove": int(groove[1:]), "station": f"{120 * place} deg", "depth": f"{depth}/32 in"}
        for groove, depths in grooves.items()
        for place, depth in enumerate(depths)
    ]


# Utah R714-160-8(1)(g)(ii)(A), Virginia 19VAC30-70-130 item 5: two adjacent major grooves, both below at three places.
# North Carolina GS 20-122.1(a): at two. Maryland COMAR 11.14.05.05 A(1)(a)(i): any groove at three. Where none of them
# is named the lowest reading counts. A plain list is one groove, and there the least counts.
@pytest.mark.parametrize(
    ("depths", "rejecting"),
    [
        (readings(g1=[1, 1, 1], g2=[1, 1, 1]), {"US-UT", "US-VA", "US-NC", "US-MD", "US-TX", None}),
        (readings(g1=[1, 1, 1], g2=[2, 2, 2]), {"US-MD", "US-TX", None}),
        (readings(g1=[1, 1, 1], g2=[2, 2, 1]), {"US-MD", "US-TX", None}),
        (readings(g1=[1, 1, 1], g2=[1, 2, 1]), {"US-NC", "US-MD", "US-TX", None}),
        (readings(g1=[1, 2, 2], g2=[2, 2, 2]), {"US-TX", None}),
        (readings(g1=[1, 1, 1], g2=[1, 1, 1], g3=[5, 5, 5]), {"US-UT", "US-VA", "US-NC", "US-MD", "US-TX", None}),
        # no measured neighbor, or fewer than three places: the least counts
        (readings(g1=[1, 1, 1], g3=[5, 5, 5]), {"US-UT", "US-VA", "US-NC", "US-MD", "US-TX", None}),
        (readings(g1=[1, 3], g2=[1, 3]), {"US-UT", "US-VA", "US-NC", "US-MD", "US-TX", None}),
        (["3/32 in", "1/32 in"], {"US-UT", "US-VA", "US-NC", "US-MD", "US-TX", None}),
        (readings(g1=[2, 2, 2], g2=[2, 2, 2]), set()),
    ],
)
@pytest.mark.parametrize("state", ["US-UT", "US-VA", "US-NC", "US-MD", "US-TX", None])
def test_each_state_counts_worn_grooves_and_places_its_own_way(
    depths: list[Any], rejecting: set[str | None], state: str | None
) -> None:
    case = without_injury(purpose="service", tread_depths=depths) | ({"jurisdiction": state} if state else {})

    assert decide_with_units(case).verdict == ("reject" if state in rejecting else "accept")


@pytest.mark.parametrize(
    ("position", "depth", "verdict"),
    [
        ({"vehicle": "truck", "axle": "front"}, "4/32 in", "accept"),
        ({"vehicle": "truck", "axle": "front"}, "3/32 in", "reject"),  # 49 CFR 393.75(b)
        ({"vehicle": "truck", "axle": "drive"}, "3/32 in", "accept"),  # 49 CFR 393.75(c)
        ({"vehicle": "truck", "axle": "drive"}, "1/32 in", "reject"),
        ({"vehicle": "light-truck", "axle": "front"}, "3/32 in", "accept"),
    ],
)
def test_a_light_truck_tire_on_a_large_vehicle_follows_its_law(
    position: dict[str, str], depth: str, verdict: str
) -> None:
    case = without_injury("light-truck-fabric", purpose="service", position=position, tread_depths=[depth])

    assert decide_as_told(case).verdict == verdict


@pytest.mark.parametrize(
    ("vehicle", "verdict"), [("truck", "reject"), ("trailer", "reject"), ("light-truck", "accept")]
)
def test_on_a_large_vehicle_one_worn_groove_is_enough_to_reject(vehicle: str, verdict: str) -> None:
    """49 CFR 393.75(c): at any point on a major groove; Virginia 19VAC30-70-130 item 5 looks at two together."""
    case = without_injury(
        "light-truck-fabric",
        purpose="service",
        jurisdiction="US-VA",
        position={"vehicle": vehicle, "axle": "rear"},
        tread_depths=readings(g1=[1, 1, 1], g2=[5, 5, 5]),
    )

    assert decide_as_told(case).verdict == verdict


@pytest.mark.parametrize(
    ("position", "verdict"),
    [
        ({"vehicle": "bus", "axle": "front"}, "reject"),
        ({"vehicle": "bus", "axle": "drive"}, "accept"),
        ({"vehicle": "truck", "axle": "front"}, "accept"),
    ],
)
def test_no_retread_runs_on_the_front_wheels_of_a_bus(position: dict[str, str], verdict: str) -> None:
    """Virginia 19VAC30-70-500 item 6; Illinois 92 IAC 438 App. E."""
    case = without_injury("light-truck-fabric", purpose="service", position=position, tire={"retreaded": True})

    assert decide_with_units(case).verdict == verdict


@pytest.mark.parametrize(
    ("own", "dual", "verdict"),
    [
        ("30 1/2 in", True, "accept"),
        ("30 9/16 in", True, "reject"),
        ("29 3/8 in", True, "reject"),
        ("32 in", False, "reject"),  # who measured a mate has a pair
    ],
)
def test_dual_mates_differ_by_at_most_half_an_inch(own: str, dual: bool, verdict: str) -> None:
    """Maryland COMAR 11.14.05.05(g)."""
    case = without_injury(
        "light-truck-fabric",
        purpose="service",
        position={"dual": dual},
        dual_mate={"diameter": "30 in", "own_diameter": own},
    )

    assert decide_with_units(case).verdict == verdict


@pytest.mark.parametrize("kind", ["stem-only", "patch-only", "string", "ply-repair"])
def test_an_earlier_improper_repair_scraps_the_tire(kind: str) -> None:
    repair = {"kind": kind, "zone": "crown", "sound": True}

    assert decide_with_units(an_examined_case(earlier_repairs=[repair])).verdict == "reject"


SOUND_REPAIR = {
    "kind": "two-piece",
    "injury": "4 mm",
    "sound": True,
    "lateral": "0 mm",
    "station": "270 deg",
    "unit": {"length": "75 mm", "width": "65 mm"},
}


@pytest.mark.parametrize(
    ("change", "verdict"),
    [
        ({}, "repair"),
        ({"sound": False}, "reject"),
        ({"sound": "doubt"}, "reject"),
        ({"zone": "shoulder"}, "reject"),
        ({"zone": "sidewall"}, "reject"),
        ({"lateral": "60 mm"}, "repair"),  # 60 + 2 = 62 mm: just inside
        ({"lateral": "60.1 mm"}, "reject"),
        ({"injury": "6 mm"}, "repair"),
        ({"injury": "6.1 mm"}, "reject"),
        ({"kind": "section"}, "refer"),
    ],
)
def test_an_earlier_repair_must_be_sound_small_and_in_the_crown(change: dict[str, Any], verdict: str) -> None:
    assert decide_with_units(an_examined_case(earlier_repairs=[{**SOUND_REPAIR, **change}])).verdict == verdict


def test_an_earlier_repair_without_details_is_not_taken_for_sound() -> None:
    decision = decide_with_units(an_examined_case(earlier_repairs=[{"id": "R1"}]))

    assert {"earlier-repair-kind", "earlier-repair-sound", "repair-overlap"} <= set(decision.unexamined)


def test_earlier_repairs_nobody_looked_for_are_unexamined() -> None:
    case = an_examined_case()
    del case["earlier_repairs"]

    assert "earlier-repair-kind" in decide_with_units(case).unexamined


def test_a_light_truck_with_unread_ply_gets_the_smaller_limit_and_is_told_to_read_it() -> None:
    inside = decide_with_units(an_examined_case("light-truck", injury={"diameter": "1/4 in"}))
    outside = decide_with_units(an_examined_case("light-truck", injury={"diameter": "5/16 in"}))

    assert (inside.verdict, outside.verdict) == ("repair", "reject")
    assert any("ply material" in condition for condition in inside.conditions)
    assert not decide_with_units(an_examined_case("light-truck-fabric")).conditions


@pytest.mark.parametrize(
    ("finding", "purpose", "verdict"),
    [
        ("tin-unreadable", "fit-used", "reject"),  # South Carolina 39-75-210(A)(5), California 9889.30
        ("tin-unreadable", "service", "advise"),
        ("size-unreadable", "fit-used", "reject"),
        ("size-unreadable", "service", "reject"),  # Illinois 92 IAC 428.20(d)
        ("size-unreadable", "repair", "advise"),
    ],
)
def test_an_unreadable_marking_is_judged_by_what_hangs_on_it(finding: str, purpose: str, verdict: str) -> None:
    assert decide_with_units(without_injury(purpose=purpose, findings={**CLEAN, finding: True})).verdict == verdict


@pytest.mark.parametrize("marking", ["date_code", "designation"])
def test_a_marking_that_cannot_be_read_stops_a_used_tire(marking: str) -> None:
    assert decide_with_units(without_injury(purpose="fit-used", tire={marking: "unreadable"})).verdict == "reject"


@pytest.mark.parametrize(
    ("repairs", "verdict"), [([], "reject"), ([SOUND_REPAIR], "accept"), ([{**SOUND_REPAIR, "sound": False}], "reject")]
)
def test_sealant_in_a_used_tire_needs_a_proper_repair_after_it(repairs: list[Any], verdict: str) -> None:
    """South Carolina 39-75-210(A)(4): evidence of a temporary sealant with no later proper repair."""
    case = without_injury(purpose="fit-used", findings={**CLEAN, "sealant-residue": True}, earlier_repairs=repairs)

    assert decide_with_units(case).verdict == verdict


def test_a_date_code_of_a_week_that_has_not_come_is_in_doubt() -> None:
    decision = decide_with_units(without_injury(purpose="fit-used", tire={"date_code": "5226"}))

    assert decision.verdict == "reject"
    assert ruling_of(decision, "date-code-readable").found == "in doubt"


# Three digits leave the decade open: 329 is week 32 of 1999, 1989 or 1979, so on 25 Nov 2026 at least 27 years.
@pytest.mark.parametrize(("code", "found", "sense"), [("3219", "7 years", "exact"), ("329", "27 years", "at_least")])
def test_the_age_of_a_tire_from_before_2000_is_the_least_it_can_be(code: str, found: str, sense: str) -> None:
    case = parse_case(without_injury(tire={"date_code": code}))
    read = MEASURES["tire.age"].read

    assert read is not None
    age = read(Facts(case, None, (), 0.0), None)
    assert isinstance(age, Found)
    assert (age.text, age.sense) == (found, sense)


# Common practice, no published source; 29 CFR 1910.177(f) draws the line at 80 percent for large vehicles. Below half,
# law for cars and light trucks in Utah, R714-160-8(1)(c).
@pytest.mark.parametrize(
    ("on_wheel", "found", "verdict"),
    [
        (True, "81 kPa", "accept"),
        (True, "80 kPa", "inspect"),
        (True, "50 kPa", "inspect"),
        (None, "60 kPa", "inspect"),
        (False, "60 kPa", "advise"),  # off the wheel: what is found inside decides, and the rider is told
        (None, "81 kPa", "accept"),
        (True, "49 kPa", "reject"),
        (False, "49 kPa", "reject"),
    ],
)
def test_a_motorcycle_tire_found_soft_is_looked_at_from_inside(on_wheel: bool | None, found: str, verdict: str) -> None:
    stated: dict[str, Any] = {} if on_wheel is None else {"on_wheel": on_wheel}
    case = a_case("motorcycle", purpose="service", pressure={"recommended": "100 kPa", "found": found}, **stated)

    assert decide_as_told(case).verdict == verdict


def test_a_soft_motorcycle_tire_off_the_wheel_is_passed_only_under_what_is_found_inside() -> None:
    case = a_case(
        "motorcycle", purpose="service", on_wheel=False, pressure={"recommended": "100 kPa", "found": "60 kPa"}
    )

    assert "inside-of-a-soft-tire" in decide_with_units(case).missing
    assert decide_with_units({**case, "findings": ["run-flat-damage"]}).verdict == "reject"


# What is said beside a verdict that it does not change: the paragraph, or common practice with no published source.
SAID_BESIDE: dict[str, tuple[str, str, dict[str, Any]]] = {
    "another-size-than-the-placard": ("passenger", "service", {"position": {"asked_size": "195/65R15 91H"}}),
    "light-truck-tire-for-a-car-tire": (  # practice
        "light-truck-fabric", "service", {"position": {"vehicle": "light-truck", "asked_size": "P245/75R16 109S"}},
    ),
    "motorcycle-plug-or-patch-alone": (  # practice
        "motorcycle",
        "service",
        {"earlier_repairs": [{"kind": "string", "zone": "crown", "lateral": "0 mm", "injury": "4 mm", "sound": True}]},
    ),
    "ran-without-air-before-repair": ("passenger", "repair", {"tire": {"ran_without_air": True}}),  # practice
    "roadside-sealant-before-repair": ("passenger", "repair", {"roadside": {"means": "sealant"}}),  # practice
    "not-back-on-a-steer-axle": (  # 49 CFR 393.75(b)
        "truck", "repair", {"position": {"vehicle": "truck", "axle": "front"}, "tread_depths": ["3/32 in"]},
    ),
    "retread-not-back-on-bus-front": (  # 49 CFR 393.75(d)
        "truck", "repair", {"position": {"vehicle": "bus", "axle": "front"}, "tire": {"retreaded": True}},
    ),
    "age-not-back-on-front-axle": (  # S.I. 2020 No. 1178
        "passenger", "repair", {"position": {"vehicle": "bus", "axle": "front"}, "tire": {"date_code": "4616"}},
    ),
    "age-not-back-on-minibus": (
        "passenger", "repair", {"position": {"vehicle": "minibus", "dual": False}, "tire": {"date_code": "4616"}},
    ),
}  # fmt: skip


@pytest.mark.parametrize("id", SAID_BESIDE)
def test_what_matters_is_said_beside_a_verdict_that_it_does_not_change(id: str) -> None:
    casing, purpose, changed = SAID_BESIDE[id]
    edition = "united-kingdom" if id.startswith("age-") else "north-america"
    whole = an_examined_case if purpose == "repair" else without_injury
    case = whole(casing, purpose=purpose, edition=edition, **changed)

    decision = decide_with_units(case)

    assert decision.verdict == ("repair" if purpose == "repair" else "accept")
    told = load_edition(edition).clause(id).condition
    assert told in decision.conditions
    assert told not in decide_with_units(whole(casing, purpose=purpose)).conditions
