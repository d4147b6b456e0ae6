"""Repair units: what a shop has on the shelf, and the smallest one that fits."""

import json
import tomllib
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path
from typing import NoReturn

from training.rulebook.quantities import Quantity, parse_quantity
from training.trade.reading import Place, printable
from training.trade.words import CASINGS, UNIT_WORDS

UNIT_KINDS = tuple(UNIT_WORDS)
_FIELDS = ("name", "kind", "length", "width", "stem_diameter", "casings", "injury_max")


class UnitsError(ValueError):
    """A file of repair units is wrong; the message names entry, field, value and what is accepted."""


class _Place(Place):
    error = UnitsError

    def refuse(self, field: str, problem: str) -> NoReturn:
        """Stop with one message; the entry is told as a path, as in a case."""
        raise UnitsError(f"{self.file}: {self.what}.{field}: {problem}")


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
def teaching_units() -> tuple[RepairUnit, ...]:
    """Invented sizes of the ordinary kind, for lessons and questions: no tire of a shop is decided by them."""
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
    return tuple(_unit(entry, _Place(name, f"units[{place}]")) for place, entry in enumerate(data))


def _unit(entry: object, place: _Place) -> RepairUnit:
    if not isinstance(entry, Mapping):
        raise UnitsError(
            f"{place.file}: {place.what}: {printable(entry)} is not accepted; give an object with {', '.join(_FIELDS)}"
        )
    place.keys(entry, _FIELDS)
    length, width = (_length(entry, field, place) for field in ("length", "width"))
    if length is None or width is None:
        place.refuse("length" if length is None else "width", 'missing; give a length, for example "65 mm"')
    label = entry.get("name", f"{length} x {width}")
    if not isinstance(label, str) or not label.strip() or not label.isprintable():
        place.refuse("name", f'{printable(label)} is not a name; give a short text, for example "patch, medium"')
    return RepairUnit(
        name=label,
        kind=place.word(entry, "kind", UNIT_KINDS, default="patch"),
        length=length,
        width=width,
        stem_diameter=_length(entry, "stem_diameter", place),
        casings=place.words(entry, "casings", CASINGS) if "casings" in entry else CASINGS,
        injury_max=_length(entry, "injury_max", place),
    )


def _length(entry: Mapping[str, object], field: str, place: _Place) -> Quantity | None:
    value = entry.get(field)
    if value is None:
        return None
    try:
        length = parse_quantity(value, "length")
    except ValueError as refused:
        place.refuse(field, str(refused))
    if length.value <= 0:
        place.refuse(field, f'"{length}" is not above 0; a length here is more than 0')
    return length
