"""The tires of one axle, single or dual: how much may they carry together, by their load index?"""

from fractions import Fraction

from assessments.questions.drafts.draft import Draft
from assessments.questions.drafts.family import item_family
from assessments.questions.families.markings.load_and_speed import TABLE_SOURCE, carries, table
from assessments.questions.families.markings.molded_sizes import kinds_for, line, molded, pick_size
from assessments.questions.items.claims import Molded
from assessments.questions.items.item import Item
from training.rulebook import in_unit, quantity
from training.rulebook.markings import load_text
from training.trade.speech import say, saying
from training.trade.words import STEEL

_TOLERANCE = {"lb": "20 lb", "kg": "10 kg"}


@item_family(
    "axle-load",
    title=saying("Load of the tires of an axle"),
    skill="markings",
    formats=("number",),
    casings=("light-truck-fabric", *STEEL),
    lesson="inspect-and-reject/read-the-sidewall",
)
def build(draft: Draft) -> Item:
    rng, unit = draft.rng, "lb" if draft.prefer == "in" else "kg"
    kinds = kinds_for(draft.casings, leave_out=("special-trailer",), in_inches=True)
    size = pick_size(rng, *kinds, for_duals=True)
    is_dual = rng.random() < 0.65
    own, other = carries(size, dual=is_dual), carries(size, dual=not is_dual)
    count = 4 if is_dual else 2

    def said(value: Fraction) -> str:
        return f"{round(in_unit(quantity(value, 'kg'), unit))} {unit}"

    wrong = [
        (count * other, "single-for-dual" if is_dual else "dual-for-single"),
        *([(own * count / 2, "pair-shares-the-index")] if is_dual else []),
        (Fraction(count * ((size.load_index_dual if is_dual else size.load_index_single) or 0)), "index-in-kilograms"),
        (own, "one-tire-for-the-axle"),
    ]
    wheels = say("two tires side by side at each end") if is_dual else say("one tire at each end")
    return draft.number(
        stem=[
            say("An axle has {wheels}, all {molded}, at the pressure that belongs to their load "
                "index.", wheels=wheels, molded=molded(size)),
            table(rng, [size.load_index_single or 0, size.load_index_dual or 0], draft.prefer),
            rng.choice(
                [
                    say("How much may all tires of this axle carry together, going by the tires alone?"),
                    say("By its tires alone, what is the greatest load of this axle?"),
                ]
            ),
        ],
        key=said(count * own),
        tolerance=_TOLERANCE[unit],
        units=("lb", "kg"),
        wrong=[(said(value), why) for value, why in wrong],
        unsafe=[say("above {said}", said=said(count * own))],
        asks=Molded(molded(size), "load_kg", count, dual=is_dual),
        explanation=[
            line("axle", molded(size), f"{count} times {load_text(own, prefer=draft.prefer)}",
                 say("The index behind the slash is the load of each tire in a dual pair. The vehicle may be "
"rated lower."),
                 TABLE_SOURCE)
        ],
        features={"marking": molded(size), "dual": is_dual},
    )  # fmt: skip
