"""The sidewall of a light truck tire: is its body fabric or steel, and what says so?"""

from assessments.questions.cases.casebook import looked_at
from assessments.questions.cases.sidewall import ply_words
from assessments.questions.drafts.draft import Choice, Draft
from assessments.questions.drafts.family import item_family
from assessments.questions.items.item import Item

_BODY = {False: "Fabric body", True: "Steel body"}


@item_family(
    "casing-class",
    title="Which body the tire has",
    skill="markings",
    formats=("one",),
    casings=("light-truck-fabric", "light-truck-steel"),
    lesson="inspect-and-reject/read-the-sidewall",
)
def build(draft: Draft) -> Item:
    rng = draft.rng
    model = draft.model_of("light-truck-fabric")
    is_steel = rng.random() < 0.5
    load_range = rng.choice("CDE")
    by_load = load_range == "E"
    clause = draft.limit("tire.casing", "light-truck")
    casing = "light-truck-steel" if is_steel else "light-truck-fabric"
    data = looked_at(model, draft.edition)
    case = draft.case({**data, "tire": {**model.to_json(), "casing": casing}})
    rulings = [ruling for ruling in draft.decide(case).rulings if ruling.clause == clause.id]
    # Taking a fabric body for steel lets a hole pass that is too large for it.
    wrong = [
        Choice(f"{_BODY[True]}, by its tread plies", ("belts-decide",), unsafe=not is_steel),
        Choice(f"{_BODY[by_load]}, by its load range letter", ("load-range-decides",), unsafe=by_load and not is_steel),
        Choice(f"{_BODY[not is_steel]}, by its size marking", ("size-marking-decides",), unsafe=not is_steel),
        Choice(f"{_BODY[not is_steel]}, by its sidewall plies", ("plies-misread",), unsafe=not is_steel),
    ]
    return draft.one(
        stem=[
            f"A light truck tire reads {model.size}, load range {load_range}. {ply_words(rng, steel_body=is_steel)}",
            rng.choice(
                [
                    "Which body does it have, and what on the sidewall says so?",
                    "Which size limit counts depends on its body. Which body is it, and by what?",
                ]
            ),
        ],
        key=Choice(f"{_BODY[is_steel]}, by its sidewall plies"),
        wrong=wrong,
        case=case,
        rulings=rulings,
        features={"load_range": load_range, "steel_body": is_steel},
    )
