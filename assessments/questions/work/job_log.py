"""The log of a repair as it hangs on the job ticket: right from the first line to the last, or spoiled in one place.

Whether a log is right is for the rulebook's audit to say; here it is only written and told.
"""

from __future__ import annotations

import tomllib
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache
from importlib import resources
from typing import Any

from assessments.questions.cases.casebook import hole, length, looked_at
from assessments.questions.cases.crown import passing_hole, usual_hole
from assessments.questions.cases.phrases import how_often
from assessments.questions.drafts.choice import Choice
from assessments.questions.drafts.draft import Draft
from assessments.questions.drafts.rules import NoSuchLimit
from assessments.questions.items.claims import Done, Faulty
from assessments.questions.work.facts import permits
from training.rulebook import STEP_PARAMETERS, Case, Model, Step, show
from training.trade.speech import say, say_many, saying

Entry = dict[str, Any]


@dataclass(frozen=True, slots=True)
class Spoil:
    """One way to spoil a log, in the `part` that asks for it: in the line `step` these words instead of the right ones,
    or the line just ahead of a line that belongs before it, or the line left out.

    `metric`: the words where millimeters are told. `reason` is what is then wrong, `wrong` the misconception that sees
    nothing wrong; `contrary`: it takes what is right for wrong, and gives this reason; `unsafe`: the tire goes out
    though the rulebook takes it out of service.
    `alike`: a name for reasons of which each says some of the same, so that no two of them are offered together;
    `casings` are those it is asked about, all where it names none.
    """

    part: str
    step: str
    reason: str
    wrong: str
    words: Mapping[str, Sequence[Any]] | None = None
    metric: Mapping[str, Sequence[Any]] | None = None
    ahead_of: str = ""
    alike: str = ""
    contrary: bool = False
    unsafe: bool = False
    casings: Sequence[str] = ()

    @property
    def is_missing(self) -> bool:
        """Is the line left out?"""
        return self.words is None and not self.ahead_of

    def said_in(self, unit: str) -> Mapping[str, Sequence[Any]]:
        """What the spoiled line says where lengths are told in this unit."""
        return (self.metric if unit == "mm" else None) or self.words or {}

    def says_some_of(self, other: Spoil) -> bool:
        """Is what is then wrong some of the same?"""
        return self.reason == other.reason or (bool(self.alike) and self.alike == other.alike)

    @property
    def fault(self) -> Choice:
        """What is then wrong, in words and as a claim."""
        if self.words is None:
            return Choice(self.reason, claim=Faulty("missing" if self.is_missing else "order", self.step))
        (said,) = self.words
        return Choice(self.reason, claim=Faulty(quantity=STEP_PARAMETERS[self.step][said]))


# The parts of a log that are asked about: from which line to which.
PARTS: Mapping[str, tuple[str, str]] = {
    "preparation": ("clean-liner", "remove-dust"),
    "installation": ("remove-dust", "inspect-repair"),
    "return": ("inspect-repair", "reset-pressure-monitor"),
}


@lru_cache(maxsize=1)
def spoils() -> tuple[Spoil, ...]:
    """All ways of `spoils.toml`."""
    entries = tomllib.loads(resources.files(__package__).joinpath("spoils.toml").read_text("utf-8"))["spoil"]
    return tuple(Spoil(**{**entry, "reason": saying(entry["reason"])}) for entry in entries)


_RECOMMENDED = {
    "mm": {"light-truck-steel": "450 kPa", "truck": "720 kPa", "": "230 kPa"},
    "in": {"light-truck-steel": "65 psi", "truck": "105 psi", "": "34 psi"},
}
_SEATED = {"in": ("28 psi", "30 psi", "34 psi", "36 psi"), "mm": ("190 kPa", "210 kPa", "230 kPa", "250 kPa")}
_WARM = {"in": ("65 F", "68 F", "72 F", "75 F"), "mm": ("18 C", "20 C", "22 C", "24 C")}


