"""The hole before and after damage removal: which size counts, and what follows from it?"""

from dataclasses import replace

from assessments.questions.cases.casebook import edge_mm, hole, length, looked_at, readings
from assessments.questions.cases.phrases import tire_words
from assessments.questions.drafts.choice import Choice
from assessments.questions.drafts.draft import Draft
from assessments.questions.drafts.family import item_family
from assessments.questions.drafts.seeding import Redraw
from assessments.questions.items.claims import All, Decided, Is, Measure
from assessments.questions.items.item import Item
from training.trade.speech import say, saying
from training.trade.words import LIGHT, STEEL

_TOO_STRICT = ("light-limit-for-steel", "stricter-size")
_TOO_MILD = ("truck-limit-for-all", "half-inch-for-steel", "size-does-not-matter")
_SAID = {
    "repair": saying("Repair allowed: {size} counts"),
    "reject": saying("Out of service: {size} counts"),
    "refer": saying("Send to a repair plant: {size} counts"),
}


@item_family(
    "before-and-after",
    title=saying("Before and after damage removal"),
    skill="measuring",
    formats=("one",),
    casings=(*LIGHT, *STEEL),
    lesson="measure-and-choose/measure-the-injury",
)
def build(draft: Draft) -> Item:
    model = draft.pick_model("injury.diameter")
    clause = draft.limit("injury.diameter", model.casing)
    low, high = edge_mm(clause)
    unit = draft.prefer
    within, beyond = (
        readings(unit, low / 3, low),
        readings(unit, high, high * 2 if model.casing not in STEEL else high * 3 / 2),
    )
    fits = draft.rng.random() < 0.5
    after = draft.rng.choice((within[2:] if fits else beyond) or [""])
    smaller = [text for text in within if after and length(text).value < length(after).value]
    if not smaller:
        raise Redraw("the limit leaves too few marks")
    before = draft.rng.choice(smaller)
    injury = hole(diameter=after, before=before, lateral=draft.told(draft.between(-15, 15)))
    case = draft.case(looked_at(model, draft.edition, injuries=[injury]))
    decision = draft.decide(case)
    against = draft.stated_verdict(clause)
    if decision.verdict != ("repair" if fits else against):
        raise Redraw("something else decides")
    mistaken = _TOO_STRICT if fits else _TOO_MILD
    by_size = [name for name in mistaken if draft.permits(name, clause.id, length(after)) != fits]
    if not by_size:
        raise Redraw("no mistake decides this size otherwise")

    def said(verdict: str, size: str, *why: str) -> Choice:
        counts = Is(Measure("injury.diameter", "A", by=clause.id), size, "0 mm")
        claim = All((Decided((verdict,)), counts))
        return Choice(say(_SAID[verdict], size=size), why, together=True, claim=claim)

    strict = tuple(name for name in _TOO_STRICT if not draft.permits(name, clause.id, length(before)))[:1]
    wrong = [
        said("repair", before, "measured-before-removal"),
        said(against, before, "measured-before-removal", *strict),
        replace(said(against if fits else "repair", after, *by_size), together=False),
    ]
    return draft.one(
        stem=[
            tire_words(draft.rng, model),
            draft.rng.choice(
                [
                    say(
                        "The nail hole near the centerline is {before} across as found, and {after} after damage "
                        "removal. Nothing else was found.",
                        before=before,
                        after=after,
                    ),
                    say(
                        "Near the centerline a nail left a hole {before} across. After the last pass of the "
                        "cutter it is {after} across. Everything else is in order.",
                        before=before,
                        after=after,
                    ),
                ]
            ),
            draft.rng.choice(
                [say("What is your call, and by which size?"), say("What do you do, and which size counts?")]
            ),
        ],
        key=said("repair" if fits else against, after),
        wrong=wrong,
        case=case,
        rulings=[ruling for ruling in decision.rulings if ruling.clause == clause.id],
        features={"distance_mm": round(float(min(abs(length(after).value - edge) for edge in (low, high))), 2)},
    )
