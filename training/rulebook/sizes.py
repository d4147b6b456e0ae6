"""Sizes of tires as an edition's country fits them, with their measures: what questions and drawings are about."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import lru_cache

from training.rulebook.designation import dimensions
from training.rulebook.loader import Place, quantity_of
from training.rulebook.quantities import UNITS, quantity
from training.trade.reading import shown
from training.trade.words import CASING_WORDS, CASINGS

_MEASURES = ("tread_width", "outer_groove", "crown_thickness")
_SIZE = frozenset({"designation", "casing", *_MEASURES})


@dataclass(frozen=True, slots=True)
class Model:
    """A size of tire with what a technician would measure, in mm: across the tread, from its middle to the inner edge
    of the outermost groove, and through the crown. Invented, within what is usual. `unit` is the one they are told in.
    """

    designation: str
    casing: str
    tread_width_mm: Fraction
    outer_groove_mm: Fraction
    crown_thickness_mm: Fraction
    unit: str = "mm"

    @property
    def size(self) -> str:
        """The size without load and speed, which would settle the load range."""
        return self.designation.split()[0]

    @property
    def name(self) -> str:
        """What kind of tire it is, for example "passenger tire"."""
        return CASING_WORDS[self.casing].one

    def measured_in(self, unit: str) -> "Model":
        """The same size as a rule in this unit shows it, "mm" or "in": there to 1/16 in, half its tread too."""
        if unit == self.unit or unit == "mm":
            return self
        return replace(
            self,
            tread_width_mm=2 * _to_sixteenths(self.tread_width_mm / 2),
            outer_groove_mm=_to_sixteenths(self.outer_groove_mm),
            crown_thickness_mm=_to_sixteenths(self.crown_thickness_mm),
            unit=unit,
        )

    def to_json(self) -> dict[str, object]:
        """The tire of a case."""
        return {
            "designation": self.designation,
            "casing": self.casing,
            "tread_width": _told(self.tread_width_mm, self.unit),
            "outer_groove": _told(self.outer_groove_mm, self.unit),
            "crown_thickness": _told(self.crown_thickness_mm, self.unit),
            "build": "radial",
        }


@lru_cache(maxsize=4096)
def _to_sixteenths(length_mm: Fraction) -> Fraction:
    """The nearest length that a rule in sixteenths of an inch shows [mm]."""
    sixteenth = UNITS["length"]["in"] / 16
    return round(length_mm / sixteenth) * sixteenth


@lru_cache(maxsize=4096)  # the same few sizes are told in every question
def _told(length_mm: Fraction, unit: str) -> str:
    return quantity(length_mm / UNITS["length"][unit], unit).text


def read_sizes(data: Mapping[str, object], file: str) -> tuple[Model, ...]:
    """The sizes of an edition, in their order. Raises RulebookError."""
    tables = data.get("size", [])
    place = Place(file)
    place.keys(data, frozenset({"size"}))
    if not isinstance(tables, list):
        place.refuse("size", "is not accepted; give a list of tables")
    return tuple(_model(table, file, number) for number, table in enumerate(tables, start=1))


def _model(table: Mapping[str, object], file: str, number: int) -> Model:
    numbered = Place(file, f"size number {number}")
    designation = numbered.text(numbered.table(table), "designation")
    place = Place(file, f'size "{designation}"')
    place.keys(table, _SIZE)
    if dimensions(designation) is None:
        place.refuse("designation", 'is not the size of a tire; give one such as "205/55R16 91V"')
    across, groove, thick = (_mm(table, field, place) for field in _MEASURES)
    return Model(designation, place.word(table, "casing", CASINGS), across, groove, thick)


def _mm(table: Mapping[str, object], field: str, place: Place) -> Fraction:
    value = quantity_of(place, field, table.get(field), "length").value
    if value.denominator != 1 or value <= 0:
        place.refuse(
            field,
            f'{shown(table.get(field))} is not accepted; give whole millimeters, such as "12 mm"',
        )
    return value
