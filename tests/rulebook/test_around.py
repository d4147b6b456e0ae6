"""Around the repair: wheel, valve and sensor; what truck wheels need; torque by stud; rejected tires; refusals."""

from typing import Any

import pytest

from tests.rulebook.cases import an_examined_case
from tests.rulebook.jobs import a_job, a_log
from training.rulebook import CASINGS, audit, decide, edition_names, load_edition

# Verdicts by hand. A wheel is replaced, not the tire: 29 CFR 1910.177(e)(2): bent, pitted, broken or cracked wheels are
# not used, and are marked.
# What follows for the tire on it is common practice, no published source.
WHEEL = "The wheel is out of service: mark it, and mount the tire on a sound one only."
VALVE = "Replace the valve before the wheel runs again."
SENSOR = "Replace the pressure sensor, or what its maker names, before the wheel goes back on."
FOUND = [
    ("wheel-damaged", "repair", "repair", WHEEL),
    ("wheel-damaged", "service", "inspect", WHEEL),
    ("valve-damaged", "repair", "repair", VALVE),
    ("valve-damaged", "service", "inspect", VALVE),
    ("sensor-damaged", "repair", "repair", SENSOR),
]


@pytest.mark.parametrize(("slug", "purpose", "verdict", "condition"), FOUND)
def test_a_bad_wheel_valve_or_sensor_does_not_take_the_tire_but_is_a_condition(
    slug: str, purpose: str, verdict: str, condition: str
) -> None:
    case = an_examined_case(purpose=purpose)
    case["findings"][slug] = True

    decision = decide(case)

    assert decision.verdict == verdict
    assert condition in decision.conditions


@pytest.mark.parametrize("edition", edition_names())
@pytest.mark.parametrize("casing", CASINGS)
@pytest.mark.parametrize("slug", ["wheel-damaged", "valve-damaged"])
def test_no_tire_is_accepted_in_service_on_a_bad_wheel_or_valve(edition: str, casing: str, slug: str) -> None:
    case = {"edition": edition, "purpose": "service", "on": "2026-11-25", "tire": {"casing": casing}}

    decision = decide({**case, "findings": {slug: True}})

    assert decision.verdict in ("inspect", "refer", "reject")


def test_a_finding_on_wheel_valve_or_sensor_that_nobody_looked_for_is_not_asked() -> None:
    decision = decide(an_examined_case())

    assert not {one for one in decision.unexamined if one.startswith(("wheel-", "valve-", "sensor-"))}


# 29 CFR 1910.177(f)(2)(ii), from memory: obvious or suspected damage to the tire or wheel components.
@pytest.mark.parametrize(("slug", "deflates"), [("wheel-damaged", True), ("sensor-damaged", False)])
def test_a_damaged_wheel_of_a_truck_is_deflated_before_it_leaves_the_axle(slug: str, deflates: bool) -> None:
    decision = decide(
        {
            "purpose": "service",
            "on": "2026-11-25",
            "tire": {"casing": "truck"},
            "on_wheel": True,
            "position": {"vehicle": "truck", "wheel": "multi-piece"},
            "injuries": [],
            "findings": {slug: True},
        }
    )

    assert any("valve core" in condition.lower() for condition in decision.conditions) is deflates


# One truck tire, 11R22.5, worked on by a sound log with what large vehicles need besides.
LARGE = {"restraint": "restraining device", "capacity": "150 %", "gauge": "in-line", "hose": "outside the trajectory",
         "chuck": "clip-on"}  # fmt: skip
TRUCK: dict[str, dict[str, Any]] = {
    "remove_damage": {"speed": "600 rpm", "passes": 5},
    "seat_beads": LARGE,
    "install": {"torque": "475 lbf.ft", "stud": "M22 hub-piloted"},
}


def truck_faults(**changed: dict[str, Any]) -> list[tuple[str, str]]:
    spoiled = {name: {**TRUCK.get(name, {}), **changes} for name, changes in changed.items()}
    job = a_job(a_log("two-piece", **{**TRUCK, **spoiled}), casing="truck")
    return [(fault.clause, fault.limit) for fault in audit(job).faults if fault.fault == "limit"]


# Sources: 29 CFR 1910.177(d)(3) and (d)(4): capacity for 150 percent of the maximum specification pressure; a clip-on
# chuck; an in-line valve with a pressure gauge or a presettable regulator; hose to stand outside the trajectory.
@pytest.mark.parametrize(
    ("stated", "clause"),
    [
        ({}, None),
        ({"capacity": "149 %"}, "restraint-capacity"),
        ({"capacity": "150 %"}, None),
        ({"capacity": "151 %"}, None),
        ({"gauge": "hand-held"}, "inflation-gauge"),
        ({"gauge": "none"}, "inflation-gauge"),
        ({"hose": "within the trajectory"}, "stand-off"),
        ({"chuck": "hand-held"}, "clip-on-chuck"),
        ({"restraint": "none"}, "restraining-device"),
        ({"restraint": "bolted on the vehicle, lug nuts not all tight"}, "restraining-device"),
    ],
)
def test_a_truck_tire_is_inflated_as_the_law_says(stated: dict[str, str], clause: str | None) -> None:
    expected = [clause] if clause else []

    assert [name for name, _ in truck_faults(seat_beads=stated)] == expected


def test_the_law_for_large_vehicles_does_not_reach_light_trucks() -> None:
    # Source: 29 CFR 1910.177(a)(1): automobiles, and light trucks and vans on LT tires, are outside the rule.
    for name in ("restraint-capacity", "inflation-gauge", "stand-off", "clip-on-chuck", "restraining-device"):
        assert load_edition("north-america").clause(name).casings == ("truck",)


# Sources: trade press, and a truck maker's maintenance manual (2024): M22 x 1.5 hub-piloted 450 to 500 lbf.ft (610 to
# 678 N.m); M20 x 1.5 280 to 330 lbf.ft (380 to 447 N.m); 3/4-16 and 1 1/8-16 450 to 500 lbf.ft (610 to 678 N.m).
TABLE = [
    ("M22 hub-piloted", "torque-m22", (450, 500), (610, 678)),
    ("M20 hub-piloted", "torque-m20", (280, 330), (380, 447)),
    ("stud-piloted", "torque-stud-piloted", (450, 500), (610, 678)),
]


@pytest.mark.parametrize(("stud", "clause", "pounds", "newtons"), TABLE)
def test_torque_goes_by_the_stud_inside_on_and_outside_both_ends(
    stud: str, clause: str, pounds: tuple[int, int], newtons: tuple[int, int]
) -> None:
    for unit, (low, high) in (("lbf.ft", pounds), ("N.m", newtons)):
        for number, is_kept in ((low - 1, False), (low, True), (high, True), (high + 1, False)):
            found = [name for name, _ in truck_faults(install={"stud": stud, "torque": f"{number} {unit}"})]
            assert found == ([] if is_kept else [clause]), (number, unit)


def test_a_stud_that_no_table_names_is_left_to_the_vehicle_maker() -> None:
    assert truck_faults(install={"stud": "other", "torque": "200 lbf.ft"}) == []


# Common practice, no published source.
@pytest.mark.parametrize("edition", edition_names())
@pytest.mark.parametrize(
    ("id", "words"),
    [
        ("rejected-tire", "marked and made unusable"),
        ("customer-refuses", "written down, not mounted"),
    ],
)
def test_what_becomes_of_a_rejected_tire_and_of_a_refusal_holds_for_every_casing(
    edition: str, id: str, words: str
) -> None:
    clause = load_edition(edition).clause(id)

    assert clause.limit_text() == words
    assert set(clause.casings) == set(CASINGS)
