"""A cut in a tire on the road, its length and how deep it goes: what follows?"""

from assessments.questions.cases.on_the_road import ask_where, cut_limit, on_the_road
from assessments.questions.drafts.choice import Choice
from assessments.questions.drafts.draft import Draft
from assessments.questions.drafts.family import item_family
from assessments.questions.drafts.seeding import Redraw
from assessments.questions.items.claims import Decided
from assessments.questions.items.item import Item
from training.trade.speech import say, saying
from training.trade.words import LIGHT, STEEL

_SAID = {
    "advise": saying("Leave it on the road: tell the customer"),
    "inspect": saying("Open the cut first: see how deep it goes"),
    "refer": saying("Send it on: a full-service plant decides"),
    "reject": saying("Off the road: too long a cut down to the cord"),
}
_DEEP = {
    "cord": saying("Opened with a blunt tool it shows cord."),
    "rubber": saying("Opened with a blunt tool it shows rubber all the way down."),
    "": saying("Nobody has opened it yet."),
}
# What people make of a cut, by what follows from it and what they do instead.
_BELIEFS = {
    "reject": (("advise", "cut-holds-air"), ("refer", "plant-mends-any-cut")),
    "refer": (("advise", "short-cut-may-run"), ("reject", "cord-is-the-end")),
    "inspect": (("advise", "cut-never-opened"), ("reject", "long-cut-is-the-end"), ("refer", "plant-mends-any-cut")),
    "advise": (("reject", "long-cut-is-the-end"), ("refer", "plant-mends-any-cut")),
}


@item_family(
    "cut-on-road",
    title=saying("A cut in a tire on the road"),
    skill="rejecting-conditions",
    formats=("one",),
    casings=(*LIGHT, *STEEL),
    lesson="inspect-and-reject/reject-on-sight",
)
def build(draft: Draft) -> Item:
    rng = draft.rng
    ask_where(draft, "injury.cut_length", "injury.reaches")
    model = draft.pick_model()
    limit = int(cut_limit(draft, model)[1])
    reaches = rng.choice(("cord", "cord", "rubber", ""))
    length = (
        draft.between(limit + 2, limit + 14) if reaches != "cord" or rng.random() < 0.5 else draft.between(12, limit)
    )
    cut = {"id": "A", "kind": "cut", "length": draft.told(length), **({"reaches": reaches} if reaches else {})}
    data, decision = on_the_road(draft, model, injuries=[cut])
    if decision.verdict not in _SAID:
        raise Redraw("something else decides")
    why = dict(_BELIEFS[decision.verdict])
    wrong = [
        _said(verdict, *((why[verdict],) if verdict in why else ())) for verdict in _SAID if verdict != decision.verdict
    ]
    return draft.one(
        stem=[
            say(
                "A {tire}, {size}, in service. In its sidewall is a cut {length} long. {opened} "
                "Nothing else was found.",
                tire=model.name,
                size=model.size,
                length=draft.told(length),
                opened=_DEEP[reaches],
            ),
            rng.choice([say("What becomes of this tire?"), say("What do you do with this tire?")]),
        ],
        key=_said(decision.verdict),
        wrong=wrong,
        is_even=True,
        case=draft.case(data),
        rulings=[one for one in decision.rulings if one.clause.startswith("cut-")],
        features={"distance_mm": round(float(abs(length - limit)), 1), "reaches": reaches or "not opened"},
    )


def _said(verdict: str, *why: str) -> Choice:
    return Choice(_SAID[verdict], why, claim=Decided((verdict,)))
