"""Steel bodies: each limit of light truck and truck tires inside, on it and outside; beyond a nail hole: refer."""

from typing import Any

import pytest

from tests.rulebook.cases import CLEAN, an_examined_case, decide_with_units, ruling_of, without_injury

STEEL = ("light-truck-steel", "truck")


def steel_case(casing: str = "truck", **rest: Any) -> dict[str, Any]:
    """An 11R22.5 (or LT) off the wheel, 220 mm of tread, 20 mm of crown, one straight puncture on the centerline."""
    size = "11R22.5 144/142L" if casing == "truck" else "LT235/85R16 120/116S"
    tire = {"designation": size, "tread_width": "220 mm", "outer_groove": None, "crown_thickness": "20 mm"}
    return an_examined_case(
        casing, **{"position": {"axle": "drive", "dual": False}, **rest, "tire": tire | rest.pop("tire", {})}
    )


@pytest.mark.parametrize("casing", STEEL)
def test_a_small_straight_puncture_in_the_crown_is_repaired(casing: str) -> None:
    decision = decide_with_units(steel_case(casing))

    assert (decision.verdict, decision.unexamined) == ("repair", ())


# Sources: association guidance, common practice: 3/8 in (10 mm) after damaged cable is removed, each in its own unit.
@pytest.mark.parametrize("casing", STEEL)
@pytest.mark.parametrize(
    ("diameter", "verdict", "between"),
    [
        ("11/32 in", "repair", False),
        ("3/8 in", "repair", False),  # 9.525 mm: both statements hold
        ("25/64 in", "refer", True),  # 9.92 mm: the metric statement alone would pass it
        ("10 mm", "repair", True),  # more than 3/8 in: the inch statement alone would refer it
        ("10.1 mm", "refer", False),
    ],
)
def test_a_nail_hole_in_a_steel_body_is_limited_and_larger_is_referred(
    casing: str, diameter: str, verdict: str, between: bool
) -> None:
    decision = decide_with_units(steel_case(casing, injury={"diameter": diameter}))

    assert decision.verdict == verdict
    ruling = ruling_of(decision, "injury-size-steel")
    assert (ruling.limit, ruling.between_statements) == ("at most 3/8 in (10 mm)", between)


# Sources: trade press, 1 in from each shoulder; association article 2008, 1 to 1.5 in. Half the tread is 110 mm, half
# the hole 2.5 mm: 1.5 in (38.1 mm) is kept up to 69.4 mm off center, 1 in (25.4 mm) up to 82.1 mm.
@pytest.mark.parametrize(
    ("lateral", "verdict", "between"),
    [
        ("69.3 mm", "repair", False),
        ("69.4 mm", "repair", False),
        ("69.5 mm", "refer", True),
        ("-69.5 mm", "refer", True),
        ("82.1 mm", "refer", True),
        ("82.2 mm", "refer", False),
    ],
)
@pytest.mark.parametrize("casing", STEEL)
def test_the_whole_hole_lies_clear_of_the_shoulders(casing: str, lateral: str, verdict: str, between: bool) -> None:
    decision = decide_with_units(steel_case(casing, injury={"lateral": lateral}))

    assert decision.verdict == verdict
    assert ruling_of(decision, "crown-at-tread-steel").between_statements is between


@pytest.mark.parametrize(
    ("lateral", "azimuth", "verdict"),
    [
        # 45 deg through 20 mm moves 20 mm; half the ellipse is 2.5 / cos 45 = 3.536 mm: 110 - 38.1 - 23.536 = 48.364.
        ("48.3 mm", "0 deg", "repair"),
        ("48.4 mm", "0 deg", "refer"),
        ("48.4 mm", None, "refer"),
        ("48.4 mm", "180 deg", "repair"),
        ("-48.4 mm", "180 deg", "refer"),
    ],
)
def test_a_leaning_channel_also_leaves_clear_of_the_shoulders(lateral: str, azimuth: str | None, verdict: str) -> None:
    injury = {"lateral": lateral, "angle": "45 deg", "azimuth": azimuth}

    assert decide_with_units(steel_case(injury=injury)).verdict == verdict


