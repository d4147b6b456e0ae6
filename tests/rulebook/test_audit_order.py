"""An audit of a job: steps left out, out of order, and done again."""

from typing import Any

import pytest

from tests.rulebook.jobs import a_job, a_log, each_method, faults_of, line, moved, swapped, without
from training.rulebook import audit


@each_method
def test_each_step_that_is_left_out_is_found_and_nothing_else(method: str) -> None:
    for name in [step["step"] for step in a_log(method)]:
        assert faults_of(a_job(without(a_log(method), name))) == [(None, name, f"step-{name}", "missing")]


def test_a_patch_alone_and_a_stem_alone_are_named_as_the_wall_chart_names_them() -> None:
    # Source: US association wall chart: a stem alone or a patch alone is not an acceptable repair.
    (patch_alone,) = audit(a_job(without(a_log(), "pull-stem"))).faults
    (stem_alone,) = audit(a_job(without(a_log(), "apply-unit"))).faults

    assert "A patch alone" in patch_alone.because
    assert "A stem alone" in stem_alone.because
    assert "wall chart" in patch_alone.source


def test_no_object_is_pulled_where_none_was_left_and_no_monitor_is_taught_where_none_is_fitted() -> None:
    log = without(
        a_log(inspect={"object": "gone"}, install={"pressure_monitor": "not fitted"}),
        "remove-object",
        "reset-pressure-monitor",
    )

    assert faults_of(a_job(log)) == []
    assert [name for _, name, _, _ in faults_of(a_job(without(a_log(), "remove-object")))] == ["remove-object"]


# One step moved: where it went, which step is named, and the order that the rule states.
# Sources as above; 29 CFR 1910.177(f)(2) for air out first, on large vehicles.
MOVED = [
    ("two-piece", "deflate", "inspect", "demount", "deflate before demount"),
    ("two-piece", "inspect", "remove-damage", "inspect", "inspect before remove-object"),
    ("two-piece", "inspect", "stitch", "inspect", "inspect before remove-object"),
    ("two-piece", "clean-liner", "probe", "remove-damage", "clean-liner before remove-damage"),
    ("two-piece", "measure-injury", "probe", "remove-damage", "measure-injury before remove-damage"),
    ("two-piece", "measure-prepared", "stitch", "measure-prepared", "measure-prepared before pull-stem"),
    ("two-piece", "pull-stem", "brush", "buff", "pull-stem before buff"),
    ("two-piece", "cement-area", "apply-unit", "dry", "cement-area before dry"),
    ("two-piece", "dry", "stitch", "apply-unit", "dry before apply-unit"),
    ("one-piece", "dry", "stitch", "pull-through", "dry before pull-through"),
    ("one-piece", "buff", "pull-through", "buff", "buff before brush"),
    ("one-piece", "remove-dust", "dry", "cement-area", "remove-dust before cement-area"),
    ("one-piece", "stitch", "seal", "remove-film", "stitch before remove-film"),
    ("one-piece", "inspect-repair", "seat-beads", "mount", "inspect-repair before mount"),
    ("one-piece", "inflate", "balance", "leak-test", "inflate before leak-test"),
    ("one-piece", "leak-test", "reset-pressure-monitor", "install", "leak-test before install"),
]


@pytest.mark.parametrize(("method", "name", "before", "named", "limit"), MOVED)
def test_one_step_out_of_order_is_the_one_fault(method: str, name: str, before: str, named: str, limit: str) -> None:
    log = moved(a_log(method), name, before=before)

    (fault,) = audit(a_job(log)).faults

    first, _, then = limit.partition(" before ")
    assert (fault.step, fault.name, fault.fault) == (line(log, named), named, "order")
    assert (fault.limit, fault.found) == (limit, f"{then} before {first}")


