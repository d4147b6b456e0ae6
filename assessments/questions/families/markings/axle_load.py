"""The tires of one axle, single or dual: how much may they carry together, by their load index?"""

from fractions import Fraction

from assessments.questions.drafts.draft import Draft
from assessments.questions.drafts.family import item_family
from assessments.questions.families.markings.load_and_speed import carries, table, table_source
from assessments.questions.families.markings.molded_sizes import kinds_for, line, molded, pick_size
from assessments.questions.items.claims import Molded
from assessments.questions.items.item import Item
from training.rulebook import in_unit, quantity
from training.rulebook.markings import load_text
from training.trade.speech import say, saying
from training.trade.words import STEEL

_TOLERANCE = {"lb": "20 lb", "kg": "10 kg"}
_MARGIN_KG = 10


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
    mark = molded(size)
    if is_dual:
        fitted = say(
            "An axle has two tires side by side at each end, all {marking}, at the pressure that belongs to "
            "their load index.",
            marking=mark,
        )
    else:
        fitted = say(
            "An axle has one tire at each end, all {marking}, at the pressure that belongs to their load index.",
            marking=mark,
        )
    return draft.number(
        stem=[
            fitted,
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
        unsafe=[f"above {said(count * own + 2 * _MARGIN_KG)}"],  # what is nearer was reckoned or read wrongly
        asks=Molded(mark, "load_kg", count, dual=is_dual),
        explanation=[
            line(say("axle"), mark, say("{count} times {load}", count=count, load=load_text(own, prefer=draft.prefer)),
                 say("The index behind the slash is the load of each tire in a dual pair. The vehicle may be "
                     "rated lower."),
                 table_source())
        ],
        features={"marking": mark, "dual": is_dual},
    )  # fmt: skip