def _sound(draft: Draft, casing: str) -> dict[str, Entry]:
    """What each line of a right log says, within the limits in force; the audit is asked whether it is right."""
    rng = draft.rng
    large = {"restraint": "restraining device", "chuck": "clip-on"} if casing == "truck" else {}

    def any_of(quantity: str, values: Sequence[str]) -> str:
        """One of the usual values that keep to the clause, or what the clause itself states."""
        clause = draft.edition.limit(quantity, casing)
        kept = [value for value in values if clause is None or permits(clause, value)]
        return rng.choice(kept) if kept or clause is None else draft.stated(clause).text

    def times(quantity: str, values: Sequence[int], unit: str = "times") -> int:
        return int(any_of(quantity, [f"{value} {unit}" for value in values]).split()[0])

    return {
        "deflate": {"valve_core": "out"},
        "inspect": {"sides": "outside and inside"},
        "measure-injury": {"size": usual_hole(draft, casing, "4 mm"), "angle": f"{rng.randint(1, 12)} deg"},
        "clean-liner": {"times": times("job.liner_cleaning", (3, 4)), "scraped": "moist"},
        "remove-damage": {
            "tool": "carbide cutter",
            "speed": any_of("job.cutter_speed", ("500 rpm", "700 rpm", "800 rpm", "900 rpm", "1000 rpm", "1100 rpm")),
            "direction": "clockwise",
            "from": "inside",
            "passes": times("job.passes_each_way", (3, 4), "passes"),
        },
        "probe": {"result": "clean"},
        "measure-prepared": {"size": passing_hole(draft, casing)},
        "cement-channel": {
            "tool": "spiral tool",
            "direction": "clockwise",
            "times": times("job.channel_turns", (3, 4, 5)),
        },
        "pull-stem": {"stands": any_of("job.stem_stands", ("1/8 in",)), "fluid_on": "tapered lead-in"},
        "outline": {"margin": any_of("job.outline_margin", ("1/2 in",))},
        "buff": {
            "speed": any_of("job.buffer_speed", ("3000 rpm", "3500 rpm", "4000 rpm", "4500 rpm")),
            "texture": any_of("job.buff_texture", ("No. 1", "No. 2")),
        },
        "brush": {"tool": "soft wire brush", "times": times("job.brush_times", (2, 3))},
        "remove-dust": {"tool": "vacuum"},
        "cement-area": {"coat": "thin and even"},
        "dry": {
            "time": any_of("job.drying", ("4 min", "5 min", "6 min")),
            "temperature": rng.choice(_WARM[draft.prefer]),
            "humidity": rng.choice(("40 %", "50 %", "55 %")),
            "heat": "no heat",
            "state": "completely dry",
        },
        "apply-unit": {"arrows": "to the beads", "beads": "relaxed"},
        "pull-through": {"arrows": "to the beads", "beads": "relaxed", "fluid_on": "tapered lead-in"},
        "stitch": {"direction": "from the center outward"},
        "inspect-repair": {"result": "sound"},
        "seat-beads": {
            "pressure": any_of("job.seating_pressure", _SEATED[draft.prefer]),
            "standing": "clear",
            **large,
        },
        "inflate": {"pressure": recommended(casing, draft.prefer)},
        "leak-test": {"result": "no leak"},
        "install": {
            "tool": "torque wrench",
            "pattern": "star",
            "threads": "clean and dry",
            "recheck": any_of("job.torque_recheck", ("60 mi", "70 mi", "80 mi", "90 mi")),
        },
    }


def recommended(casing: str, unit: str) -> str:
    """A usual cold pressure, as it is told beside this unit of length."""
    usual = _RECOMMENDED[unit]
    return usual.get(casing, usual[""])


def write_log(
    draft: Draft, method: str, spoil: Spoil | None, case: Case | None = None, model: Model | None = None
) -> tuple[dict[str, object], list[Entry]]:
    """A job for the audit, and its lines; with one of them spoiled or left out; `case` is the tire if it
    is given, `model` its size. Raises NoSuchLimit without an order."""
    rng, edition = draft.rng, draft.edition
    order = edition.orders.get(method)
    if edition.work is None or order is None:
        raise NoSuchLimit(f"edition {edition.name} {edition.version} has no order of a {method} repair")
    model = model or draft.pick_model()
    said = _sound(draft, model.casing if case is None else case.tire.casing)
    prepared, found = said["measure-prepared"]["size"], said["measure-injury"]["size"]
    if length(str(prepared)).value < length(str(found)).value:  # a shop's limit may lie below the usual nail
        said["measure-injury"]["size"] = prepared
    if method == "two-piece":
        said["buff"]["first"] = "stem"
    if spoil is not None and spoil.words is not None:
        said[spoil.step] |= {key: rng.choice(values) for key, values in spoil.said_in(draft.prefer).items()}
    names = list(order)
    if spoil is not None and spoil.words is None:
        names.remove(spoil.step)
        if spoil.ahead_of:
            names.insert(names.index(spoil.ahead_of), spoil.step)
    lines: list[Entry] = [{"step": name, **said.get(name, {})} for name in names]
    if case is not None:
        return {"case": case.to_json(), "steps": lines}, lines
    injury = hole(diameter=said["measure-prepared"]["size"], lateral=draft.told(draft.between(0, 15)))
    data = looked_at(
        model, edition, injuries=[injury], pressure={"recommended": recommended(model.casing, draft.prefer)}
    )
    return {"case": data, "steps": lines}, lines


_OTHER = {"in": " mm", "mm": " in"}
Tell = Callable[[Any], str]


def _as_it_is(value: object) -> str:
    return str(value)


def _in(words: Mapping[str, str]) -> Tell:
    """A word of the log in the words of a technician."""
    return lambda value: str(words[value])


def _passes(count: int) -> str:
    return say_many("{count} pass each way", "{count} passes each way", count)


