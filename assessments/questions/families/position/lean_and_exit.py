"""A leaning channel in cross-section: does the hole come out on the liner where a repair is allowed?"""

from fractions import Fraction
from math import atan, ceil, degrees, radians, tan

from assessments.questions.cases.casebook import edge_mm, hole, looked_at, readings
from assessments.questions.cases.crown import crown_bound, mild_lean, passing_hole
from assessments.questions.cases.phrases import outcome, subjects
from assessments.questions.drafts.draft import Draft
from assessments.questions.drafts.family import item_family
from assessments.questions.drafts.seeding import Redraw
from assessments.questions.items.explanation import explaining
from assessments.questions.items.item import Item
from training.drawings import cross_section
from training.trade.speech import say, saying
from training.trade.words import LIGHT, STEEL

_CLEAR_MM, _WIDEST = 2.5, Fraction(3, 2)  # of the limit, a hole that is too large
_INSIDE_MM, _OUTSIDE_MM, _STEEPEST = 5, 2, 55  # of a channel that leaves the crown: where it begins, where it ends


@item_family(
    "lean-and-exit",
    title=saying("Where a leaning channel comes out"),
    skill="position",
    formats=("one",),
    casings=(*LIGHT, *STEEL),
    lesson="measure-and-choose/where-it-may-be",
    foretells=True,
)
def build(draft: Draft) -> Item:
    rng, steady = draft.rng, draft.steady("right")
    model = draft.pick_model("injury.diameter", rng=steady)
    bound = crown_bound(draft, model)
    mild, steep = edge_mm(draft.limit("injury.angle", model.casing))
    # Each of the four answers is right as often: either method, the hole leaves the crown, the hole is too large.
    state = steady.choice(("mild", "steep", "out", "size"))
    draft.foretell(0 if state in ("mild", "steep") else 2, of=3)
    is_steep = state == "steep" or (state != "mild" and rng.random() < (0.95 if state == "out" else 0.5))
    aims_out = state == "out"
    thick, gap = float(model.crown_thickness_mm), bound.outer_mm - bound.inner_mm  # nothing is asked between sources
    leaves = ceil(degrees(atan((float(gap) + _INSIDE_MM + _OUTSIDE_MM) / thick))) if aims_out else 0
    angle = rng.randint(max(int(steep) + 1, leaves), _STEEPEST) if is_steep else mild_lean(draft, mild, 12)
    diameter = passing_hole(draft, model.casing)
    if state == "size":
        limit = edge_mm(draft.limit("injury.diameter", model.casing))[1]
        diameter = rng.choice(readings(draft.prefer, limit, limit * _WIDEST))
    shift = int(thick * tan(radians(angle)))
    outward = aims_out or rng.random() < 0.5
    far = shift if outward else 0  # so much farther out than the tread shows
    deepest = max(Fraction(_INSIDE_MM + 1), shift - gap - _OUTSIDE_MM)
    inset = draft.between(_INSIDE_MM, deepest) if aims_out else draft.between(6 + far, 18 + far)
    lateral = (bound.inner_mm - inset) * rng.choice((-1, 1))
    injury = hole(diameter=diameter, lateral=draft.told(lateral), angle_deg=angle, outward=outward)
    case = draft.case(looked_at(model, draft.edition, injuries=[injury]))
    placed = draft.placed(case)
    clear = float(bound.sure_mm) - max(abs(placed.lateral), abs(placed.exit_lateral)) - placed.half_lateral
    if abs(clear) < _CLEAR_MM:
        raise Redraw("too close to the edge to be told from a drawing")
    decision = draft.decide(case)
    if any(ruling.between_statements for ruling in decision.rulings):
        raise Redraw("the sources disagree on this place")
    is_fine = state in ("mild", "steep")
    if (decision.verdict == "repair") != is_fine or (not is_fine and len(subjects(decision, draft.edition)) > 1):
        raise Redraw("something else decides")
    method = "one-piece-at-any-angle" if is_steep else "any-lean-is-steep"
    smaller = "light-limit-for-steel" if model.casing in STEEL else "stricter-size"
    first, others = {
        "out": ("lean-ignored", (method, smaller)),
        "size": ("size-does-not-matter", (method, *bound.refused_sooner)),
    }.get(state, (method, (*bound.refused_sooner, smaller)))
    beliefs = [(first,), *((name,) if is_fine else (first, name) for name in others), ("lean-the-other-way",)]
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
        is_even=True,
        case=case,
        rulings=explaining(decision),
        figure=lambda: cross_section(case, prefer=draft.prefer),
        features={"lean_deg": angle, "distance_mm": round(abs(clear), 2)},
    )
