"""Two holes on one liner: whether units of some size leave room for both."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from functools import lru_cache
from math import ceil

from assessments.questions.cases.casebook import hole, looked_at
from assessments.questions.drafts.draft import Draft
from assessments.questions.drafts.seeding import Redraw
from assessments.questions.items.claims import Turning
from training.rulebook import UNITS, Case, Clause, Model, RepairUnit, Ruling, parse_quantity

Size = tuple[Fraction, Fraction]  # of a unit: length toward the beads and width [mm]

# By the unit they are told in: invented, of the ordinary kind.
MILLIMETERS = ((45, 40), (50, 40), (60, 50), (70, 60), (75, 65), (80, 60))
_EIGHTHS = ((14, 12), (16, 12), (19, 16), (22, 19), (24, 20), (25, 19))
_EIGHTH_MM = UNITS["length"]["in"] / 8
DIAMETER = "5 mm"  # of every hole on such a liner
_TURN_DEG = 360
_LEAST_MM, _MOST_MM = 3, 12  # how much room there is at least, or is missing, and how much at most where it is all one


def sizes(draft: Draft) -> tuple[Size, ...]:
    """Sizes of repair units as a maker prints them in the unit told [mm]."""
    marks, mark = (_EIGHTHS, _EIGHTH_MM) if draft.prefer == "in" else (MILLIMETERS, Fraction(1))
    return tuple((long * mark, wide * mark) for long, wide in marks)


def station_deg(draft: Draft, model: Model, apart_mm: Fraction) -> float:
    """The station that lies this far around the liner from 0 deg, to 0.01 deg; rounded up, so that the rulebook, which
    rounds what is free down, reads no less than was told."""
    case = draft.case(looked_at(model, draft.edition, injuries=[hole(diameter=DIAMETER)]))
    return ceil(float(apart_mm) / draft.placed(case).liner_circumference * _TURN_DEG * 100) / 100


def room_for(draft: Draft, sides: Sequence[Fraction], fitting: tuple[bool, bool]) -> Fraction:
    """How far apart the centers of two holes lie [mm], before the gap between the units, so that of units of which
    these sides [mm] lie between the holes each fits as wanted. Redraw where the smaller one would not fit."""
    low, high = min(sides), max(sides)
    if fitting == (True, True):
        return draft.between(high + _LEAST_MM, high + _MOST_MM)
    if fitting == (False, False):
        return draft.between(low - _MOST_MM, low - _LEAST_MM)
    if (sides[0] < sides[1]) != fitting[0]:
        raise Redraw("the smaller unit is the other one")
    return draft.between(low + _LEAST_MM, high - _LEAST_MM)


def repairs_with(draft: Draft, case: Case, model: Model, size: Size, *held: str) -> Ruling:
    """The ruling on the room between holes A and B, both repaired with units of this size, by who holds these
    misconceptions. Redraw where something else decides."""
    draft.units = _shelf(draft.told(size[0]), draft.told(size[1]), model.casing)
    decision = draft.decide(case, *held)
    ruling = next(one for one in decision.rulings if one.subject == "A+B")
    if ruling.holds != (decision.verdict == "repair"):
        raise Redraw("something else decides")
    return ruling


@lru_cache(maxsize=256)
def _shelf(length: str, width: str, casing: str) -> tuple[RepairUnit, ...]:
    """Units of this size alone; the same object for the same size, so that what is decided with it is decided once."""
    long, wide = parse_quantity(length, "length"), parse_quantity(width, "length")
    return tuple(RepairUnit(kind, kind, long, wide, None, (casing,), None) for kind in ("patch", "one-piece"))


def nearest(clause: Clause, old: tuple[str, str], new: tuple[str, str], *, across: bool) -> Turning:
    """What is asked where the unit of a new hole lies beside that of an old one: how near their centers may be.

    On a liner as wide around as its tread, so that a distance along the tread is one on the liner.
    """
    size = {"length": old[0], "width": old[1]}
    repair = {"id": "R1", "kind": "two-piece", "injury": DIAMETER, "unit": size, "lateral": "0 mm", "station": "0 deg"}
    tire = {"casing": "passenger", "designation": "205/55R16", "crown_thickness": "0.001 mm"}
    return Turning(
        f"injuries.0.{'lateral' if across else 'station'}",
        "least",
        clause=clause.id,
        case={"tire": tire, "injuries": [hole(diameter=DIAMETER)], "earlier_repairs": [repair]},
        units=(new,),
    )
