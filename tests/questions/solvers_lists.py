"""Someone who knows the trade and judges lists line by line, seeing only the open question.

Every number is typed here from its source, never read from the rulebook. A solver returns the set of right options.
"""

import re

from assessments.questions.items.item import OpenItem


def repairs_found(item: OpenItem) -> set[str]:
    """Common practice: a stem with a patch, or a one-piece unit, may stay where it is in the crown and sound."""
    return {
        option.text
        for option in item.options
        if option.text.startswith(("A stem under a patch in the crown", "A one-piece unit in the crown"))
        and not option.text.endswith(("one edge lifting", "cracked across"))
    }


def sidewalls_read(item: OpenItem) -> set[str]:
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


LISTS = {"repairs-found": repairs_found, "sidewalls-read": sidewalls_read}