# The same channel at the liner: 110 - 20 - 3.536 = 86.464 mm less the lateral; 1.5 in at 48.364 mm, 1 in at 61.064 mm.
@pytest.mark.parametrize(
    ("lateral", "between"), [("48.3 mm", False), ("48.4 mm", True), ("61 mm", True), ("61.1 mm", False)]
)
def test_between_the_two_statements_the_exit_is_said_to_be_between(lateral: str, between: bool) -> None:
    injury = {"lateral": lateral, "angle": "45 deg", "azimuth": "0 deg"}

    assert ruling_of(decide_with_units(steel_case(injury=injury)), "crown-at-liner-steel").between_statements is between


# An earlier hole of 5 mm: 110 - 2.5 = 107.5 mm less the lateral; 1.5 in at 69.4 mm, 1 in at 82.1 mm.
@pytest.mark.parametrize(
    ("lateral", "between"), [("69.4 mm", False), ("69.5 mm", True), ("82.1 mm", True), ("82.2 mm", False)]
)
def test_between_the_two_statements_an_earlier_repair_is_said_to_be_between(lateral: str, between: bool) -> None:
    repair = {"kind": "two-piece", "lateral": lateral, "sound": True, "injury": "5 mm"}
    decision = decide_with_units(steel_case(earlier_repairs=[repair]))

    assert ruling_of(decision, "earlier-nail-hole-place").between_statements is between


def test_without_the_tread_width_the_place_is_not_judged() -> None:
    decision = decide_with_units(steel_case(tire={"tread_width": None}, injury={"lateral": "90 mm"}))

    assert {"crown-at-tread-steel", "crown-at-liner-steel"} <= set(decision.unexamined)


def test_a_hole_of_unknown_size_already_too_near_the_shoulder_is_referred() -> None:
    assert decide_with_units(steel_case(injury={"lateral": "80 mm", "diameter": None})).verdict == "refer"


@pytest.mark.parametrize("casing", STEEL)
@pytest.mark.parametrize(
    ("zone", "verdict"), [("crown", "repair"), ("shoulder", "refer"), ("sidewall", "refer"), ("bead", "reject")]
)
def test_a_zone_may_stand_for_a_measured_place(casing: str, zone: str, verdict: str) -> None:
    assert decide_with_units(steel_case(casing, injury={"lateral": None, "zone": zone})).verdict == verdict


@pytest.mark.parametrize(("angle", "methods"), [("25 deg", ("one-piece", "two-piece")), ("26 deg", ("two-piece",))])
def test_the_angle_decides_about_a_one_piece_unit_in_steel_too(angle: str, methods: tuple[str, ...]) -> None:
    plan = decide_with_units(steel_case(injury={"angle": angle, "azimuth": "90 deg"})).plan

    assert plan is not None
    assert plan[0].methods_allowed == methods


def test_the_plan_for_steel_carries_its_own_limits() -> None:
    plan = decide_with_units(steel_case()).plan

    assert plan is not None
    # common practice: 5 passes each way in steel bodies; trade press: truck reaming at 500 to 700 rpm
    assert plan[0].passes_each_way == "at least 5 passes"
    assert plan[0].cutter_speed == "500 to 700 rpm"
    assert plan[0].unit is not None
    assert plan[0].unit["name"] == "patch, large"


@pytest.mark.parametrize("build", ["bias", "tubed"])
def test_another_build_is_the_makers_to_decide(build: str) -> None:
    assert decide_with_units(steel_case(tire={"build": build})).verdict == "refer"


@pytest.mark.parametrize("proposed", ["stem-only", "patch-only", "string", "tube"])
def test_an_unacceptable_proposal_is_rejected_in_steel_too(proposed: str) -> None:
    assert decide_with_units(steel_case(proposed=proposed)).verdict == "reject"


@pytest.mark.parametrize("casing", STEEL)
@pytest.mark.parametrize(
    ("repair", "verdict"),
    [
        ({"kind": "two-piece", "zone": "crown", "sound": True, "injury": "3/8 in"}, "accept"),
        ({"kind": "two-piece", "zone": "crown", "sound": True, "injury": "13/32 in"}, "reject"),
        ({"kind": "two-piece", "zone": "shoulder", "sound": True, "injury": "6 mm"}, "reject"),
        ({"kind": None, "zone": "sidewall", "sound": True, "injury": "6 mm"}, "reject"),
        ({"kind": "two-piece", "zone": "crown", "sound": False, "injury": "6 mm"}, "reject"),
        ({"kind": "string", "zone": "crown", "sound": True, "injury": "6 mm"}, "reject"),
        ({"kind": "ply-repair", "zone": "crown", "sound": True}, "reject"),  # Maryland COMAR 11.22.04.06(5)
        # 110 - 69.4 - 2.5 = 38.1 mm = 1.5 in
        ({"kind": "two-piece", "lateral": "69.4 mm", "sound": True, "injury": "5 mm"}, "accept"),
        ({"kind": "two-piece", "lateral": "69.5 mm", "sound": True, "injury": "5 mm"}, "reject"),
    ],
)
def test_an_earlier_nail_hole_repair_must_be_one(casing: str, repair: dict[str, Any], verdict: str) -> None:
    case = {**steel_case(casing, purpose="service", earlier_repairs=[repair]), "injuries": []}

    assert decide_with_units(case).verdict == verdict


