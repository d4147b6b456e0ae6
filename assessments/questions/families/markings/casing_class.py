"""The sidewall of a light truck tire: is its body fabric or steel, and what says so?"""

from assessments.questions.cases.casebook import looked_at
from assessments.questions.cases.sidewall import has_body, plies
from assessments.questions.drafts.choice import Choice
from assessments.questions.drafts.draft import Draft
from assessments.questions.drafts.family import item_family
from assessments.questions.items.item import Item
from training.trade.speech import say, saying

# Which body, and by which of the things molded on the sidewall.
_SAID = {
    ("steel", "tread_plies"): saying("Steel body, by its tread plies"),
    ("fabric", "tread_plies"): saying("Fabric body, by its tread plies"),
    ("steel", "load_range_letter"): saying("Steel body, by its load range letter"),
    ("fabric", "load_range_letter"): saying("Fabric body, by its load range letter"),
    ("steel", "size_marking"): saying("Steel body, by its size marking"),
    ("fabric", "size_marking"): saying("Fabric body, by its size marking"),
    ("steel", "sidewall_plies"): saying("Steel body, by its sidewall plies"),
    ("fabric", "sidewall_plies"): saying("Fabric body, by its sidewall plies"),
}


@item_family(
    "casing-class",
    title=saying("Which body the tire has"),
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
    molded = plies(rng, steel_body=is_steel)

    def by(what: str, steel: bool, *why: str) -> Choice:
        """Taking a fabric body for steel lets a hole pass that is too large for it."""
        body, unsafe = "steel" if steel else "fabric", steel and not is_steel
        return has_body(molded, body, what, _SAID[body, what], *why, unsafe=unsafe)

    wrong = [
        by("tread_plies", True, "belts-decide"),
        by("load_range_letter", by_load, "load-range-decides"),
        by("size_marking", not is_steel, "size-marking-decides"),
        by("sidewall_plies", not is_steel, "plies-misread"),
    ]
    return draft.one(
        stem=[
            say(
                "A light truck tire reads {size}, load range {load_range}. Molded on it: {plies}.",
                size=model.size,
                load_range=load_range,
                plies=molded,
            ),
            rng.choice(
                [
                    say("Which body does it have, and what on the sidewall says so?"),
                    say("Which size limit counts depends on its body. Which body is it, and by what?"),
                ]
            ),
        ],
        key=by("sidewall_plies", is_steel),
        wrong=wrong,
        case=case,
        rulings=rulings,
        features={"load_range": load_range, "steel_body": is_steel},
    )
