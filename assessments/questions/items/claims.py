"""What an option asserts and what a question asks, as data beside the sentence that says it.

Both are about the case of their item, or about that case with a patch laid over it. Whether a claim holds is for the
rulebook to say; here claims are only told apart, kept as JSON, and looked at for what they let go.
"""

from __future__ import annotations

from collections.abc import Hashable, Iterator, Mapping
from dataclasses import dataclass, fields
from fractions import Fraction
from functools import lru_cache
from typing import Any

from training.rulebook import MEASURES, UNITS, Clause, parse_quantity

Patch = Mapping[str, Any]
Sizes = tuple[tuple[str, str], ...]  # of repair units: length toward the beads, width

_RELEASES = frozenset(("accept", "advise", "repair"))  # the tire goes on running, now or after the work
_UPPER = ("at_most", "below")
# What a decision may rest on, by the quantities that speak of it; one that ends in a dot stands for all that begin so.
SUBJECTS: Mapping[str, tuple[str, ...]] = {
    "size": ("injury.diameter",),
    "place": (
        "injury.crown_margin",
        "injury.exit_margin",
        "injury.shoulder_distance",
        "injury.exit_shoulder_distance",
        "injury.zone",
    ),
    "lean": ("injury.angle",),
    "tread": ("tread.least_depth", "tread.adjacent_depth"),
    "room": ("repairs.gap",),
    "repair-kind": ("repair.kind",),
    "repair-sound": ("repair.sound",),
    "repair-place": ("repair.zone", "repair.crown_margin", "repair.shoulder_distance"),
    "repair": ("repair.",),
    "rubber": ("finding.",),
    "cut": ("injury.cut_length", "injury.reaches", "injury.kind cut"),
    "bottom-of-cut": ("injury.cut_length", "injury.reach_known"),
    "inside": ("tire.on_wheel", "pressure.ratio", "tire.damage"),
}


@dataclass(frozen=True, slots=True)
class Measure:
    """What a measure of the rulebook, or the geometry of an injury, finds of one subject of the case.

    `by`: the clause that counts it, for those who have this clause count something else.
    """

    quantity: str
    subject: str = ""
    case: Patch | None = None
    by: str = ""


@dataclass(frozen=True, slots=True)
class Clearance:
    """How far what a clause measures clears its limit; below zero, how much is missing."""

    clause: str
    subject: str = ""
    case: Patch | None = None
    units: Sizes = ()


@dataclass(frozen=True, slots=True)
class Turning:
    """The greatest or the least (`end`: "most" or "least") value of a field of the case, as "injuries.0.lateral", at
    which the decision is still one of `verdicts`, or `clause` still holds; `times` as much is asked for."""

    path: str
    end: str
    verdicts: tuple[str, ...] = ()
    clause: str = ""
    times: int = 0  # 0 stands for once
    case: Patch | None = None
    units: Sizes = ()
    unit: str = "mm"


@dataclass(frozen=True, slots=True)
class Molded:
    """What a marking says of something, by a name of the rulebook's reader of it, of a tire that is one of a pair where
    it says two things; `times` as much is asked for."""

    marking: str
    of: str
    times: int = 0  # 0 stands for once
    dual: bool = False


@dataclass(frozen=True, slots=True)
class Left:
    """How far a quantity of the work is from what a clause states, or from so many `times` that much."""

    clause: str
    value: str
    times: int = 0  # 0 stands for once


@dataclass(frozen=True, slots=True)
class Share:
    """The share of a quantity that a clause states in percent."""

    clause: str
    value: str


@dataclass(frozen=True, slots=True)
class Planned:
    """What the plan of the repair says: the "length" or the "width" of the outline, or the name of the "unit".

    The plan has units of these sizes, or else those of a shelf: name, kind, length, width, the largest hole, casings.
    """

    of: str
    units: Sizes = ()
    shelf: tuple[tuple[str, ...], ...] = ()


@dataclass(frozen=True, slots=True)
class Reading:
    """What the gauge in the drawing shows."""


@dataclass(frozen=True, slots=True)
class Spot:
    """A place on the rulers of a drawing: `of` away along `axis` ("across" or "up"), backward where `way` is -1.

    Away from `start`, a place on the rulers, or where there is none from the crown centerline; `depth_mm` below the
    tread.
    """

    of: Measure | Turning
    axis: str
    way: int
    start: tuple[float, ...] = ()
    depth_mm: float = 0


