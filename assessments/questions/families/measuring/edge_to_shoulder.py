"""From the width of the tread and the place of a hole: how far is the edge of the hole from the shoulder?"""

from assessments.questions.cases.casebook import hole, length, looked_at
from assessments.questions.cases.crown import crown_bound, passing_hole
from assessments.questions.drafts.draft import Draft
from assessments.questions.drafts.family import item_family
from assessments.questions.items.claims import Measure
from assessments.questions.items.item import Item
from training.trade.speech import say, saying
from training.trade.words import STEEL

_TOLERANCE = {"in": "1/32 in", "mm": "0.6 mm"}


@item_family(
    "edge-to-shoulder",
    title=saying("From the hole to the shoulder"),
    skill="measuring",
    formats=("number",),
    casings=STEEL,
    lesson="steel-bodies/injury-in-a-steel-body",
    foretells=True,
)
def build(draft: Draft) -> Item:
    rng = draft.rng
    is_inside = rng.random() < 0.5
    draft.foretell(not is_inside, of=2)
    model = draft.pick_model("injury.diameter", "injury.shoulder_distance")
    bound = crown_bound(draft, model)
    diameter = passing_hole(draft, model.casing)
    across = length(diameter).value
    near = bound.inner_mm - across / 2
    lateral = draft.between(near / 2, near - draft.step_mm) if is_inside else bound.outer_mm + draft.between(1, 12)
    case = draft.case(looked_at(model, draft.edition, injuries=[hole(diameter=diameter, lateral=draft.told(lateral))]))
    clause = draft.clause(bound.at_tread)
    ruling = [one for one in draft.decide(case).rulings if one.clause == clause.id]
    half_tread = model.tread_width_mm / 2
    key = half_tread - lateral - across / 2
    wrong = [
        (key + across / 2, "center-of-hole-counts"),
        (key + across, "hole-added"),
        (key - across / 2, "whole-hole-taken-off"),
        (key + half_tread, "width-not-halved"),
        (model.outer_groove_mm - lateral - across / 2, "groove-is-the-edge"),
    ]
    return draft.number(
        stem=[
            say(
                "A {tire} has a tread {width} wide. A nail hole goes straight through; it is {size} "
                "across after damage removal, and its center lies {distance} from the crown centerline.",
                tire=model.name,
                width=draft.told(model.tread_width_mm),
                size=diameter,
                distance=draft.told(lateral),
            ),
            rng.choice(
                [
                    say("How far is the edge of the hole from the nearer shoulder, which is the edge of the tread?"),
                    say("Which distance is left between the hole and the nearer edge of the tread?"),
                ]
            ),
        ],
        key=draft.told(key),
        tolerance=_TOLERANCE[draft.prefer],
        units=("in", "mm"),
        wrong=[(draft.told(value), why) for value, why in wrong if value > 0],
        # who measures so much lets a hole pass that lies too near
        unsafe=[] if is_inside else [f"above {draft.stated(clause).text}"],
        case=case,
        asks=Measure("injury.shoulder_distance", "A", by=clause.id),
        rulings=ruling,
        features={"inside": is_inside, "diameter_mm": float(across)},
    )
