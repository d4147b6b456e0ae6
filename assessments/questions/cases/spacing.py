"""Two holes on one liner: what someone decides who counts with units of some size."""

from __future__ import annotations

import re

from assessments.questions.cases.casebook import hole, looked_at
from assessments.questions.draws.draft import Draft
from assessments.questions.draws.seeding import Redraw
from training.rulebook import Case, Model, RepairUnit, Ruling, parse_quantity

# Length toward the beads and width of a unit, in mm: invented, of the ordinary kind.
SIZES = ((45, 40), (50, 40), (60, 50), (70, 60), (75, 65), (80, 60))
DIAMETER = "5 mm"
_TURN_DEG = 360
_NUMBER = re.compile(r"[\d.]+")


def station_deg(draft: Draft, model: Model, apart_mm: int) -> float:
    """The station that lies this far around the liner from 0 deg."""
    case = draft.case(looked_at(model, draft.edition, injuries=[hole(diameter=DIAMETER)]))
    return apart_mm / draft.placed(case).liner_circumference * _TURN_DEG


def judged(draft: Draft, case: Case, model: Model, sizes: tuple[float, float], *held: str) -> tuple[str, bool, Ruling]:
    """The option someone picks who counts with units of these sizes, whether it repairs, and the ruling behind it."""
    length, width = (parse_quantity(f"{size:g} mm", "length") for size in sizes)
    draft.units = [
        RepairUnit(kind, kind, length, width, None, (model.casing,), None) for kind in ("patch", "one-piece")
    ]
    decision = draft.decide(case, *held)
    ruling = next(one for one in decision.rulings if one.subject == "A+B")
    if ruling.holds != (decision.verdict == "repair"):
        raise Redraw("something else decides")
    gap = float(_NUMBER.findall(ruling.found)[0]) * (-1 if "overlap" in ruling.found else 1)
    number = round(abs(gap - float(draft.stated(draft.limit("repairs.gap", model.casing)).value)))
    if ruling.holds:
        return f"Repair both: {number} mm to spare", True, ruling
    return f"Out of service: {number} mm short", False, ruling
