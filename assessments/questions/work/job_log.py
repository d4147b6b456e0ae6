"""The log of a repair as it hangs on the job ticket: right from the first line to the last, or spoiled in one place.

Whether a log is right is for the rulebook's audit to say; here it is only written and told.
"""

from __future__ import annotations

import tomllib
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache
from importlib import resources
from typing import Any

from assessments.questions.cases.casebook import hole, length, looked_at
from assessments.questions.cases.crown import passing_hole
from assessments.questions.drafts.draft import Choice, Draft, NoSuchLimit
from assessments.questions.items.claims import Done, Faulty
from assessments.questions.work.facts import permits
from training.rulebook import STEP_PARAMETERS, Case, Model, Step
from training.trade.speech import say, saying

Entry = dict[str, Any]


@dataclass(frozen=True, slots=True)
class Spoil:
    """One way to spoil a log, in the `part` that asks for it: in the line `step` these words instead of the right ones,
    or the line just ahead of a line that belongs before it, or the line left out.

    `reason` is what is then wrong, `wrong` the misconception that sees nothing wrong; `contrary`: it takes what is
    right for wrong, and gives this reason; `unsafe`: the tire goes out though the rulebook takes it out of service.
    `alike`: a name for reasons of which each says some of the same, so that no two of them are offered together;
    `casings` are those it is asked about, all where it names none.
    """

    part: str
    step: str
    reason: str
    wrong: str
    words: Mapping[str, Sequence[Any]] | None = None
    ahead_of: str = ""
    alike: str = ""
    contrary: bool = False
    unsafe: bool = False
    casings: Sequence[str] = ()

    @property
    def is_missing(self) -> bool:
        """Is the line left out?"""
        return self.words is None and not self.ahead_of

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
    return tuple(Spoil(**entry) for entry in entries)


_RECOMMENDED = {"light-truck-steel": "450 kPa", "truck": "720 kPa"}
_WARM = {"in": ("65 F", "68 F", "72 F", "75 F"), "mm": ("18 C", "20 C", "22 C", "24 C")}


def _sound(draft: Draft, casing: str) -> dict[str, Entry]:
    """What each line of a right log says, within the limits in force; the audit is asked whether it is right."""
    rng = draft.rng
    large = {"restraint": say("restraining device"), "chuck": "clip-on"} if casing == "truck" else {}

    def any_of(quantity: str, values: Sequence[str]) -> str:
        """One of the usual values that keep to the clause, or what the clause itself states."""
        clause = draft.edition.limit(quantity, casing)
        kept = [value for value in values if clause is None or permits(clause, value)]
        return rng.choice(kept) if kept or clause is None else draft.stated(clause).text

    def times(quantity: str, values: Sequence[int], unit: str = "times") -> int:
        return int(any_of(quantity, [f"{value} {unit}" for value in values]).split()[0])

    return {
        "deflate": {"valve_core": "out"},
        "inspect": {"sides": say("outside and inside")},
        "measure-injury": {"size": "4 mm", "angle": f"{rng.randint(1, 12)} deg"},
        "clean-liner": {"times": times("job.liner_cleaning", (3, 4)), "scraped": "moist"},
        "remove-damage": {
            "tool": say("carbide cutter"),
            "speed": any_of("job.cutter_speed", ("500 rpm", "700 rpm", "800 rpm", "900 rpm", "1000 rpm", "1100 rpm")),
            "direction": "clockwise",
            "from": "inside",
            "passes": times("job.passes_each_way", (3, 4), "passes"),
        },
        "probe": {"result": "clean"},
        "measure-prepared": {"size": passing_hole(draft, casing)},
        "cement-channel": {
            "tool": say("spiral tool"),
            "direction": "clockwise",
            "times": times("job.channel_turns", (3, 4, 5)),
        },
        "pull-stem": {"stands": any_of("job.stem_stands", ("1/8 in",)), "fluid_on": say("tapered lead-in")},
        "outline": {"margin": any_of("job.outline_margin", ("1/2 in",))},
        "buff": {
            "speed": any_of("job.buffer_speed", ("3000 rpm", "3500 rpm", "4000 rpm", "4500 rpm")),
            "texture": any_of("job.buff_texture", ("No. 1", "No. 2")),
        },
        "brush": {"tool": say("soft wire brush"), "times": times("job.brush_times", (2, 3))},
        "remove-dust": {"tool": "vacuum"},
        "cement-area": {"coat": say("thin and even")},
        "dry": {
            "time": any_of("job.drying", ("4 min", "5 min", "6 min")),
            "temperature": rng.choice(_WARM[draft.prefer]),
            "humidity": rng.choice(("40 %", "50 %", "55 %")),
            "heat": say("no heat"),
            "state": say("completely dry"),
        },
        "apply-unit": {"arrows": say("to the beads"), "beads": "relaxed"},
        "pull-through": {"arrows": say("to the beads"), "beads": "relaxed", "fluid_on": say("tapered lead-in")},
        "stitch": {"direction": say("from the center outward")},
        "inspect-repair": {"result": "sound"},
        "seat-beads": {
            "pressure": any_of("job.seating_pressure", ("28 psi", "30 psi", "34 psi", "36 psi")),
            "standing": "clear",
            **large,
        },
        "inflate": {"pressure": recommended(casing)},
        "leak-test": {"result": say("no leak")},
        "install": {
            "tool": say("torque wrench"),
            "pattern": "star",
            "threads": say("clean and dry"),
            "recheck": any_of("job.torque_recheck", ("60 mi", "70 mi", "80 mi", "90 mi")),
        },
    }


