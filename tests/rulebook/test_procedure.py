"""The procedure: its steps for each method, in the agreed order, and what a trainer ticks off."""

from training.rulebook import load_edition, procedure

EDITION = load_edition("north-america")

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

    assert 20 <= sum(one.is_for(["passenger"]) for one in criteria) <= 28
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
