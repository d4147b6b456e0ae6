"""Deciding one tire: each limit just inside, on it and just outside, and what is said where something is not known."""

from typing import Any

import pytest

from tests.rulebook.cases import CLEAN, a_case, an_examined_case, ruling_of, without_injury
from training.rulebook import MEASURES, Decision, decide, decision_text, parse_case, severity
from training.rulebook.measures import Facts, Found

FABRIC = ("passenger", "light-truck-fabric", "light-truck")


def test_a_small_straight_puncture_in_the_crown_is_repaired() -> None:
    decision = decide(an_examined_case())

    assert decision.verdict == "repair"
    assert [ruling.clause for ruling in decision.deciding] == ["puncture"]


def test_a_tire_with_everything_looked_at_is_not_provisional() -> None:
    decision = decide(an_examined_case())

    assert (decision.provisional, decision.unexamined) == (False, ())


def test_a_sound_tire_without_injury_may_run() -> None:
    assert decide(without_injury(purpose="service")).verdict == "accept"


# Source: US association, puncture repair procedures (wall chart): 1/4 in (6 mm), two statements, each in its own unit.
@pytest.mark.parametrize("casing", FABRIC)
@pytest.mark.parametrize(
    ("diameter", "verdict", "between"),
    [
        ("7/32 in", "repair", False),
        ("1/4 in", "repair", True),  # 6.35 mm: the metric statement alone would reject it
        ("9/32 in", "reject", False),
        ("5.9 mm", "repair", False),
        ("6 mm", "repair", False),
        ("6.1 mm", "reject", True),  # less than 1/4 in: the inch statement alone would pass it
        ("6.35 mm", "reject", True),
        ("6.4 mm", "reject", False),
    ],
)
def test_the_injury_is_limited_after_damage_removal(casing: str, diameter: str, verdict: str, between: bool) -> None:
    decision = decide(an_examined_case(casing, injury={"diameter": diameter}))

    assert decision.verdict == verdict
    ruling = ruling_of(decision, "injury-size")
    assert (ruling.found, ruling.limit, ruling.between_statements) == (diameter, "at most 1/4 in (6 mm)", between)


def test_a_hole_already_too_large_before_removal_is_rejected_unmeasured() -> None:
    decision = decide(an_examined_case(injury={"diameter": None, "before_removal": "5/16 in"}))

    assert decision.verdict == "reject"
    assert ruling_of(decision, "injury-size").found == "5/16 in before damage removal"


def test_a_hole_small_before_removal_is_not_yet_measured() -> None:
    decision = decide(an_examined_case(injury={"diameter": None, "before_removal": "1/8 in"}))

    assert "injury-size" in decision.unexamined
    assert (decision.verdict, decision.provisional) == ("repair", True)


@pytest.mark.parametrize(
    ("lateral", "verdict"),
    [("59.4 mm", "repair"), ("59.5 mm", "repair"), ("59.6 mm", "reject"), ("-59.6 mm", "reject")],
)
def test_the_whole_hole_lies_between_the_outer_grooves(lateral: str, verdict: str) -> None:
    # 62 mm to the groove, hole 5 mm across: its edge touches the groove at 59.5 mm.
    assert decide(an_examined_case(injury={"lateral": lateral})).verdict == verdict


@pytest.mark.parametrize(
    ("lateral", "azimuth", "verdict"),
    [
        ("45.4 mm", "0 deg", "repair"),  # 45 deg through 13 mm moves 13 mm; half the ellipse is 2.5 / cos 45 = 3.536 mm
        ("45.5 mm", "0 deg", "reject"),  # 45.5 + 13 + 3.536 = 62.04 > 62
        ("45.5 mm", None, "reject"),  # direction unknown: the worst
        ("45.5 mm", "180 deg", "repair"),  # leans inwards
        ("45.5 mm", "90 deg", "repair"),  # leans along the tire
        ("-45.5 mm", "180 deg", "reject"),  # mirrored
        ("-45.5 mm", "0 deg", "repair"),
    ],
)
def test_a_leaning_injury_must_also_leave_between_the_grooves(lateral: str, azimuth: str | None, verdict: str) -> None:
    injury = {"lateral": lateral, "angle": "45 deg", "azimuth": azimuth}

    assert decide(an_examined_case(injury=injury)).verdict == verdict


