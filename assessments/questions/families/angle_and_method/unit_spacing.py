"""How far apart must two holes be, so that their units do not overlap?"""

from assessments.questions.cases.spacing import SIZES, nearest
from assessments.questions.drafts.draft import Draft
from assessments.questions.drafts.family import item_family
from assessments.questions.items.item import Item
from training.trade.speech import say, saying


@item_family(
    "unit-spacing",
    title=saying("Least distance of two holes"),
    skill="angle-and-method",
    formats=("number",),
    casings=(),
    lesson="measure-and-choose/two-injuries",
)
def build(draft: Draft) -> Item:
    rng = draft.rng
    first, second = rng.choice(SIZES), rng.choice(SIZES)
    across = rng.random() < 0.5
    side, other = (0, 1) if across else (1, 0)
    clause = draft.limit("repairs.gap")
    free = float(draft.stated(clause).value)  # 0 unless a shop asks for room between the units
    key = (first[side] + second[side]) / 2 + free
    wrong = [
        ((first[other] + second[other]) / 2 + free, "width-and-length-mixed"),
        ((first[side] + second[side]) / 4 + free, "half-units"),
        (5, "holes-not-units"),
        (first[side] + second[side] + free, "whole-units-added"),
    ]
    if across:
        lie = say("Two nail holes lie side by side across the tire.")
    else:
        lie = say("Two nail holes lie one behind the other around the tire.")
    return draft.number(
        stem=[
            say(
                "{holes} The unit for the first is {first_length} mm long, toward the beads, and "
                "{first_width} mm wide; the unit for the second is {second_length} mm long and {second_width} mm "
                "wide. Both are centered on their holes.",
                holes=lie,
                first_length=first[0],
                first_width=first[1],
                second_length=second[0],
                second_width=second[1],
            ),
            rng.choice(
                [
                    say("How far apart on the liner must their centers be at least, so that both may be repaired?"),
                    say("What is the least distance from center to center at which both may be repaired?"),
                ]
            ),
        ],
        key=f"{key:g} mm",
        tolerance="1 mm",
        units=("in", "mm"),
        wrong=[(f"{value:g} mm", why) for value, why in wrong],
        asks=nearest(clause, first, second, across=across),
        clauses=[clause.id],
        features={"across": across, "sizes_differ": first != second},
    )