_TURNS = _in({"clockwise": saying("clockwise"), "counterclockwise": saying("counterclockwise")})
_DUST = {"vacuum": saying("vacuum"), "compressed-air": saying("compressed air")}
_BRUSHES = {"soft wire brush": saying("soft wire brush"), "hard wire brush": saying("hard wire brush")}
_ARROWS = _in({"to the beads": saying("arrows to the beads"), "around the tire": saying("arrows around the tire")})
_BEADS = _in({"relaxed": saying("beads relaxed"), "spread": saying("beads spread")})
_FLUID_ON = _in(
    {
        "tapered lead-in": saying("fluid on the tapered lead-in"),
        "cushion gum": saying("fluid on the cushion gum"),
        "whole stem": saying("fluid on the whole stem"),
    }
)
_REPAIR = {"sound": saying("sound"), "edge lifted": saying("edge lifted"), "bubble": saying("bubble")}
_STITCHED = {
    "from the center outward": saying("from the center outward"),
    "from the edge inward": saying("from the edge inward"),
}
_DRIED = {"completely dry": saying("completely dry"), "tacky": saying("tacky")}
_PATTERNS = {"star": saying("star pattern"), "around the circle": saying("around the circle")}
_HELD = {
    "restraining device": saying("in a restraining device"),
    "none": saying("with no restraining device"),
}
_TEXTURES = {
    "No. 1": saying("texture No. 1"),
    "No. 2": saying("texture No. 2"),
    "No. 4": saying("texture No. 4"),
    "No. 5": saying("texture No. 5"),
}
# What a line says behind its step, each parameter as a note of its own.
_TOLD: Mapping[str, Mapping[str, Tell]] = {
    "clean-liner": {"times": how_often, "scraped": _in({"moist": saying("scraped moist")})},
    "remove-damage": {
        "tool": _in({"carbide cutter": saying("carbide cutter")}),
        "speed": _as_it_is,
        "direction": _TURNS,
        "from": _in({"inside": saying("from inside first"), "outside": saying("from outside first")}),
        "passes": _passes,
    },
    "probe": {
        "result": _in({"clean": saying("clean"), "split": saying("split"), "loose material": saying("loose material")})
    },
    "measure-prepared": {"size": _as_it_is},
    "cement-channel": {
        "tool": _in({"spiral tool": saying("spiral tool")}),
        "direction": _TURNS,
        "times": how_often,
    },
    "pull-stem": {"fluid_on": _FLUID_ON, "stands": lambda height: say("stands {height}", height=height)},
    "outline": {"margin": lambda margin: say("{margin} beyond the unit", margin=margin)},
    "buff": {"speed": _as_it_is, "texture": _in(_TEXTURES)},
    "brush": {"tool": _in(_BRUSHES), "times": how_often},
    "remove-dust": {"tool": _in(_DUST)},
    "cement-area": {
        "coat": _in({"thin and even": saying("one thin and even coat"), "thick": saying("one thick coat")})
    },
    "dry": {
        "time": _as_it_is,
        "temperature": _as_it_is,
        "humidity": lambda share: say("{share} humidity", share=share),
        "heat": _in({"no heat": saying("no heat"), "forced heat": saying("forced heat")}),
        "state": _in(_DRIED),
    },
    "apply-unit": {"arrows": _ARROWS, "beads": _BEADS},
    "pull-through": {"arrows": _ARROWS, "beads": _BEADS, "fluid_on": _FLUID_ON},
    "stitch": {"direction": _in(_STITCHED)},
    "inspect-repair": {"result": _in(_REPAIR)},
    "seat-beads": {
        "pressure": _as_it_is,
        "standing": _in({"clear": saying("standing clear"), "over the wheel": saying("standing over the wheel")}),
        "restraint": _in(_HELD),
        "chuck": _in({"clip-on": saying("clip-on chuck"), "hand-held": saying("hand-held chuck")}),
    },
    "inflate": {"pressure": _as_it_is},
    "leak-test": {"result": _in({"no leak": saying("no leak"), "leak": saying("leak")})},
    "install": {
        "tool": _in({"torque wrench": saying("torque wrench"), "impact wrench": saying("impact wrench")}),
        "pattern": _in(_PATTERNS),
        "threads": _in({"clean and dry": saying("threads clean and dry"), "oiled": saying("threads oiled")}),
        "recheck": lambda distance: say("torque checked again after {distance}", distance=distance),
    },
}


def _in_unit(value: Any, prefer: str) -> Any:
    """What a line says: a length that a rule states in the other system with the unit told first."""
    is_other = isinstance(value, str) and value.endswith(_OTHER[prefer])
    return show(length(value), prefer=prefer) if is_other else value


def tell(entry: Entry, step: Step, method: str, prefer: str) -> Choice:
    """One line of a log as a technician would write it, "Probe the channel: clean", and what it states."""
    notes = [told(_in_unit(entry[name], prefer)) for name, told in _TOLD.get(step.id, {}).items() if name in entry]
    said = {name: value for name, value in entry.items() if name != "step"}
    claim = Done(step.id, method, said=said or None)
    return Choice(f"{step.title}: {', '.join(notes)}" if notes else str(step.title), claim=claim)
