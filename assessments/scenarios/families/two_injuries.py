"""Two holes and the size of the units: is there room on the liner for both?"""

import re

from training.drawings import crown_plan
from training.rulebook import Case, RepairUnit, injury_geometry, parse_quantity

from ..casebook import CASING_NAMES, Model, hole, looked_at, pick_model
from ..draft import Choice, Draft, Redraw
from ..model import Item
from ..registry import item_family

SIZES = ((45, 40), (50, 40), (60, 50), (70, 60), (75, 65), (80, 60))
_DIAMETER = "5 mm"
_TURN_DEG = 360


@item_family(
    "two-injuries",
    title="Room for two repairs",
    skill="position",
    formats=("one",),
    lesson="measure-and-choose/two-injuries",
)
def build(draft: Draft) -> Item:
    rng = draft.rng
    model = pick_model(rng)
    length, width = rng.choice(SIZES)
    across = rng.random() < 0.5
    unit = length if across else width
    apart = unit + rng.choice([rng.randint(-unit // 3, -5), rng.randint(6, unit // 2)])
    room = model.outer_groove_mm - 4
    if across and apart > 2 * room:
        raise Redraw("no room across the crown")
    first = rng.randint(apart - room, room) if across else rng.randint(-20, 20)
    holes = [hole("A", diameter=_DIAMETER, lateral_mm=first)]
    holes.append(hole("B", diameter=_DIAMETER, lateral_mm=first - apart if across else first))
    if not across:
        holes[1]["station"] = f"{round(_station(draft, model, apart), 2):g} deg"
    case = draft.case(looked_at(model, draft.edition, injuries=holes))
    key, is_repaired, ruling = _judged(draft, case, model, (length, width))
    beliefs = (
        ("width-and-length-mixed", (width, length), ()),
        ("half-units", (length / 2, width / 2), ()),
        ("holes-not-units", (length, width), ("holes-not-units",)),
        ("outlines-may-not-meet", (length, width), ("outlines-may-not-meet",)),
    )
    wrong = []
    for name, sizes, held in beliefs:
        text, believed, _ = _judged(draft, case, model, sizes, *held)
        wrong.append(Choice(text, (name,), unsafe=believed and not is_repaired))
    way = "across the tire, side by side" if across else "around the tire, one behind the other"
    return draft.one(
        stem=[
            f"Two nail holes in the crown of a {CASING_NAMES[model.casing]}, each {_DIAMETER} after damage removal and "
            f"straight through, lie {apart} mm apart on the liner, center to center, {way}. Nothing else was found.",
            f"The repair units for them are {length} mm long, toward the beads, and {width} mm wide.",
            rng.choice(["Is there room for both?", "What follows for this tire?"]),
        ],
        key=Choice(key),
        wrong=wrong,
        case=case,
        rulings=[ruling],
        figure=lambda: crown_plan(case, prefer=draft.prefer),
        features={"distance_mm": abs(apart - unit), "across": across},
    )


def _station(draft: Draft, model: Model, apart_mm: int) -> float:
    """The station that lies this far around the liner from 0 deg."""
    case = draft.case(looked_at(model, draft.edition, injuries=[hole(diameter=_DIAMETER)]))
    around = injury_geometry(case, case.injuries[0], edition=draft.edition).liner_circumference_mm
    return apart_mm / around * _TURN_DEG


def _judged(draft: Draft, case: Case, model: Model, sizes: tuple[float, float], *held: str):
    """The option someone picks who counts with units of these sizes, whether it repairs, and the ruling behind it."""
    length, width = (parse_quantity(f"{size:g} mm", "length") for size in sizes)
    draft.units = [
        RepairUnit(kind, kind, length, width, None, (model.casing,), None) for kind in ("patch", "one-piece")
    ]
    decision = draft.decide(case, *held)
    ruling = next(one for one in decision.rulings if one.subject == "A+B")
    number = round(float(re.search(r"[\d.]+", ruling.found).group()))
    if decision.verdict == "repair":
        return f"Repair both: {number} mm to spare", True, ruling
    return f"Out of service: {number} mm short", False, ruling
