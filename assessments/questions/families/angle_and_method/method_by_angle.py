"""The channel leans: which repairs does its angle allow?"""

from assessments.questions.cases.bodies import REPAIRED
from assessments.questions.cases.casebook import edge_mm, hole, looked_at
from assessments.questions.cases.crown import mild_lean, passing_hole
from assessments.questions.cases.phrases import mistaken_methods, outcome
from assessments.questions.drafts.draft import Draft
from assessments.questions.drafts.family import item_family
from assessments.questions.drafts.seeding import Redraw
from assessments.questions.items.explanation import explaining
from assessments.questions.items.item import Item
from training.trade.speech import say, saying

_TURN = 90


@item_family(
    "method-by-angle",
    title=saying("Method by angle"),
    skill="angle-and-method",
    formats=("one",),
    casings=REPAIRED,
    lesson="measure-and-choose/angle-and-method",
)
def build(draft: Draft) -> Item:
    rng = draft.rng
    model = draft.pick_model()
    mild, steep = edge_mm(draft.limit("injury.angle", model.casing))
    is_steep = rng.random() < 0.5
    angle = rng.randint(int(steep) + 1, 55) if is_steep else mild_lean(draft, mild, 10)
    diameter = passing_hole(draft, model.casing)
    case = draft.case(
        looked_at(
            model, draft.edition, injuries=[hole(diameter=diameter, lateral=draft.told(draft.near(8)), angle_deg=angle)]
        )
    )
    decision = draft.decide(case)
    if decision.verdict != "repair":
        raise Redraw("something else decides")
    from_tread = rng.random() < 0.4
    beliefs = ["one-piece-at-any-angle", "steep-means-scrap"] if is_steep else ["any-lean-is-steep", "any-lean-scraps"]
    beliefs += ["angle-from-the-tread"] if from_tread else []
    wrong = [outcome(draft.decide(case, held), draft.edition, (held,)) for held in beliefs]
    wrong += mistaken_methods(decision)
    if from_tread:
        probed = say("The probe stands {angle}° from the tread surface.", angle=_TURN - angle)
    else:
        probed = say("The probe leans {angle}° from the perpendicular to the tread.", angle=angle)
    return draft.one(
        stem=[
            say(
                "A nail hole in the middle of the crown of a {tire} is {diameter} across after damage "
                "removal. {probed} At the liner the hole is still in the repairable crown. "
                "Nothing else was found.",
                tire=model.name,
                diameter=diameter,
                probed=probed,
            ),
            rng.choice([say("Which repair is allowed?"), say("How may it be repaired?")]),
        ],
        key=outcome(decision, draft.edition),
        wrong=wrong,
        case=case,
        rulings=[
            ruling for ruling in explaining(decision) if draft.edition.clauses[ruling.clause].quantity == "injury.angle"
        ],
        features={
            "lean_deg": angle,
            "from_tread": from_tread,
            "distance_deg": float(min(abs(angle - mild), abs(angle - steep))),
        },
    )
