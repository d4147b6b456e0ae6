"""Quantities with their unit, exact: text in, a Fraction in the base unit inside, both systems on paper."""

import re
from dataclasses import dataclass, field
from fractions import Fraction
from functools import lru_cache
from math import floor

from training.trade.lists import either
from training.trade.measures import SIGNS, as_read, in_signs
from training.trade.reading import printable
from training.trade.speech import say, saying

_POUND_KG = Fraction("0.45359237")
_POUND_FORCE_N = _POUND_KG * Fraction("9.80665")
_INCH_MM = Fraction("25.4")

# Base unit first. Conversions are exact by definition (international yard and pound agreement; NIST SP 811, App. B).
UNITS: dict[str, dict[str, Fraction]] = {
    "length": {"mm": Fraction(1), "cm": Fraction(10), "m": Fraction(1000), "in": _INCH_MM},
    "angle": {"deg": Fraction(1)},
    "speed": {"rpm": Fraction(1)},
    "pressure": {
        "kPa": Fraction(1),
        "bar": Fraction(100),
        "psi": _POUND_FORCE_N / (_INCH_MM / 1000) ** 2 / 1000,
    },
    "time": {"min": Fraction(1), "s": Fraction(1, 60), "h": Fraction(60)},
    "temperature": {"C": Fraction(1), "F": Fraction(5, 9)},
    "mass": {"kg": Fraction(1), "lb": _POUND_KG, "t": Fraction(1000)},
    "torque": {"N.m": Fraction(1), "lbf.ft": _POUND_FORCE_N * Fraction("0.3048")},
    "distance": {"km": Fraction(1), "mi": Fraction("1.609344")},
    "percent": {"%": Fraction(1)},
    "years": {"years": Fraction(1)},
    "count": {"times": Fraction(1), "passes": Fraction(1), "coats": Fraction(1)},
}
_DIMENSIONS = {unit: dimension for dimension, units in UNITS.items() for unit in units}
_CUSTOMARY = frozenset({"in", "psi", "F", "lb", "lbf.ft", "mi"})
_METRIC = frozenset({"mm", "cm", "m", "kPa", "bar", "C", "kg", "t", "N.m", "km"})
_PAIRS = {"length": ("in", "mm"), "pressure": ("psi", "kPa"), "temperature": ("F", "C"), "mass": ("lb", "kg"),
          "torque": ("lbf.ft", "N.m"), "distance": ("mi", "km")}  # fmt: skip
_SPELLINGS = {
    "in.": "in", "inch": "in", "inches": "in", '"': "in", "″": "in", "”": "in", "millimeter": "mm", "millimeters": "mm",
    "millimetre": "mm", "millimetres": "mm", "degree": "deg", "degrees": "deg", "°": "deg", "r/min": "rpm",
    "minute": "min", "minutes": "min", "sec": "s", "second": "s", "seconds": "s", "hour": "h", "hours": "h",
    "°c": "C", "degc": "C", "°f": "F", "degf": "F", "lbs": "lb", "kgs": "kg", "nm": "N.m", "n·m": "N.m", "n m": "N.m",
    "n-m": "N.m", "lbf·ft": "lbf.ft", "lbf-ft": "lbf.ft", "lb-ft": "lbf.ft", "lb·ft": "lbf.ft", "ft-lb": "lbf.ft",
    "ft·lb": "lbf.ft", "ft-lbf": "lbf.ft", "ft·lbf": "lbf.ft", "ft lb": "lbf.ft", "ft-lbs": "lbf.ft",
    "ft lbs": "lbf.ft", "lb ft": "lbf.ft", "mins": "min", "hr": "h", "hrs": "h", "percent": "%", "mile": "mi",
    "miles": "mi", "pass": "passes", "time": "times", "coat": "coats", "year": "years",
}  # fmt: skip
_NAMES = {
    "length": (saying("a length"), ('"7.5 mm"', '"1/4 in"')),
    "angle": (saying("an angle"), ('"12 deg"',)),
    "speed": (saying("a turning speed"), ('"1200 rpm"',)),
    "pressure": (saying("a pressure"), ('"220 kPa"', '"32 psi"')),
    "time": (saying("a time"), ('"4 min"',)),
    "temperature": (saying("a temperature"), ('"21 C"', '"70 F"')),
    "mass": (saying("a mass"), ('"1800 kg"', '"4000 lb"')),
    "torque": (saying("a torque"), ('"610 N.m"', '"450 lbf.ft"')),
    "distance": (saying("a driving distance"), ('"50 mi"', '"80 km"')),
    "percent": (saying("a percentage"), ('"80 %"',)),
    "years": (saying("a number of years"), ('"10 years"',)),
    "count": (saying("a count"), ('"3 times"',)),
}
_FRACTIONS = {
    "¼": "1/4", "½": "1/2", "¾": "3/4", "⅛": "1/8", "⅜": "3/8", "⅝": "5/8", "⅞": "7/8", "⅓": "1/3", "⅔": "2/3",
    "⅙": "1/6", "⅚": "5/6", "⅕": "1/5", "⅖": "2/5", "⅗": "3/5", "⅘": "4/5",
}  # fmt: skip
_CHARACTERS = {ord(sign): f" {text}" for sign, text in _FRACTIONS.items()} | {
    0x2212: "-", 0x2044: "/", 0xA0: " ", 0x202F: " ", 0x2009: " "}  # fmt: skip
