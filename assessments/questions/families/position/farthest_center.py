"""How far from the centerline may the center of a straight hole lie, so that the whole hole is in the crown?"""

from fractions import Fraction

from assessments.questions.cases.casebook import hole, length, looked_at
from assessments.questions.cases.crown import crown_bound, is_by_groove, limit_told, passing_hole
from assessments.questions.drafts.draft import Draft
from assessments.questions.drafts.family import item_family
from assessments.questions.items.claims import Turning
from assessments.questions.items.item import Item
from training.rulebook import UNITS, quantity
from training.trade.speech import say, saying
from training.trade.words import LIGHT, STEEL

_TOLERANCE = {"in": "1/32 in", "mm": "0.6 mm"}


@item_family(
    "farthest-center",
    title=saying("How far out a hole may lie"),
    skill="position",
    formats=("number",),
    casings=(*LIGHT, *STEEL),
    lesson="measure-and-choose/where-it-may-be",
)
def build(draft: Draft) -> Item:
    model = draft.pick_model("injury.diameter")
    diameter = passing_hole(draft, model.casing)
    case = draft.case(looked_at(model, draft.edition, injuries=[hole(diameter=diameter)]))
    edge, across = Fraction(str(draft.placed(case).half_crown)), length(diameter).value
    bound = crown_bound(draft, model)
    clause = draft.clause(bound.at_tread)
    by_shoulder = bound.basis == "shoulder"
    if by_shoulder:
        edge = bound.sure_mm
    inside = 0 if by_shoulder else draft.stated(clause).value  # 0 unless a shop keeps farther in
    key = edge - across / 2 - inside
    wrong = [
        (edge - inside, "center-of-hole-counts"),
        (edge - across - inside, "whole-hole-taken-off"),
        (edge + across / 2 - inside, "hole-added"),
        (length(str(case.tire.tread_width)).value / 2, "tread-is-all-crown"),
    ]
    wrong += [(at - across / 2, name) for name, at in bound.rivals if by_shoulder and name == "groove-is-the-edge"]

    def said(distance_mm: Fraction) -> str:
        return quantity(distance_mm / UNITS["length"][draft.prefer], draft.prefer).text

    measured = say("How wide its repairable crown is follows from its size.")
    if is_by_groove(draft, model.casing):
        measured = say(
            "From the crown centerline to the inner edge of the outermost groove it is {distance}.",
            distance=draft.told(edge),
        )
    if by_shoulder:
        measured = f"{bound.told} {limit_told(draft, bound)}".strip()
    return draft.number(
        stem=[
            say(
                "Tire {designation}. {measured} A nail hole goes straight through and is {size} across "
                "after damage removal.",
                designation=model.designation,
                measured=measured,
                size=diameter,
            ),
            draft.rng.choice(
                [
                    say("How far from the centerline may the center of the hole lie at most?"),
                    say("What is the greatest distance of its center from the centerline at which it may be repaired?"),
                ]
            ),
        ],
        key=said(key),
        tolerance=_TOLERANCE[draft.prefer],
        units=("in", "mm"),
        wrong=[(said(value), why) for value, why in wrong],
        asks=Turning("injuries.0.lateral", "most", ("repair",)),
        case=case,
        clauses=[clause.id],
        features={"unit": draft.prefer},
    )