@pytest.mark.parametrize(
    ("zone", "verdict"), [("crown", "repair"), ("shoulder", "reject"), ("sidewall", "reject"), ("bead", "reject")]
)
def test_a_zone_may_stand_for_a_measured_place(zone: str, verdict: str) -> None:
    assert decide(an_examined_case(injury={"lateral": None, "zone": zone})).verdict == verdict


def test_a_zone_in_words_is_heard_beside_a_measured_place() -> None:
    assert decide(an_examined_case(injury={"zone": "shoulder"})).verdict == "reject"


def test_a_straight_hole_in_the_crown_leaves_in_the_crown() -> None:
    decision = decide(an_examined_case(injury={"lateral": None, "zone": "crown", "angle": "0 deg"}))

    assert decision.provisional is False


@pytest.mark.parametrize("missing", ["diameter", "angle", "lateral"])
def test_what_was_not_measured_makes_the_answer_provisional_and_never_accept(missing: str) -> None:
    decision = decide(an_examined_case(injury={missing: None}))

    assert decision.provisional
    assert decision.verdict == "repair"
    assert decision.unexamined


def test_a_hole_beyond_the_tread_is_outside_even_if_the_groove_was_not_measured() -> None:
    # Half of 170 mm is 85 mm; no groove lies beyond the tread.
    decision = decide(an_examined_case(tire={"outer_groove": None}, injury={"lateral": "84 mm"}))

    assert decision.verdict == "reject"


def test_a_hole_inside_the_tread_is_not_judged_without_the_groove() -> None:
    decision = decide(an_examined_case(tire={"outer_groove": None}, injury={"lateral": "50 mm"}))

    assert {"crown-at-tread", "crown-at-liner"} <= set(decision.unexamined)


def test_a_groove_beyond_the_tread_does_not_widen_the_crown() -> None:
    decision = decide(an_examined_case(tire={"outer_groove": "170 mm"}, injury={"lateral": "84 mm"}))

    assert decision.verdict == "reject"


# Sources: recommended practice 2017, over 25 deg two-piece; some repair-material makers, over 35 deg.
@pytest.mark.parametrize(
    ("angle", "methods", "between"),
    [
        ("24 deg", ("one-piece", "two-piece"), False),
        ("25 deg", ("one-piece", "two-piece"), False),
        ("26 deg", ("two-piece",), True),
        ("35 deg", ("two-piece",), True),
        ("36 deg", ("two-piece",), False),
    ],
)
def test_the_angle_decides_whether_a_one_piece_unit_is_allowed(
    angle: str, methods: tuple[str, ...], between: bool
) -> None:
    decision = decide(an_examined_case(injury={"angle": angle, "azimuth": "90 deg"}))

    assert decision.verdict == "repair"
    assert decision.plan is not None
    assert decision.plan[0].methods_allowed == methods
    assert ruling_of(decision, "one-piece-angle").between_statements is between


# The same two statements, on a one-piece unit that someone means to set.
@pytest.mark.parametrize(
    ("angle", "verdict", "between"),
    [
        ("25 deg", "repair", False),
        ("26 deg", "reject", True),
        ("35 deg", "reject", True),
        ("36 deg", "reject", False),
    ],
)
def test_a_proposed_one_piece_unit_is_judged_by_the_stricter_statement_and_tells_of_the_other(
    angle: str, verdict: str, between: bool
) -> None:
    decision = decide(an_examined_case(injury={"angle": angle, "azimuth": "90 deg"}, proposed="one-piece"))

    assert decision.verdict == verdict
    assert ruling_of(decision, "proposed-one-piece-angle").between_statements is between


def test_without_an_angle_only_a_two_piece_repair_is_planned() -> None:
    plan = decide(an_examined_case(injury={"angle": None})).plan

    assert plan is not None
    assert plan[0].methods_allowed == ("two-piece",)


