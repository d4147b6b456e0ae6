"""What a log may say: the parameters of each step, the quantity each one states, and other spellings of words."""

from __future__ import annotations

import re
from functools import lru_cache
from typing import TYPE_CHECKING

from training.rulebook.measures import MEASURES
from training.rulebook.quantities import accepted_form
from training.trade.composed import as_written
from training.trade.speech import say

if TYPE_CHECKING:
    from training.rulebook.edition import Edition

STEP_PARAMETERS: dict[str, dict[str, str]] = {
    "deflate": {"valve_core": "job.valve_core", "soaped": "job.soaped"},
    "inspect": {"sides": "job.inspected", "object": "job.object"},
    "measure-injury": {"size": "job.size_found", "angle": "job.angle_found"},
    "clean-liner": {"times": "job.liner_cleaning", "scraped": "job.scraped"},
    "remove-damage": {
        "tool": "job.cutter_tool",
        "speed": "job.cutter_speed",
        "direction": "job.cutter_direction",
        "from": "job.cutter_start",
        "passes": "job.passes_each_way",
    },
    "probe": {"result": "job.channel"},
    "measure-prepared": {"size": "job.size_prepared"},
    "cement-channel": {
        "tool": "job.cement_tool",
        "direction": "job.cement_direction",
        "times": "job.channel_turns",
    },
    "pull-stem": {"stands": "job.stem_stands", "fluid_on": "job.stem_fluid"},
    "outline": {"margin": "job.outline_margin"},
    "buff": {"speed": "job.buffer_speed", "texture": "job.buff_texture", "first": "job.buff_first"},
    "brush": {"tool": "job.brush_tool", "speed": "job.buffer_speed", "times": "job.brush_times"},
    "remove-dust": {"tool": "job.dust_removal"},
    "cement-area": {"coat": "job.coat", "date": "job.materials_date", "makers": "job.materials_makers"},
    "dry": {
        "time": "job.drying",
        "temperature": "job.temperature",
        "humidity": "job.humidity",
        "heat": "job.drying_heat",
        "state": "job.dry_state",
    },
    "apply-unit": {"arrows": "job.arrows", "beads": "job.beads"},
    "pull-through": {"arrows": "job.arrows", "beads": "job.beads", "fluid_on": "job.stem_fluid"},
    "stitch": {"direction": "job.stitching"},
    "seal": {"covers": "job.sealed"},
    "trim-stem": {"cut": "job.stem_cut"},
    "inspect-repair": {"result": "job.repair_state"},
    "check-valve": {"valve": "job.valve", "sensor": "job.sensor"},
    "mount": {"wheel": "job.wheel", "bead_seats": "job.bead_seats", "sizes": "job.size_match"},
    "seat-beads": {
        "pressure": "job.seating_pressure",
        "standing": "job.standing",
        "restraint": "job.restraint",
        "capacity": "job.restraint_capacity",
        "gauge": "job.gauge",
        "hose": "job.hose",
        "chuck": "job.chuck",
    },
    "inflate": {"pressure": "job.pressure_set", "sidewall_max": "job.sidewall_max"},
    "leak-test": {"result": "job.leak"},
    "install": {
        "tool": "job.torque_tool",
        "pattern": "job.torque_pattern",
        "torque": "job.torque",
        "torque_from": "job.torque_from",
        "torque_specified": "job.torque_specified",
        "stud": "job.stud",
        "threads": "job.torque_threads",
        "recheck": "job.torque_recheck",
        "pressure_monitor": "job.pressure_monitor",
    },
}
TOOL, INJURY, NOTE = "tool", "injury", "note"

# A repeated step: what only its first entry says, what only its last one says, and what adds up over the whole log.
FIRST_COUNTS = frozenset({"job.cutter_start", "job.buff_first"})
LAST_COUNTS = frozenset({"job.channel", "job.repair_state", "job.leak", "job.dry_state", "job.size_prepared"})
ALL_COUNT = frozenset({"job.liner_cleaning", "job.passes_each_way"})

