"""Repair units: what a shop has on the shelf, and the smallest one that fits."""

import json
import tomllib
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path

from training.rulebook.quantities import Quantity, parse_quantity, printable
from training.trade.lists import one_of
from training.trade.words import CASINGS, UNIT_WORDS

UNIT_KINDS = tuple(UNIT_WORDS)
_FIELDS = ("name", "kind", "length", "width", "stem_diameter", "casings", "injury_max")


class UnitsError(ValueError):
    """A file of repair units is wrong; the message names entry, field, value and what is accepted."""


@dataclass(frozen=True, slots=True)
class RepairUnit:
    """One repair unit: `length` toward the beads, `width` around the tire, and what it is made for."""

    name: str
    kind: str
    length: Quantity
    width: Quantity
    stem_diameter: Quantity | None
    casings: tuple[str, ...]
    injury_max: Quantity | None

    @property
    def area_mm2(self) -> float:
        """Area on the liner [mm2], to find the smallest."""
        return self.length.number * self.width.number

    def to_json(self) -> dict[str, object]:
        """Name, kind, size and which way it lies."""
        return {"name": self.name, "kind": self.kind, "length": self.length.text, "width": self.width.text,
                "arrows": "to the beads"}  # fmt: skip


def smallest_unit(
    units: Sequence[RepairUnit], *, kind: str, casing: str, diameter: Quantity | None
) -> RepairUnit | None:
    """The smallest unit of a kind for this casing and injury; without a diameter the smallest there is."""
    fitting = [
        unit
        for unit in units
        if unit.kind == kind
        and casing in unit.casings
        and (diameter is None or unit.injury_max is None or diameter.value <= unit.injury_max.value)
    ]
    return min(fitting, key=lambda unit: (unit.area_mm2, unit.name), default=None)


@lru_cache(maxsize=1)
def default_units() -> tuple[RepairUnit, ...]:
    """Invented sizes of the ordinary kind, for a shop that has not entered its own."""
    path = Path(__file__).with_name("units.toml")
    return units_from(tomllib.loads(path.read_text("utf-8")), path.name)


def read_units(path: Path) -> tuple[RepairUnit, ...]:
    """Repair units from a TOML or JSON file: `[[unit]]` tables, or {"units": [...]}, or a bare list.

    Raises UnitsError naming file, entry, field and value.
    """
    try:
        text = path.read_text("utf-8")
        data = tomllib.loads(text) if path.suffix == ".toml" else json.loads(text)
    except (OSError, UnicodeDecodeError, ValueError, RecursionError) as failure:
        raise UnitsError(f"{path.name}: cannot be read as repair units: {printable(failure)}") from failure
    return units_from(data, path.name)


def units_from(data: object, name: str) -> tuple[RepairUnit, ...]:
    """Repair units from parsed data; `name` is put before each message."""
    if isinstance(data, Mapping):
        data = data.get("units", data.get("unit"))
    if not isinstance(data, list) or not data:
        raise UnitsError(f"{name}: no repair units in it; give a list of objects with {', '.join(_FIELDS)}")
    return tuple(_unit(entry, f"{name}: units[{place}]") for place, entry in enumerate(data))


def _unit(entry: object, path: str) -> RepairUnit:
    if not isinstance(entry, Mapping):
        raise UnitsError(f"{path}: {printable(entry)} is not accepted; give an object with {', '.join(_FIELDS)}")
    for key in entry:
        if key not in _FIELDS:
            raise UnitsError(f"{path}.{printable(key)}: is not a field; the fields here are {', '.join(_FIELDS)}")
    length = _length(entry, "length", path)
    width = _length(entry, "width", path)
    if length is None or width is None:
        missing = "length" if length is None else "width"
        raise UnitsError(f'{path}.{missing}: missing; give a length, for example "65 mm"')
    kind = entry.get("kind", "patch")
    if kind not in UNIT_KINDS:
        raise UnitsError(f"{path}.kind: {printable(kind)} is not accepted; choose {one_of(UNIT_KINDS)}")
    casings = entry.get("casings", list(CASINGS))
    if not isinstance(casings, list) or not casings or not all(one in CASINGS for one in casings):
        raise UnitsError(f"{path}.casings: {printable(casings)} is not accepted; give a list from {', '.join(CASINGS)}")
    label = entry.get("name", f"{length} x {width}")
    if not isinstance(label, str) or not label.strip() or not label.isprintable():
        raise UnitsError(
            f'{path}.name: {printable(label)} is not a name; give a short text, for example "patch, medium"'
        )
    return RepairUnit(label, kind, length, width, _length(entry, "stem_diameter", path), tuple(casings),
                      _length(entry, "injury_max", path))  # fmt: skip


def _length(entry: Mapping[str, object], field: str, path: str) -> Quantity | None:
    value = entry.get(field)
    if value is None:
        return None
    try:
        length = parse_quantity(value, "length")
    except ValueError as refused:
        raise UnitsError(f"{path}.{field}: {refused}") from refused
    if length.value <= 0:
        raise UnitsError(f'{path}.{field}: "{length}" is not above 0; a length here is more than 0')
    return length
