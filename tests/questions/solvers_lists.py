"""Someone who knows the trade and judges lists line by line, seeing only the open question.

Every number is typed here from its source, never read from the rulebook. A solver returns the set of right options.
"""

import math
import re

MM_PER_IN = 25.4  # international yard and pound agreement, 1959: exact
# Trade press and association article 2008, truck tires: 1 to 1.5 in from each shoulder, read at its stricter end.
SHOULDER_MM = 1.5 * MM_PER_IN


def in_mm(text):
    """The metric figure of "2 7/32 in (56 mm)" or "56 mm (2 7/32 in)"."""
    return float(re.search(r"(\d+(?:\.\d+)?) mm", text)[1])


def diameter_mm(stem):
    value, unit = re.search(r"each ((?:\d+ )?\d+(?:/\d+|\.\d+)?) (in|mm) across", stem).groups()
    assert unit == "mm"
    return float(value)


def holes_by_place(item):
    """Each hole followed from tread to liner: its whole width has to stay inside."""
    across, thick = diameter_mm(item.stem), float(re.search(r"crown is (\d+) mm thick", item.stem)[1])
    groove = re.search(r"outermost groove begins (.+?) from", item.stem)
    tread = re.search(r"Its tread is (.+?) wide", item.stem)
    reach = in_mm(groove[1]) if groove else in_mm(tread[1]) / 2 - SHOULDER_MM
    right = set()
    for option in item.options:
        lateral, angle, way = re.fullmatch(
            r"(\d+) mm off center, (?:leaning (\d+) deg (outward|inward)|straight through)", option.text
        ).groups()
        lean = math.radians(int(angle or 0))
        exits = int(lateral) + thick * math.tan(lean) * (-1 if way == "inward" else 1)
        if max(int(lateral), abs(exits)) + across / math.cos(lean) / 2 <= reach:
            right.add(option.text)
    return right


def repairs_found(item):
    """Common practice: a stem with a patch, or a one-piece unit, may stay where it is in the crown and sound."""
    return {
        option.text
        for option in item.options
        if option.text.startswith(("A stem under a patch in the crown", "A one-piece unit in the crown"))
        and not option.text.endswith(("one edge lifting", "cracked across"))
    }


def sidewalls_read(item):
    """49 CFR 574.5: week, then year. 49 CFR 575.4 and 139.5.5 (from memory): the sidewall plies are the body."""
    right = set()
    for option in item.options:
        dated = re.fullmatch(r"DOT .* (\d\d)(\d\d): week (\d+) of (\d{4})", option.text)
        plies = re.fullmatch(r".*SIDEWALL PL(?:Y|IES) \d (\w+): (steel|fabric) body", option.text)
        if dated and (int(dated[1]), 2000 + int(dated[2])) == (int(dated[3]), int(dated[4])):
            right.add(option.text)
        if plies and (plies[1] == "STEEL") == (plies[2] == "steel"):
            right.add(option.text)
    return right


LISTS = {"holes-by-place": holes_by_place, "repairs-found": repairs_found, "sidewalls-read": sidewalls_read}