# Of several things wrong with one step's place the fault says the worst, not the nearest: what was done to the liner
# after the unit was set is as good as not done. Common practice, no published source; the size: association wall chart.
GRAVEST = [
    ("two-piece", "cement-area", "stitch", "cement-area before apply-unit", "unit-on-unprepared-liner"),
    ("two-piece", "buff", "seal", "buff before apply-unit", "unit-on-unprepared-liner"),
    ("one-piece", "remove-dust", "mount", "remove-dust before pull-through", "unit-on-unprepared-liner"),
    (
        "one-piece",
        "measure-prepared",
        "balance",
        "measure-prepared before pull-through",
        "unit-before-the-size-was-known",
    ),
    ("two-piece", "inflate", "reset-pressure-monitor", "inflate before install", "on-the-road-unfilled"),
    ("one-piece", "seat-beads", "reset-pressure-monitor", "seat-beads before install", "on-the-road-unfilled"),
    ("two-piece", "dry", "mount", "dry before apply-unit", "dry-before-patch"),
    ("two-piece", "inspect", "mount", "inspect before remove-object", "inspect-before-work"),
]


@pytest.mark.parametrize(("method", "name", "before", "limit", "clause"), GRAVEST)
def test_a_fault_of_order_names_the_gravest_reason(
    method: str, name: str, before: str, limit: str, clause: str
) -> None:
    faults = audit(a_job(moved(a_log(method), name, before=before))).faults

    (fault,) = [one for one in faults if one.name == name]
    assert (fault.fault, fault.limit, fault.clause) == ("order", limit, clause)


def test_a_wheel_that_is_filled_where_it_is_bolted_on_goes_on_before_it_is_filled_and_tested() -> None:
    # 29 CFR 1910.177(d)(2) and (g)(6): a wheel of one piece, bolted on the vehicle with the lug nuts fully tightened.
    def filled_last(restraint: str) -> list[dict[str, Any]]:
        cut, torque = {"passes": 5, "speed": "600 rpm"}, {"torque": "475 lbf.ft"}
        log = a_log(remove_damage=cut, seat_beads={"restraint": restraint}, install=torque)
        return moved(log, "install", before="seat-beads")

    order, caged = filled_last("bolted-on"), filled_last("cage")
    position = {"vehicle": "truck", "wheel": "single-piece"}

    assert faults_of(a_job(order, casing="truck", position=position)) == []
    assert {kind for *_, kind in faults_of(a_job(caged, casing="truck", position=position))} == {"order"}


# Sources allow either order of buffing and cementing the channel for a one-piece unit; nothing in the sources puts
# marking before or after looking, cleaning before or after measuring, the valve, the trimmed stem, or balancing.
FREE = [
    ("one-piece", "cement-channel", "outline"),
    ("one-piece", "cement-channel", "buff"),
    ("one-piece", "cement-channel", "brush"),
    ("one-piece", "cement-channel", "remove-dust"),
    ("one-piece", "cement-channel", "dry"),
    ("two-piece", "outline", "cement-channel"),
    ("two-piece", "mark", "inspect"),
    ("two-piece", "clean-liner", "measure-injury"),
    ("two-piece", "check-valve", "inspect"),
    ("two-piece", "trim-stem", "buff"),
    ("one-piece", "trim-stem", "leak-test"),
    ("one-piece", "balance", "leak-test"),
]


@pytest.mark.parametrize(("method", "name", "before"), FREE)
def test_no_fault_of_order_where_either_is_allowed(method: str, name: str, before: str) -> None:
    assert faults_of(a_job(moved(a_log(method), name, before=before))) == []


# A step done again after a later one, and what must then be done again. Common practice, no published source; seating
# again: association guidance.
AGAIN = [
    ("two-piece", "remove-damage", "measure-prepared", ["probe", "measure-prepared"]),
    ("two-piece", "buff", "dry", ["brush", "remove-dust", "cement-area", "dry"]),
    ("one-piece", "buff", "brush", ["brush"]),
    ("two-piece", "brush", "dry", ["remove-dust"]),
    ("one-piece", "cement-area", "dry", ["dry"]),
    ("two-piece", "seat-beads", "leak-test", ["inflate"]),
]


@pytest.mark.parametrize(("method", "name", "after", "follow"), AGAIN)
def test_what_was_done_again_must_be_followed_again(method: str, name: str, after: str, follow: list[str]) -> None:
    log = a_log(method)
    at = line(log, after)
    steps = {step["step"]: step for step in log}

    undone = faults_of(a_job([*log[:at], steps[name], *log[at:]]))
    done = faults_of(a_job([*log[:at], steps[name], *(steps[other] for other in follow), *log[at:]]))

    assert {(number, named, kind) for number, named, _, kind in undone} == {(at + 1, name, "order")}
    assert done == []


