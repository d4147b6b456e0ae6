"""Two holes on one liner: what someone decides who counts with units of some size."""

from __future__ import annotations

from assessments.questions.cases.casebook import hole, looked_at
from assessments.questions.drafts.draft import Choice, Draft
from assessments.questions.drafts.seeding import Redraw
from assessments.questions.items.claims import All, Clearance, Decided, Is, Turning
from training.rulebook import Case, Clause, Model, RepairUnit, Ruling, parse_quantity
from training.trade.speech import say

# Length toward the beads and width of a unit, in mm: invented, of the ordinary kind.
SIZES = ((45, 40), (50, 40), (60, 50), (70, 60), (75, 65), (80, 60))
DIAMETER = "5 mm"
_TURN_DEG = 360


def station_deg(draft: Draft, model: Model, apart_mm: int) -> float:
    """The station that lies this far around the liner from 0 deg."""
    case = draft.case(looked_at(model, draft.edition, injuries=[hole(diameter=DIAMETER)]))
    return apart_mm / draft.placed(case).liner_circumference * _TURN_DEG


def answer_with_units(
    draft: Draft, case: Case, model: Model, told: tuple[int, int], sizes: tuple[float, float], *held: str, why: str = ""
) -> tuple[Choice, Ruling]:
    """The option someone picks who counts with units of these sizes, of those that were told, and the ruling behind
    it."""
    length, width = (parse_quantity(f"{size:g} mm", "length") for size in sizes)
    draft.units = [
        RepairUnit(kind, kind, length, width, None, (model.casing,), None) for kind in ("patch", "one-piece")
    ]
    decision = draft.decide(case, *held)
    ruling = next(one for one in decision.rulings if one.subject == "A+B")
    if ruling.holds != (decision.verdict == "repair"):
        raise Redraw("something else decides")
    gap = draft.measured(case, ruling, *held)
    number = round(abs(round(gap, 2) - float(draft.stated(draft.limit("repairs.gap", model.casing)).value)))
    units = ((f"{told[0]} mm", f"{told[1]} mm"),)
    spare = Is(
        Clearance(ruling.clause, ruling.subject, units=units), f"{number if ruling.holds else -number} mm", "0.5 mm"
    )
    text = (
        say("Repair both: {room} mm to spare", room=number)
        if ruling.holds
        else say("Out of service: {missing} mm short", missing=number)
    )
    claim = All((Decided((decision.verdict,), units=units), spare))
    return Choice(text, (why,) if why else (), claim=claim), ruling


def nearest(clause: Clause, old: tuple[int, int], new: tuple[int, int], *, across: bool) -> Turning:
    """What is asked where the unit of a new hole lies beside that of an old one: how near their centers may be.

    On a liner as wide around as its tread, so that a distance along the tread is one on the liner.
    """
    size = {"length": f"{old[0]} mm", "width": f"{old[1]} mm"}
    repair = {"id": "R1", "kind": "two-piece", "injury": DIAMETER, "unit": size, "lateral": "0 mm", "station": "0 deg"}
    tire = {"casing": "passenger", "designation": "205/55R16", "crown_thickness": "0.001 mm"}
    return Turning(
        f"injuries.0.{'lateral' if across else 'station'}",
        "least",
        clause=clause.id,
        case={"tire": tire, "injuries": [hole(diameter=DIAMETER)], "earlier_repairs": [repair]},
        units=((f"{new[0]} mm", f"{new[1]} mm"),),
    )
