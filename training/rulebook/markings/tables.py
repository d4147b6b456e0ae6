"""The published tables behind the markings: load index, speed symbol, load range, rim diameter, published sizes."""

from __future__ import annotations

import csv
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from functools import cache
from importlib.resources import files

from training.rulebook.markings.errors import MarkingError
from training.trade.speech import say, saying

FROM_MEMORY = saying("from memory")
_TITLES = {
    "load_index": saying("Load indexes"),
    "speed_symbols": saying("Speed symbols"),
    "load_ranges": saying("Load ranges"),
    "rims": saying("Rim diameters"),
    "rim_widths": saying("Rim widths"),
    "rim_factors": saying("Rim width by section width"),
    "published_sizes": saying("Dimensions of sizes"),
    "motorcycle_widths": saying("Widths of motorcycle sizes in letters"),
    "sizes_in_use": saying("Sizes in use"),
}
# the columns of values from memory, and what stands in them otherwise than people write it
_COLUMNS = {
    "code": saying("rim code"),
    "diameter_mm": saying("diameter in mm"),
    "rims": saying("rims"),
    "width_code": saying("width code"),
    "aspect_from": saying("aspect ratio from"),
    "aspect_to": saying("aspect ratio to"),
    "theoretical": saying("theoretical rim"),
    "measuring": saying("measuring rim"),
    "size": saying("size"),
    "section_width_mm": saying("section width in mm"),
    "outer_diameter_mm": saying("outer diameter in mm"),
    "kind": saying("kind"),
    "load_index": saying("load index"),
    "speed_symbols": saying("speed symbols"),
    "symbol": saying("symbol"),
    "km_h": "km/h",
}
_KINDS = {
    "passenger": saying("passenger"),
    "commercial": saying("commercial"),
    "flotation": saying("flotation"),
    "truck": saying("truck"),
    "motorcycle": saying("motorcycle"),
    "light-truck": saying("light truck"),
    "special-trailer": saying("special trailer"),
    "temporary-spare": saying("temporary spare"),
    "5-degree": saying("5-degree"),
    "15-degree": saying("15-degree"),
    "code": saying("code"),
}
_KM_PER_MILE = Fraction("1.609344")
_LB_PER_KG = 1 / Fraction("0.45359237")
_LEAST_RIM_MM, _MOST_RIM_MM = 240, 720


@dataclass(frozen=True, slots=True)
class SpeedLimit:
    """What a speed symbol allows: `km_h` and `mph`, or a speed above them where `is_above`; `status` of the value."""

    symbol: str
    km_h: int
    mph: int
    is_above: bool
    status: str
    source: str

    @property
    def text(self) -> str:
        """Both units, miles first.

        >>> speed_limit("V").text
        '149 mph (240 km/h)'
        """
        return self.shown()

    def shown(self, *, prefer: str = "in") -> str:
        """Both units, miles first, or kilometers where "mm" is preferred."""
        lead = "above " if self.is_above else ""
        miles, kilometers = f"{self.mph} mph", f"{self.km_h} km/h"
        return f"{lead}{kilometers} ({miles})" if prefer == "mm" else f"{lead}{miles} ({kilometers})"


@dataclass(frozen=True, slots=True)
class RimFactors:
    """Rim width over nominal section width: of the theoretical rim (for S) and of the measuring rim."""

    theoretical: Fraction
    measuring: Fraction


@dataclass(frozen=True, slots=True)
class PublishedSize:
    """Printed dimensions of one size [mm], least and most; both equal where one value is printed."""

    size: str
    section_width_mm: tuple[int, int]
    outer_diameter_mm: tuple[int, int]
    status: str
    source: str

    @property
    def is_range(self) -> bool:
        """A range over makers, not the design value of a standard."""
        return self.outer_diameter_mm[0] != self.outer_diameter_mm[1]


@dataclass(frozen=True, slots=True)
class MemoryValue:
    """A value that someone knew but has not read in its source: the title of its table, the row as text, where to read
    it."""

    table: str
    row: str
    source: str