# What may be done again for no reason does no harm.
@pytest.mark.parametrize(
    ("name", "after"),
    [("inspect", "dry"), ("probe", "measure-prepared"), ("stitch", "remove-film"), ("leak-test", "install"),
     ("balance", "install"), ("mark", "buff"), ("inspect-repair", "leak-test")],
)  # fmt: skip
def test_doing_a_harmless_step_again_is_no_fault(name: str, after: str) -> None:
    log = a_log()
    at = line(log, after)
    step = log[line(log, name) - 1]

    assert faults_of(a_job([*log[:at], step, *log[at:]])) == []


def test_a_split_that_was_cut_again_and_probed_clean_is_no_fault() -> None:
    log = a_log(probe={"result": "split"})
    at = line(log, "probe")
    again: list[dict[str, Any]] = [
        {"step": "remove-damage", "speed": "900 rpm", "passes": 1, "from": "inside"},
        {"step": "probe", "result": "clean"},
    ]

    assert faults_of(a_job([*log[:at], *again, *log[at:]])) == []
    assert [kind for *_, kind in faults_of(a_job([*log[:at], again[0], *log[at:]]))] != []


def test_passes_logged_side_by_side_are_counted_for_each_side() -> None:
    log = a_log()
    at = line(log, "remove-damage")
    outside = {**log[at - 1], "from": "outside"}

    assert faults_of(a_job([*log[:at], outside, *log[at:]])) == []
    (few,) = audit(a_job([*log[:at], {**outside, "passes": 2}, *log[at:]])).faults
    assert (few.step, few.clause) == (at + 1, "cutter-passes")
    (wrong_side_first,) = audit(a_job([*log[: at - 1], outside, *log[at - 1 :]])).faults
    assert (wrong_side_first.step, wrong_side_first.clause) == (at, "cutter-start")


def test_cleanings_and_waits_on_lines_of_their_own_add_up() -> None:
    log = a_log(clean_liner={"times": 1}, dry={"time": "2 min"})
    clean, dry = line(log, "clean-liner"), line(log, "dry")
    added = [*log[:clean], log[clean - 1], log[clean - 1], *log[clean:dry], log[dry - 1], *log[dry:]]

    assert faults_of(a_job(added)) == []
    assert [clause for _, _, clause, _ in faults_of(a_job(log))] == ["liner-cleaning", "drying-time"]


# Common practice, no published source: a unit or stem that was lifted has lost its clean cushion gum.
@pytest.mark.parametrize(
    ("method", "name", "clause"),
    [("two-piece", "apply-unit", "patch-set-once"), ("two-piece", "pull-stem", "stem-pulled-once"),
     ("one-piece", "pull-through", "unit-pulled-once")],
)  # fmt: skip
def test_a_unit_that_was_lifted_and_set_again_is_found(method: str, name: str, clause: str) -> None:
    log = a_log(method)
    at = line(log, name)

    found = faults_of(a_job([*log[:at], log[at - 1], *log[at:]]))

    assert found == [(at + 1, name, clause, "order")]


def test_a_new_patch_on_newly_buffed_rubber_is_no_fault() -> None:
    log = a_log()
    at = line(log, "stitch")
    names = ["buff", "brush", "remove-dust", "cement-area", "dry", "apply-unit", "stitch"]

    assert faults_of(a_job([*log[:at], *(log[line(log, name) - 1] for name in names), *log[at:]])) == []


def test_beads_that_did_not_seat_may_be_tried_again_after_letting_the_air_out() -> None:
    # Source: association guidance: if not seated deflate, relubricate, try again.
    log = a_log()
    at = line(log, "seat-beads")
    again = [*log[:at], {"step": "deflate"}, log[at - 1], *log[at:]]

    assert faults_of(a_job(again)) == []


def test_swapping_two_steps_whose_order_matters_is_found_once() -> None:
    (fault,) = audit(a_job(swapped(a_log(), "dry", "apply-unit"))).faults

    assert (fault.clause, fault.fault) == ("dry-before-patch", "order")
