"""Cuts that reach the cord in two sizes, and what the law is said to make of each: is that right?"""

from assessments.questions.cases.on_the_road import ask_where, cut_limit, on_the_road
from assessments.questions.cases.two_notes import Note, compared
from assessments.questions.drafts.draft import Draft
from assessments.questions.drafts.family import item_family
from assessments.questions.drafts.seeding import Redraw
from assessments.questions.items.claims import Decided
from assessments.questions.items.item import Item, Json
from training.rulebook import VERDICTS, Model, Ruling
from training.trade.speech import say, saying
from training.trade.words import LIGHT, STEEL

_STAYS = tuple(verdict for verdict in VERDICTS if verdict != "reject")
_BELIEFS = ("shorter-of-both", "width-forgotten", "share-alone", "both-added")
_PLACES = (
    saying("outer sidewall"),
    saying("outer shoulder"),
    saying("inner sidewall"),
    saying("inner shoulder"),
)
_SAID = {
    True: saying("{size}: in its {place} a cut of {length}. By its length the law takes the tire off the road."),
    False: saying("{size}: in its {place} a cut of {length}. By its length the law lets the tire stay on the road."),
}
_AROUND_MM = 14  # so far from the limit at most


@item_family(
    "cut-limit",
    title=saying("How long a cut may be"),
    skill="size-limits",
    formats=("one",),
    casings=(*LIGHT, *STEEL),
    lesson="measure-and-choose/measure-the-injury",
)
def build(draft: Draft) -> Item:
    ask_where(draft, "injury.cut_length", "injury.reaches")
    models = draft.pick_model(), draft.pick_model()
    clause, _ = cut_limit(draft, models[0])
    rulings: list[Ruling] = []
    first, second = (_note(draft, model, rulings) for model in models)
    data, _ = on_the_road(draft, models[0])
    return compared(
        draft,
        first,
        second,
        stem=[
            say("Two tires in service, each with a cut that reaches the cord. A technician notes:"),
        ],
        asked=[say("Which of the notes is right?"), say("For which of the tires is that right?")],
        case=draft.case(data),
        rulings=rulings,
        clauses=[clause.id],
    )


def _note(draft: Draft, model: Model, rulings: list[Ruling]) -> Note:
    """A cut near its limit in this size, and what the law makes of it, right as often as wrong; adds what decides."""
    rng = draft.rng
    clause, limit = cut_limit(draft, model)
    is_over, is_right = rng.random() < 0.5, rng.random() < 0.5
    length = draft.between(limit + 1, limit + _AROUND_MM) if is_over else draft.between(limit - _AROUND_MM, limit - 1)
    cut = {"id": "A", "kind": "cut", "length": draft.told(length), "reaches": "cord"}
    data, decision = on_the_road(draft, model, injuries=[cut])
    if (decision.verdict == "reject") != is_over:
        raise Redraw("something else decides")
    rulings += [one for one in decision.rulings if one.clause == clause.id]
    # to whom the other answer is the right one
    why = tuple(name for name in _BELIEFS if (length > cut_limit(draft, model, name)[1]) != is_over)
    is_rejected = is_over == is_right
    patch: Json = {"tire": data["tire"], "injuries": [cut]}
    claim = Decided(("reject",) if is_rejected else _STAYS, case=patch)
    text = say(_SAID[is_rejected], size=model.size, length=draft.told(length), place=rng.choice(_PLACES))
    return Note(text, claim, is_right, why)