_BOLTED_ON = "bolted on the vehicle, all lug nuts tight"
_ALSO: dict[str, dict[str, str]] = {
    "job.inspected": {
        "both": "outside and inside",
        "outside": "outside only",
        "inside": "inside only",
    },
    "job.cutter_tool": {"cutter": "carbide cutter", "drill bit": "twist drill"},
    "job.cutter_direction": {"anticlockwise": "counterclockwise", "counter clockwise": "counterclockwise"},
    "job.cement_direction": {"anticlockwise": "counterclockwise", "counter clockwise": "counterclockwise"},
    "job.cement_tool": {"spiral": "spiral tool", "spiral cement tool": "spiral tool"},
    "job.stem_fluid": {"lead in": "tapered lead-in", "lead in only": "tapered lead-in"},
    "job.buff_texture": {f"{mark}{grade}": f"No. {grade}" for grade in range(1, 7) for mark in ("", "no", "number ")},
    "job.brush_tool": {"soft brush": "soft wire brush", "hard brush": "hard wire brush"},
    "job.dust_removal": {
        "vacuum cleaner": "vacuum",
        "air": "compressed-air",
        "air line": "compressed-air",
        "air gun": "compressed-air",
        "air hose": "compressed-air",
    },
    "job.coat": {"thin": "thin and even"},
    "job.drying_heat": {
        "none": "no heat",
        "forced": "forced heat",
        "heat gun": "forced heat",
        "heat lamp": "forced heat",
        "hair dryer": "forced heat",
    },
    "job.dry_state": {"dry": "completely dry"},
    "job.arrows": {
        "beads": "to the beads",
        "to beads": "to the beads",
        "toward the beads": "to the beads",
        "bead to bead": "to the beads",
        "around": "around the tire",
        "along the tread": "around the tire",
    },
    "job.stitching": {
        "outward": "from the center outward",
        "center outward": "from the center outward",
        "from the center": "from the center outward",
        "from center outward": "from the center outward",
        "inward": "from the edge inward",
        "edge inward": "from the edge inward",
        "from edge inward": "from the edge inward",
        "from the edge": "from the edge inward",
    },
    "job.restraint": {
        "cage": "restraining device",
        "safety cage": "restraining device",
        "in a cage": "restraining device",
        "behind a barrier": "barrier",
        "bolted on": _BOLTED_ON,
        "bolted on the vehicle": _BOLTED_ON,
        "bolted to the vehicle": _BOLTED_ON,
        "bolted on, nuts loose": "bolted on the vehicle, lug nuts not all tight",
    },
    "job.standing": {
        "outside the trajectory": "clear",
        "aside": "clear",
        "in the trajectory": "over the wheel",
    },
    "job.leak": {"none": "no leak", "leaks": "leak"},
    "job.torque_pattern": {"star pattern": "star", "crosswise": "star", "around": "around the circle"},
    "job.torque_threads": {"clean dry": "clean and dry", "oil": "oiled"},
    "job.stud": {"m22": "M22 hub-piloted", "m20": "M20 hub-piloted", "ball seat": "stud-piloted"},
}


@lru_cache(maxsize=2048)
def plain(text: str) -> str:
    """A word without capitals, hyphens and points, to compare spellings.

    >>> plain("Carbide-Cutter")
    'carbide cutter'
    """
    return re.sub(r"[\s_.-]+", " ", as_written(text).strip().lower()).strip()


def _spellings(name: str) -> dict[str, str]:
    words = {plain(word): word for word in MEASURES[name].words}
    return words | {plain(other): word for other, word in _ALSO.get(name, {}).items()}


_SPELLINGS = {name: _spellings(name) for parameters in STEP_PARAMETERS.values() for name in parameters.values()}


def word_for(name: str, text: str) -> str | None:
    """The accepted word of a quantity that a text spells, or None.

    >>> word_for("job.cutter_tool", "carbide-cutter")
    'carbide cutter'
    """
    return _SPELLINGS[name].get(plain(text))


def tools_of(edition: Edition) -> tuple[str, ...]:
    """Every tool a step may name where no clause asks for a certain one."""
    asked = {name for parameters in STEP_PARAMETERS.values() for key, name in parameters.items() if key == TOOL}
    named = [tool for step in edition.procedure for tool in step.tools]
    named += [word for name in sorted(asked) for word in MEASURES[name].words]
    return tuple(dict.fromkeys(map(as_written, named)))


def job_vocabulary(edition: Edition) -> tuple[tuple[str, str, str], ...]:
    """What a log may say under an edition, as (field, word or form, meaning)."""
    rows = [("steps[].step", step.id, step.title) for step in edition.procedure]
    for step in edition.procedure:
        for key, name in STEP_PARAMETERS.get(step.id, {}).items():
            measure = MEASURES[name]
            field = f"{step.id}.{key}"
            if measure.dimension == "count":
                rows.append((field, say('give a whole number, for example 3, or "3 times"'), measure.meaning))
            elif measure.dimension:
                rows.append((field, accepted_form(measure.dimension), measure.meaning))
            else:
                rows += [(field, word, measure.meaning) for word in measure.words]
    rows += [
        (say("tool, at any step"), tool, say("A tool, where no clause asks for a certain one."))
        for tool in tools_of(edition)
    ]
    rows.append(
        (
            say("injury, at any step"),
            say("the id of an injury"),
            say("Which injury of the case the step was for; for all of them where none is named."),
        )
    )
    rows.append((say("note, at any step"), say("a short text"), say("What else the technician wrote; not judged.")))
    return tuple(rows)
