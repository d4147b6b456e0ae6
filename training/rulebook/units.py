"""Repair units and the stems of two-piece repairs: what a shop has on its shelf, and what of it fits a hole."""

import json
import tomllib
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import NoReturn

from training.rulebook.quantities import Quantity, parse_quantity
from training.trade.reading import Place, printable
from training.trade.speech import say
from training.trade.words import CASINGS, UNIT_WORDS

STEM = "stem"
_FIELDS = ("name", "kind", "length", "width", "stem_diameter", "casings", "injury_max")
_STEM_FIELDS = ("name", "kind", "casings", "injury_min", "injury_max")


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

    def fits(self, kind: str, casing: str, diameter: Quantity | None) -> bool:
        """Is it of this kind, for this casing and a hole of this size (or of a size not known)?"""
        if self.kind != kind or casing not in self.casings:
            return False
        return diameter is None or self.injury_max is None or diameter.value <= self.injury_max.value

    @property
    def area_mm2(self) -> float:
        """Area on the liner [mm2], to find the smallest."""
        return self.length.number * self.width.number

    def to_json(self) -> dict[str, object]:
        """Name, kind, size and which way it lies."""
        return {"name": self.name, "kind": self.kind, "length": self.length.text, "width": self.width.text,
                "arrows": say("to the beads")}  # fmt: skip


@dataclass(frozen=True, slots=True)
class Stem:
    """The stem of a two-piece repair: the holes it fills, from the smallest to the largest, and in which casings."""

    name: str
    injury_min: Quantity
    injury_max: Quantity
    casings: tuple[str, ...]

    def to_json(self) -> dict[str, object]:
        """Name, and the holes it fills."""
        return {
            "name": self.name,
            "fills": say("{least} to {most}", least=self.injury_min.text, most=self.injury_max.text),
        }


OnShelf = RepairUnit | Stem


def smallest_unit(shelf: Sequence[OnShelf], *, kind: str, casing: str, diameter: Quantity | None) -> RepairUnit | None:
    """The smallest unit of a kind for this casing and injury; without a diameter the smallest there is."""
    return next(iter(fitting_units(shelf, kind=kind, casing=casing, diameter=diameter)), None)


def fitting_units(
    shelf: Sequence[OnShelf], *, kind: str, casing: str, diameter: Quantity | None
) -> tuple[RepairUnit, ...]:
    """All units of a kind for this casing and injury, the smallest first."""
    fitting = [one for one in shelf if isinstance(one, RepairUnit) and one.fits(kind, casing, diameter)]
    return tuple(sorted(fitting, key=lambda unit: (unit.area_mm2, unit.name)))


def largest_holes(shelf: Sequence[OnShelf], *, kind: str, casing: str) -> tuple[RepairUnit, ...]:
    """The units for the largest holes the shelf has any for: a hole beyond them takes none that is smaller."""
    known = fitting_units(shelf, kind=kind, casing=casing, diameter=None)
    most = max((one.injury_max.value for one in known if one.injury_max is not None), default=None)
    return tuple(one for one in known if one.injury_max is None or one.injury_max.value == most)


def fitting_stem(shelf: Sequence[OnShelf], *, casing: str, diameter: Quantity | None) -> Stem | None:
    """The thinnest stem that fills a hole of this size in this casing; None without a size."""
    if diameter is None:
        return None
    filling = [
        one
        for one in shelf
        if isinstance(one, Stem)
        and casing in one.casings
        and one.injury_min.value <= diameter.value <= one.injury_max.value
    ]
    return min(filling, key=lambda stem: (stem.injury_max.value, stem.name), default=None)


def read_units(path: Path) -> tuple[OnShelf, ...]:
    """A shelf from a TOML or JSON file: `[[unit]]` tables, or {"units": [...]}, or a bare list; stems stand among them.

    Raises UnitsError naming file, entry, field and value.
    """
    try:
        text = path.read_text("utf-8")
        data = tomllib.loads(text) if path.suffix == ".toml" else json.loads(text)
    except (OSError, UnicodeDecodeError, ValueError, RecursionError) as failure:
        raise UnitsError(
            say("{name}: cannot be read as repair units: {failure}", name=path.name, failure=printable(failure))
        ) from failure
    return units_from(data, path.name)


def units_from(data: object, name: str) -> tuple[OnShelf, ...]:
    """Repair units and stems from parsed data; `name` is put before each message."""
    if isinstance(data, Mapping):
        data = data.get("units", data.get("unit"))
    if not isinstance(data, list) or not data:
        raise UnitsError(
            say(
                "{name}: no repair units in it; give a list of objects with {fields}",
                name=name,
                fields=", ".join(_FIELDS),
            )
        )
    return tuple(_unit(entry, _Place(name, f"units[{place}]")) for place, entry in enumerate(data))


def _unit(entry: object, place: _Place) -> OnShelf:
    if not isinstance(entry, Mapping):
        raise UnitsError(
            say(
                "{file}: {unit}: {given} is not accepted; give an object with {fields}",
                file=place.file,
                unit=place.what,
                given=printable(entry),
                fields=", ".join(_FIELDS),
            )
        )
    kind = place.word(entry, "kind", tuple(UNIT_WORDS), default="patch")
    if kind == STEM:
        return _stem(entry, place)
    place.keys(entry, _FIELDS)
    length, width = _stated(entry, "length", place, "65 mm"), _stated(entry, "width", place, "65 mm")
    return RepairUnit(
        name=_name(entry, place, f"{length} x {width}", say("patch, medium")),
        kind=kind,
        length=length,
        width=width,
        stem_diameter=_length(entry, "stem_diameter", place),
        casings=_casings(entry, place),
        injury_max=_length(entry, "injury_max", place),
    )


def _stem(entry: Mapping[str, object], place: _Place) -> Stem:
    place.keys(entry, _STEM_FIELDS)
    low, high = _stated(entry, "injury_min", place, "3 mm"), _stated(entry, "injury_max", place, "6 mm")
    if low.value > high.value:
        place.refuse(
            "injury_min",
            say("{low} is above the largest hole, {high}; give the smallest hole the stem fills", low=low, high=high),
        )
    return Stem(
        _name(entry, place, say("stem for {low} to {high}", low=low, high=high), say("stem, medium")),
        low,
        high,
        _casings(entry, place),
    )


def _name(entry: Mapping[str, object], place: _Place, otherwise: str, example: str) -> str:
    label = entry.get("name", otherwise)
    if not isinstance(label, str) or not label.strip() or not label.isprintable():
        place.refuse(
            "name",
            say(
                '{given} is not a name; give a short text, for example "{example}"',
                given=printable(label),
                example=example,
            ),
        )
    return label


def _casings(entry: Mapping[str, object], place: _Place) -> tuple[str, ...]:
    return place.words(entry, "casings", CASINGS) if "casings" in entry else CASINGS


def _stated(entry: Mapping[str, object], field: str, place: _Place, example: str) -> Quantity:
    length = _length(entry, field, place)
    if length is None:
        place.refuse(field, say('missing; give a length, for example "{example}"', example=example))
    return length


def _length(entry: Mapping[str, object], field: str, place: _Place) -> Quantity | None:
    value = entry.get(field)
    if value is None:
        return None
    try:
        length = parse_quantity(value, "length")
    except ValueError as refused:
        place.refuse(field, str(refused))
    if length.value <= 0:
        place.refuse(field, say('"{length}" is not above 0; a length here is more than 0', length=length))
    return length