@pytest.mark.parametrize("proposed", ["stem-only", "patch-only", "string", "tube"])
def test_an_unacceptable_proposal_is_rejected_as_a_proposal(proposed: str) -> None:
    decision = decide(an_examined_case(proposed=proposed))

    assert decision.verdict == "reject"
    assert [(one.clause, one.subject) for one in decision.deciding] == [("proposed-repair", "proposal")]
    assert "proposal is rejected" in decision.deciding[0].because


@pytest.mark.parametrize(("angle", "verdict"), [("25 deg", "repair"), ("26 deg", "reject")])
def test_a_one_piece_unit_is_not_proposed_for_a_steep_channel(angle: str, verdict: str) -> None:
    case = an_examined_case(proposed="one-piece", injury={"angle": angle, "azimuth": "90 deg"})

    assert decide(case).verdict == verdict


@pytest.mark.parametrize(
    ("angle", "between"), [("25 deg", False), ("26 deg", True), ("35 deg", True), ("36 deg", False)]
)
def test_makers_of_repair_material_may_see_a_proposed_one_piece_unit_otherwise(angle: str, between: bool) -> None:
    case = an_examined_case(proposed="one-piece", injury={"angle": angle, "azimuth": "90 deg"})

    assert ruling_of(decide(case), "proposed-one-piece-angle").between_statements is between


@pytest.mark.parametrize("proposed", ["one-piece", "two-piece"])
def test_the_proposed_method_is_planned_where_it_is_allowed(proposed: str) -> None:
    plan = decide(an_examined_case(proposed=proposed)).plan

    assert plan is not None
    assert plan[0].method == proposed


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

    assert decide(case).verdict == "reject"


@pytest.mark.parametrize(("purpose", "verdict"), [("repair", "accept"), ("service", "reject"), ("fit-used", "reject")])
def test_an_audible_leak_decides_for_service_and_fitting_only(purpose: str, verdict: str) -> None:
    assert decide(without_injury(purpose=purpose, findings={**CLEAN, "audible-leak": True})).verdict == verdict


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

    assert decide(case).verdict == verdict


def test_in_doubt_is_out_of_service_and_a_ruling_of_its_own() -> None:
    decision = decide(an_examined_case(findings={**CLEAN, "liner-separation": "doubt"}))

    assert decision.verdict == "reject"
    (ruling,) = decision.deciding
    assert (ruling.clause, ruling.subject, ruling.found) == ("in-doubt", "liner-separation", "in doubt")
    assert "liner-separation" not in decision.unexamined


def test_a_finding_not_listed_was_not_examined() -> None:
    decision = decide(an_examined_case(findings=["weather-checking"]))

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
        purpose="service", jurisdiction=jurisdiction, findings={**CLEAN, "wear-indicators-flush": True}
    )

    decision = decide(case)

    assert decision.verdict == verdict
    assert ruling_of(decision, "wear-indicators-flush").between_statements


# 49 CFR 570.9(a), Utah R714-160-8: less than 2/32 in is unsafe.
@pytest.mark.parametrize(
    ("depth", "verdict"),
    [("3/32 in", "accept"), ("2/32 in", "accept"), ("1/32 in", "reject"), ("1.6 mm", "accept"), ("1.5 mm", "reject")],
)
@pytest.mark.parametrize("casing", ["passenger", "light-truck-fabric"])
def test_tread_below_2_32_is_out_of_service(casing: str, depth: str, verdict: str) -> None:
    assert decide(without_injury(casing, purpose="service", tread_depths=["5/32 in", depth])).verdict == verdict


def test_tread_below_2_32_is_not_repaired() -> None:
    assert decide(an_examined_case(tread_depths=["1/32 in"])).verdict == "reject"


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
    decision = decide(without_injury(purpose="fit-used", jurisdiction=jurisdiction, tread_depths=[depth]))

    assert decision.verdict == verdict
    assert ruling_of(decision, "tread-depth-used").between_statements is between


def readings(**grooves: list[int]) -> list[dict[str, Any]]:
    return [
        {"groove": int(groove[1:]), "station": f"{120 * place} deg", "depth": f"{depth}/32 in"}
        for groove, depths in grooves.items()
        for place, depth in enumerate(depths)
    ]