_PATTERN = re.compile(
    r"(?P<sign>[+-]?) ?(?:(?:(?P<whole>[0-9]{1,9})[ -])?(?P<top>[0-9]{1,9})/(?P<bottom>[0-9]{1,9})"
    r"|(?P<decimal>[0-9]{1,9}(?:\.[0-9]{1,9})?|\.[0-9]{1,9})) ?(?P<unit>\D.{0,19})"
)
_TENTHS = ("mm", "km", "mi", "C")  # told to a tenth where they are converted
_FREEZING_F = 32
_NINE_PLACES = 9
_NO_PART = 1e-6  # what a binary fraction may lack of the length that it stands for


@dataclass(frozen=True, slots=True)
class Quantity:
    """One measured or stated value: `text` as stated, `value` exact in the base unit of its `dimension`.

    Base units: mm, deg, rpm, kPa, min, C, kg, N.m, km, %. `number` is the same value as a float, for drawing.
    """

    text: str
    value: Fraction
    unit: str
    dimension: str
    number: float = field(init=False, repr=False, compare=False)
    system: str = field(init=False, repr=False, compare=False)

    def __post_init__(self) -> None:
        object.__setattr__(self, "number", float(self.value))
        system = "customary" if self.unit in _CUSTOMARY else "metric" if self.unit in _METRIC else ""
        object.__setattr__(self, "system", system)

    def __str__(self) -> str:
        return self.text

    @property
    def printed(self) -> str:
        """The text as it is printed for people: "12°"."""
        sign = SIGNS.get(self.unit)
        if sign is None:
            return in_signs(self.text) if self.dimension == "pressure" else self.text
        return self.text.removesuffix(self.unit).rstrip() + sign


def accepted_form(dimension: str) -> str:
    """What a person may write for this dimension, as the end of an error sentence.

    >>> accepted_form("angle")
    'give a number and a unit, for example "12 deg"'
    """
    return say("give a number and a unit, for example {examples}", examples=_examples(dimension))


def _examples(dimension: str) -> str:
    return either(_NAMES[dimension][1])


def refusal(text: object, *dimensions: str) -> str:
    """The sentence that refuses `text`, naming what is accepted instead.

    >>> print(refusal("7,5", "length"))
    "7,5" is not a length; give a number and a unit, for example "7.5 mm" or "1/4 in"
    """
    shown = f'"{printable(text)}"' if isinstance(text, str) else printable(repr(text))
    return say(
        "{given} is not {quantity}; give a number and a unit, for example {examples}",
        given=shown,
        quantity=either(_NAMES[dimension][0] for dimension in dimensions),
        examples=either(map(_examples, dimensions)),
    )


def parse_quantity(text: object, dimension: str) -> Quantity:
    """Read `text` as a quantity of `dimension`; a bare number is refused.

    Raises ValueError with a sentence naming the value and what is accepted.

    >>> parse_quantity("1 1/2 in", "length").value
    Fraction(381, 10)
    >>> parse_quantity("6mm", "length").text
    '6 mm'
    """
    if type(text) is str and len(text) <= 48:
        return _parse(text, dimension)
    raise ValueError(refusal(text, dimension))


def plain_signs(text: str) -> str:
    """The text with single spaces, and with the signs of a keyboard for those of a printer.

    >>> plain_signs("1½  in")
    '1 1/2 in'
    """
    return " ".join(text.translate(_CHARACTERS).split())


@lru_cache(maxsize=16384)
def _parse(text: str, dimension: str) -> Quantity:
    match = _PATTERN.fullmatch(plain_signs(text))
    if match is None:
        raise ValueError(refusal(text, dimension))
    spelled = match["unit"].strip()
    unit = _SPELLINGS.get(spelled.lower(), spelled)
    if unit not in UNITS[dimension]:
        unit = next((name for name in UNITS[dimension] if name.lower() == unit.lower()), "")
    if not unit or (match["bottom"] and not int(match["bottom"])):
        raise ValueError(refusal(text, dimension))
    if match["top"]:
        number = Fraction(int(match["top"]), int(match["bottom"])) + int(match["whole"] or 0)
        written = (
            f"{match['whole']} {match['top']}/{match['bottom']}"
            if match["whole"]
            else f"{match['top']}/{match['bottom']}"
        )
    else:
        number = Fraction(match["decimal"])
        written = "0" + match["decimal"] if match["decimal"].startswith(".") else match["decimal"]
    if match["sign"] == "-" and number:
        number, written = -number, "-" + written
    return Quantity(f"{written} {unit}", _to_base(number, unit, dimension), unit, dimension)


