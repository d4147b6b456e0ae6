"""One tire, fitted singly or as one of a dual pair, and a few lines of the load index table: how much may it carry?"""

from fractions import Fraction

from assessments.questions.drafts.choice import Choice
from assessments.questions.drafts.draft import Draft
from assessments.questions.drafts.family import item_family
from assessments.questions.families.markings.load_and_speed import carries, table, table_source
from assessments.questions.families.markings.molded_sizes import KINDS, kinds_for, line, molded, pick_size
from assessments.questions.items.claims import Is, Molded
from assessments.questions.items.item import Item
from training.rulebook import in_unit, quantity
from training.rulebook.markings import load_capacity_kg, load_text
from training.trade.speech import say, saying

_FITTED = {
    True: saying("Molded on a sidewall: {marking}. It runs as one of a dual pair."),
    False: saying("Molded on a sidewall: {marking}. It is fitted as a single."),
}


@item_family(
    "load-by-index",
    title=saying("Load of one tire"),
    skill="markings",
    formats=("one",),
    casings=tuple(KINDS),
    lesson="inspect-and-reject/read-the-sidewall",
)
def build(draft: Draft) -> Item:
    rng = draft.rng
    kinds = kinds_for(draft.casings, leave_out=("special-trailer", "temporary-spare"), in_inches=True)
    size = pick_size(rng, *kinds)
    single, second = size.load_index_single or 0, size.load_index_dual
    is_dual = second is not None and rng.random() < 0.6
    key = carries(size, dual=is_dual)
    index = second if second is not None and is_dual else single

    def said(value: Fraction, *why: str) -> Choice:
        claim = Is(Molded(molded(size), "load_kg", dual=is_dual), f"{float(value):g} kg", "0.5 kg")
        text = say("It carries {load}", load=load_text(value, prefer=draft.prefer))
        return Choice(text, why, unsafe=value > key, value=value, claim=claim)

    step = rng.choice((-1, 1))
    wrong = [
        said(Fraction(index), "index-in-kilograms"),
        said(Fraction(round(in_unit(quantity(key, "lb"), "kg"))), "kilograms-for-pounds"),
        said(load_capacity_kg(index + step), "wrong-line"),
    ]
    if second is not None:
        other = carries(size, dual=not is_dual)
        wrong.append(said(other, "single-for-dual" if is_dual else "dual-for-single"))
        if is_dual:  # of a single tire, nobody who splits the load of a pair thinks so
            wrong.append(said(key / 2, "pair-shares-the-index"))
    if second is not None:
        told = say(_FITTED[is_dual], marking=molded(size))
    else:
        told = say("Molded on a sidewall: {marking}.", marking=molded(size))
    return draft.one(
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
        wrong=wrong,
        explanation=[
            line(say("load index"), f"{index}", load_text(key, prefer=draft.prefer),
                 say("The load index stands for a load in a table. Behind a slash is the one for a tire in a "
                     "dual pair."),
                 table_source())
        ],
        features={"marking": molded(size), "dual": is_dual},
    )  # fmt: skip
