"""Several measured holes: which of them are small enough for a repair in this casing?"""

from assessments.questions.cases.casebook import edge_mm, hole, length, looked_at, readings
from assessments.questions.drafts.choice import Choice
from assessments.questions.drafts.draft import Draft
from assessments.questions.drafts.family import item_family
from assessments.questions.items.claims import Decided
from assessments.questions.items.item import Item
from training.trade.speech import say, saying
from training.trade.words import LIGHT, STEEL

_OFFERED = 5
_TOO_MILD = ("truck-limit-for-all", "half-inch-for-steel", "size-does-not-matter")
_TOO_STRICT = ("light-limit-for-steel", "stricter-size")


@item_family(
    "holes-by-size",
    title=saying("Which holes are small enough"),
    skill="size-limits",
    formats=("several",),
    casings=(*LIGHT, *STEEL),
    lesson="measure-and-choose/measure-the-injury",
)
def build(draft: Draft) -> Item:
    model = draft.pick_model("injury.diameter")
    clause = draft.limit("injury.diameter", model.casing)
    low, high = edge_mm(clause)
    most = high * 2 if model.casing not in STEEL else high * 3 / 2
    fitting, too_large = readings(draft.prefer, low / 3, low), readings(draft.prefer, high, most)
    count = draft.rng.randint(1, _OFFERED - 1)
    chosen = draft.rng.sample(fitting, count) + draft.rng.sample(too_large, _OFFERED - count)
    right, wrong, rulings = [], [], []
    for text in chosen:
        injury = hole(diameter=text)
        decision = draft.decide(draft.case(looked_at(model, draft.edition, injuries=[injury])))
        claim = Decided(("repair",), case={"injuries": [injury]})
        rulings += [ruling for ruling in decision.rulings if ruling.clause == clause.id]
        if decision.verdict == "repair":
            mistaken = (name for name in _TOO_STRICT if not draft.permits(name, clause.id, length(text)))
            right.append(Choice(text, tuple(mistaken), claim=claim))
        else:
            mistakes = (name for name in _TOO_MILD if draft.permits(name, clause.id, length(text)))
            wrong.append(Choice(text, tuple(mistakes), claim=claim))
    nearest = min(abs(length(text).value - edge) for text in chosen for edge in (low, high))
    return draft.several(
        stem=[
            say(
                "Nail holes near the centerline of a {tire}, each measured after damage removal, each "
                "the only injury of its tire. Nothing else was found.",
                tire=model.name,
            ),
            draft.rng.choice(
                [
                    say("Which of them may be repaired? Choose all."),
                    say("Which of them are small enough for a repair? Choose all."),
                    say("Choose every hole whose size allows a repair."),
                ]
            ),
        ],
        right=right,
        wrong=wrong,
        rulings=rulings,
        case=draft.case(looked_at(model, draft.edition)),
        features={"distance_mm": round(float(nearest), 2)},
    )