def _to_base(number: Fraction, unit: str, dimension: str) -> Fraction:
    if unit == "F":
        number -= _FREEZING_F
    return number * UNITS[dimension][unit]


def in_unit(quantity: Quantity, unit: str) -> Fraction:
    """The exact number of `unit` in a quantity.

    >>> in_unit(parse_quantity("1/4 in", "length"), "mm")
    Fraction(127, 20)
    """
    number = quantity.value / UNITS[quantity.dimension][unit]
    return number + _FREEZING_F if unit == "F" else number


@lru_cache(maxsize=16384, typed=True)  # the same few lengths are told again and again
def quantity(number: Fraction | int | float, unit: str, *, places: int = 2) -> Quantity:
    """A quantity from a number: rounded to `places` decimals, or kept as a fraction where the inch has one to 1/64.

    >>> quantity(Fraction(5, 16), "in").text
    '5/16 in'
    >>> quantity(90.4, "mm").text
    '90.4 mm'
    """
    dimension = _DIMENSIONS[unit]
    if type(number) is Fraction:
        exact = number
    elif isinstance(number, float):
        exact = Fraction(round(number, _NINE_PLACES)).limit_denominator(10**9)
    else:
        exact = Fraction(number)
    if unit == "in" and exact.denominator in (1, 2, 4, 8, 16, 32, 64):
        return parse_quantity(f"{_mixed(exact)} in", dimension)
    return parse_quantity(f"{_decimal(exact, places)} {unit}", dimension)


def length_mm(number: Fraction | int | float) -> Quantity:
    """A length from millimeters, to 1/100 mm."""
    return quantity(number, "mm")


@lru_cache(maxsize=16384)
def read_off(number_mm: Fraction | float, prefer: str) -> Quantity:
    """A computed length as a person reads it, to 1/10 mm or 1/32 in; `prefer` is "mm" or "in".

    Rounded down, so that what falls short of a limit never reads as if it met it.

    >>> read_off(39.05, "mm").text
    '39 mm'
    >>> read_off(-0.04, "in").text
    '-1/32 in'
    """
    unit, parts = ("in", 32) if prefer == "in" else ("mm", 10)
    number = Fraction(floor(float(number_mm) / float(UNITS["length"][unit]) * parts + _NO_PART), parts)
    return quantity(number, unit)


def mm(length: Quantity) -> float:
    """Millimeters of a length, for drawing."""
    return length.number


def _decimal(number: Fraction, places: int) -> str:
    top, bottom = number.numerator * 10**places, number.denominator
    count = top if bottom == 1 else round(Fraction(top, bottom))
    if not places:
        return f"{count}"
    whole, part = divmod(abs(count), 10**places)
    shown = f"{whole}.{part:0{places}}".rstrip("0") if part else f"{whole}"
    return f"-{shown}" if count < 0 else shown


def _mixed(number: Fraction) -> str:
    sign, number = ("-", -number) if number < 0 else ("", number)
    bottom = number.denominator
    whole, rest = divmod(number.numerator, bottom)
    if not rest:
        return f"{sign}{whole}"
    part = f"{rest}/{bottom}"
    return f"{sign}{whole} {part}" if whole else f"{sign}{part}"


def show(measured: Quantity, *, prefer: str = "in") -> str:
    """Print a quantity in the preferred system first, the other in brackets; inches to 1/32.

    `prefer` is "in" (US customary first) or "mm" (metric first). The stated text is never rounded, only the conversion.

    >>> show(parse_quantity("20 mm", "length"))
    '25/32 in (20 mm)'
    >>> show(parse_quantity("1/4 in", "length"), prefer="mm")
    '6.4 mm (1/4 in)'
    """
    pair = _PAIRS.get(measured.dimension)
    if pair is None:
        return as_read(measured.printed)
    customary, metric = pair
    other = _converted(measured, metric if measured.system == "customary" else customary)
    stated_first = (measured.system == "customary") == (prefer == "in")
    return as_read(f"{measured.printed} ({other})" if stated_first else f"{other} ({measured.printed})")


def converted(measured: Quantity) -> Quantity:
    """A quantity in the other system as people read it there, rounded; itself where there is no other.

    >>> converted(parse_quantity("20 mm", "length")).text
    '25/32 in'
    """
    customary, metric = _PAIRS.get(measured.dimension, (measured.unit, measured.unit))
    unit = metric if measured.system == "customary" else customary
    number = in_unit(measured, unit)
    if unit == "in":
        number = Fraction(round(number * 32), 32)
    return quantity(number, unit, places=1 if unit in _TENTHS else 0)


def _converted(measured: Quantity, unit: str) -> str:
    number = in_unit(measured, unit)
    if unit == "in":
        nearest = Fraction(round(number * 32), 32)
        if not nearest and number:
            return say("less than 1/32 in")
        return f"{_mixed(nearest)} in"
    places = 1 if unit in _TENTHS else 0
    return in_signs(f"{_decimal(number, places)} {unit}")
