"""What `decide` says of an injury and of the repair for it, by published limits and common practice."""

from typing import Any

import pytest

from tests.rulebook.cases import (
    FABRIC,
    a_case,
    an_examined_case,
    decide_as_told,
    decide_with_units,
    ruling_of,
    without_injury,
)
from training.rulebook import Decision, decision_text, parse_case, severity


def test_a_small_straight_puncture_in_the_crown_is_repaired() -> None:
    decision = decide_with_units(an_examined_case())

    assert decision.verdict == "repair"
    assert [ruling.clause for ruling in decision.deciding] == ["puncture"]


def test_a_tire_with_everything_looked_at_is_not_provisional() -> None:
    decision = decide_with_units(an_examined_case())

    assert (decision.provisional, decision.unexamined) == (False, ())


def test_a_sound_tire_without_injury_may_run() -> None:
    assert decide_with_units(without_injury(purpose="service")).verdict == "accept"


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
    decision = decide_with_units(an_examined_case(casing, injury={"diameter": diameter}))

    assert decision.verdict == verdict
    ruling = ruling_of(decision, "injury-size")
    assert (ruling.found, ruling.limit, ruling.between_statements) == (diameter, "at most 1/4 in (6 mm)", between)


def test_a_hole_already_too_large_before_removal_is_rejected_unmeasured() -> None:
    decision = decide_with_units(an_examined_case(injury={"diameter": None, "before_removal": "5/16 in"}))

    assert decision.verdict == "reject"
    assert ruling_of(decision, "injury-size").found == "5/16 in before damage removal"


def test_a_hole_small_before_removal_is_not_yet_measured() -> None:
    decision = decide_with_units(an_examined_case(injury={"diameter": None, "before_removal": "1/8 in"}))

    assert "injury-size" in decision.unexamined
    assert (decision.verdict, decision.if_nothing_else, decision.missing) == ("inspect", "repair", ("hole-size",))


@pytest.mark.parametrize(
    ("lateral", "verdict"),
    [("59.4 mm", "repair"), ("59.5 mm", "repair"), ("59.6 mm", "reject"), ("-59.6 mm", "reject")],
)
def test_the_whole_hole_lies_between_the_outer_grooves(lateral: str, verdict: str) -> None:
    # 62 mm to the groove, hole 5 mm across: its edge touches the groove at 59.5 mm.
    assert decide_with_units(an_examined_case(injury={"lateral": lateral})).verdict == verdict


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

    assert decide_with_units(an_examined_case(injury=injury)).verdict == verdict


@pytest.mark.parametrize(
    ("zone", "verdict"), [("crown", "repair"), ("shoulder", "reject"), ("sidewall", "reject"), ("bead", "reject")]
)
def test_a_zone_may_stand_for_a_measured_place(zone: str, verdict: str) -> None:
    assert decide_with_units(an_examined_case(injury={"lateral": None, "zone": zone})).verdict == verdict


def test_a_zone_in_words_is_heard_beside_a_measured_place() -> None:
    assert decide_with_units(an_examined_case(injury={"zone": "shoulder"})).verdict == "reject"


def test_a_straight_hole_in_the_crown_leaves_in_the_crown() -> None:
    decision = decide_with_units(an_examined_case(injury={"lateral": None, "zone": "crown", "angle": "0 deg"}))

    assert decision.provisional is False


@pytest.mark.parametrize("missing", ["diameter", "angle", "lateral"])
def test_what_was_not_measured_is_looked_at_before_anything_is_released(missing: str) -> None:
    decision = decide_with_units(an_examined_case(injury={missing: None}))

    assert decision.provisional
    assert (decision.verdict, decision.if_nothing_else) == ("inspect", "repair")
    assert decision.plan is None


def test_a_hole_beyond_the_tread_is_outside_even_if_the_groove_was_not_measured() -> None:
    # Half of 170 mm is 85 mm; no groove lies beyond the tread.
    decision = decide_with_units(an_examined_case(tire={"outer_groove": None}, injury={"lateral": "84 mm"}))

    assert decision.verdict == "reject"


def test_a_hole_inside_the_tread_is_not_judged_without_the_groove() -> None:
    decision = decide_with_units(an_examined_case(tire={"outer_groove": None}, injury={"lateral": "50 mm"}))

    assert {"crown-at-tread", "crown-at-liner"} <= set(decision.unexamined)


def test_a_groove_beyond_the_tread_does_not_widen_the_crown() -> None:
    decision = decide_with_units(an_examined_case(tire={"outer_groove": "170 mm"}, injury={"lateral": "84 mm"}))

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
    decision = decide_with_units(an_examined_case(injury={"angle": angle, "azimuth": "90 deg"}))

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
    decision = decide_with_units(an_examined_case(injury={"angle": angle, "azimuth": "90 deg"}, proposed="one-piece"))

    assert decision.verdict == verdict
    assert ruling_of(decision, "proposed-one-piece-angle").between_statements is between


def test_without_an_angle_only_a_two_piece_repair_is_planned() -> None:
    plan = decide_as_told(an_examined_case(injury={"angle": None})).plan

    assert plan is not None
    assert plan[0].methods_allowed == ("two-piece",)