def rows(table: str) -> Iterator[Mapping[str, str]]:
    """The rows of one table of this package, as printed."""
    text = files(__package__).joinpath("data", f"{table}.csv").read_text(encoding="utf-8")
    yield from csv.DictReader(text.splitlines())


@cache
def _loads() -> Mapping[int, Fraction]:
    return {int(row["load_index"]): Fraction(row["max_load_kg"]) for row in rows("load_index")}


@cache
def _speeds() -> Mapping[str, SpeedLimit]:
    limits = {}
    for row in rows("speed_symbols"):
        km_h = int(row["km_h"].lstrip(">"))
        mph = _nearest(km_h / _KM_PER_MILE)
        above = row["km_h"].startswith(">")
        limits[row["symbol"]] = SpeedLimit(row["symbol"], km_h, mph, above, row["status"], row["source"])
    return limits


@cache
def load_ranges() -> Mapping[str, int]:
    """Ply rating of each load range letter. A rating, not a count of plies, and nothing about what they are made of."""
    return {row["letter"]: int(row["ply_rating"]) for row in rows("load_ranges")}


@cache
def motorcycle_widths() -> Mapping[str, int]:
    """Nominal section width [mm] by the letters of a motorcycle size such as MT90B16."""
    return {row["letters"]: int(row["width_mm"]) for row in rows("motorcycle_widths")}


@cache
def rim_diameters() -> Mapping[str, int]:
    """Nominal rim diameter [mm] by its code. Source: UN Regulation No. 30 / No. 54 (from memory)."""
    return {row["code"]: int(row["diameter_mm"]) for row in rows("rims")}


@cache
def _factors() -> tuple[tuple[str, int, int, RimFactors], ...]:
    return tuple(
        (row["rims"], int(row["aspect_from"]), int(row["aspect_to"]),
         RimFactors(Fraction(row["theoretical"]), Fraction(row["measuring"])))
        for row in rows("rim_factors")
    )  # fmt: skip


@cache
def rim_widths(rims: str) -> tuple[Fraction, ...]:
    """Standard rim width codes of one family of rims [in]; empty where widths go by half inches."""
    return tuple(Fraction(row["width_code"]) for row in rows("rim_widths") if row["rims"] == rims)


@cache
def published_sizes(size: str) -> tuple[PublishedSize, ...]:
    """Every printed row for one size, design value of a standard first; empty where none is in the table.

    >>> [row.outer_diameter_mm for row in published_sizes("11R22.5")]
    [(1050, 1050), (1046, 1054)]
    """
    found = [
        PublishedSize(size, _span(row["section_width_mm"]), _span(row["outer_diameter_mm"]), row["status"],
                      row["source"])
        for row in rows("published_sizes") if row["size"] == size
    ]  # fmt: skip
    return tuple(sorted(found, key=lambda row: row.is_range))


def speed_limits() -> tuple[SpeedLimit, ...]:
    """What every speed symbol allows, the slowest first; those that only say "above" at the end."""
    return tuple(sorted(_speeds().values(), key=lambda limit: (limit.is_above, limit.km_h)))


def load_capacity_kg(load_index: int) -> Fraction:
    """Greatest load [kg] of a load index; a table, since above 40 no closed formula gives it.

    Raises MarkingError for an index the table does not have.
    Source: UN Regulation No. 30 / No. 54, load-capacity index table.

    >>> load_capacity_kg(91)
    Fraction(615, 1)
    """
    if type(load_index) is not int:
        raise MarkingError(
            say("load index"),
            load_index,
            say("give a whole number from 0 to 180"),
            problem=saying("{found} is not a number"),
        )
    try:
        return _loads()[load_index]
    except KeyError:
        raise MarkingError(say("load index"), str(load_index), say("give a whole number from 0 to 180")) from None


