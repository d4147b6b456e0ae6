"""Logs of repairs for the tests of the audit: sound ones written out by hand, and ways to spoil them."""

from collections.abc import Mapping
from typing import Any

import pytest

from tests.rulebook.cases import an_examined_case
from training.rulebook import audit

# The agreed order of the work, with every parameter inside its limit.
# Sources of the figures: trade press (cutter at most 1,200 rpm, clockwise, from inside first), recommended practice of
# the retread and repair materials group, 2017 (buffer at most 5,000 rpm, texture No. 1 or No. 2), association guidance
# and 8 CCR 3325(e) (beads at most 40 psi), published question and answer (clean three times); the rest is common
# practice with no published source.
_START: list[dict[str, Any]] = [
    {"step": "deflate", "valve_core": "out", "soaped": "valve, beads and tread"},
    {"step": "demount"},
    {"step": "inspect", "sides": "outside and inside"},
    {"step": "mark"},
    {"step": "remove-object"},
    {"step": "measure-injury", "angle": "10 deg", "size": "4 mm"},
    {"step": "clean-liner", "times": 3, "scraped": "moist"},
    {
        "step": "remove-damage",
        "tool": "carbide-cutter",
        "speed": "1000 rpm",
        "direction": "clockwise",
        "from": "inside",
        "passes": 3,
    },
    {"step": "probe", "result": "clean"},
    {"step": "measure-prepared", "size": "5 mm"},
]
_CHANNEL: dict[str, Any] = {"step": "cement-channel", "tool": "spiral-tool", "direction": "clockwise", "times": 4}
_PULL_STEM: dict[str, Any] = {"step": "pull-stem", "stands": "1/8 in", "fluid_on": "tapered lead-in"}
_OUTLINE: dict[str, Any] = {"step": "outline", "margin": "1/2 in"}
_CLEAN_UP: list[dict[str, Any]] = [
    {"step": "brush", "tool": "soft-wire-brush", "times": 2},
    {"step": "remove-dust", "tool": "vacuum"},
]
_CEMENT: list[dict[str, Any]] = [
    {"step": "cement-area", "coat": "thin and even", "date": "in date", "makers": "one maker"},
    {
        "step": "dry",
        "time": "4 min",
        "temperature": "21 C",
        "humidity": "50 %",
        "heat": "no heat",
        "state": "completely dry",
    },
]
_FILLED = {"step": "inflate", "pressure": "230 kPa"}
_END: list[dict[str, Any]] = [
    {"step": "stitch", "direction": "from the center outward"},
    {"step": "remove-film"},
    {"step": "seal", "covers": "edge and all buffed rubber"},
    {"step": "trim-stem", "cut": "level with the tread"},
    {"step": "inspect-repair", "result": "sound"},
    {"step": "check-valve", "valve": "new valve", "sensor": "sound"},
    {"step": "mount", "wheel": "sound", "bead_seats": "clean", "sizes": "matching"},
    {"step": "seat-beads", "pressure": "38 psi", "standing": "clear"},
    _FILLED,
    {"step": "leak-test", "result": "no leak"},
    {"step": "balance"},
    {
        "step": "install",
        "tool": "torque wrench",
        "pattern": "star",
        "torque": "120 N.m",
        "torque_from": "vehicle maker",
        "threads": "clean and dry",
        "recheck": "50 mi",
    },
    {"step": "reset-pressure-monitor"},
]
_LOGS: dict[str, list[dict[str, Any]]] = {
    "two-piece": [
        *_START, _CHANNEL, _PULL_STEM, _OUTLINE,
        {"step": "buff", "speed": "4500 rpm", "texture": "No. 2", "first": "stem"},
        *_CLEAN_UP, *_CEMENT,
        {"step": "apply-unit", "arrows": "to the beads", "beads": "relaxed"},
        *_END,
    ],
    "one-piece": [
        *_START, _OUTLINE, {"step": "buff", "speed": "4500 rpm", "texture": "No. 2"}, *_CLEAN_UP, _CHANNEL, *_CEMENT,
        {"step": "pull-through", "arrows": "to the beads", "beads": "relaxed", "fluid_on": "tapered lead-in"},
        *_END,
    ],
}  # fmt: skip
PUNCTURE_METHODS = tuple(_LOGS)
_TO_FILL = ("deflate", "demount", "inspect", "mark", "remove-object", "probe")
_LOGS["surface-fill"] = [
    *(step for step in _START if step["step"] in _TO_FILL),
    {"step": "fill-surface"},
    *_END[4:],  # from looking at the repair on
]
SOUND = {"sound": True, "unstated": [], "faults": []}


def a_log(method: str = "two-piece", **changed: Mapping[str, Any]) -> list[dict[str, Any]]:
    """A sound log; `remove_damage={"speed": "1500 rpm"}` states something else in one of its steps."""
    wanted = {name.replace("_", "-"): changes for name, changes in changed.items()}
    return [{**step, **wanted.get(step["step"], {})} for step in _LOGS[method]]


def a_job(log: list[dict[str, Any]], *, injury: Mapping[str, Any] | None = None, **case: Any) -> dict[str, Any]:
    """A log with its tire: examined, one straight puncture on the centerline, filled to the pressure of its casing."""
    examined = an_examined_case(injury={"angle": "10 deg", **(injury or {})}, **case)
    if "pressure" not in case:
        asked = examined["pressure"]["recommended"]
        log = [{**step, "pressure": asked} if step.items() >= _FILLED.items() else step for step in log]
    return {"edition": "north-america", "case": examined, "steps": log}


def without(log: list[dict[str, Any]], *names: str) -> list[dict[str, Any]]:
    """A log that leaves steps out."""
    return [step for step in log if step["step"] not in names]


def moved(log: list[dict[str, Any]], name: str, *, before: str) -> list[dict[str, Any]]:
    """A log with one step done earlier or later: just before another one."""
    (step,) = (one for one in log if one["step"] == name)
    rest = without(log, name)
    place = [one["step"] for one in rest].index(before)
    return [*rest[:place], step, *rest[place:]]


def swapped(log: list[dict[str, Any]], first: str, then: str) -> list[dict[str, Any]]:
    """A log in which two steps have changed places."""
    names = [step["step"] for step in log]
    a, b = names.index(first), names.index(then)
    changed = list(log)
    changed[a], changed[b] = log[b], log[a]
    return changed


each_method = pytest.mark.parametrize("method", PUNCTURE_METHODS)


def faults_of(job: dict[str, Any]) -> list[tuple[int | None, str, str, str]]:
    return [(fault.step, fault.name, fault.clause, fault.fault) for fault in audit(job).faults]


def line(log: list[dict[str, Any]], name: str) -> int:
    return [step["step"] for step in log].index(name) + 1
