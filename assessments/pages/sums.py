"""How far out a channel comes, as a sum one can follow: every term as it is printed, so that the terms add up.

Inches in thirty-seconds, metric to 0.1 mm; finer only where the rounded terms would tell the wrong side of the limit.
"""

from dataclasses import dataclass
from fractions import Fraction
from math import cos, floor, radians, tan

from training.drawings import CrownLine
from training.rulebook import Case, InjuryGeometry, Quantity, in_unit, quantity
from training.trade.measures import as_read
from training.trade.speech import say

_MM = {"in": 25.4, "mm": 1.0}
_PARTS = {"in": (32, 64, 128), "mm": (10, 100)}
_OF_LIMIT = 1e-6  # mm; nearer than that a hole ends on the limit
_NO_PART = 1e-6  # of the last part printed, lost in computing


@dataclass(frozen=True)
class Row:
    """A term of the sum: what it is, how it comes about ("" where that needs no words), its length with its sign.

    `kind` is "" for a term, "total" where the terms above are added up, "past" or "inside" for what is left at the end.
    """

    label: str
    formula: str
    length: str
    kind: str = ""


@dataclass(frozen=True)
class Sum:
    """From the center outward on the side where the channel lies, in whole parts of `unit` ("in" or "mm").

    `move` is negative for a channel that leans inward.
    """

    unit: str
    parts: int
    entry: int
    move: int
    half: int
    limit: int

    @property
    def edge(self) -> int:
        """The far edge at the liner."""
        return self.entry + self.move + self.half

    @property
    def past(self) -> int:
        """How far past the limit the far edge lies at the liner; below zero inside it."""
        return self.edge - self.limit

    @property
    def past_at_tread(self) -> int:
        """The same at the tread."""
        return self.entry + self.half - self.limit

    def told(self, count: int) -> str:
        """A length of so many parts, as it is read."""
        return as_read(quantity(Fraction(abs(count), self.parts), self.unit).text)


def sum_of(placed: InjuryGeometry, line: CrownLine, unit: str) -> Sum | None:
    """None where a measurement is missing, or the channel crosses the centerline."""
    entry, leaves, half = placed.lateral_mm, placed.exit_lateral_mm, placed.half_lateral_mm
    if entry is None or leaves is None or half is None or entry * leaves < 0:
        return None
    entry, leaves = abs(entry), abs(leaves)
    truly = leaves + half - line.at_mm, entry + half - line.at_mm
    for parts in _PARTS[unit]:
        counts = [round(length / _MM[unit] * parts) for length in (entry, leaves - entry, half)]
        found = Sum(unit, parts, counts[0], counts[1], counts[2], floor(line.at_mm / _MM[unit] * parts + _NO_PART))
        if all(_agree(shown, true) for shown, true in zip((found.past, found.past_at_tread), truly, strict=True)):
            break
    return found


def _agree(shown: int, true_mm: float) -> bool:
    """Is what is printed on the same side of the limit as the hole?"""
    return shown > 0 if true_mm > _OF_LIMIT else shown <= 0


def rows_of(found: Sum, case: Case, line: CrownLine) -> tuple[Row, ...]:
    """The sum of the one hole of a case, line by line."""
    told = found.told
    label = say("Limit: {line}", line=line.name) if line.name != say("limit") else say("Limit")
    past = found.past
    return (
        Row(say("Goes in, from the center"), "", told(found.entry)),
        Row(
            say("Leans inward: thickness × tangent of the lean")
            if found.move < 0
            else say("Leans outward: thickness × tangent of the lean"),
            _move_formula(case, found.unit),
            f"{'−' if found.move < 0 else '+'} {told(found.move)}",
        ),
        Row(say("Half of the hole, cut at the lean"), _half_formula(case, found.unit), f"+ {told(found.half)}"),
        Row(say("Far edge at the liner"), "", told(found.edge), "total"),
        Row(label, "", told(found.limit)),
        Row(say("Past it by") if past > 0 else say("Inside it by"), "", told(past), "past" if past > 0 else "inside"),
    )


def _move_formula(case: Case, unit: str) -> str:
    thick, hole = case.tire.crown_thickness, (case.injuries or ())[0]
    if thick is None or hole.angle is None or not _runs_across(case):
        return ""
    return say(
        "{thickness} × tan {angle:g}° = {thickness} × {factor:.3f}",
        thickness=_plain(thick, unit),
        angle=hole.angle.number,
        factor=tan(radians(hole.angle.number)),
    )


def _half_formula(case: Case, unit: str) -> str:
    hole = (case.injuries or ())[0]
    if hole.diameter is None or hole.angle is None or not _runs_across(case):
        return ""
    return say(
        "half of {hole} ÷ cos {angle:g}° = half of {hole} ÷ {factor:.3f}",
        hole=_plain(hole.diameter, unit),
        angle=hole.angle.number,
        factor=cos(radians(hole.angle.number)),
    )


def _runs_across(case: Case) -> bool:
    """Does the channel run straight across the tire, so that all of its lean counts?"""
    turned = (case.injuries or ())[0].azimuth
    return turned is None or turned.number % 180 == 0


def _plain(length: Quantity, unit: str) -> str:
    """A measured length in the unit of the sum alone."""
    if length.unit == unit:
        return length.text
    return quantity(round(float(in_unit(length, unit)), 3), unit).text
