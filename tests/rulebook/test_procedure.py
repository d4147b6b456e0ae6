"""The procedure: its steps for each method, in the agreed order, and what a trainer ticks off."""

import pytest

from training.rulebook import load_edition, procedure

pytestmark = pytest.mark.walk  # over everything of a kind: what the README adds passes it too

EDITION = load_edition("north-america")
LIGHT = ("passenger", "light-truck-fabric")
STEEL = ("light-truck-steel", "truck")

# DESIGN, "A job".
START = [
    "deflate", "demount", "inspect", "mark", "remove-object", "measure-injury", "clean-liner", "remove-damage", "probe",
    "measure-prepared",
]  # fmt: skip
TWO_PIECE = [
    "cement-channel",
    "pull-stem",
    "outline",
    "buff",
    "brush",
    "remove-dust",
    "cement-area",
    "dry",
    "apply-unit",
]
ONE_PIECE = ["outline", "buff", "brush", "remove-dust", "cement-channel", "cement-area", "dry", "pull-through"]
END = [
    "stitch", "remove-film", "seal", "trim-stem", "inspect-repair", "check-valve", "mount", "seat-beads", "inflate",
    "leak-test", "balance", "install", "reset-pressure-monitor",
]  # fmt: skip


def test_the_steps_of_each_method_stand_in_the_agreed_order() -> None:
    assert [step.id for step in procedure(EDITION, method="two-piece")] == START + TWO_PIECE + END
    assert [step.id for step in procedure(EDITION, method="one-piece")] == START + ONE_PIECE + END


def test_a_step_says_what_to_do_and_belongs_to_a_method() -> None:
    for step in procedure(EDITION):
        assert step.title
        assert step.instruction.endswith(".")
        assert step.methods
        assert all(id in EDITION.clauses for id in step.clauses)


def test_the_hands_on_sheet_has_criteria_with_sources_and_some_are_critical() -> None:
    criteria = [criterion for step in procedure(EDITION) for criterion in step.criteria]

    assert 20 <= sum(one.is_for(["passenger"]) for one in criteria) <= 30
    assert len({criterion.id for criterion in criteria}) == len(criteria)
    assert all(criterion.kind and criterion.source for criterion in criteria)
    assert 0 < sum(criterion.critical for criterion in criteria) < len(criteria)


# common practice, no published source: what is seen on steel bodies besides
def test_steel_bodies_have_lines_of_their_own_on_the_sheet() -> None:
    criteria = [criterion for step in procedure(EDITION) for criterion in step.criteria]
    steel, light = (
        {one.id for one in criteria if one.is_for(casings)}
        for casings in (("light-truck-steel", "truck"), ("passenger", "light-truck-fabric"))
    )

    assert steel - light == {"ply-material-read", "damaged-cable-removed", "cage-and-remote", "dual-mate-compared"}
    assert light < steel


def test_every_limit_of_the_work_is_carried_by_a_step() -> None:
    carried = {id for step in procedure(EDITION) for id in step.clauses}

    assert {clause.id for clause in EDITION.clauses.values() if clause.is_for_job()} <= carried


