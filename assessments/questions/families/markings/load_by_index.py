"""One tire, fitted singly or as one of a dual pair, and a few lines of the load index table: how much may it carry?"""

from fractions import Fraction

from assessments.questions.drafts.draft import Draft
from assessments.questions.drafts.family import item_family
from assessments.questions.families.markings.load_and_speed import carries, table, table_source
from assessments.questions.families.markings.molded_sizes import KINDS, kinds_for, line, molded, pick_size
from assessments.questions.items.claims import Molded
from assessments.questions.items.item import Item
from training.rulebook import in_unit, quantity
from training.rulebook.markings import load_capacity_kg, load_text
from training.trade.speech import say, saying

_TOLERANCE, _MARGIN_KG = {"lb": "4 lb", "kg": "2 kg"}, 2
_FITTED = {
    True: saying("Molded on a sidewall: {marking}. It runs as one of a dual pair."),
    False: saying("Molded on a sidewall: {marking}. It is fitted as a single."),
}


@item_family(
    "load-by-index",
    title=saying("Load of one tire"),
    skill="markings",
    formats=("number",),
    casings=tuple(KINDS),
    lesson="inspect-and-reject/read-the-sidewall",
)
def build(draft: Draft) -> Item:
    rng, unit = draft.rng, "lb" if draft.prefer == "in" else "kg"
    kinds = kinds_for(draft.casings, leave_out=("special-trailer", "temporary-spare"), in_inches=True)
    size = pick_size(rng, *kinds)
    single, second = size.load_index_single or 0, size.load_index_dual
    is_dual = second is not None and rng.random() < 0.6
    key = carries(size, dual=is_dual)
    index = second if second is not None and is_dual else single

    def said(value: Fraction) -> str:
        return f"{round(in_unit(quantity(value, 'kg'), unit))} {unit}"

    wrong = [
        (Fraction(index), "index-in-kilograms"),
        (Fraction(round(in_unit(quantity(key, "lb"), "kg"))), "kilograms-for-pounds"),
        *((load_capacity_kg(index + step), "wrong-line") for step in (-1, 1)),
    ]
    if second is not None:
        wrong.append((carries(size, dual=not is_dual), "single-for-dual" if is_dual else "dual-for-single"))
        if is_dual:  # of a single tire, nobody who splits the load of a pair thinks so
            wrong.append((key / 2, "pair-shares-the-index"))
    if second is not None:
        told = say(_FITTED[is_dual], marking=molded(size))
    else:
        told = say("Molded on a sidewall: {marking}.", marking=molded(size))
    return draft.number(
        stem=[
            told,
            table(rng, [index for index in (single, second) if index is not None], draft.prefer),
            rng.choice(
                [
                    say("How much may this one tire carry, at the pressure that belongs to it?"),
                    say("At its full pressure, what is the greatest load of this one tire?"),
                ]
            ),
        ],
        key=said(key),
        tolerance=_TOLERANCE[unit],
        units=("lb", "kg"),
        wrong=[(said(value), why) for value, why in wrong],
        unsafe=[f"above {said(key + 2 * _MARGIN_KG)}"],  # what is nearer was read wrongly
        asks=Molded(molded(size), "load_kg", dual=is_dual),
        explanation=[
            line(say("load index"), f"{index}", load_text(key, prefer=draft.prefer),
                 say("The load index stands for a load in a table. Behind a slash is the one for a tire in a "
                     "dual pair."),
                 table_source())
        ],
        features={"marking": molded(size), "dual": is_dual},
    )  # fmt: skip
