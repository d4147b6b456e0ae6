"""Several channels: which of them may take a one-piece unit?"""

from assessments.questions.cases.bodies import REPAIRED
from assessments.questions.cases.casebook import edge_mm, hole, looked_at
from assessments.questions.cases.crown import usual_hole
from assessments.questions.drafts.choice import Choice
from assessments.questions.drafts.draft import Draft
from assessments.questions.drafts.family import item_family
from assessments.questions.drafts.seeding import Redraw
from assessments.questions.items.claims import Decided
from assessments.questions.items.item import Item
from training.rulebook import parse_quantity
from training.trade.speech import say, saying

_OFFERED = 5
_DIAMETER = "5 mm"


@item_family(
    "one-piece-list",
    title=saying("Which channels take a one-piece unit"),
    skill="angle-and-method",
    formats=("several",),
    casings=REPAIRED,
    lesson="measure-and-choose/angle-and-method",
)
def build(draft: Draft) -> Item:
    rng = draft.rng
    model = draft.pick_model()
    clause = draft.limit("injury.angle", model.casing)
    mild, steep = edge_mm(clause)
    count = rng.randint(1, _OFFERED - 1)
    if int(mild) < count:
        raise Redraw("the limit leaves too few angles")
    angles = rng.sample(range(int(mild)), count) + rng.sample(range(int(steep) + 1, 56), _OFFERED - count)
    diameter = usual_hole(draft, model.casing, _DIAMETER)
    right, wrong, rulings = [], [], []
    for angle in angles:
        injury = hole(diameter=diameter, angle_deg=angle)
        decision = draft.decide(draft.case(looked_at(model, draft.edition, injuries=[injury])))
        if decision.plan is None:
            raise Redraw("something else decides")
        rulings += [ruling for ruling in decision.rulings if ruling.clause == clause.id]
        claim = Decided(("repair",), methods=("one-piece", "two-piece"), case={"injuries": [injury]})
        if "one-piece" in decision.plan[0].methods_allowed:
            lean = parse_quantity(f"{angle} deg", "angle")
            why = () if draft.permits("any-lean-is-steep", clause.id, lean) else ("any-lean-is-steep",)
            right.append(Choice(f"{angle}°", why, claim=claim))
        else:
            wrong.append(Choice(f"{angle}°", ("one-piece-at-any-angle",), unsafe=False, claim=claim))
    return draft.several(
        stem=[
            say(
                "Nail holes in mid-crown, {diameter} after damage removal, each alone in its own {tire}. "
                "The probe gives the lean of each channel from the perpendicular to the tread.",
                diameter=diameter,
                tire=model.name,
            ),
            rng.choice(
                [
                    say("Which of them may take a one-piece unit? Choose all."),
                    say("For which is a one-piece unit allowed? Choose all."),
                ]
            ),
        ],
        right=right,
        wrong=wrong,
        rulings=rulings,
        case=draft.case(looked_at(model, draft.edition)),
        features={"distance_deg": float(min(abs(angle - edge) for angle in angles for edge in (mild, steep)))},
    )