Asked = Measure | Clearance | Turning | Molded | Left | Share | Planned | Reading | Spot


@dataclass(frozen=True, slots=True)
class Decided:
    """The rulebook decides one of `verdicts`: resting on one of the subjects `because`, allowing exactly `methods`,
    where these are given. `alone`: were this injury the only one. `units`: with repair units of these sizes."""

    verdicts: tuple[str, ...]
    because: tuple[str, ...] = ()
    methods: tuple[str, ...] = ()
    alone: str = ""
    case: Patch | None = None
    units: Sizes = ()

    @property
    def releases(self) -> bool:
        """Does the tire go on running?"""
        return _RELEASES.issuperset(self.verdicts)


@dataclass(frozen=True, slots=True)
class States:
    """The strictest statement of a clause is this bound, in these quantities."""

    clause: str
    bound: str
    quantities: tuple[str, ...]

    @property
    def outermost(self) -> Fraction:
        """The quantity that takes in most, in the base unit, as if more were less where the bound is a lower one."""
        sign = 1 if self.bound in _UPPER else -1
        return max(sign * _value(text) for text in self.quantities)


@dataclass(frozen=True, slots=True)
class Permitted:
    """A value, a quantity or a word, keeps to a clause; a quantity is counted from `since`, where that is given."""

    clause: str
    value: str
    since: str = ""


@dataclass(frozen=True, slots=True)
class Is:
    """Something asked for is this much, to within so much; without `within` it is this word or bare number."""

    of: Asked
    value: str
    within: str = ""


@dataclass(frozen=True, slots=True)
class AtLeast:
    """Something asked for is at least as much as something else."""

    of: Asked
    than: Asked


@dataclass(frozen=True, slots=True)
class Before:
    """The work allows that a step is done before another."""

    first: str
    then: str


@dataclass(frozen=True, slots=True)
class Next:
    """In a repair by this method, a step follows directly after another."""

    step: str
    after: str
    method: str


@dataclass(frozen=True, slots=True)
class Done:
    """A step of a repair, or a part of one counted from 1, and what the log says of it, as a job has it.

    Whether all is right that was done, only all lines together tell.
    """

    step: str
    method: str
    part: int = 0  # 0 stands for the whole step
    said: Patch | None = None


@dataclass(frozen=True, slots=True)
class Faulty:
    """The work as its lines tell it has a fault: of this kind, at this step, in this quantity, where given."""

    kind: str = ""
    step: str = ""
    quantity: str = ""


@dataclass(frozen=True, slots=True)
class Sighted:
    """The picture of this number shows a condition, or what is taken for one: `kind` is "condition" or "look-alike".
    Which, `name` says, by the renderer's name of the condition; where it is empty, one or another."""

    kind: str
    name: str = ""
    number: int = 1


@dataclass(frozen=True, slots=True)
class Taught:
    """A statement of the trade, by its id in the facts of the work, put rightly or wrongly."""

    fact: str
    wrongly: bool = False


@dataclass(frozen=True, slots=True)
class Not:
    """Something claimed does not hold."""

    of: Claim


@dataclass(frozen=True, slots=True)
class All:
    """Several claims at once."""

    of: tuple[Claim, ...]


Claim = Decided | States | Permitted | Is | AtLeast | Before | Next | Done | Faulty | Sighted | Taught | Not | All
_KINDS: Mapping[str, type[Claim | Asked]] = {
    kind.__name__.lower(): kind
    for kind in (
        *(Measure, Clearance, Turning, Molded, Left, Share, Planned, Reading, Spot),
        *(Decided, States, Permitted, Is, AtLeast, Before, Next, Done, Faulty, Sighted, Taught, Not, All),
    )
}
_FIELDS = {kind: tuple(one.name for one in fields(kind)) for kind in _KINDS.values()}
DIMENSIONS = {unit: dimension for dimension, units in UNITS.items() for unit in units}
_SIMPLE = frozenset((str, bool, int))
_PATCHES = ("case", "said")  # fields that hold plain JSON
_MEASURED = ("quantities", "value", "since")  # fields that hold quantities, which are equal in any unit


def states(clause: Clause) -> States:
    """What a clause states first of all."""
    strictest = clause.strictest
    return States(clause.id, strictest.bound, tuple(one.text for one in strictest.quantities))


