"""One measured hole: does it pass, and by which limit?"""

from assessments.questions.cases.casebook import edge_mm, hole, length, looked_at, readings
from assessments.questions.cases.phrases import tire_words
from assessments.questions.drafts.choice import Choice
from assessments.questions.drafts.draft import Draft
from assessments.questions.drafts.family import item_family
from assessments.questions.drafts.rules import altered
from assessments.questions.drafts.seeding import Redraw
from assessments.questions.items.claims import All, Decided, States, states
from assessments.questions.items.item import Item
from training.trade.speech import say, saying
from training.trade.words import LIGHT, STEEL

_MISTAKES = ("stricter-size", "halfway-limit", "truck-limit-for-all")
_OF_STEEL = ("light-limit-for-steel", "stricter-size", "half-inch-for-steel")
_SAID = {
    "repair": saying("Repair allowed: the limit is {limit}"),
    "reject": saying("Out of service: the limit is {limit}"),
    "refer": saying("Send to a repair plant: the limit is {limit}"),
}


@item_family(
    "size-verdict",
    title=saying("Does this hole pass"),
    skill="size-limits",
    formats=("one",),
    casings=(*LIGHT, *STEEL),
    lesson="measure-and-choose/measure-the-injury",
)
def build(draft: Draft) -> Item:
    rng = draft.rng
    model = draft.pick_model("injury.diameter")
    clause = draft.limit("injury.diameter", model.casing)
    low, high = edge_mm(clause)
    unit = draft.prefer
    fits = rng.random() < 0.5
    most = high * (7 if model.casing not in STEEL else 6) / 4
    size = rng.choice(readings(unit, low / 2, low) if fits else readings(unit, high, most))
    injury = hole(diameter=size, lateral=draft.told(draft.between(-15, 15)))
    case = draft.case(looked_at(model, draft.edition, injuries=[injury]))
    decision = draft.decide(case)
    against = draft.stated_verdict(clause)
    if decision.verdict != ("repair" if fits else against):
        raise Redraw("something else decides")

    def said(passes: bool, limit: tuple[str, States], *why: str) -> Choice:
        verdict, (text, stated) = "repair" if passes else against, limit
        return Choice(
            say(_SAID[verdict], limit=text),
            why,
            claim=All((Decided((verdict,)), stated)),
        )

    wrong = []
    for mistake in _OF_STEEL if model.casing in STEEL else _MISTAKES:
        believed = altered(draft.edition, mistake).clause(clause.id)
        # Where the two units of a wrong limit disagree on this size, its believer could say either.
        if edge_mm(believed)[0] < length(size).value <= edge_mm(believed)[1]:
            continue
        passes = draft.permits(mistake, clause.id, length(size))
        wrong.append(said(passes, draft.limit_like(clause, believed), mistake))
    own = draft.limit_text(clause), states(clause)
    wrong.append(said(not fits, own, "rounded-up" if not fits else "at-the-limit-fails"))
    return draft.one(
        stem=[
            tire_words(rng, model),
            say(
                "A nail hole near the centerline, straight through, is {size} across after damage "
                "removal. Nothing else was found.",
                size=size,
            ),
            rng.choice([say("What do you do, and which limit decides?"), say("Does it pass, and by which limit?")]),
        ],
        key=said(fits, own),
        wrong=wrong,
        case=case,
        rulings=[ruling for ruling in decision.rulings if ruling.clause == clause.id],
        features={
            "distance_mm": round(float(min(abs(length(size).value - edge) for edge in (low, high))), 2),
            "unit": unit,
        },
    )
