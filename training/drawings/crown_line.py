"""The line at which a rulebook ends the repairable crown of a tire, as a drawing marks and names it."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from math import floor

from training.rulebook import Case, Clause, Edition, Quantity, half_crown_mm, quantity
from training.trade.speech import say

# What limits the whole hole at the liner: the crown itself, or the distance from the shoulders.
_MARGIN, _SHOULDER = "injury.exit_margin", "injury.exit_shoulder_distance"
_NO_PART = 1e-6  # of the last part printed, lost in computing


@dataclass(frozen=True, slots=True)
class CrownLine:
    """Where the line lies on either side of the centerline [mm], what it is, and whether it is the groove itself."""

    at_mm: float
    name: str
    is_groove: bool

    def label(self, unit: str) -> str:
        """Its distance from the centerline in "in" or "mm", to 1/32 in or 0.1 mm, never farther out than it lies."""
        return _told(self.at_mm, unit).text


def end_of_crown(case: Case, edition: Edition) -> CrownLine | None:
    """None where the rulebook limits no hole at the liner of this casing, or a measurement is missing."""
    casing, width = case.tire.casing, case.tire.tread_width
    half = None if width is None else width.number / 2
    rule = edition.crowns.get(casing)
    clause = edition.limit(_MARGIN, casing)
    if clause is not None and rule is not None:
        crown = half_crown_mm(case, rule)
        if crown is None:
            return None
        end, inset = crown if half is None else min(crown, half), _inset_mm(clause, case)
        if inset > 0 or end != crown:
            return CrownLine(end - inset, say("limit"), False)
        if rule.basis == "outer-groove":
            return CrownLine(end, say("outer groove"), True)
        return CrownLine(end, say("edge of area T") if rule.basis == "section-width" else say("limit"), False)
    clause = edition.limit(_SHOULDER, casing)
    if clause is None or half is None:
        return None
    return CrownLine(half - _inset_mm(clause, case), say("limit"), False)


def _inset_mm(clause: Clause, case: Case) -> float:
    """How far inside the edge the strictest statement that counts wants the hole to end."""
    counted = clause.deciding(case.jurisdiction)
    return max((float(each.value) for one in counted for each in one.quantities), default=0.0)


def _told(length_mm: float, unit: str) -> Quantity:
    each, parts = (25.4, 32) if unit == "in" else (1.0, 10)
    return quantity(Fraction(floor(length_mm / each * parts + _NO_PART), parts), unit)
