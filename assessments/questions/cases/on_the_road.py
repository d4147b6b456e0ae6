"""Tires on the road: which vehicle and axle they run on, what was found on them, and whether they may stay there."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass
from fractions import Fraction
from functools import reduce
from typing import Any

from assessments.questions.cases.casebook import looked_at
from assessments.questions.drafts.draft import Draft
from assessments.questions.drafts.rules import NoSuchLimit, altered
from assessments.questions.drafts.seeding import Redraw
from training.rulebook import Clause, Decision, Model, length_mm
from training.rulebook.markings import read_designation
from training.trade.speech import saying


@dataclass(frozen=True, slots=True)
class OnVehicle:
    """Where a tire runs: in words, and as a case says it."""

    words: str
    vehicle: str
    axle: str
    mass_kg: int
    dual: bool = False

    def to_json(self) -> dict[str, object]:
        """The position of a case."""
        return {"vehicle": self.vehicle, "axle": self.axle, "gross_mass": f"{self.mass_kg} kg", "dual": self.dual}


_VANS = (
    OnVehicle(saying("Van of 3,500 kg, front axle"), "light-truck", "front", 3500),
    OnVehicle(saying("Van of 4,250 kg, front axle"), "light-truck", "front", 4250),
    OnVehicle(saying("Van of 4,250 kg, rear axle"), "light-truck", "rear", 4250),
    OnVehicle(saying("Minibus of 3,450 kg, front axle"), "minibus", "front", 3450),
    OnVehicle(saying("Minibus of 5,000 kg, single rear wheel"), "minibus", "rear", 5000),
    OnVehicle(saying("Minibus of 5,000 kg, dual rear wheels"), "minibus", "rear", 5000, dual=True),
)
# Vehicles as they run on tires of a casing; masses are gross, invented within what is usual.
PLACES: dict[str, tuple[OnVehicle, ...]] = {
    "passenger": (
        OnVehicle(saying("Car of 1,900 kg, front axle"), "car", "front", 1900),
        OnVehicle(saying("Car of 2,300 kg, rear axle"), "car", "rear", 2300),
        OnVehicle(saying("Estate car of 2,600 kg, front axle"), "car", "front", 2600),
    ),
    "light-truck-fabric": _VANS,
    "light-truck-steel": _VANS,
    "truck": (
        OnVehicle(saying("Goods vehicle of 7,500 kg, front axle"), "truck", "front", 7500),
        OnVehicle(saying("Goods vehicle of 7,500 kg, rear axle"), "truck", "drive", 7500, dual=True),
        OnVehicle(saying("Tractor unit of 18,000 kg, front axle"), "truck", "front", 18000),
        OnVehicle(saying("Tractor unit of 18,000 kg, drive axle"), "truck", "drive", 18000, dual=True),
        OnVehicle(saying("Bus of 12,500 kg, front axle"), "bus", "front", 12500),
        OnVehicle(saying("Bus of 12,500 kg, rear axle"), "bus", "drive", 12500, dual=True),
    ),
}


def on_the_road(
    draft: Draft, model: Model, place: OnVehicle | None = None, *mistakes: str, purpose: str = "service", **more: Any
) -> tuple[dict[str, object], Decision]:
    """The case of a tire that is otherwise in order, and the decision on running it, or what believers would decide."""
    tire = {**model.to_json(), **more.pop("tire", {})}
    position = {"position": place.to_json()} if place is not None else {}
    data = looked_at(model, draft.edition, purpose=purpose, **{"depth": "6 mm", **position, **more})
    data["tire"] = tire
    return data, draft.decide(draft.case(data), *mistakes)


def ask_where(
    draft: Draft, quantity: str, *conditions: str, casings: Collection[str] = (), alone: bool = False
) -> Clause:
    """The first clause that limits a quantity by these conditions in service, for these casings or those asked about.

    `alone`: by no others besides.

    So a family keeps to the editions whose law knows what it asks about: raises NoSuchLimit in the others.
    """
    for clause in draft.edition.clauses_on(quantity):
        named = {condition.quantity for condition in clause.when}
        wanted = named == set(conditions) if alone else named.issuperset(conditions)
        if wanted and not set(clause.casings).isdisjoint(casings or draft.casings) and "service" in clause.purposes:
            return clause
    raise NoSuchLimit(
        f'family "{draft.family.name}": edition {draft.edition.name} {draft.edition.version} '
        f"does not limit {quantity} by {' and '.join(conditions) or 'anything'}"
    )


def section_width_mm(model: Model) -> int:
    """The nominal section width that the size states. Redraw where it states none in millimeters."""
    width = read_designation(model.designation).section_width_mm
    if width is None:
        raise Redraw("the size does not give the section width")
    return width


def cut_limit(draft: Draft, model: Model, *mistakes: str) -> tuple[Clause, Fraction]:
    """The clause that ends a tire by the length of a cut, and its limit for this size [mm], or as believers have them.

    Raises NoSuchLimit.
    """
    width = section_width_mm(model)
    for clause in reduce(altered, mistakes, draft.edition).clauses_on("injury.cut_length"):
        if clause.otherwise == "reject" and model.casing in clause.casings:
            limits = clause.strictest.for_whole(length_mm(width)).quantities
            return clause, max(limit.value for limit in limits)
    raise NoSuchLimit(f'family "{draft.family.name}": edition {draft.edition.name} does not limit the length of a cut')
