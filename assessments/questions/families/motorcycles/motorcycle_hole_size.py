"""Holes in motorcycle and car tires: which of them may be repaired by the size that the trade gives?"""

from assessments.questions.cases.casebook import (
    MOTORCYCLE,
    edge_mm,
    hole,
    length,
    looked_at,
    readings,
)
from assessments.questions.cases.phrases import who_decides
from assessments.questions.drafts.choice import Choice
from assessments.questions.drafts.draft import Draft
from assessments.questions.drafts.family import item_family
from assessments.questions.drafts.seeding import Redraw
from assessments.questions.families.motorcycles.common import tire
from assessments.questions.items.claims import Decided
from assessments.questions.items.item import Item
from training.rulebook import Ruling
from training.trade.speech import say, saying

_OFFERED = 5
_TOO_MILD = ("motorcycle-as-car", "truck-limit-for-all", "size-does-not-matter")


@item_family(
    "motorcycle-hole-size",
    title=saying("The size of a hole in a motorcycle tire"),
    skill="size-limits",
    formats=("several",),
    casings=MOTORCYCLE,
    lesson="motorcycles/motorcycle-tires",
)
def build(draft: Draft) -> Item:
    rng = draft.rng
    model, car = draft.pick_model(), draft.model_of("passenger")
    limit = draft.limit("injury.diameter", car.casing)
    low, high = edge_mm(limit)
    unit = draft.prefer  # one for all: two units would say one size twice
    right: list[Choice] = []
    wrong: list[Choice] = []
    rulings: list[Ruling] = []
    small, large = readings(unit, low / 3, low), readings(unit, high, high * 2)
    holes: dict[tuple[bool, str], bool] = {}  # of the motorcycle or the car, each size once: is it small enough?
    while len(holes) < _OFFERED:
        of_cycle, is_small = rng.choice((True, False)), rng.random() < 0.6
        holes[of_cycle, rng.choice(small if is_small else large)] = is_small
    if all(of_cycle for of_cycle, _ in holes) or not any(of_cycle for of_cycle, _ in holes):
        raise Redraw("all of one kind of tire")
    if not any(is_small and not of_cycle for (of_cycle, _), is_small in holes.items()):
        raise Redraw("none of the car that is small enough")
    barred = False  # is one of them barred for being of a motorcycle?
    for of_cycle, size in holes:
        own, injury = model if of_cycle else car, hole(diameter=size)
        text = say("A {tire} with a hole of {size}", tire=own.name, size=size)
        if own is model:
            data = tire(draft, own, "repair", injuries=[injury])
        else:
            data = looked_at(own, draft.edition, injuries=[injury])
        decision = draft.decide(draft.case(data))
        claim = Decided(("repair",), case={"tire": data["tire"], "injuries": [injury]})
        if decision.verdict == "repair":
            is_strict = not draft.permits("stricter-size", limit.id, length(size))
            right.append(Choice(text, ("stricter-size",) if is_strict else (), claim=claim))
        else:
            wrong.append(Choice(text, who_decides(draft, draft.case(data), ("repair",), _TOO_MILD), claim=claim))
            barred = barred or own is model
            rulings += decision.deciding
    if not right or not wrong or not barred:
        raise Redraw("nothing to tell apart")
    return draft.several(
        stem=[
            say(
                "Tires of a motorcycle, {motorcycle}, and of a car, {car}, off the wheel. Each "
                "has one nail hole in the middle of the tread, straight through, measured after damage "
                "removal, and nothing else.",
                motorcycle=model.designation,
                car=car.designation,
            ),
            rng.choice(
                [
                    say(
                        "Which may the shop repair by the trade's size limit, without asking anybody else? Choose all."
                    ),
                    say("Going by size alone, which of these holes may the shop repair? Choose all."),
                ]
            ),
        ],
        right=right,
        wrong=wrong,
        rulings=rulings,
        case=draft.case(tire(draft, model, "repair")),
        features={"small_enough": len(right)},
    )