# 49 CFR 570.9(a) (from memory): two adjacent major grooves at three places; both below at all three rejects; one of the
# two with 2/32 or more is enough. A plain list is one groove, and there the least counts.
@pytest.mark.parametrize(
    ("depths", "verdict"),
    [
        (readings(g1=[1, 1, 1], g2=[1, 1, 1]), "reject"),
        (readings(g1=[1, 1, 1], g2=[2, 2, 2]), "accept"),
        (readings(g1=[1, 1, 1], g2=[1, 2, 1]), "accept"),
        (readings(g1=[1, 1, 1], g2=[1, 1, 1], g3=[5, 5, 5]), "reject"),
        (readings(g1=[1, 1, 1], g3=[5, 5, 5]), "reject"),  # no measured neighbor: the least counts
        (readings(g1=[1, 3, 3]), "reject"),
        (["3/32 in", "1/32 in"], "reject"),
    ],
)
def test_two_adjacent_grooves_are_read_together(depths: list[Any], verdict: str) -> None:
    assert decide(without_injury(purpose="service", tread_depths=depths)).verdict == verdict


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

    assert decide(case).verdict == verdict


@pytest.mark.parametrize(
    ("vehicle", "verdict"), [("truck", "reject"), ("trailer", "reject"), ("light-truck", "accept")]
)
def test_on_a_large_vehicle_one_worn_groove_is_enough_to_reject(vehicle: str, verdict: str) -> None:
    """49 CFR 393.75(c): at any point on a major groove; 49 CFR 570.9 looks at two grooves together."""
    case = without_injury(
        "light-truck-fabric",
        purpose="service",
        position={"vehicle": vehicle, "axle": "rear"},
        tread_depths=readings(g1=[1, 1, 1], g2=[5, 5, 5]),
    )

    assert decide(case).verdict == verdict


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

    assert decide(case).verdict == verdict


