"""How far apart must two holes be, so that their units do not overlap?"""

from fractions import Fraction

from assessments.questions.cases.spacing import nearest, sizes
from assessments.questions.drafts.draft import Draft
from assessments.questions.drafts.family import item_family
from assessments.questions.items.item import Item
from training.rulebook import quantity
from training.trade.speech import say, saying

_TOLERANCE = {"in": "1/32 in", "mm": "1 mm"}


@item_family(
    "unit-spacing",
    title=saying("Least distance between two holes"),
    skill="angle-and-method",
    formats=("number",),
    casings=(),
    lesson="measure-and-choose/two-injuries",
)
def build(draft: Draft) -> Item:
    rng = draft.rng
    first, second = rng.choice(sizes(draft)), rng.choice(sizes(draft))
    across = rng.random() < 0.5
    side, other = (0, 1) if across else (1, 0)
    clause = draft.limit("repairs.gap")
    free = draft.stated(clause).value  # 0 unless a shop asks for room between the units
    key = (first[side] + second[side]) / 2 + free
    wrong = [
        ((first[other] + second[other]) / 2 + free, "width-and-length-mixed"),
        ((first[side] + second[side]) / 4 + free, "half-units"),
        (draft.near(5), "holes-not-units"),
        (first[side] + second[side] + free, "whole-units-added"),
    ]
    told = [(draft.told(length), draft.told(width)) for length, width in (first, second)]
    if across:
        lie = say("Two nail holes lie side by side across the tire.")
    else:
        lie = say("Two nail holes lie one behind the other around the tire.")
    return draft.number(
        stem=[
            say(
                "{holes} The unit for the first is {first_length} long, toward the beads, and "
                "{first_width} wide; the unit for the second is {second_length} long and {second_width} "
                "wide. Both are centered on their holes.",
                holes=lie,
                first_length=told[0][0],
                first_width=told[0][1],
                second_length=told[1][0],
                second_width=told[1][1],
            ),
            rng.choice(
                [
                    say("At least how far apart on the liner must their centers be for both to be repaired?"),
                    say("What is the least distance from center to center at which both may be repaired?"),
                ]
            ),
        ],
        key=_exactly(draft, key),
        tolerance=_TOLERANCE[draft.prefer],
        units=("in", "mm"),
        wrong=[(_exactly(draft, value), why) for value, why in wrong],
        asks=nearest(clause, *told, across=across),
        clauses=[clause.id],
        features={"across": across, "sizes_differ": first != second},
    )


def _exactly(draft: Draft, length_mm: Fraction) -> str:
    """A length in the unit told; in millimeters where a shop's own distance is no part of an inch to read off."""
    try:
        return draft.told(length_mm)
    except ValueError:
        return quantity(length_mm, "mm").text
