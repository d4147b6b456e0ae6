"""What a misconception reads of something otherwise than it is: a size, a date, a table, a gauge, a figure in a stem.

Each rule takes what is asked and the question, and gives every value that its misconception may read there (lengths in
mm, loads in kg, speeds in km/h, pressures in kPa, counts), or nothing where it reads as everybody does.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from math import floor

from assessments.questions.items.claims import Asked, Left, Measure, Molded, Planned, Reading, Share, Turning
from assessments.questions.items.item import Item
from tests.proof import shown
from training.rulebook import parse_quantity
from training.rulebook.markings import load_capacity_kg

Misreading = Callable[[Asked, Item], list[float | str]]
_KM_PER_MI, _KG_PER_LB = 1.609344, 0.45359237
# UN Regulation No. 30, 2.29.3: the speed categories of road tires [km/h].
_SPEEDS = {
    "F": 80, "G": 90, "J": 100, "K": 110, "L": 120, "M": 130, "N": 140, "P": 150, "Q": 160, "R": 170, "S": 180,
    "T": 190, "U": 200, "H": 210, "V": 240, "W": 270, "Y": 300,
}  # fmt: skip
_BY_ALPHABET = dict(zip(sorted(_SPEEDS), sorted(_SPEEDS.values()), strict=True))
# 49 CFR 569.7 has no word of it; 49 CFR 571.139 S5.5(f), from memory: cords of tread and sidewall are molded apart.
_PLIES = re.compile(r"TREAD PLIES (.+?), SIDEWALL PL(?:Y|IES) \d (\w+)")
_CUT_SHARE, _CUT_MM = 0.1, 25.0  # The Road Vehicles (Construction and Use) Regulations 1986, reg. 27(1)(c)


def _each(*names: str, of: Callable[[Molded, Item], list[float | str]]) -> Misreading:
    """A rule of what a marking says, of the things so named alone."""

    def read(asked: Asked, item: Item) -> list[float | str]:
        return of(asked, item) if isinstance(asked, Molded) and asked.of in names else []

    return read


def _size(*names: str, of: Callable[[shown.Marked], float]) -> Misreading:
    """A rule of what a size says [mm], times as much as is asked."""
    return _each(*names, of=lambda asked, _: [of(shown.marked(asked.marking)) * (asked.times or 1)])


def _whole(value: float) -> float:
    """To the nearest whole millimeter, a half up, as the regulations print sizes."""
    return float(floor(value + 0.5))


def _height(size: shown.Marked) -> float:
    return size.section_mm * size.aspect / 100


def _sized(height: Callable[[shown.Marked], float]) -> Misreading:
    """A rule of the section height, and of the overall diameter that it gives."""

    def read(asked: Asked, _: Item) -> list[float | str]:
        if not isinstance(asked, Molded) or asked.of not in ("section_height_mm", "outer_diameter_mm"):
            return []
        size = shown.marked(asked.marking)
        return [_whole(height(size)) if asked.of == "section_height_mm" else size.rim_mm + 2 * height(size)]

    return read


def _both(*rules: Misreading) -> Misreading:
    return lambda asked, item: [one for rule in rules for one in rule(asked, item)]


def _load(of: Callable[[int, int, Molded], list[float]]) -> Misreading:
    """A rule of the load [kg], by the load indexes for single and dual fitting."""

    def read(asked: Molded, _: Item) -> list[float | str]:
        single, dual, _symbol = shown.service(asked.marking)
        return list(of(single, dual, asked))

    return _each("load_kg", of=read)


def _times(asked: Molded) -> int:
    return asked.times or 1


def _kg(index: int) -> float:
    return float(load_capacity_kg(index))


def _own(single: int, dual: int, asked: Molded) -> int:
    return dual if asked.dual else single


def _speed(of: Callable[[str, int], list[float]]) -> Misreading:
    """A rule of the speed [km/h], by the symbol and the load index."""

    def read(asked: Molded, _: Item) -> list[float | str]:
        single, _dual, symbol = shown.service(asked.marking)
        return list(of(symbol, single))

    return _each("speed_km_h", of=read)


def _beside(symbol: str) -> list[float]:
    order = sorted(_SPEEDS, key=lambda one: _SPEEDS[one])
    place = order.index(symbol)
    return [float(_SPEEDS[order[near]]) for near in (place - 1, place + 1) if 0 <= near < len(order)]


def _date(week: Callable[[int, int], tuple[str, int, int]]) -> Misreading:
    """A rule of a date code: which unit, its number and the year, from its first and its last two digits."""

    def read(asked: Molded, _: Item) -> list[float | str]:
        if not re.fullmatch(r"\d{4}", asked.marking):
            return []
        unit, number, year = week(int(asked.marking[:2]), int(asked.marking[2:]))
        if unit == "month" and number > 12:
            return []  # no month is meant
        if asked.of == "year":
            return [float(2000 + year)]
        return [float(number)] if asked.of == unit else ["not read"]

    return _each("week", "month", "year", of=read)


def _body(of: Callable[[str, str], str]) -> Misreading:
    """A rule of the body, from the tread plies and each load range that stands before them."""

    def read(asked: Asked, item: Item) -> list[float | str]:
        if not isinstance(asked, Molded) or asked.of != "body_by_sidewall_plies":
            return []
        found = _PLIES.search(asked.marking)
        return [of(found[1], letter) for letter in _load_ranges(asked, item)] if found else []

    return read


def _load_ranges(asked: Molded, item: Item) -> list[str]:
    """The letters that stand before these plies, in the stem or in an option."""
    before = re.compile(r"[Rr]ange ([B-H]), " + re.escape(asked.marking))
    return [letter for text in (item.stem, *(one.text for one in item.options)) for letter in before.findall(text)]


def _steel(words: str) -> str:
    return "steel" if "STEEL" in words else "fabric"


def _said_by_tread(tread: str, _letter: str) -> str:
    return _steel(tread)


def _by_range(_tread: str, letter: str) -> str:
    return "steel" if letter == "E" else "fabric"


def _gauge(of: Callable[[float, float], float]) -> Misreading:
    """A rule of a drawn gauge: from what it shows and what one mark is worth [mm]."""

    def read(asked: Asked, item: Item) -> list[float | str]:
        if not isinstance(asked, Reading):
            return []
        return [of(shown.reading_mm(item), shown.mark_mm(item))]

    return read


def _sixteenths(asked: Asked, item: Item) -> list[float | str]:
    in_inches = item.figure is not None and "32nd of an inch" in item.figure.description
    return _gauge(lambda reading, _: 2 * reading)(asked, item) if in_inches else []


def _tread(count: Callable[[float, float, float], float]) -> Misreading:
    """A rule of the depth that decides, from those in the middle and at both edges [mm]."""
    depths = re.compile(r"([\d.]+) mm within the central .+?, ([\d.]+) mm at its inner edge, ([\d.]+) mm at its outer")

    def read(asked: Asked, item: Item) -> list[float | str]:
        found = depths.search(item.stem)
        is_depth = isinstance(asked, Measure) and asked.quantity == "tread.least_depth"
        return [count(*map(float, found.groups()))] if is_depth and found else []

    return read


def _swapped(asked: Asked, item: Item) -> list[float | str]:
    """The outline of a unit, its sides taken for each other: as much as the plan adds, to the other side."""
    if not isinstance(asked, Planned) or asked.of not in ("length", "width") or not asked.units:
        return []
    long, wide = (float(parse_quantity(text, "length").value) for text in asked.units[0])
    own, other = (long, wide) if asked.of == "length" else (wide, long)
    key = float(parse_quantity(str(item.key), "length").value)
    return [other + key - own]


def _pressure(pattern: str, item: Item) -> tuple[float, str]:
    """A pressure in the stem [kPa], with its unit."""
    found = re.search(pattern + r" ([\d,.]+) (psi|kPa|bar)", item.stem)
    if found is None:
        raise ValueError(f"{pattern!r} is not in {item.stem!r}")
    return float(parse_quantity(f"{found[1].replace(',', '')} {found[2]}", "pressure").value), found[2]


def _sidewall_seats(asked: Asked, item: Item) -> list[float | str]:
    if not isinstance(asked, Left):
        return []
    most, _ = _pressure("maximum", item)
    return [most - float(parse_quantity(asked.value, "pressure").value)]


def _limit_itself(asked: Asked, item: Item) -> list[float | str]:
    """The whole of it, though some is there already."""
    if not isinstance(asked, Left):
        return []
    number, _, unit = asked.value.rpartition(" ")
    dimension = {"psi": "pressure", "kPa": "pressure", "passes": "count"}[unit]
    there = float(parse_quantity(f"{number} {unit}", dimension).value)
    key, _, own = str(item.key).rpartition(" ")
    return [float(parse_quantity(f"{key} {own}", dimension).value) + there]


def _runs_with(asked: Asked, item: Item) -> list[float | str]:
    return [1.5 * _pressure("runs at", item)[0]] if isinstance(asked, Share) else []  # 29 CFR 1910.177(d)(3)(i)


def _half_more(asked: Asked, item: Item) -> list[float | str]:
    """29 CFR 1910.177(d)(3)(i), 150 %: fifty more, in the unit of the sidewall: no sidewall is molded in bar."""
    if not isinstance(asked, Share):
        return []
    most, unit = _pressure("marked for", item)
    return [most + float(parse_quantity(f"50 {'kPa' if unit == 'bar' else unit}", "pressure").value)]


def _of_tread_width(asked: Asked, item: Item) -> list[float | str]:
    if not isinstance(asked, Turning) or not asked.path.endswith(".length"):
        return []
    return [max(_CUT_MM, _CUT_SHARE * shown.length_mm("tread is {} wide", item.stem))]


def _half_or_whole(asked: Asked, item: Item) -> list[float | str]:
    """Twice as much where it is asked for from the centerline, half as much where for the whole."""
    if not isinstance(asked, Turning) or not asked.path.endswith(".lateral"):
        return []
    key = float(parse_quantity(str(item.key), "length").value)
    return [key * 2, key / 2]


def _passes_left(each: Mapping[str, int], of: str) -> Misreading:
    """How many passes a body needs that is taken for another one, all sides counted, less those that were made."""

    def read(asked: Asked, _: Item) -> list[float | str]:
        if not isinstance(asked, Left) or not asked.value.endswith("passes"):
            return []
        return [(asked.times or 1) * each[of] - float(asked.value.partition(" ")[0])]

    return read


# Common practice, no published source: three passes each way in fabric, five in cable.
_PASSES = {"fabric": 3, "steel": 5}


def _guessed_use(asked: Molded, _: Item) -> list[float | str]:
    size = shown.marked(asked.marking)
    sign = size.prefix or size.suffix
    return list({"T": ["truck"], "C": ["passenger"], "ST": ["passenger"]}.get(sign, []))


def _letter(asked: Molded, _: Item) -> list[float | str]:
    return [shown.marked(asked.marking).build]


def _built_alike(asked: Molded, _: Item) -> list[float | str]:
    """All of them as most are, or the sign for nothing."""
    return ["radial", "none"]


def _r_for_rim(asked: Molded, _: Item) -> list[float | str]:
    build = shown.marked(asked.marking).build
    return [build] if build == "R" else []


def _aspect(asked: Molded, _: Item) -> list[float | str]:
    return [f"{shown.marked(asked.marking).aspect}"]


# The last two digits of a date code for the month, the first two for the year.
turned_months = _date(lambda first, last: ("month", last, first))

MISREAD: Mapping[str, Misreading] = {
    # a size
    "tread-for-section": _both(_size("tread_width", of=lambda size: size.section_mm), _of_tread_width),
    "rim-for-section": _size("rim_width", of=lambda size: size.section_mm),
    "width-for-height": _both(
        _size("sidewall_height", of=lambda size: size.first_mm), _sized(lambda size: size.section_mm)
    ),
    "width-comes-first": _size("section_width", of=lambda size: size.first_mm),
    "aspect-in-millimeters": _sized(lambda size: float(size.aspect)),
    "aspect-of-rim": _both(
        _each("percent_of_rim", of=_aspect), _sized(lambda size: _whole(size.rim_mm) * size.aspect / 100)
    ),
    "aspect-upside-down": _both(
        _each("width_percent", of=_aspect), _sized(lambda size: size.section_mm / size.aspect * 100)
    ),
    "two-sidewalls-for-one": _size("section_height_mm", of=lambda size: 2 * _whole(_height(size))),
    "one-sidewall": _size("outer_diameter_mm", of=lambda size: size.rim_mm + _height(size)),
    "rim-left-out": _size("outer_diameter_mm", of=lambda size: 2 * _height(size)),
    "rim-for-overall": _size("outer_diameter_mm", "overall_diameter_code", of=lambda size: size.rim_mm),
    "rim-diameter-for-width": _size("rim_width", of=lambda size: size.rim_mm),
    "rim-radius": _size("rim_radius", of=lambda size: size.rim_mm),
    "build-guessed": _each("construction", of=_built_alike),
    "letter-for-service": _each("speed_symbol", "load_range", of=_letter),
    "letter-for-rim": _each("sign_of_rim", of=_r_for_rim),
    "use-guessed": _each("kind", of=_guessed_use),
    # load and speed
    "single-for-dual": _load(lambda single, _, asked: [_kg(single) * _times(asked)] if asked.dual else []),
    "dual-for-single": _load(lambda _, dual, asked: [] if asked.dual else [_kg(dual) * _times(asked)]),
    "pair-shares-the-index": _load(lambda _, dual, asked: [_kg(dual) / 2 * _times(asked)] if asked.dual else []),
    "one-tire-for-the-axle": _load(lambda single, dual, asked: [_kg(_own(single, dual, asked))]),
    "index-in-kilograms": _load(lambda single, dual, asked: [float(_own(single, dual, asked) * _times(asked))]),
    "kilograms-for-pounds": _load(
        lambda single, dual, asked: [_kg(_own(single, dual, asked)) * _times(asked) * _KG_PER_LB]
    ),
    "wrong-line": _both(
        _load(lambda single, dual, asked: [_kg(_own(single, dual, asked) + step) * _times(asked) for step in (1, -1)]),
        _speed(lambda symbol, _: _beside(symbol)),
    ),
    "symbols-by-alphabet": _speed(lambda symbol, _: [float(_BY_ALPHABET[symbol])]),
    "kilometers-for-miles": _speed(lambda symbol, _: [float(round(_SPEEDS[symbol] * _KM_PER_MI))]),
    "index-for-speed": _speed(lambda _, index: [float(index), float(round(index * _KM_PER_MI))]),
    # a date code
    "year-before-week": _date(lambda first, last: ("week", last, first)),
    "month-not-week": _date(lambda first, last: ("month", first, last)),
    "decade-guessed": _date(lambda first, last: ("week", first, last - 10 if last > 15 else last + 10)),
    "weeks-from-midyear": _date(lambda first, last: ("week", first + 26, last)),
    # a body
    "belts-decide": _both(_body(_said_by_tread), _passes_left(_PASSES, "steel")),
    "plies-misread": _body(_said_by_tread),
    "load-range-decides": _body(_by_range),
    # a gauge
    "next-mark": _gauge(lambda reading, mark: reading + mark),
    "mark-before": _gauge(lambda reading, mark: reading - mark),
    "marks-are-sixteenths": _sixteenths,
    "half-marks-missed": _gauge(lambda reading, _: float(int(reading))),
    "edge-of-tread-counts": _tread(min),
    "best-of-tread-counts": _tread(max),
    "middle-counts-for-sale": _tread(lambda middle, *_: middle),
    # a figure
    "width-and-length-mixed": _swapped,
    "running-pressure-seats": _sidewall_seats,
    "limit-not-what-is-left": _limit_itself,
    "running-pressure-in-the-cage": _runs_with,
    "percent-as-pressure": _half_more,
    "half-and-whole-mixed": _half_or_whole,
}
