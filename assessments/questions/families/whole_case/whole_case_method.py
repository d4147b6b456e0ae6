"""One tire, third part: which repair its hole allows."""

from assessments.questions.cases.bodies import REPAIRED
from assessments.questions.cases.phrases import mistaken_methods, outcome
from assessments.questions.drafts.draft import Draft
from assessments.questions.drafts.family import item_family
from assessments.questions.drafts.seeding import Redraw
from assessments.questions.families.whole_case.common import SERIES, whole_case_of
from assessments.questions.items.explanation import explaining
from assessments.questions.items.item import Item
from training.trade.speech import say, saying


@item_family(
    "whole-case-method",
    title=saying("Whole case: which repair"),
    skill="angle-and-method",
    formats=("one",),
    casings=REPAIRED,
    lesson="measure-and-choose/angle-and-method",
    series=SERIES,
    part=3,
)
def build(draft: Draft) -> Item:
    rng = draft.rng
    whole = whole_case_of(draft)
    decision = draft.decide(whole.case)
    if decision.verdict != "repair":
        raise Redraw("something else decides")
    beliefs = ("one-piece-at-any-angle", "any-lean-is-steep", "steep-means-scrap", "any-lean-scraps")
    wrong = [outcome(draft.decide(whole.case, held), draft.edition, (held,)) for held in beliefs]
    return draft.one(
        stem=[
            whole.opening(3),
            say(
                "After damage removal its hole is {diameter} across and leans {angle}° from the "
                "perpendicular to the tread. At the tread and at the liner it lies in the repairable "
                "crown.",
                diameter=whole.diameter,
                angle=whole.angle_deg,
            ),
            rng.choice([say("How may it be repaired?"), say("Which repair is allowed?")]),
        ],
        key=outcome(decision, draft.edition),
        wrong=[*wrong, *mistaken_methods(decision)],
        case=whole.case,
        rulings=explaining(decision),
        features={"part": 3, "lean_deg": whole.angle_deg},
    )
