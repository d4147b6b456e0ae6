"""Numbers with a unit as people write them in an answer: "5/32" and "in", "5.5" and "mm". Exact."""

from __future__ import annotations

import re
from fractions import Fraction
from functools import lru_cache

from training.rulebook import parse_quantity
from training.trade.speech import say

# The units an answer may be given in, and what each measures; the rulebook converts them.
UNITS: dict[str, str] = {
    "in": "length",
    "mm": "length",
    "psi": "pressure",
    "kPa": "pressure",
    "bar": "pressure",
    "rpm": "speed",
    "deg": "angle",
    "min": "time",
    "mi": "distance",
    "km": "distance",
    "years": "years",
    "times": "count",
    "lb": "mass",
    "kg": "mass",
}

# nobody weighs or turns to a thousandth of these: a comma before three digits is that of thousands, as it is printed
_IN_WHOLE = ("rpm", "lb", "kg", "mi", "km")
_THOUSANDS = re.compile(r"\d{1,3}(?:,\d{3})+")
_NUMBER = re.compile(r"(?:(\d{1,6}) +)?(\d{1,6})/(\d{1,4})|(\d{1,9}(?:\.\d{0,6})?|\.\d{1,6})")


class NotANumber(ValueError):
    """The text is not a number as one writes it on a job card; the message says how to write it."""


def parse_number(text: str) -> Fraction:
    """A plain number, a fraction or a whole and a fraction: "5.5", "7/32", "1 1/2". Not negative.

    >>> parse_number("1 1/2")
    Fraction(3, 2)
    """
    text = " ".join(text.split())
    found = _NUMBER.fullmatch(text)
    if found is None:
        if re.fullmatch(r"\d+,\d+", text):
            raise NotANumber(
                say(
                    '"{typed}" is not accepted; write {number} with a point',
                    typed=text,
                    number=text.replace(",", "."),
                )
            )
        raise NotANumber(say('"{typed}" is not a number; write for example 5.5 or 7/32', typed=text[:40]))
    whole, above, below, plain = found.groups()
    if plain is not None:
        return Fraction(plain)
    if int(below) == 0:
        raise NotANumber(say('"{typed}" divides by zero; write for example 5.5 or 7/32', typed=text))
    return Fraction(int(above), int(below)) + int(whole or 0)


@lru_cache(maxsize=4096)
def parse_measure(text: str) -> tuple[str, Fraction]:
    """What is measured and its exact value in the rulebook's base unit: "1/4 in" is ("length", 6.35 mm).

    Raises NotANumber for the number, ValueError naming the accepted units for the unit.
    """
    number, _, unit = text.rpartition(" ")
    if unit not in UNITS:
        raise ValueError(f'unit: "{unit}" is not accepted; choose {", ".join(UNITS)}')
    if unit in _IN_WHOLE and _THOUSANDS.fullmatch(number.strip()):
        number = number.replace(",", "")
    parse_number(number)
    return UNITS[unit], parse_quantity(f"{number} {unit}", UNITS[unit]).value
