"""How measured values read: units as people write them, beside how data files and commands name them. Pure."""

import re

# deg, N.m and lbf.ft are typed into files; nobody reads them so
SIGNS = {"deg": "°", "C": " °C", "F": " °F", "N.m": " N·m", "lbf.ft": " ft-lb"}
# a number that stands alone: in "F42F6 F 2115" no temperature is meant
_UNIT = re.compile(r"(?<![\w.,/])([0-9][0-9.,/]*) ?(deg|C|F|N\.m|lbf\.ft)(?![\w°])")


def as_read(text: str) -> str:
    """The text with its units as people read them.

    >>> as_read("at most 25 deg; 450 to 500 lbf.ft (610 to 678 N.m), above 15 C")
    'at most 25°; 450 to 500 ft-lb (610 to 678 N·m), above 15 °C'
    """
    return _UNIT.sub(lambda found: found[1] + SIGNS[found[2]], text)
