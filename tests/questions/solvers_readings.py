"""Someone who knows which reading counts, and sees only the open question.

Every number is typed from its source, never read from the rulebook. A solver returns the set of right option texts.
"""

import re
from fractions import Fraction

from assessments.questions.items.item import OpenItem
from tests.present import present
from tests.questions.solving import IN, LENGTH, first, fits, gauge_of, mm, of_notes

LEAST_IN, LEAST_MM = Fraction(2, 32), 1.6


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


def between_marks(item: OpenItem) -> set[str]:
    # Common practice, no published source: between two marks a hole counts as the larger one.
    def is_right(note: str) -> bool:
        one, other, counted = re.findall(LENGTH, note)
        is_larger = mm(counted) == max(mm(one), mm(other))
        return is_larger and fits(counted, item) == ("may be repaired" in note)

    return of_notes(item, is_right)


def readings_differ(item: OpenItem) -> set[str]:
    # Common practice, no published source: of two readings of one tread the shallower one is kept.
    # 49 CFR 570.9: 2/32 in; Construction and Use Regulations 1986, regulation 27: 1.6 mm. Nothing is asked between.
    def is_right(note: str) -> bool:
        one, other, kept = (mm(text) for text in re.findall(LENGTH, note))
        assert not float(LEAST_IN * IN) <= kept <= LEAST_MM
        return kept == min(one, other) and (kept > LEAST_MM) == ("may stay" in note)

    return of_notes(item, is_right)


def caliper_verdict(item: OpenItem) -> set[str]:
    shown, unit = gauge_of(present(item.figure).description)
    other = first(r"another reads " + LENGTH, item.stem)
    passes = [fits(f"{shown} {unit}", item), fits(other, item)]
    if passes[0] == passes[1]:
        return {f"{'Both A and' if passes[0] else 'Neither A nor'} B may be repaired"}
    return {"A may be repaired, but B may not" if passes[0] else "B may be repaired, but A may not"}


READINGS = {
    "between-marks": between_marks,
    "readings-differ": readings_differ,
    "caliper-verdict": caliper_verdict,
    "oval-hole": oval_hole,
    "before-cutting": before_cutting,
    "holes-repaired": holes_repaired,
}
