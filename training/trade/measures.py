"""How measured values read: units as people write them, beside how data files and commands name them. Pure."""

import re

from training.trade.speech import say, saying

# deg, N.m and lbf.ft are typed into files; nobody reads them so
SIGNS = {"deg": "°", "C": " °C", "F": " °F", "N.m": " N·m", "lbf.ft": " ft-lb"}
# what is counted is no unit but a word of the language
_COUNTED = {
    "times": saying("{count} times"),
    "passes": saying("{count} passes"),
    "coats": saying("{count} coats"),
    "years": saying("{count} years"),
}
# a number that stands alone: in "F42F6 F 2115" no temperature is meant
_UNIT = re.compile(r"(?<![\w.,/])([0-9][0-9.,/]*) ?(deg|C|F|N\.m|lbf\.ft|times|passes|coats|years)(?![\w°])")


def as_read(text: str) -> str:
    """The text with its units as people read them.

    >>> as_read("at most 25 deg; 450 to 500 lbf.ft (610 to 678 N.m), above 15 C")
    'at most 25°; 450 to 500 ft-lb (610 to 678 N·m), above 15 °C'
    """
    return _UNIT.sub(_as_read, str(text))


def _as_read(found: re.Match[str]) -> str:
    number, unit = found[1], found[2]
    return say(_COUNTED[unit], count=number) if unit in _COUNTED else number + SIGNS[unit]