def recommended(casing: str) -> str:
    """A usual cold pressure."""
    return _RECOMMENDED.get(casing, "230 kPa")


def write_log(
    draft: Draft, method: str, spoil: Spoil | None, case: Case | None = None, model: Model | None = None
) -> tuple[dict[str, object], list[Entry]]:
    """A job for the audit, and its lines; with one of them spoiled or left out; `case` is the tire if it
    is given, `model` its size. Raises NoSuchLimit without an order."""
    rng, edition = draft.rng, draft.edition
    order = edition.orders.get(method)
    if edition.work is None or order is None:
        raise NoSuchLimit(
            say(
                "edition {name} {version} has no order of a {method} repair",
                name=edition.name,
                version=edition.version,
                method=method,
            )
        )
    model = model or draft.pick_model()
    said = _sound(draft, model.casing if case is None else case.tire.casing)
    prepared, found = said["measure-prepared"]["size"], said["measure-injury"]["size"]
    if length(str(prepared)).value < length(str(found)).value:  # a shop's limit may lie below the usual nail
        said["measure-injury"]["size"] = prepared
    if method == "two-piece":
        said["buff"]["first"] = "stem"
    if spoil is not None and spoil.words is not None:
        said[spoil.step] |= {key: rng.choice(values) for key, values in spoil.words.items()}
    names = list(order)
    if spoil is not None and spoil.words is None:
        names.remove(spoil.step)
        if spoil.ahead_of:
            names.insert(names.index(spoil.ahead_of), spoil.step)
    lines: list[Entry] = [{"step": name, **said.get(name, {})} for name in names]
    if case is not None:
        return {"case": case.to_json(), "steps": lines}, lines
    injury = hole(diameter=said["measure-prepared"]["size"], lateral_mm=rng.randint(0, 15))
    data = looked_at(model, edition, injuries=[injury], pressure={"recommended": recommended(model.casing)})
    return {"case": data, "steps": lines}, lines


_TOLD: Mapping[str, Sequence[str]] = {
    "clean-liner": (saying("{times} times"), saying("scraped {scraped}")),
    "remove-damage": (
        "{tool}",
        "{speed}",
        "{direction}",
        saying("from {from} first"),
        saying("{passes} passes each way"),
    ),
    "probe": ("{result}",),
    "measure-prepared": ("{size}",),
    "cement-channel": ("{tool}", "{direction}", saying("{times} times")),
    "pull-stem": (saying("fluid on the {fluid_on}"), saying("stands {stands}")),
    "outline": (saying("{margin} beyond the unit"),),
    "buff": ("{speed}", saying("texture {texture}")),
    "brush": ("{tool}", saying("{times} times")),
    "remove-dust": ("{tool}",),
    "cement-area": (saying("one {coat} coat"),),
    "dry": ("{time}", "{temperature}", saying("{humidity} humidity"), "{heat}", "{state}"),
    "apply-unit": (saying("arrows {arrows}"), saying("beads {beads}")),
    "pull-through": (saying("arrows {arrows}"), saying("beads {beads}"), saying("fluid on the {fluid_on}")),
    "stitch": ("{direction}",),
    "inspect-repair": ("{result}",),
    "seat-beads": ("{pressure}", saying("standing {standing}")),
    "inflate": ("{pressure}",),
    "leak-test": ("{result}",),
    "install": (
        "{tool}",
        saying("{pattern} pattern"),
        saying("threads {threads}"),
        saying("torque checked again after {recheck}"),
    ),
}
_SAID = {
    "1 times": "once",
    "2 times": "twice",
    "1 passes": "1 pass",
    "compressed-air": saying("compressed air"),
    "around the circle pattern": saying("around the circle"),
    "in a none": saying("with no restraining device"),
}


def tell(entry: Entry, step: Step, method: str) -> Choice:
    """One line of a log as a technician would write it, "Probe the channel: clean", and what it states."""
    large = (say("in a {restraint}"), say("{chuck} chuck")) if "restraint" in entry else ()
    parts = ", ".join((*_TOLD.get(step.id, ()), *large)).format(**entry)
    for plain, written in _SAID.items():
        parts = parts.replace(plain, written)
    said = {name: value for name, value in entry.items() if name != "step"}
    claim = Done(step.id, method, said=said or None)
    return Choice(f"{step.title}: {parts}" if parts else step.title, claim=claim)
