"""What a person types into a form as a quantity: the one place where a bare number takes the unit shown beside it.

Data files and JSON do not come here: there a quantity names its unit (`parse_quantity`).
"""

import re
from fractions import Fraction

from training.rulebook.quantities import (
    UNITS,
    Quantity,
    parse_quantity,
    plain_signs,
    quantity,
    refusal,
    show,
)
from training.trade.measures import SIGNS, read_in
from training.trade.reading import printable
from training.trade.speech import say, saying

_WORDS = {"times": saying("times"), "years": saying("years")}  # what is counted is no sign
THIRTY_SECONDS = "32nds"  # of an inch, as a tread gauge counts them
_LONGEST = 48
_NUMBER = re.compile(r"[+-]? ?(?:(?P<fraction>(?:[0-9]{1,9}[ -])?[0-9]{1,9}/(?P<bottom>[0-9]{1,9}))"
                     r"|[0-9]{1,9}(?:\.[0-9]{1,9})?|\.[0-9]{1,9})")  # fmt: skip
_COUNTED = re.compile(r"(?P<count>.*[0-9])[/ ]32nds?", re.IGNORECASE)
_COMMA = re.compile(r"(?P<before>[+-]? ?(?P<whole>[0-9]{0,9})),(?P<part>[0-9]{1,9})(?P<after> ?(?:[^0-9.,/ ][^,]*)?)")
_EITHER = re.compile(r"(?:^|[^0-9./])[0-9]+,[0-9]+(?![0-9./])")
_THREE = 3
_IN_WHOLES = ("speed",)
# the units a form offers, the first of each pair where a shop puts inches and pounds first
_OFFERED = {
    "length": (("in", "mm"), ("mm", "in")),
    "tread": ((THIRTY_SECONDS, "mm"), ("mm", THIRTY_SECONDS)),
    "pressure": (("psi", "kPa", "bar"), ("kPa", "bar", "psi")),
    "temperature": (("F", "C"), ("C", "F")),
    "mass": (("lb", "kg", "t"), ("kg", "t", "lb")),
    "torque": (("lbf.ft", "N.m"), ("N.m", "lbf.ft")),
    "distance": (("mi", "km"), ("km", "mi")),
    "time": (("min", "s", "h"),) * 2,
}


def units_offered(dimension: str, prefer: str) -> tuple[str, ...]:
    """The units in which a form takes a quantity, the shop's first; "tread" is a length read off a tread gauge.

    >>> units_offered("pressure", "in")
    ('psi', 'kPa', 'bar')
    """
    pair = _OFFERED.get(dimension)
    if pair is None:
        return tuple(UNITS[dimension])[:1]
    own = tuple(read_in(unit) for unit in pair[prefer != "in"])
    return tuple(dict.fromkeys((*own, *pair[prefer != "in"])))


def unit_label(unit: str) -> str:
    """A unit as a shop writes it.

    >>> unit_label("lbf.ft")
    'ft-lb'
    """
    return str(_WORDS.get(unit) or SIGNS.get(unit, unit)).strip()


def typed_quantity(text: str, shown: str, *dimensions: str) -> Quantity:
    """Read what was typed, of the first of the dimensions that it fits.

    A number with a unit keeps its own. A bare one takes `shown`, the unit beside the field; "" refuses it. A comma is a
    decimal comma where it can be nothing else, and parts thousands in a turning speed, which nobody states to a
    thousandth of a turn. Nothing is turned round to be plausible. Raises ValueError with a
    sentence naming the value and what is accepted.

    >>> typed_quantity("2,4 bar", "psi", "pressure").text
    '2.4 bar'
    >>> typed_quantity("10", "32nds", "length").text
    '10/32 in'
    >>> typed_quantity("1,200", "rpm", "speed").text
    '1200 rpm'
    """
    if len(text) > _LONGEST:
        raise ValueError(refusal(text, *dimensions))
    plain = _with_point(re.sub(r" ?/ ?", "/", plain_signs(text)), text, in_wholes=dimensions == _IN_WHOLES)
    if counted := _COUNTED.fullmatch(plain):
        plain, shown = counted["count"], THIRTY_SECONDS
    bare = _NUMBER.fullmatch(plain)
    if bare is not None:
        if shown == THIRTY_SECONDS and "length" in dimensions:
            return _thirty_seconds(plain, bare, text)
        if bare["fraction"] and shown in ("mm", "cm", "m"):
            raise ValueError(say('"{typed}" is a fraction, and the unit beside it is {unit}; give a number such as '
                                 '6.5, or name the unit: "{typed} in"', typed=printable(text), unit=shown))  # fmt: skip
        plain = f"{plain} {shown}"
    for dimension in dimensions:
        try:
            return parse_quantity(plain, dimension)
        except ValueError:
            continue
    raise ValueError(refusal(text, *dimensions))


def typed_quantities(text: str, shown: str, *dimensions: str) -> tuple[Quantity, ...]:
    """Read several, parted by semicolons or commas. Raises ValueError as `typed_quantity` does.

    Between two whole numbers a comma with no space after it is refused: it can be a decimal comma or part two readings.

    >>> [one.text for one in typed_quantities("6, 5, 6/32", "32nds", "length")]
    ['6/32 in', '5/32 in', '6/32 in']
    """
    parts = re.split(r"[;\n]", text)
    if len(parts) == 1:
        if _EITHER.search(text):
            raise ValueError(say('"{typed}" can be one reading or several; write a decimal with a point, as 5.5, and '
                                 'put a space after a comma between readings, as 6, 5',
                                 typed=printable(text)))  # fmt: skip
        parts = text.split(",")
    return tuple(typed_quantity(part.strip(), shown, *dimensions) for part in parts if part.strip())


def read_as(measured: Quantity) -> str:
    """How a typed quantity was understood, the other system in brackets.

    >>> read_as(parse_quantity("3/16 in", "length"))
    '3/16 in (4.8 mm)'
    """
    return show(measured, prefer="in" if measured.system == "customary" else "mm")


def _with_point(plain: str, text: str, *, in_wholes: bool) -> str:
    """The text with a point for its decimal comma. Raises ValueError where the comma may part thousands.

    `in_wholes`: what is read has no thousandths, so that a comma before three digits parts thousands.
    """
    comma = _COMMA.fullmatch(plain)
    if comma is None:
        return plain
    whole, part = comma["whole"], comma["part"]
    if len(part) == _THREE and 0 < len(whole) <= _THREE and not whole.startswith("0"):
        if in_wholes:
            return f"{comma['before']}{part}{comma['after']}"
        joined, pointed = f"{whole}{part}", f"{whole}.{part}"
        raise ValueError(say('"{typed}" can be {whole} or {decimal}; write it without the comma',
                             typed=printable(text), whole=joined, decimal=pointed))  # fmt: skip
    return f"{comma['before']}.{part}{comma['after']}"


def _thirty_seconds(plain: str, bare: re.Match[str], text: str) -> Quantity:
    if bare["fraction"] and bare["bottom"] != "32":
        raise ValueError(say('"{typed}" is a fraction, and the field counts 32nds of an inch; give how many, for '
                             'example 6, or name the unit: "{typed} in"', typed=printable(text)))  # fmt: skip
    if bare["fraction"]:
        return parse_quantity(f"{plain} in", "length")
    if "." in plain:
        return quantity(Fraction(plain.replace(" ", "")) / 32, "in", places=9)
    return parse_quantity(f"{plain}/32 in" if plain.strip("+-0 ") else "0 in", "length")