# What a step prints for a casing, by quantity. North America: the association's wall chart for 1/4 in; association
# guidance for truck tires for 3/8 in and its article of 2008 for 1 1/2 in; common practice for the passes; trade press
# for the cutter's speed. Not read, fabric or steel: the size of fabric, and the place and the cutter of both.
# United Kingdom: BS AU 159g as summarised by a trade association, for cars and light commercials.
_INJURY, _CUT = "injury.diameter", "job.cutter_speed"
_PLACE, _EXIT = "injury.crown_margin", "injury.exit_margin"
_FROM_SHOULDER, _EXIT_FROM_SHOULDER = "injury.shoulder_distance", "injury.exit_shoulder_distance"
_PASSES = "job.passes_each_way"
_CARDS = [
    *(
        ("north-america", casing, step, quantity, limit)
        for casings, rows in (
            (
                (*LIGHT, "light-truck"),
                [
                    ("mark", _PLACE, "the whole hole between the outer grooves"),
                    ("measure-injury", _INJURY, "at most 1/4 in (6 mm)"),
                    ("measure-injury", _EXIT, "the whole exit between the outer grooves"),
                    ("measure-prepared", _INJURY, "at most 1/4 in (6 mm)"),
                ],
            ),
            (
                ("light-truck",),
                [
                    ("mark", _FROM_SHOULDER, "at least 1 1/2 in"),
                    ("measure-injury", _EXIT_FROM_SHOULDER, "at least 1 1/2 in"),
                ],
            ),
            (
                STEEL,
                [
                    ("mark", _FROM_SHOULDER, "at least 1 1/2 in"),
                    ("measure-injury", _INJURY, "at most 3/8 in (10 mm)"),
                    ("measure-injury", _EXIT_FROM_SHOULDER, "at least 1 1/2 in"),
                    ("measure-prepared", _INJURY, "at most 3/8 in (10 mm)"),
                ],
            ),
        )
        for casing in casings
        for step, quantity, limit in rows
    ),
    *(
        ("united-kingdom", casing, step, quantity, limit)
        for casing in (*LIGHT, "light-truck", "light-truck-steel")
        for step, quantity, limit in [
            ("mark", _PLACE, "the whole hole inside area T"),
            ("measure-injury", _INJURY, "at most 6 mm"),
            ("measure-injury", _EXIT, "the whole exit inside area T"),
            ("measure-prepared", _INJURY, "at most 6 mm"),
        ]
    ),
    *(
        (name, casing, "remove-damage", quantity, limit)
        for name in ("north-america", "united-kingdom")
        for casings, quantity, limit in [
            (LIGHT, _CUT, "at most 1200 rpm"),
            (LIGHT, _PASSES, "at least 3 passes"),
            ((*STEEL, "light-truck"), _CUT, "500 to 700 rpm"),
            ((*STEEL, "light-truck"), _PASSES, "at least 5 passes"),
        ]
        for casing in casings
    ),
]


def printed(name: str, casing: str, step: str, quantity: str) -> list[str]:
    """The limits on one quantity that a job card for this casing prints at a step."""
    edition = load_edition(name)
    (found,) = [one for one in procedure(edition) if one.id == step]
    clauses = [edition.clause(id) for id in found.clauses]
    return [one.limit_text() for one in clauses if one.quantity == quantity and casing in one.casings]


@pytest.mark.parametrize(("name", "casing", "step", "quantity", "limit"), _CARDS)
def test_a_step_prints_the_limit_of_the_casing_and_no_other(
    name: str, casing: str, step: str, quantity: str, limit: str
) -> None:
    assert printed(name, casing, step, quantity) == [limit]


@pytest.mark.parametrize("name", ["north-america", "united-kingdom"])
@pytest.mark.parametrize("casing", [*LIGHT, *STEEL, "light-truck"])
def test_a_step_that_limits_a_quantity_carries_every_clause_on_it(name: str, casing: str) -> None:
    edition = load_edition(name)
    for step in procedure(edition):
        limited = {edition.clause(id).quantity for id in step.clauses}
        here = {one.id for one in edition.clauses.values() if casing in one.casings and one.quantity in limited}

        assert here <= set(step.clauses), step.id


def test_what_the_other_country_has_no_clause_for_is_named_where_it_takes_the_steps() -> None:
    here, there = (
        {id for step in procedure(load_edition(name)) for id in step.clauses}
        for name in ("north-america", "united-kingdom")
    )

    # area T is the place for steel bodies of light commercials too: BS AU 159g as summarised by a trade association
    assert here - there == {"injury-zone-steel", "injury-in-bead", "crown-at-tread-steel", "crown-at-liner-steel"}
    assert there <= here
