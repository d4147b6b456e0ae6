"""The plan of work for a tire that may be repaired: method, unit, outline, tools and steps for each injury."""

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction

from training.rulebook.case import Case, EarlierRepair, Injury
from training.rulebook.decision import PlanEntry, Ruling
from training.rulebook.edition import Edition
from training.rulebook.geometry import InjuryGeometry, Rectangle, place_injury
from training.rulebook.measures import MEASURES, Apart, Facts, Found
from training.rulebook.quantities import UNITS, Quantity, quantity
from training.rulebook.registry import load_edition
from training.rulebook.spacing import UNIT_FOR, planned_unit
from training.rulebook.units import RepairUnit, smallest_unit

_ANGLE = "injury.angle"
_CARRIED = ("passes_each_way", "cutter_speed", "buffer_speed", "buff_texture", "stem_stands", "drying")


def plan_work(
    case: Case, edition: Edition, rulings: Sequence[Ruling], units: Sequence[RepairUnit]
) -> tuple[PlanEntry, ...]:
    """One entry for each injury."""
    return tuple(_entry(case, edition, injury, rulings, units) for injury in case.injuries or ())


def _entry(
    case: Case, edition: Edition, injury: Injury, rulings: Sequence[Ruling], units: Sequence[RepairUnit]
) -> PlanEntry:
    if injury.kind != "puncture":
        steps = edition.orders.get("surface-fill", ())
        only = "surface-fill"
        return PlanEntry(injury.id, (only,), only, None, None, None, None, None, None, None, None, steps)
    casing = case.tire.casing
    allowed = methods_allowed(edition, injury, rulings)
    method = "one-piece" if case.proposed == "one-piece" and "one-piece" in allowed else "two-piece"
    diameter = injury.diameter or injury.before_removal
    unit = smallest_unit(units, kind=UNIT_FOR[method], casing=casing, diameter=diameter)
    limits = {name: _text(edition, f"job.{name}", casing) for name in _CARRIED}
    return PlanEntry(
        injury=injury.id,
        methods_allowed=allowed,
        method=method,
        unit=None if unit is None else unit.to_json(),
        buff=None if unit is None else buff_size(edition, casing, unit),
        passes_each_way=limits["passes_each_way"],
        cutter_speed=limits["cutter_speed"],
        buffer_speed=limits["buffer_speed"],
        buff_texture=limits["buff_texture"],
        stem_stands=limits["stem_stands"] if method == "two-piece" else None,
        drying=limits["drying"],
        steps=edition.orders.get(method, ()),
    )


def methods_allowed(edition: Edition, injury: Injury, rulings: Sequence[Ruling]) -> tuple[str, ...]:
    """A two-piece repair always; a one-piece unit where the angle was measured and every clause on it holds."""
    held = [
        ruling.holds
        for ruling in rulings
        if ruling.subject == injury.id
        and ruling.clause in edition.clauses
        and edition.clauses[ruling.clause].quantity == _ANGLE
    ]
    return ("one-piece", "two-piece") if held and all(held) else ("two-piece",)


def outline_margin(edition: Edition, casing: str) -> Quantity | None:
    """How far the outline to buff lies beyond the unit on each side."""
    clause = edition.limit("job.outline_margin", casing)
    return None if clause is None else clause.strictest.quantity


def buff_size(edition: Edition, casing: str, unit: RepairUnit) -> dict[str, str] | None:
    """Length and width of the outline to buff: the unit and the margin on each side, in the unit's own units."""
    margin = outline_margin(edition, casing)
    if margin is None:
        return None
    return {name: _grown(side, margin).text for name, side in (("length", unit.length), ("width", unit.width))}


def _grown(side: Quantity, margin: Quantity) -> Quantity:
    return quantity((side.value + 2 * margin.value) / UNITS["length"][side.unit], side.unit)


def _text(edition: Edition, name: str, casing: str) -> str | None:
    clause = edition.limit(name, casing)
    return None if clause is None else clause.limit_text()


def measured(
    case: Case, quantity: str, subject: str = "", *, edition: Edition, units: Sequence[RepairUnit] | None = None
) -> Fraction | float | None:
    """What a measure finds [base unit] of the tire, or of the injury, earlier repair or pair ("A+B") named; None where
    it is not known. KeyError for a quantity or a subject that there is not."""
    on_liner: list[Injury | EarlierRepair] = [*(case.injuries or ()), *(case.earlier_repairs or ())]
    known: dict[str, object] = {"": None} | {one.id: one for one in on_liner}
    for number, first in enumerate(case.injuries or ()):
        known |= {f"{first.id}+{one.id}": Apart(first, one) for one in on_liner[number + 1 :]}
    margin, casing = outline_margin(edition, case.tire.casing), case.tire.casing
    facts = Facts(case, edition.crowns.get(casing), units or (), 0.0 if margin is None else margin.number)
    read = MEASURES[quantity].read
    found = None if read is None else read(facts, known[subject])
    if not isinstance(found, Found):
        return None
    return found.value if found.measured is None else found.measured.value


def injury_geometry(
    case: Case, injury: Injury, *, edition: Edition | None = None, units: Sequence[RepairUnit] | None = None
) -> InjuryGeometry:
    """Where an injury starts, leaves, and which unit and outline lie around its exit; None where not measured."""
    edition = edition or load_edition(case.edition, on=case.on)
    placed = place_injury(case, injury, edition.crowns.get(case.tire.casing))
    unit = planned_unit(case, injury, units or ())
    lateral, around = placed.exit_lateral_mm, placed.exit_offset_around_mm
    if unit is None or injury.kind != "puncture" or lateral is None or around is None:
        return placed
    length, width = unit.length.number, unit.width.number
    margin = outline_margin(edition, case.tire.casing)
    outline = None
    if margin is not None:
        outline = Rectangle(lateral, around, length + 2 * margin.number, width + 2 * margin.number)
    return replace(placed, unit=Rectangle(lateral, around, length, width), outline=outline)
