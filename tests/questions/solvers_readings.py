"""Someone who knows which reading counts, and sees only the open question.

Every number is typed from its source, never read from the rulebook. A solver returns the set of right option texts.
"""

import re

from assessments.questions.items.item import OpenItem
from tests.questions.solving import LENGTH, first, fits, mm, of_notes


def oval_hole(item: OpenItem) -> set[str]:
    # Common practice, no published source: a hole counts at its widest.
    def is_right(note: str) -> bool:
        one, other, counted = re.findall(LENGTH, note)
        is_widest = mm(counted) == max(mm(one), mm(other))
        return is_widest and fits(counted, item) == ("may be repaired" in note)

    return of_notes(item, is_right)


def before_cutting(item: OpenItem) -> set[str]:
    # US association wall chart: the size counts that the hole has after the damage is removed. No cutter makes it less.
    def is_right(note: str) -> bool:
        if not fits(first(LENGTH, note), item):
            return "nothing is cut" in note
        return "measured again, and that size decides" in note

    return of_notes(item, is_right)


def holes_repaired(item: OpenItem) -> set[str]:
    # Common practice, no published source: under an earlier repair no larger hole than one that may be repaired.
    return of_notes(item, lambda note: fits(first(LENGTH, note), item) == ("stays in service" in note))


READINGS = {
    "oval-hole": oval_hole,
    "before-cutting": before_cutting,
    "holes-repaired": holes_repaired,
}
