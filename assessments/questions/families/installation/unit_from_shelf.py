"""The shelf of repair units: which is the right one for this hole?"""

from fractions import Fraction
from math import ceil

from assessments.questions.cases.bodies import REPAIRED, repaired
from assessments.questions.cases.casebook import edge_mm, hole, length, looked_at, readings
from assessments.questions.cases.crown import passing_hole
from assessments.questions.drafts.choice import Choice
from assessments.questions.drafts.draft import Draft
from assessments.questions.drafts.family import item_family
from assessments.questions.drafts.seeding import Redraw
from assessments.questions.items.claims import Is, Planned
from assessments.questions.items.item import Item
from assessments.questions.work.sequence import METHODS
from training.rulebook import UNITS, RepairUnit, length_mm, quantity
from training.trade.speech import say, saying
from training.trade.words import LIGHT, STEEL

_SIDES = ((45, 40), (55, 50), (65, 60), (75, 65), (85, 75), (95, 85))
_CODES = ("12", "15", "20", "24", "30", "36", "40", "45")
_MARK_MM = {"mm": Fraction(1, 2), "in": UNITS["length"]["in"] / 32}  # what sizes of holes are told to
_OTHER_KIND = 0.3  # how often the unit of the other kind may stand among the options
_KIND = {"two-piece": "patch", "one-piece": "one-piece"}
# What stands on the shelf, by its kind and whether it is for fabric bodies.
_ON_SHELF = {
    ("patch", True): saying("{unit}: patch for holes up to {size}, fabric body."),
    ("patch", False): saying("{unit}: patch for holes up to {size}, steel body."),
    ("one-piece", True): saying("{unit}: one-piece unit for holes up to {size}, fabric body."),
    ("one-piece", False): saying("{unit}: one-piece unit for holes up to {size}, steel body."),
}


@item_family(
    "unit-from-shelf",
    title=saying("The right unit from the shelf"),
    skill="installation",
    formats=("one",),
    casings=REPAIRED,
    lesson="prepare-install-return/install-and-stitch",
)
def build(draft: Draft) -> Item:
    rng = draft.rng
    model = draft.model_of(*repaired(draft))
    is_steel = model.casing in STEEL
    method = rng.choice(sorted(METHODS))
    limit = edge_mm(draft.limit("injury.diameter", "passenger" if is_steel else model.casing))[0]
    size = passing_hole(draft, "passenger" if is_steel else model.casing)
    before = rng.choice(readings(draft.prefer, limit / 6, length(size).value - 1))
    mark = _MARK_MM[draft.prefer]
    limit = ceil(limit / mark) * mark
    least = length(size).value
    # a unit for other bodies that covers the hole, and more nearly, lies beside the right one
    steps = sorted({length(before).value + mark, least - mark, limit if is_steel else least, limit + 8 * mark})
    whole = 2 * mark if draft.prefer == "mm" else mark
    steps[-1] = edge_mm(draft.limit("injury.diameter", model.casing))[0] // whole * whole if is_steel else limit
    if steps[-1] <= steps[-2]:
        raise Redraw("the unit for other bodies would cover more")
    codes = iter(rng.sample(_CODES, len(_CODES)))
    units: list[RepairUnit] = []
    for kind in ("patch", "one-piece"):
        for (long, wide), most in zip(_SIDES, steps, strict=False):
            casings = STEEL if is_steel != (most == steps[-2]) else LIGHT
            upto = quantity(most / UNITS["length"][draft.prefer], draft.prefer)
            name = f"{'P' if kind == 'patch' else 'U'} {next(codes)}"
            units.append(RepairUnit(name, kind, length_mm(long), length_mm(wide), None, casings, upto))
    draft.units = units
    data = looked_at(model, draft.edition, injuries=[hole(diameter=size, before=before)], proposed=method)
    case = draft.case(data)
    decision = draft.decide(case)
    if decision.plan is None or decision.plan[0].unit is None or len(steps) < 4:
        raise Redraw("no unit of the shelf fits, or too few to choose from")

    shelf = tuple(
        (
            one.name,
            one.kind,
            one.length.text,
            one.width.text,
            one.injury_max.text if one.injury_max else "",
            *one.casings,
        )
        for one in units
    )

    def taken(unit: RepairUnit, *why: str) -> Choice:
        return Choice(unit.name, why, claim=Is(Planned("unit", shelf=shelf), unit.name))

    def said(unit: RepairUnit) -> str:
        return say(_ON_SHELF[unit.kind, "passenger" in unit.casings], unit=unit.name, size=unit.injury_max)

    planned = decision.plan[0].unit["name"]
    own = [unit for unit in units if unit.kind == _KIND[method]]
    key = next(unit for unit in own if unit.name == planned)
    by_size = dict(zip(("measured-before-removal", "rounded-up"), own, strict=False))
    wrong = [taken(unit, why) for why, unit in by_size.items() if unit is not key]
    wrong.append(taken(own[2], "unit-for-any-body"))
    if rng.random() < _OTHER_KIND:
        wrong.append(taken(next(one for one in units if one.kind != key.kind and one.injury_max == key.injury_max)))
    return draft.one(
        stem=[
            say(
                "A {tire} is repaired with {method}. The nail was {before} thick; after damage removal "
                "the hole is {size} across.",
                tire=model.name,
                method=METHODS[method],
                before=before,
                size=size,
            ),
            say("On the shelf:"),
            *(said(unit) for unit in sorted(units, key=lambda unit: unit.name)),
            rng.choice([say("Which unit do you take from the shelf?"), say("Which of these units is the right one?")]),
        ],
        key=taken(key),
        wrong=wrong,
        case=case,
        rulings=[one for one in decision.rulings if one.clause == draft.limit("injury.diameter", model.casing).id],
        features={"method": method, "units": len(units)},
    )
