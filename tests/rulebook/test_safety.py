"""What keeps the technician whole: eyes, back, fire, poison, the vehicle overhead, and where it is printed.

Texts: 29 CFR 1910.106(e)(6), 1910.133(a)(1), 1910.151(c), 1910.157(c)(1), 1910.244(a)(2)(iii), 1910.1200(g)(8);
8 CCR 5549; California Health and Safety Code 25215.6(a); Revised Code of Washington 70A.435.030; OSHA's summary of the
NIOSH lifting recommendations (about 51 lb; NIOSH publication 94-110: 23 kg); ANSI/ISEA Z358.1 (an eyewash runs 15 min);
International Chemical Safety Card 0081; Health and Safety Executive, Hot work on wheels; U.S. Consumer Product Safety
Commission, advisory on aerosol tire inflators of 1991 (fill and empty four times before the bead is broken); a truck
maker's maintenance manual of 2024 (torque on oiled threads).
"""

import pytest

from training import course
from training.rulebook import CASINGS, Clause, audit, edition_names, load_edition, procedure

pytestmark = pytest.mark.walk  # over everything of a kind: what the README adds passes it too

EDITIONS = [load_edition(name) for name in edition_names()]
FEDERAL = {
    "eye-protection": "29 CFR 1910.133(a)(1)",
    "vehicle-held": "29 CFR 1910.244(a)(2)(iii)",
    "no-ignition": "29 CFR 1910.106(e)(6)(i)",
    "data-sheet": "29 CFR 1910.1200(g)(8)",
    "eyewash": "29 CFR 1910.151(c)",
    "fire-extinguisher": "29 CFR 1910.157(c)(1)",
}


def north_american(id: str) -> Clause:
    return load_edition("north-america").clause(id)


@pytest.mark.parametrize(("id", "paragraph"), FEDERAL.items())
def test_federal_law_on_safety_at_work_is_named_for_every_tire(id: str, paragraph: str) -> None:
    clause = north_american(id)

    assert clause.kind == "law"
    assert clause.source.startswith(paragraph)
    assert set(clause.casings) == set(CASINGS)


@pytest.mark.parametrize(
    ("id", "place", "kind"),
    [
        ("lead-free-weights", "US-CA", "law"),
        ("lead-free-weights", "US-WA", "law"),
        ("lead-free-weights", "US-TX", "common-practice"),
        ("cans-bonded", "US-CA", "law"),
        ("eye-protection", "US-TX", "law"),
        ("eye-protection", "CA-ON", "common-practice"),
    ],
)
def test_law_of_a_state_on_weights_and_cans_holds_in_that_state(id: str, place: str, kind: str) -> None:
    assert north_american(id).strictest.said_in(place).kind == kind


@pytest.mark.parametrize("edition", EDITIONS, ids=lambda edition: edition.name)
def test_the_figures_of_safety_are_those_of_their_sources(edition) -> None:
    assert edition.clause("lifted-by-one").limit_text() == "at most 51 lb (23 kg)"
    assert edition.clause("eye-rinse").limit_text() == "at least 15 min"
    assert edition.clause("sealant-gas").limit_text() == "4 times outdoors, never in a tire that may have run soft"


# Where the reader meets the danger: step of the job card -> what it warns of. Common practice, no published source.
MET = [
    ("deflate", {"eye-protection", "sealant-gas"}),
    ("demount", {"vehicle-held", "lifted-by-one", "hot-work-on-wheels"}),
    ("clean-liner", {"no-ignition", "cans-bonded", "data-sheet", "eyewash", "eye-rinse", "fire-extinguisher"}),
    ("remove-damage", {"eye-protection"}),
    ("cement-channel", {"no-ignition", "chlorinated-vapor"}),
    ("pull-stem", {"eye-protection"}),
    ("buff", {"eye-protection"}),
    ("cement-area", {"no-ignition", "cans-bonded", "chlorinated-vapor"}),
    ("seat-beads", {"eye-protection"}),
    ("balance", {"lead-free-weights"}),
    ("install", {"vehicle-held", "lifted-by-one"}),
]


@pytest.mark.parametrize("edition", EDITIONS, ids=lambda edition: edition.name)
@pytest.mark.parametrize(("step", "warned"), MET)
def test_a_job_card_warns_at_the_step_where_it_hurts(edition, step: str, warned: set[str]) -> None:
    (found,) = [one for one in procedure(edition) if one.id == step]

    assert warned <= set(found.clauses)


def test_the_trainer_sees_eyes_fire_and_the_lifted_vehicle_and_each_can_fail_it() -> None:
    criteria = {one.id: one for step in procedure(load_edition("north-america")) for one in step.criteria}

    for id in ("eyes-protected", "fire-kept-away", "vehicle-held"):
        assert criteria[id].critical
        assert all(criteria[id].is_for([casing]) for casing in CASINGS)


def printed(lesson: str) -> str:
    return course.render(course.lesson_by_key(lesson), edition=load_edition("north-america"), prefer="in").html


@pytest.mark.parametrize(
    ("lesson", "says"),
    [
        ("inspect-and-reject/off-the-wheel", "at most 51 lb (23 kg)"),
        ("inspect-and-reject/off-the-wheel", "on rated stands or a locked lift"),
        ("prepare-install-return/clean-and-cut", "at least 15 min"),
        ("prepare-install-return/clean-and-cut", "poison center"),
        ("prepare-install-return/clean-and-cut", "metal to metal or joined by a bonding wire"),
        ("prepare-install-return/outline-and-buff", "rubber dust burns"),
        ("prepare-install-return/cement-and-dry", "phosgene"),
        ("prepare-install-return/cement-and-dry", "The pulling wire"),
        ("prepare-install-return/install-and-stitch", "never onto glass"),
        ("prepare-install-return/return-to-service", "wash your hands before you eat"),
        ("prepare-install-return/return-to-service", "old linings hold asbestos"),
        ("prepare-install-return/return-to-service", "while a tire is on it, with air or without"),
        ("measure-and-choose/two-injuries", "4 times outdoors, never in a tire that may have run soft"),
    ],
)
def test_a_lesson_warns_where_the_danger_is_met(lesson: str, says: str) -> None:
    assert says in printed(lesson)


def test_torques_of_trucks_stand_in_the_lesson_on_trucks_alone() -> None:
    card = 'id="limit-torque-m22"'
    showing = {module.slug for module in course.modules() for one in module.lessons if card in printed(one.key)}

    assert showing == {"steel-bodies"}


def test_a_figure_for_truck_studs_says_which_threads_it_is_for() -> None:
    for id in ("torque-m22", "torque-m20", "torque-stud-piloted"):
        assert "for oiled threads" in north_american(id).because


@pytest.mark.parametrize(
    ("casing", "threads", "faults"),
    [
        ("passenger", "clean and dry", []),
        ("passenger", "oiled", ["torque-threads"]),
        ("truck", "clean and dry", []),
        ("truck", "oiled", []),
        ("truck", "dirty or rusty", ["torque-threads-truck"]),
    ],
)
def test_oil_is_a_fault_on_the_threads_of_a_car_and_none_on_those_of_a_truck(
    casing: str, threads: str, faults: list[str]
) -> None:
    found = audit({"case": {"tire": {"casing": casing}}, "steps": [{"step": "install", "threads": threads}]}).faults

    assert [one.clause for one in found if one.clause.startswith("torque-threads")] == faults


def test_the_law_on_a_wheel_still_on_the_axle_asks_for_the_air_to_be_out_first() -> None:
    assert "All air out before the wheel leaves the axle" in printed("steel-bodies/run-soft-and-the-cage")