@pytest.mark.parametrize(
    ("own", "dual", "verdict"),
    [
        ("30 1/2 in", True, "accept"),
        ("30 9/16 in", True, "reject"),
        ("29 3/8 in", True, "reject"),
        ("32 in", False, "accept"),
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

    assert decide(case).verdict == verdict


@pytest.mark.parametrize("kind", ["stem-only", "patch-only", "string", "ply-repair"])
def test_an_earlier_improper_repair_scraps_the_tire(kind: str) -> None:
    repair = {"kind": kind, "zone": "crown", "sound": True}

    assert decide(an_examined_case(earlier_repairs=[repair])).verdict == "reject"


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
    assert decide(an_examined_case(earlier_repairs=[{**SOUND_REPAIR, **change}])).verdict == verdict


def test_an_earlier_repair_without_details_is_not_taken_for_sound() -> None:
    decision = decide(an_examined_case(earlier_repairs=[{"id": "R1"}]))

    assert {"earlier-repair-kind", "earlier-repair-sound", "repair-overlap"} <= set(decision.unexamined)


def test_earlier_repairs_nobody_looked_for_are_unexamined() -> None:
    case = an_examined_case()
    del case["earlier_repairs"]

    assert "earlier-repair-kind" in decide(case).unexamined


def test_injuries_nobody_looked_for_are_unexamined() -> None:
    case = an_examined_case()
    del case["injuries"]

    assert "puncture" in decide(case).unexamined


@pytest.mark.parametrize(
    ("on_wheel", "purpose", "verdict"),
    [
        (True, "repair", "inspect"),
        (False, "repair", "repair"),
        (True, "service", "inspect"),
        (True, "fit-used", "inspect"),
    ],
)
def test_an_injured_tire_on_its_wheel_is_inspected_first(on_wheel: bool, purpose: str, verdict: str) -> None:
    assert decide(an_examined_case(on_wheel=on_wheel, purpose=purpose)).verdict == verdict


def test_an_uninjured_tire_may_be_checked_on_its_wheel_for_service() -> None:
    assert decide(without_injury(purpose="service", on_wheel=True)).verdict == "accept"


def test_a_rejecting_finding_is_not_softened_by_the_wheel() -> None:
    assert decide(an_examined_case(on_wheel=True, findings=["bulge"])).verdict == "reject"


@pytest.mark.parametrize("build", ["bias", "self-supporting", "self-sealing", "foam-lined", "tubed"])
@pytest.mark.parametrize("purpose", ["repair", "service", "fit-used"])
def test_an_injured_tire_of_another_build_is_the_makers_to_decide(build: str, purpose: str) -> None:
    assert decide(an_examined_case(tire={"build": build}, purpose=purpose)).verdict == "refer"


def test_a_sound_tire_of_another_build_may_run() -> None:
    assert decide(without_injury(tire={"build": "self-supporting"}, purpose="service")).verdict == "accept"


@pytest.mark.parametrize(
    ("injury", "purpose", "verdict"),
    [
        ({"kind": "cut", "length": "20 mm", "reaches": "rubber"}, "repair", "repair"),
        ({"kind": "cut", "length": "20 mm", "reaches": "rubber"}, "service", "advise"),
        ({"kind": "cut", "length": "20 mm", "reaches": "cord"}, "service", "reject"),  # Illinois 92 IAC 428.20(a)
        ({"kind": "cut", "length": "20 mm", "reaches": "cord"}, "repair", "reject"),
        ({"kind": "cut", "length": "20 mm"}, "service", "inspect"),
        ({"kind": "surface", "zone": "sidewall"}, "repair", "repair"),  # filled anywhere on the outside
        ({"kind": "surface", "zone": "sidewall"}, "service", "advise"),
        ({"kind": "surface", "reaches": "cord"}, "service", "reject"),
    ],
)
def test_a_cut_is_judged_by_what_it_reaches(injury: dict[str, str], purpose: str, verdict: str) -> None:
    case = {**an_examined_case(purpose=purpose), "injuries": [injury]}

    assert decide(case).verdict == verdict


def test_a_surface_is_filled_and_gets_no_unit() -> None:
    plan = decide({**an_examined_case(), "injuries": [{"kind": "surface"}]}).plan

    assert plan is not None
    assert (plan[0].method, plan[0].unit, plan[0].buff) == ("surface-fill", None, None)


def test_a_light_truck_with_unread_ply_gets_the_smaller_limit_and_is_told_to_read_it() -> None:
    inside = decide(an_examined_case("light-truck", injury={"diameter": "1/4 in"}))
    outside = decide(an_examined_case("light-truck", injury={"diameter": "5/16 in"}))

    assert (inside.verdict, outside.verdict) == ("repair", "reject")
    assert any("ply material" in condition for condition in inside.conditions)
    assert not decide(an_examined_case("light-truck-fabric")).conditions


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
    assert decide(without_injury(purpose=purpose, findings={**CLEAN, finding: True})).verdict == verdict


@pytest.mark.parametrize("marking", ["date_code", "designation"])
def test_a_marking_that_cannot_be_read_stops_a_used_tire(marking: str) -> None:
    assert decide(without_injury(purpose="fit-used", tire={marking: "unreadable"})).verdict == "reject"


@pytest.mark.parametrize(
    ("repairs", "verdict"), [([], "reject"), ([SOUND_REPAIR], "accept"), ([{**SOUND_REPAIR, "sound": False}], "reject")]
)
def test_sealant_in_a_used_tire_needs_a_proper_repair_after_it(repairs: list[Any], verdict: str) -> None:
    """South Carolina 39-75-210(A)(4): evidence of a temporary sealant with no later proper repair."""
    case = without_injury(purpose="fit-used", findings={**CLEAN, "sealant-residue": True}, earlier_repairs=repairs)

    assert decide(case).verdict == verdict


# Two 70 mm long one-piece units, 60 mm wide, side by side across the tire: the gap is the distance less 70 mm.
@pytest.mark.parametrize(("lateral", "verdict"), [("35.2 mm", "repair"), ("35 mm", "repair"), ("34.9 mm", "reject")])
def test_two_units_may_touch_but_not_overlap(lateral: str, verdict: str) -> None:
    hole = {"kind": "puncture", "diameter": "6 mm", "angle": "0 deg", "station": "90 deg"}
    pair = [{**hole, "lateral": lateral}, {**hole, "lateral": "-35 mm"}]

    assert decide({**an_examined_case(proposed="one-piece"), "injuries": pair}).verdict == verdict


def test_nothing_fails_open_where_no_clause_covers() -> None:
    decision = decide(a_case("truck", edition="united-kingdom", injuries=[{"zone": "crown"}]))

    assert "not-covered" in {ruling.clause for ruling in decision.rulings}
    assert severity(decision.verdict) >= severity("refer")


def test_the_plan_carries_the_limits_of_the_work() -> None:
    plan = decide(an_examined_case(injury={"diameter": "5 mm"})).plan

    assert plan is not None
    entry = plan[0].to_json()
    # The smallest ordinary patch for more than 1/8 in is 75 x 65 mm; half an inch on each side is 25.4 mm in all.
    assert entry["unit"] == {
        "name": "patch, medium",
        "kind": "patch",
        "length": "75 mm",
        "width": "65 mm",
        "arrows": "to the beads",
    }
    assert entry["buff"] == {"length": "100.4 mm", "width": "90.4 mm"}
    assert entry["passes_each_way"] == "at least 3 passes"
    assert entry["cutter_speed"] == "at most 1200 rpm"
    assert entry["buffer_speed"] == "at most 5000 rpm"
    assert entry["buff_texture"] == "No. 1 or No. 2"
    assert entry["stem_stands"] == "about 1/8 in"
    assert entry["drying"] == "at least 3 min (usually 3 to 5 min, longer when cold or humid)"


@pytest.mark.parametrize("verdict_of", [without_injury(), an_examined_case(findings=["bulge"]), a_case("truck")])
def test_there_is_a_plan_only_for_a_repair(verdict_of: dict[str, Any]) -> None:
    assert decide(verdict_of).plan is None


def test_the_decision_as_data_has_exactly_the_agreed_fields() -> None:
    data = decide(an_examined_case()).to_json()

    assert set(data) == {"verdict", "edition", "version", "rulings", "unexamined", "provisional", "conditions", "plan"}
    rulings = data["rulings"]
    assert isinstance(rulings, list)
    for ruling in rulings:
        assert set(ruling) == {
            "clause",
            "subject",
            "holds",
            "found",
            "limit",
            "consequence",
            "because",
            "kind",
            "source",
            "between_statements",
        }


def text_of(case: dict[str, Any]) -> tuple[Decision, str]:
    decision = decide(case)
    return decision, decision_text(decision, parse_case(case))


def test_the_text_leads_with_what_it_rests_on() -> None:
    _, text = text_of(an_examined_case(findings=[]))

    lines = text.splitlines()
    assert lines[1].startswith("Provided that what was not examined is in order: ")
    assert lines[2].startswith("REPAIR")


def test_the_text_of_a_full_examination_has_no_proviso_and_ends_with_the_caution() -> None:
    decision, text = text_of(an_examined_case())

    assert "Provided" not in text
    assert text.endswith("licensed practice go before this answer.")
    assert all(ruling.because in text for ruling in decision.deciding)


def test_a_date_code_of_a_week_that_has_not_come_is_in_doubt() -> None:
    decision = decide(without_injury(purpose="fit-used", tire={"date_code": "5226"}))

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
    stated = {} if on_wheel is None else {"on_wheel": on_wheel}
    case = a_case("motorcycle", purpose="service", pressure={"recommended": "100 kPa", "found": found}, **stated)

    assert decide(case).verdict == verdict


def test_a_soft_motorcycle_tire_off_the_wheel_is_passed_only_under_what_is_found_inside() -> None:
    case = a_case(
        "motorcycle", purpose="service", on_wheel=False, pressure={"recommended": "100 kPa", "found": "60 kPa"}
    )

    assert "run-flat-damage" in decide(case).unexamined
    assert decide({**case, "findings": ["run-flat-damage"]}).verdict == "reject"
