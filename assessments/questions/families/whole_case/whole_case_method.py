"""One tire, third part: which repair its hole allows."""

from assessments.questions.cases.bodies import REPAIRED
from assessments.questions.cases.phrases import MISTAKEN_METHODS, outcome
from assessments.questions.draws.draft import Draft
from assessments.questions.draws.registry import item_family
from assessments.questions.draws.seeding import Redraw
from assessments.questions.families.whole_case.common import SERIES, tale_of
from assessments.questions.items.explanation import explaining
from assessments.questions.items.item import Item


@item_family(
    "whole-case-method",
    title="Whole case: which repair",
    skill="angle-and-method",
    formats=("one",),
    casings=REPAIRED,
    lesson="measure-and-choose/angle-and-method",
    series=SERIES,
    part=3,
)
def build(draft: Draft) -> Item:
    rng = draft.rng
    tale = tale_of(draft)
    decision = draft.decide(tale.case)
    if decision.verdict != "repair":
        raise Redraw("something else decides")
    beliefs = ("one-piece-at-any-angle", "any-lean-is-steep", "steep-means-scrap", "any-lean-scraps")
    wrong = [outcome(draft.decide(tale.case, held), draft.edition, (held,)) for held in beliefs]
    return draft.one(
        stem=[
            tale.opening(3),
            f"After damage removal its hole is {tale.diameter} across and leans {tale.angle_deg} deg from the "
            "perpendicular to the tread. At the tread and at the liner it lies in the repairable crown.",
            rng.choice(["How may it be repaired?", "Which repair is allowed?"]),
        ],
        key=outcome(decision, draft.edition),
        wrong=[*wrong, *MISTAKEN_METHODS],
        case=tale.case,
        rulings=explaining(decision),
        features={"part": 3, "lean_deg": tale.angle_deg},
    )
