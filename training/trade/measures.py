"""How measured values read: units as people write them, beside how data files and commands name them. Pure."""

import re
import tomllib
from collections.abc import Mapping
from functools import cache

from training.trade.speech import FOLDER, language, say, saying

# deg, N.m and lbf.ft are typed into files; nobody reads them so
SIGNS = {"deg": "°", "C": " °C", "F": " °F", "N.m": " N·m", "lbf.ft": " ft-lb"}
# what is counted is no unit but a word of the language
_COUNTED = {
    "times": saying("{count} times"),
    "passes": saying("{count} passes"),
    "coats": saying("{count} coats"),
    "years": saying("{count} years"),
}
# a number that stands alone: in "F42F6 F 2115" and "DOT 89C JLXRRL 1121" no temperature is meant
_UNIT = re.compile(r"(?<![\w.,/])([0-9][0-9.,/]*)(?: ?(deg|N\.m|lbf\.ft|times|passes|coats|years|kPa)| (C|F))(?![\w°])")
_PERCENT = re.compile(r"(?<=\d) %(?!\w)")
# a whole number of a unit that no year, code or index stands before; "in" is a word as well
_THOUSANDS = re.compile(
    r"(?<![\w.,/])([1-9][0-9]{3,})(?=%| (?:to [0-9][0-9,.]* )?(?:rpm|kg|lb|mm|km|mi|kPa|psi|N·m|ft-lb)(?![\w/]))"
)
# between a number and its unit, where no line is to end
_BEFORE_UNIT = re.compile(r"(?<=\d) (?=(?:\d+/\d+|in|mm|km|kg|lb|psi|bar|kPa|rpm|mph|km/h|ft-lb|N·m)(?!\w))")
_PARTS = {("kPa", "bar"): 100}


def read_in(unit: str) -> str:
    """The unit in which the place of the language spoken reads what is stated in this one.

    >>> read_in("kPa")
    'kPa'
    """
    return _units_of(language()).get(unit, unit)


@cache
def _units_of(tag: str) -> Mapping[str, str]:
    path = FOLDER / tag.replace("-", "_") / "measures.toml"
    return tomllib.loads(path.read_text(encoding="utf-8")) if path.exists() else {}


def in_signs(text: str) -> str:
    """The text with its units as people read them, its numbers as they are stated.

    >>> in_signs("at most 25 deg; 450 to 500 lbf.ft (610 to 678 N.m), above 15 C")
    'at most 25°; 450 to 500 ft-lb (610 to 678 N·m), above 15 °C'
    """
    return _UNIT.sub(_in_signs, str(text))


def as_read(text: str) -> str:
    """The text as people read it: its units in signs, no space before a percent sign, thousands with a comma.

    Source: Unicode CLDR, en-US and en-GB.

    >>> as_read("80 % of it at 1200 rpm, dated 1200")
    '80% of it at 1,200 rpm, dated 1200'
    """
    return _THOUSANDS.sub(_by_thousands, _PERCENT.sub("%", in_signs(text)))


def unparted(text: str) -> str:
    """The text with no number parted from its unit, or from its fraction, by a line's end.

    >>> unparted("at most 1 1/2 in off") == "at most 1\N{NO-BREAK SPACE}1/2\N{NO-BREAK SPACE}in off"
    True
    """
    return _BEFORE_UNIT.sub("\N{NO-BREAK SPACE}", text)


def _by_thousands(found: re.Match[str]) -> str:
    return f"{int(found[1]):,}"


def _in_signs(found: re.Match[str]) -> str:
    number, unit = found[1], found[2] or found[3]
    if unit in _COUNTED:
        return say(_COUNTED[unit], count=number)
    if unit in SIGNS:
        return number + SIGNS[unit]
    other = read_in(unit)
    if other == unit or not number.replace(".", "", 1).isdigit():
        return found[0]
    return f"{float(number) / _PARTS[unit, other]:g} {other}"
