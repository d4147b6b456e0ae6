"""What a case is: one tire in hand, as typed values. Reading and refusing input is in `reading`."""

from collections.abc import Mapping
from dataclasses import dataclass, field, fields, is_dataclass
from datetime import date
from functools import cache
from typing import TYPE_CHECKING

from training.rulebook.quantities import Quantity

if TYPE_CHECKING:
    from _typeshed import DataclassInstance

_PLAIN = frozenset((str, int, bool))  # as they stand in JSON data

Finding = bool | str
"""True (found), False (looked for, not there) or "doubt"."""


class CaseError(ValueError):
    """The input is not a case. `problems` has one line for each: the field, the value, what is accepted."""

    def __init__(self, problems: tuple[str, ...]) -> None:
        super().__init__("\n".join(problems))
        self.problems = problems


@dataclass(frozen=True, slots=True)
class Tire:
    """The tire and its markings. `outer_groove`: from the crown centerline to the outermost groove's inner edge.

    `regroovable`: whether the sidewall says that there is rubber under the grooves to cut into. `max_load`,
    `max_load_dual`: the loads molded on it, fitted singly and in a pair. `ran_without_air`: driven with no air in it.
    `part_worn_mark`: whether it is marked PART-WORN, as a used tire is sold in the United Kingdom.
    """

    casing: str
    designation: str | None = None
    date_code: str | None = None
    retreaded: bool | None = None
    retreaded_on: str | None = None
    tread_width: Quantity | None = None
    outer_groove: Quantity | None = None
    crown_thickness: Quantity | None = None
    build: str | None = None
    regroovable: bool | None = None
    max_load: Quantity | None = None
    max_load_dual: Quantity | None = None
    ran_without_air: bool | None = None
    approval_mark: bool | None = None
    part_worn_mark: bool | None = None


@dataclass(frozen=True, slots=True)
class Position:
    """Where the tire runs; what the vehicle's placard asks of each tire there, and what it carries.

    `asked_size` is the size on the placard with load index and speed symbol, as far as they stand there; `asked_load`
    the rating of the axle divided by its tires.
    """

    vehicle: str | None = None
    axle: str | None = None
    gross_mass: Quantity | None = None
    dual: bool | None = None
    wheel: str | None = None
    asked_size: str | None = None
    asked_load_index: int | None = None
    asked_load: Quantity | None = None
    asked_speed: str | None = None
    carried: Quantity | None = None


@dataclass(frozen=True, slots=True)
class Pressure:
    """Recommended pressure, the pressure as found, the maximum molded on the sidewall, and the table's for the load."""

    recommended: Quantity | None = None
    found: Quantity | None = None
    sidewall_max: Quantity | None = None
    for_load: Quantity | None = None


@dataclass(frozen=True, slots=True)
class TreadReading:
    """One tread depth; without a groove it belongs to the one groove that was measured."""

    depth: Quantity
    groove: int | None = None
    station: Quantity | None = None


@dataclass(frozen=True, slots=True)
class Injury:
    """One injury. `lateral` is signed from the crown centerline, `angle` from the perpendicular to the tread."""

    id: str
    kind: str = "puncture"
    diameter: Quantity | None = None
    before_removal: Quantity | None = None
    angle: Quantity | None = None
    azimuth: Quantity | None = None
    lateral: Quantity | None = None
    station: Quantity | None = None
    zone: str | None = None
    length: Quantity | None = None
    reaches: str | None = None


@dataclass(frozen=True, slots=True)
class UnitSize:
    """Size of a repair unit on the liner: `length` toward the beads, `width` around the tire."""

    length: Quantity
    width: Quantity


@dataclass(frozen=True, slots=True)
class EarlierRepair:
    """A repair that was already in the tire."""

    id: str
    kind: str | None = None
    zone: str | None = None
    injury: Quantity | None = None
    sound: Finding | None = None
    lateral: Quantity | None = None
    station: Quantity | None = None
    unit: UnitSize | None = None


@dataclass(frozen=True, slots=True)
class DualMate:
    """Outer diameters of the two tires of a dual pair."""

    diameter: Quantity
    own_diameter: Quantity


@dataclass(frozen=True, slots=True)
class Roadside:
    """A repair made at the roadside: with what, and how far the tire has run since."""

    means: str
    driven: Quantity | None = None


@dataclass(frozen=True, slots=True)
class Case:
    """One tire in hand. None means not examined or not stated; an empty tuple means looked for, none there."""

    tire: Tire
    edition: str
    jurisdiction: str | None = None
    on: date | None = None
    purpose: str = "repair"
    position: Position = field(default_factory=Position)
    on_wheel: bool | None = None
    pressure: Pressure = field(default_factory=Pressure)
    tread_depths: tuple[TreadReading, ...] = ()
    injuries: tuple[Injury, ...] | None = None
    findings: Mapping[str, Finding] = field(default_factory=dict)
    earlier_repairs: tuple[EarlierRepair, ...] | None = None
    proposed: str | None = None
    dual_mate: DualMate | None = None
    roadside: Roadside | None = None

    def to_json(self) -> dict[str, object]:
        """The case as JSON data; `parse_case` reads it back to an equal case."""
        data = _fields(self)
        for name in ("position", "pressure", "tread_depths", "findings"):
            if not data.get(name):
                data.pop(name, None)
        return data


def _fields(value: "DataclassInstance") -> dict[str, object]:
    return {
        name: found if type(found) in _PLAIN else _plain(found)
        for name in _names(type(value))
        if (found := getattr(value, name)) is not None
    }


@cache
def _names(kind: "type[DataclassInstance]") -> tuple[str, ...]:
    return tuple(entry.name for entry in fields(kind))


def _plain(value: object) -> object:
    if isinstance(value, Quantity):
        return value.text
    if isinstance(value, date):
        return value.isoformat()
    if isinstance(value, tuple):
        return [_plain(entry) for entry in value]
    if isinstance(value, Mapping):
        return dict(value)
    if is_dataclass(value) and not isinstance(value, type):
        return _fields(value)
    return value
