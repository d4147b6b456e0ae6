"""How large may the injury be in this tire? The sidewall says which casing it is; the clause says the limit."""

from assessments.questions.cases.casebook import edge_mm, looked_at
from assessments.questions.cases.sidewall import ply_words
from assessments.questions.drafts.choice import Choice
from assessments.questions.drafts.draft import Draft
from assessments.questions.drafts.family import item_family
from assessments.questions.drafts.rules import altered
from assessments.questions.items.claims import states
from assessments.questions.items.item import Item
from training.trade.speech import say, saying
from training.trade.words import LIGHT, STEEL

_MISTAKES = ("truck-limit-for-all", "stricter-size", "halfway-limit")
_OF_STEEL = ("light-limit-for-steel", "stricter-size", "half-inch-for-steel")
_RANGES = {"light-truck-fabric": ("C", "D", "E"), "light-truck-steel": ("E",), "passenger": ("SL", "XL")}


@item_family(
    "limit-for-casing",
    title=saying("Largest injury for this casing"),
    skill="size-limits",
    formats=("one",),
    casings=(*LIGHT, *STEEL),
    lesson="measure-and-choose/measure-the-injury",
    recall=True,
)
def build(draft: Draft) -> Item:
    model = draft.pick_model("injury.diameter")
    clause = draft.limit("injury.diameter", model.casing)
    case = draft.case(looked_at(model, draft.edition))
    wrong = []
    for mistake in _OF_STEEL if model.casing in STEEL else _MISTAKES:
        other = altered(draft.edition, mistake).clause(clause.id)
        if edge_mm(other) != edge_mm(clause):
            text, claim = draft.limit_like(clause, other)
            wrong.append(Choice(text, (mistake,), value=edge_mm(other)[1], claim=claim))
    ranges = _RANGES.get(model.casing)
    load_range = draft.rng.choice(ranges) if ranges else ""
    plies = ply_words(draft.rng, steel_body=model.casing in STEEL)
    if load_range:
        reads = say(
            "The sidewall reads {size}, load range {load_range}. {plies}",
            size=model.size,
            load_range=load_range,
            plies=plies,
        )
    else:
        reads = say("The sidewall reads {size}. {plies}", size=model.size, plies=plies)
    stem = [
        reads,
        draft.rng.choice(
            [
                say("How large may a nail hole in its crown be after damage removal, if it is to be repaired?"),
                say("What is the limit for the size of a nail hole in this tire, measured after damage removal?"),
                say("What is the largest nail hole, after damage removal, that may be repaired in this tire?"),
            ]
        ),
    ]
    key = Choice(draft.limit_text(clause), value=edge_mm(clause)[1], claim=states(clause))
    return draft.one(stem=stem, key=key, wrong=wrong, case=case, clauses=[clause.id], features={"findings": 0})