def load_capacity_text(load_index: int, *, prefer: str = "in") -> str:
    """Greatest load in both units. The pounds molded on a US tire come from its maker's own table and prevail.

    >>> load_capacity_text(91)
    '1,356 lb (615 kg)'
    """
    return load_text(load_capacity_kg(load_index), prefer=prefer)


def load_text(load_kg: Fraction, *, prefer: str = "in") -> str:
    """A load in both units, pounds first, or kilograms where "mm" is preferred.

    >>> load_text(Fraction(615), prefer="mm")
    '615 kg (1,356 lb)'
    """
    pounds = f"{_nearest(load_kg * _LB_PER_KG):,} lb"
    kilograms = f"{Decimal(load_kg.numerator) / load_kg.denominator:,f} kg"
    return f"{kilograms} ({pounds})" if prefer == "mm" else f"{pounds} ({kilograms})"


def speed_limit(symbol: str) -> SpeedLimit:
    """What a speed symbol allows for a sound tire at its load index; "ZR" and "(Y)" say "above".

    Raises MarkingError for a symbol the table does not have. After a repair the tire maker says whether it still holds.
    Source: UN Regulation No. 30 / No. 54, speed category table.

    >>> speed_limit("H").km_h, speed_limit("H").mph
    (210, 130)
    """
    if not isinstance(symbol, str) or symbol not in _speeds():
        raise MarkingError(
            say("speed symbol"), symbol, say("give A1 to A8, one of the letters B to Y without I, O and X, ZR or (Y)")
        )
    return _speeds()[symbol]


def is_speed_symbol(symbol: str) -> bool:
    """Whether the table has this symbol."""
    return symbol in _speeds()


def rim_diameter_mm(code: str) -> int | None:
    """Nominal rim diameter [mm]: by the table for a code, as it stands for a diameter in millimeters; else None.

    >>> rim_diameter_mm("22.5"), rim_diameter_mm("390"), rim_diameter_mm("18.5")
    (572, 390, None)
    """
    if code in rim_diameters():
        return rim_diameters()[code]
    return int(code) if code.isdecimal() and _LEAST_RIM_MM <= int(code) <= _MOST_RIM_MM else None


def rim_text(code: str, *, prefer: str = "in") -> str:
    """The nominal rim diameter of a code in both units; a code up to 30 is the diameter in inches.

    Raises MarkingError for a code the table does not have.

    >>> rim_text("16"), rim_text("22.5", prefer="mm"), rim_text("390")
    ('16 in (406 mm)', '572 mm (22.5 in)', '390 mm')
    """
    diameter_mm = rim_diameter_mm(code)
    if diameter_mm is None:
        raise MarkingError(say("rim diameter"), code, say("give a code from {codes}", codes=", ".join(rim_diameters())))
    if code not in rim_diameters():
        return f"{diameter_mm} mm"
    return f"{diameter_mm} mm ({code} in)" if prefer == "mm" else f"{code} in ({diameter_mm} mm)"


def rim_factors(rims: str, aspect_percent: int) -> RimFactors | None:
    """Rim width over nominal section width for one family of rims and one aspect ratio; None outside the tables."""
    for family, least, most, factors in _factors():
        if family == rims and least <= aspect_percent <= most:
            return factors
    return None


def values_from_memory() -> tuple[MemoryValue, ...]:
    """Every value of these tables that still has to be read in its source."""
    found = []
    for table, title in _TITLES.items():
        for row in rows(table):
            if row["status"] == FROM_MEMORY:
                facts = {name: value for name, value in row.items() if name not in ("status", "source")}
                told = (f"{_COLUMNS[name]} {_KINDS.get(value, value)}" for name, value in facts.items())
                found.append(MemoryValue(title, ", ".join(told), row["source"]))
    return tuple(found)


def _span(text: str) -> tuple[int, int]:
    least, _, most = text.partition("-")
    return int(least), int(most or least)


def _nearest(value: Fraction) -> int:
    """The nearest whole number, half up."""
    return (2 * value.numerator + value.denominator) // (2 * value.denominator)
