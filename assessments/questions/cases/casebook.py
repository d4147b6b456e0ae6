"""Tires that come into a shop: invented cases with plausible numbers, everything looked at, nothing wrong yet."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from math import ceil
from typing import Any

from training.rulebook import FINDINGS, UNITS, Clause, Edition, Model, Quantity, parse_quantity

# The casings a family may ask about, as shops work on them.
MOTORCYCLE = ("motorcycle",)
# what a small length is read to on a rule or a gauge, in mm
READ_TO_MM = {"mm": Fraction(1, 2), "in": UNITS["length"]["in"] / 32}


def looked_at(
    model: Model,
    edition: Edition,
    *,
    injuries: Sequence[dict[str, object]] = (),
    found: Sequence[str] = (),
    doubtful: Sequence[str] = (),
    depth: str = "7/32 in",
    **more: Any,
) -> dict[str, object]:
    """A case with everything examined: off the wheel, every finding looked for, no earlier repair unless given."""
    findings: dict[str, object] = dict.fromkeys(FINDINGS, False)
    if any(injury.get("reaches") == "cord" for injury in injuries):
        del findings["exposed-cord"]  # the cut says it
    findings.update(dict.fromkeys(found, True))
    findings.update(dict.fromkeys(doubtful, "doubt"))
    return {
        "edition": edition.name,
        "on": edition.in_force_from.isoformat(),
        "purpose": "repair",
        "tire": model.to_json(),
        "on_wheel": False,
        "tread_depths": [depth],
        "injuries": list(injuries),
        "findings": findings,
        "earlier_repairs": [],
        **more,
    }


def hole(
    name: str = "A",
    *,
    diameter: str,
    lateral: str = "0 mm",
    station_deg: int = 0,
    angle_deg: int = 0,
    outward: bool = True,
    before: str | None = None,
) -> dict[str, object]:
    """A nail hole. One that leans runs straight outward on its way in, or straight inward to the centerline."""
    away = 180 if lateral.startswith("-") == outward else 0
    injury: dict[str, object] = {
        "id": name,
        "kind": "puncture",
        "diameter": diameter,
        "angle": f"{angle_deg} deg",
        "azimuth": f"{away} deg",
        "lateral": lateral,
        "station": f"{station_deg} deg",
    }
    if before is not None:
        injury["before_removal"] = before
    return injury


def edge_mm(clause: Clause) -> tuple[Fraction, Fraction]:
    """The least and the greatest value any statement of a clause gives as its limit, in the base unit.

    Between the two the statements, or the two units of one, disagree: nothing is asked there. A house rule settles it.
    """
    counted = clause.statements if clause.house is None else (clause.house,)
    values = [quantity.value for statement in counted for quantity in statement.quantities]
    return min(values), max(values)


def readings(unit: str, above_mm: Fraction | int, below_mm: Fraction | int) -> list[str]:
    """Lengths one can read off a rule strictly between two bounds: whole and half millimeters, or 32nds of an inch."""
    found = []
    step = READ_TO_MM[unit]
    mark = int(above_mm / step) + 1
    while mark * step < below_mm:
        found.append(f"{_half(mark)} mm" if unit == "mm" else f"{_of_32(mark)} in")
        mark += 1
    return found


def depths(unit: str, above_mm: Fraction | int, below_mm: Fraction | int) -> list[str]:
    """Tread depths strictly between two bounds, inches in 32nds as the trade speaks of tread: "4/32 in"."""
    if unit == "mm":
        return readings(unit, above_mm, below_mm)
    step = READ_TO_MM[unit]
    first = int(above_mm / step) + 1
    return [f"{mark}/32 in" for mark in range(first, min(first + 64, ceil(below_mm / step)))]


def _half(mark: int) -> str:
    return f"{mark // 2}.5" if mark % 2 else str(mark // 2)


def _of_32(mark: int) -> str:
    whole, rest = divmod(mark, 32)
    part = Fraction(rest, 32)
    return " ".join(word for word in (str(whole) if whole else "", str(part) if rest else "") if word) or "0"


def length(text: str) -> Quantity:
    """The length that this text states."""
    return parse_quantity(text, "length")
