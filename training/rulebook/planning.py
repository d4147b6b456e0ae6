"""The plan of work for a tire that may be repaired: method, unit, stem, outline, tools and steps for each injury."""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from fractions import Fraction
from itertools import combinations
from math import ceil

from training.rulebook.case import Case, EarlierRepair, Injury
from training.rulebook.decision import PlanEntry, Ruling
from training.rulebook.edition import Edition
from training.rulebook.geometry import InjuryGeometry, Rectangle
from training.rulebook.measures import MEASURES, Apart, Facts, Found
from training.rulebook.quantities import UNITS, Quantity, parse_quantity, quantity
from training.rulebook.registry import load_edition
from training.rulebook.spacing import UNIT_FOR, hole_size
from training.rulebook.units import OnShelf, RepairUnit, Stem, fitting_stem, smallest_unit
from training.trade.speech import say

_ANGLE = "injury.angle"
_CARRIED = ("passes_each_way", "cutter_speed", "buffer_speed", "buff_texture", "stem_stands", "drying")


def plan_work(edition: Edition, rulings: Sequence[Ruling], facts: Facts) -> tuple[PlanEntry, ...]:
    """One entry for each injury."""
    return tuple(_entry(edition, injury, rulings, facts) for injury in facts.case.injuries or ())


def to_get(plan: Sequence[PlanEntry], shelf: Sequence[OnShelf]) -> Iterator[str]:
    """What somebody must get before the work begins, since the shelf does not have it."""
    repaired = [entry for entry in plan if entry.method != "surface-fill"]
    if not repaired:
        return
    if not shelf:
        yield say(
            "No shelf is entered: choose the unit and stem from their maker's chart, and draw the outline "
            "around the unit."
        )
        return
    if any(entry.unit is None for entry in repaired):
        yield say("No repair unit on the shelf fits this injury: get one before the work begins.")
    if not any(isinstance(one, Stem) for one in shelf):
        if any(entry.method == "two-piece" for entry in repaired):
            yield say("No stems are on the shelf that was entered: choose the stem from its maker's chart.")
    elif any(entry.method == "two-piece" and entry.stem is None for entry in repaired):
        yield say("No stem on the shelf fills this hole: get one before the work begins.")


def _entry(edition: Edition, injury: Injury, rulings: Sequence[Ruling], facts: Facts) -> PlanEntry:
    case = facts.case
    if injury.kind != "puncture":
        steps = edition.orders.get("surface-fill", ())
        only = "surface-fill"
        return PlanEntry(injury.id, (only,), only, None, None, None, None, None, None, None, None, steps)
    casing = case.tire.casing
    allowed = methods_allowed(edition, injury, rulings)
    method = "one-piece" if case.proposed == "one-piece" and "one-piece" in allowed else "two-piece"
    diameter, _ = hole_size(injury)
    unit = facts.unit(injury)
    if unit is None or unit.kind != UNIT_FOR[method]:
        unit = smallest_unit(facts.shelf, kind=UNIT_FOR[method], casing=casing, diameter=diameter)
    stem = fitting_stem(facts.shelf, casing=casing, diameter=diameter) if method == "two-piece" else None
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
        stem=None if stem is None else stem.to_json(),
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


def as_drawn(side: str, *, prefer: str = "") -> str:
    """A side of the outline as a crayon draws it: outward to the whole millimeter, or to 1/16 in.

    `prefer` is the unit of the rule it is drawn by, "in" or "mm"; "" keeps its own.

    >>> as_drawn("100.4 mm"), as_drawn("3 1/2 in")
    ('101 mm', '3 1/2 in')
    >>> as_drawn("100.4 mm", prefer="in")
    '4 in'
    """
    given = parse_quantity(side, "length")
    unit, parts = ("in", 16) if (prefer or given.unit) == "in" else ("mm", 1)
    return quantity(Fraction(ceil(given.value / UNITS["length"][unit] * parts), parts), unit).text


def _grown(side: Quantity, margin: Quantity) -> Quantity:
    return quantity((side.value + 2 * margin.value) / UNITS["length"][side.unit], side.unit)


def _text(edition: Edition, name: str, casing: str) -> str | None:
    clause = edition.limit(name, casing)
    return None if clause is None else clause.signed_limit


def measured(
    case: Case, quantity: str, subject: str = "", *, edition: Edition, units: Sequence[OnShelf] | None = None
) -> Fraction | float | None:
    """What a measure finds [base unit] of the tire, or of the injury, earlier repair or pair ("A+B") named; None where
    it is not known. KeyError for a quantity or a subject that there is not."""
    on_liner: list[Injury | EarlierRepair] = [*(case.injuries or ()), *(case.earlier_repairs or ())]
    known: dict[str, object] = {"": None} | {one.id: one for one in on_liner}
    known |= {f"{one.id}+{two.id}": Apart(one, two) for one, two in combinations(on_liner, 2)}
    read = MEASURES[quantity].read
    found = None if read is None else read(facts_of(case, edition, units), known[subject])
    if not isinstance(found, Found):
        return None
    return found.value if found.measured is None else found.measured.value


def facts_of(case: Case, edition: Edition, units: Sequence[OnShelf] | None) -> Facts:
    """A case as this edition measures it, with these units on the shelf."""
    casing = case.tire.casing
    margin = outline_margin(edition, casing)
    margin_mm = 0.0 if margin is None else margin.number
    return Facts(case, edition.crowns.get(casing), units or (), margin_mm, free_mm=free_mm(edition, casing))


def free_mm(edition: Edition, casing: str) -> float:
    """The room that two repairs must leave between them [mm]."""
    clause = edition.limit("repairs.gap", casing)
    least = None if clause is None else clause.strictest.quantity
    return 0.0 if least is None else least.number


def injury_geometry(
    case: Case, injury: Injury, *, edition: Edition | None = None, units: Sequence[OnShelf] | None = None
) -> InjuryGeometry:
    """Where an injury starts, leaves, and which unit and outline lie around its exit; None where not measured."""
    edition = edition or load_edition(case.edition, on=case.on)
    facts = facts_of(case, edition, units)
    placed, unit = facts.place(injury), facts.unit(injury)
    lateral, around = placed.exit_lateral_mm, placed.exit_offset_around_mm
    if unit is None or injury.kind != "puncture" or lateral is None or around is None:
        return placed
    length, width = unit.length.number, unit.width.number
    outline = None
    if facts.margin_mm:
        outline = Rectangle(lateral, around, length + 2 * facts.margin_mm, width + 2 * facts.margin_mm)
    return replace(placed, unit=Rectangle(lateral, around, length, width), outline=outline)