def is_about(quantity: str, subject: str) -> bool:
    """Does a quantity, read rightly or wrongly, speak of a subject, by a name of `SUBJECTS` or its own?"""
    quantity = (MEASURES[quantity].misreads if quantity in MEASURES else "") or quantity
    named = SUBJECTS.get(subject, (subject,))
    return any(quantity == one or (one.endswith(".") and quantity.startswith(one)) for one in named)


def laid_over(case: Patch | None, patch: Patch | None) -> dict[str, Any]:
    """A case with a patch over it: fields of an object one by one, everything else as a whole."""
    found = dict(case or {})
    for name, value in (patch or {}).items():
        under = found.get(name)
        found[name] = laid_over(under, value) if isinstance(value, Mapping) and isinstance(under, Mapping) else value
    return found


def patch(case: Patch, other: Patch) -> dict[str, Any] | None:
    """What has to be laid over a case to get another, which says no less; None where they say the same."""
    found: dict[str, Any] = {}
    for name, value in other.items():
        under = case.get(name)
        if value != under:
            within = isinstance(value, Mapping) and isinstance(under, Mapping)
            found[name] = (patch(under or {}, value) or {}) if within else value
    return found or None


def parts(claim: Claim) -> Iterator[Claim]:
    """The single claims that a claim is made of."""
    if isinstance(claim, All):
        for one in claim.of:
            yield from parts(one)
    else:
        yield claim


def lets_go(claim: Claim, key: Claim | None = None) -> bool:
    """Would someone who claims this wrongly let a tire run that the key, or where there is none the rulebook, stops?

    By the verdicts, where it claims any; else by a limit that takes in more than that of the key.
    """
    own, right = list(parts(claim)), [] if key is None else list(parts(key))
    decided = [one for one in own if isinstance(one, Decided)]
    if decided:
        kept = {_case_of(one) for one in right if isinstance(one, Decided) and one.releases}
        return any(one.releases and _case_of(one) not in kept for one in decided)
    limits = {one.clause: one for one in right if isinstance(one, States)}
    return any(
        isinstance(one, States) and one.clause in limits and one.outermost > limits[one.clause].outermost for one in own
    )


def _case_of(claim: Decided) -> Hashable:
    return claim.alone, _same(claim.case)


def essence(claim: Claim | Asked) -> Hashable:
    """What two claims have in common that say the same, in whatever unit."""
    said: list[Hashable] = [type(claim).__name__]
    for name in _FIELDS[type(claim)]:
        value = getattr(claim, name)
        if value:
            said += (name, _measured(value) if name in _MEASURED else _same(value))
    return tuple(said)


def _same(value: Any) -> Hashable:
    kind: type = type(value)
    if kind in _SIMPLE:
        simple: Hashable = value
        return simple
    if kind is list or kind is tuple:
        return tuple(map(_same, value))
    if kind is dict:
        return tuple((name, under if type(under) in _SIMPLE else _same(under)) for name, under in sorted(value.items()))
    return essence(value) if kind in _FIELDS else value


def _measured(value: Any) -> Hashable:
    if type(value) is tuple:
        return tuple(map(_measured, value))
    unit = value.rpartition(" ")[2]
    return (DIMENSIONS[unit], _value(value)) if unit in DIMENSIONS else value


@lru_cache(maxsize=4096)
def _value(text: str) -> Fraction:
    """The value of a quantity in the base unit."""
    return parse_quantity(text, DIMENSIONS[text.rpartition(" ")[2]]).value


def to_json(claim: Claim | Asked) -> dict[str, Any]:
    """Plain JSON values, without the fields that say nothing."""
    said = {name: _plain(value) for name in _FIELDS[type(claim)] if (value := getattr(claim, name))}
    return {"says": type(claim).__name__.lower(), **said}


def _plain(value: Any) -> Any:
    if isinstance(value, Mapping):
        return dict(value)
    if isinstance(value, tuple):
        return list(map(_plain, value))
    return to_json(value) if type(value) in _FIELDS else value


def from_json(data: Mapping[str, Any]) -> Any:
    """The claim, or what is asked, that `to_json` wrote. Raises KeyError for an unknown kind."""
    said = {name: value if name in _PATCHES else _read(value) for name, value in data.items() if name != "says"}
    return _KINDS[data["says"]](**said)


def _read(value: Any) -> Any:
    if isinstance(value, list):
        return tuple(map(_read, value))
    return from_json(value) if isinstance(value, Mapping) else value
