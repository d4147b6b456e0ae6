"""A leaning channel in cross-section: does the hole come out on the liner where a repair is allowed?"""

from fractions import Fraction
from math import radians, tan

from assessments.questions.cases.casebook import edge_mm, hole, looked_at
from assessments.questions.cases.crown import crown_bound, mild_lean, passing_hole
from assessments.questions.cases.phrases import outcome
from assessments.questions.drafts.draft import Draft
from assessments.questions.drafts.family import item_family
from assessments.questions.drafts.seeding import Redraw
from assessments.questions.items.explanation import explaining
from assessments.questions.items.item import Item
from training.drawings import cross_section
from training.trade.speech import say, saying
from training.trade.words import LIGHT, STEEL

_CLEAR_MM, _AGAINST = 2.5, ("reject", "refer")


@item_family(
    "lean-and-exit",
    title=saying("Where a leaning channel comes out"),
    skill="position",
    formats=("one",),
    casings=(*LIGHT, *STEEL),
    lesson="measure-and-choose/where-it-may-be",
)
def build(draft: Draft) -> Item:
    rng = draft.rng
    model = draft.pick_model("injury.diameter")
    bound = crown_bound(draft, model)
    mild, steep = edge_mm(draft.limit("injury.angle", model.casing))
    is_steep = rng.random() < 0.5
    angle = rng.randint(int(steep) + 1, 55) if is_steep else mild_lean(draft, mild, 12)
    diameter = passing_hole(draft, model.casing, least=Fraction(1, 2))
    gap = bound.outer_mm - bound.inner_mm  # where sources disagree nothing is asked
    shift = int(float(model.crown_thickness_mm) * tan(radians(angle)))
    aims_out = rng.random() < 0.45
    inset = draft.between(5, max(Fraction(6), shift - gap)) if aims_out else draft.between(6, 20)
    lateral = (bound.inner_mm - inset) * rng.choice((-1, 1))
    injury = hole(
        diameter=diameter, lateral=draft.told(lateral), angle_deg=angle, outward=aims_out or rng.random() < 0.5
    )
    case = draft.case(looked_at(model, draft.edition, injuries=[injury]))
    placed = draft.placed(case)
    clear = float(bound.sure_mm) - max(abs(placed.lateral), abs(placed.exit_lateral)) - placed.half_lateral
    if abs(clear) < _CLEAR_MM:
        raise Redraw("too close to the edge to be told from a drawing")
    decision = draft.decide(case)
    if any(ruling.between_statements for ruling in decision.rulings):
        raise Redraw("the sources disagree on this place")
    method = ("one-piece-at-any-angle", "steep-means-scrap") if is_steep else ("any-lean-is-steep", "any-lean-scraps")
    if decision.verdict in _AGAINST:
        beliefs = [("lean-ignored",), *(("lean-ignored", belief) for belief in method)]
    else:
        beliefs = [*((belief,) for belief in method), *((belief,) for belief in bound.refused_sooner)]
    beliefs.append(("lean-the-other-way",))
    wrong = [outcome(draft.decide(case, *held), draft.edition, held, together=True) for held in beliefs]
    return draft.one(
        stem=[
            say(
                "The drawing shows a nail hole in the crown of a {tire}, to scale, after damage removal. "
                "Nothing else was found.",
                tire=model.name,
            ),
            *([] if bound.is_drawn else [bound.told]),
            rng.choice(
                [say("What do you do with this tire?"), say("What becomes of this tire?"), say("What do you do next?")]
            ),
        ],
        key=outcome(decision, draft.edition),
        wrong=wrong,
        case=case,
        rulings=explaining(decision),
        figure=lambda: cross_section(case, prefer=draft.prefer),
        features={"lean_deg": angle, "distance_mm": round(abs(clear), 2)},
    )
