"""One tire, fourth part: the outline to buff for its patch."""

from fractions import Fraction

from assessments.questions.cases.bodies import REPAIRED
from assessments.questions.drafts.draft import Draft
from assessments.questions.drafts.family import item_family
from assessments.questions.families.whole_case.common import SERIES, whole_case_of
from assessments.questions.items.claims import Planned
from assessments.questions.items.item import Item
from training.rulebook import UNITS, quantity
from training.trade.speech import say, saying


@item_family(
    "whole-case-outline",
    title=saying("Whole case: the outline"),
    skill="preparation",
    formats=("number",),
    casings=REPAIRED,
    lesson="prepare-install-return/outline-and-buff",
    series=SERIES,
    part=4,
)
def build(draft: Draft) -> Item:
    whole = whole_case_of(draft)
    clause = draft.limit("job.outline_margin", whole.model.casing)
    margin = draft.stated(clause)
    long, wide = whole.unit
    side, asked, other = draft.rng.choice((("length", long, wide), ("width", wide, long)))
    key = asked + 2 * margin.value

    def said(outline_mm: Fraction) -> str:
        return quantity(outline_mm / UNITS["length"][draft.prefer], draft.prefer).text

    wrong: list[tuple[Fraction, str]] = [
        (asked, "outline-is-the-unit"),
        (asked + margin.value, "margin-once"),
        (asked - 2 * margin.value, "margin-taken-off"),
        (other + 2 * margin.value, "width-and-length-mixed"),
    ]
    return draft.number(
        stem=[
            whole.opening(4),
            say(
                "It is repaired with a stem and a separate patch; the patch is {long} long and {wide} "
                "wide. In this shop the outline is drawn {margin} beyond the patch on each side.",
                long=draft.told(long),
                wide=draft.told(wide),
                margin=draft.show(margin),
            ),
            say("What is the length of the outline to buff?")
            if side == "length"
            else say("What is the width of the outline to buff?"),
        ],
        key=said(key),
        tolerance="1 mm",
        units=("in", "mm"),
        wrong=[(said(value), why) for value, why in wrong],
        case=whole.case,
        asks=Planned(side, units=((draft.told(long), draft.told(wide)),)),
        clauses=[clause.id],
        features={"part": 4, "side": side},
    )
