"""The letter behind the load index: what is the highest speed the tire was built for?"""

from fractions import Fraction

from assessments.questions.drafts.choice import Choice
from assessments.questions.drafts.draft import Draft
from assessments.questions.drafts.family import item_family
from assessments.questions.families.markings.load_and_speed import (
    by_alphabet,
    speed_source,
    speed_words,
    speeds,
)
from assessments.questions.families.markings.molded_sizes import KINDS, kinds_for, line, molded, pick_size
from assessments.questions.items.claims import Is, Molded
from assessments.questions.items.item import Item
from training.rulebook.markings import load_capacity_kg
from training.trade.speech import say, saying

_KM_PER_MI = Fraction("1.609344")


@item_family(
    "speed-by-symbol",
    title=saying("Speed by the symbol"),
    skill="markings",
    formats=("one",),
    casings=tuple(KINDS),
    lesson="inspect-and-reject/read-the-sidewall",
)
def build(draft: Draft) -> Item:
    rng = draft.rng
    # A temporary spare says on its sidewall how slowly it must run, whatever its symbol stands for.
    size = pick_size(rng, *kinds_for(draft.casings, leave_out=("temporary-spare",), in_inches=True))
    order = list(speeds())
    symbol = size.speed_symbol or ""
    place = order.index(symbol)
    key = speeds()[symbol]

    def said(km_h: int, *why: str, mph: int | None = None) -> Choice:
        miles = round(km_h / _KM_PER_MI) if mph is None else mph
        text = say("Good for {speed}", speed=speed_words(km_h, miles, draft.prefer))
        claim = Is(Molded(molded(size), "speed_km_h"), f"{km_h} km", "0 km")
        return Choice(text, why, unsafe=km_h > key.km_h, value=Fraction(km_h), claim=claim)

    beside = [order[near] for near in (place - 1, place + 1) if 0 <= near < len(order)]
    wrong = [
        said(by_alphabet()[symbol].km_h, "symbols-by-alphabet"),
        said(round(key.km_h * _KM_PER_MI), "kilometers-for-miles", mph=key.km_h),
        *(said(speeds()[one].km_h, "wrong-line") for one in beside),
    ]
    load = size.load_index_single or 0
    wrong.append(said(load if draft.prefer == "mm" else round(load * _KM_PER_MI), "index-for-speed"))
    return draft.one(
        stem=[
            say("Molded on a sidewall: {marking}", marking=molded(size)),
            rng.choice(
                [
                    say("What is the highest speed that this tire, sound and new, was built for?"),
                    say("What does the {symbol} at its end say about speed?", symbol=symbol),
                ]
            ),
        ],
        key=said(key.km_h),
        wrong=wrong,
        explanation=[
            line(say("speed symbol"), symbol, key.shown(prefer=draft.prefer),
                 say("The letters go up with speed, but H stands between U and V. After a repair the tire's "
                     "maker says whether the symbol still holds."), speed_source())
        ],
        features={"marking": molded(size), "load": str(load_capacity_kg(load))},
    )  # fmt: skip