@pytest.mark.parametrize("proposed", ["stem-only", "patch-only", "string", "tube"])
def test_an_unacceptable_proposal_is_rejected_as_a_proposal(proposed: str) -> None:
    decision = decide_with_units(an_examined_case(proposed=proposed))

    assert decision.verdict == "reject"
    assert [(one.clause, one.subject) for one in decision.deciding] == [("proposed-repair", "proposal")]
    assert "proposal is rejected" in decision.deciding[0].because


@pytest.mark.parametrize(("angle", "verdict"), [("25 deg", "repair"), ("26 deg", "reject")])
def test_a_one_piece_unit_is_not_proposed_for_a_steep_channel(angle: str, verdict: str) -> None:
    case = an_examined_case(proposed="one-piece", injury={"angle": angle, "azimuth": "90 deg"})

    assert decide_with_units(case).verdict == verdict


@pytest.mark.parametrize(
    ("angle", "between"), [("25 deg", False), ("26 deg", True), ("35 deg", True), ("36 deg", False)]
)
def test_makers_of_repair_material_may_see_a_proposed_one_piece_unit_otherwise(angle: str, between: bool) -> None:
    case = an_examined_case(proposed="one-piece", injury={"angle": angle, "azimuth": "90 deg"})

    assert ruling_of(decide_with_units(case), "proposed-one-piece-angle").between_statements is between


@pytest.mark.parametrize("proposed", ["one-piece", "two-piece"])
def test_the_proposed_method_is_planned_where_it_is_allowed(proposed: str) -> None:
    plan = decide_with_units(an_examined_case(proposed=proposed)).plan

    assert plan is not None
    assert plan[0].method == proposed


def test_injuries_nobody_looked_for_are_unexamined() -> None:
    case = an_examined_case()
    del case["injuries"]

    assert "puncture" in decide_with_units(case).unexamined


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
    assert decide_with_units(an_examined_case(on_wheel=on_wheel, purpose=purpose)).verdict == verdict


def test_an_uninjured_tire_may_be_checked_on_its_wheel_for_service() -> None:
    assert decide_with_units(without_injury(purpose="service", on_wheel=True)).verdict == "accept"


def test_a_rejecting_finding_is_not_softened_by_the_wheel() -> None:
    assert decide_with_units(an_examined_case(on_wheel=True, findings=["bulge"])).verdict == "reject"


@pytest.mark.parametrize("build", ["bias", "self-supporting", "self-sealing", "foam-lined", "tubed"])
@pytest.mark.parametrize("purpose", ["repair", "service", "fit-used"])
def test_an_injured_tire_of_another_build_is_the_makers_to_decide(build: str, purpose: str) -> None:
    assert decide_with_units(an_examined_case(tire={"build": build}, purpose=purpose)).verdict == "refer"


def test_a_sound_tire_of_another_build_may_run() -> None:
    tire = {"build": "self-supporting", "ran_without_air": False}

    assert decide_with_units(without_injury(tire=tire, purpose="service")).verdict == "accept"


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

    assert decide_with_units(case).verdict == verdict


def test_a_surface_is_filled_and_gets_no_unit() -> None:
    plan = decide_with_units({**an_examined_case(), "injuries": [{"kind": "surface"}]}).plan

    assert plan is not None
    assert (plan[0].method, plan[0].unit, plan[0].buff) == ("surface-fill", None, None)


# Two 70 mm long one-piece units, 60 mm wide, side by side across the tire: the gap is the distance less 70 mm.
@pytest.mark.parametrize(("lateral", "verdict"), [("35.2 mm", "repair"), ("35 mm", "repair"), ("34.9 mm", "reject")])
def test_two_units_may_touch_but_not_overlap(lateral: str, verdict: str) -> None:
    hole = {"kind": "puncture", "diameter": "6 mm", "angle": "0 deg", "station": "90 deg"}
    pair = [{**hole, "lateral": lateral}, {**hole, "lateral": "-35 mm"}]

    assert decide_with_units({**an_examined_case(proposed="one-piece"), "injuries": pair}).verdict == verdict


def test_nothing_fails_open_where_no_clause_covers() -> None:
    decision = decide_with_units(a_case("truck", edition="united-kingdom", injuries=[{"zone": "crown"}]))

    assert "not-covered" in {ruling.clause for ruling in decision.rulings}
    assert severity(decision.verdict) >= severity("refer")


def test_the_plan_carries_the_limits_of_the_work() -> None:
    (entry,) = decide_with_units(an_examined_case(injury={"diameter": "5 mm"})).to_json()["plan"]

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
    assert decide_with_units(verdict_of).plan is None


def test_the_decision_as_data_has_exactly_the_agreed_fields() -> None:
    data = decide_with_units(an_examined_case()).to_json()

    assert set(data) == {
        "verdict",
        "edition",
        "version",
        "rulings",
        "unexamined",
        "provisional",
        "conditions",
        "plan",
        "if_nothing_else",
        "missing",
        "to_look_at",
    }
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
    decision = decide_with_units(case)
    return decision, decision_text(decision, parse_case(case))


def test_the_text_of_a_full_examination_leaves_nothing_to_look_at_and_ends_with_the_caution() -> None:
    decision, text = text_of(an_examined_case())

    assert "Still to look at" not in text
    assert text.endswith("the rules of the trade where you work come first.")
    assert all(ruling.because in text for ruling in decision.deciding)