@pytest.mark.parametrize(("axle", "verdict"), [("front", "reject"), ("drive", "accept"), ("trailer", "accept")])
def test_a_section_repair_may_run_behind_but_not_in_front(axle: str, verdict: str) -> None:
    """49 CFR 570.62(d), from memory."""
    repair = {"kind": "section", "zone": "sidewall", "sound": True}
    case = steel_case(purpose="service", position={"axle": axle, "dual": False}, earlier_repairs=[repair])

    assert decide_with_units({**case, "injuries": []}).verdict == verdict


def test_a_section_repair_on_an_axle_nobody_stated_is_not_taken_for_allowed() -> None:
    repair = {"kind": "section", "zone": "sidewall", "sound": True}
    decision = decide_with_units(
        {**steel_case(purpose="service", position={}, earlier_repairs=[repair]), "injuries": []}
    )

    assert "section-repair-in-front" in decision.unexamined


def test_two_units_around_a_code_designated_tire_may_not_overlap() -> None:
    # 11R22.5: 1,050 mm (UN Regulation No. 54); liner radius 505 mm, so 8 deg are 70.5 mm and 11 deg are 97.0 mm. The
    # patch for this casing is 80 mm wide.
    def apart(degrees: int) -> dict[str, Any]:
        hole = {"kind": "puncture", "diameter": "6 mm", "angle": "0 deg", "lateral": "0 mm"}
        return {**steel_case(), "injuries": [{**hole, "station": f"{at} deg"} for at in (356, 356 + degrees)]}

    assert decide_with_units(apart(8)).verdict == "reject"
    assert decide_with_units(apart(11)).verdict == "repair"


@pytest.mark.parametrize("finding", ["run-flat-damage", "exposed-cord", "tread-separation", "bulge", "chunking"])
@pytest.mark.parametrize("purpose", ["repair", "service", "fit-used"])
def test_a_rejecting_finding_is_not_referred_but_rejected(finding: str, purpose: str) -> None:
    assert decide_with_units(steel_case(purpose=purpose, findings={**CLEAN, finding: True})).verdict == "reject"


def test_a_sound_truck_tire_may_run_and_be_fitted() -> None:
    for purpose in ("service", "fit-used"):
        case = {**steel_case(purpose=purpose), "injuries": []}

        assert decide_with_units(case).verdict == "accept"


def test_a_sound_steel_light_truck_tire_may_run() -> None:
    assert decide_with_units(without_injury("light-truck-steel", purpose="service")).verdict == "accept"


# Association article 2008: 1 to 1.5 in from each shoulder in steel, at its stricter end; the association's wall chart
# for fabric: between the outer shoulder grooves. Not read, it may be either, and the stricter counts (common practice).
# Tread 170 mm, groove at 62 mm: 85 - 38.1 - 2.5 = 44.4 mm from the middle, and 62 - 2.5 = 59.5 mm.
@pytest.mark.parametrize(
    ("casing", "lateral", "verdict"),
    [
        ("light-truck", "44.4 mm", "repair"),
        ("light-truck", "44.5 mm", "refer"),  # until it is read: then fabric may be repaired
        ("light-truck-fabric", "44.5 mm", "repair"),
        ("light-truck-fabric", "59.5 mm", "repair"),
        ("light-truck", "59.6 mm", "reject"),
    ],
)
def test_a_light_truck_tire_of_unread_ply_lies_clear_of_grooves_and_shoulders(
    casing: str, lateral: str, verdict: str
) -> None:
    decision = decide_with_units(an_examined_case(casing, injury={"diameter": "5 mm", "lateral": lateral}))

    assert decision.verdict == verdict
    assert any("Read the ply material" in text for text in decision.conditions) is (casing == "light-truck")
