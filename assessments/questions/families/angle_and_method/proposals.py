"""What people propose to do about a hole: which of the proposals is a repair?"""

from assessments.questions.cases.bodies import REPAIRED
from assessments.questions.cases.casebook import edge_mm, hole, looked_at
from assessments.questions.cases.crown import mild_lean, passing_hole
from assessments.questions.drafts.choice import Choice
from assessments.questions.drafts.draft import Draft
from assessments.questions.drafts.family import item_family
from assessments.questions.drafts.seeding import Redraw
from assessments.questions.items.claims import Decided
from assessments.questions.items.item import Item
from training.trade.speech import say, saying

_PROPOSALS = {
    "one-piece": (saying("A one-piece unit pulled through from inside"), ("any-lean-is-steep",)),
    "two-piece": (saying("A stem in the channel and a patch over it, from inside"), ("two-piece-only-when-steep",)),
    "stem-only": (saying("A stem in the channel and nothing on the liner"), ("stem-alone",)),
    "patch-only": (saying("A patch on the liner and nothing in the channel"), ("patch-alone",)),
    "string": (saying("A string plug pushed in from outside, tire on the wheel"), ("string-from-outside",)),
    "tube": (saying("An inner tube, and the hole left as it is"), ("tube-instead",)),
}


@item_family(
    "proposals",
    title=saying("Which proposals are repairs"),
    skill="angle-and-method",
    formats=("several",),
    casings=REPAIRED,
    lesson="measure-and-choose/angle-and-method",
    foretells=True,
)
def build(draft: Draft) -> Item:
    rng = draft.rng
    model = draft.pick_model()
    mild, steep = edge_mm(draft.limit("injury.angle", model.casing))
    angle = rng.choice([mild_lean(draft, mild, 6), rng.randint(int(steep) + 1, 55)])
    diameter = passing_hole(draft, model.casing)
    injury = hole(diameter=diameter, lateral=draft.told(draft.between(0, 10)), angle_deg=angle)
    offered = ["one-piece", "two-piece", *rng.sample(("stem-only", "patch-only", "string", "tube"), 3)]
    caught = {"patch-only": "patch-alone", "string": "string-from-outside"}
    draft.foretell(3, of=len(offered), catches=[caught[one] for one in offered if one in caught])
    right, wrong, rulings = [], [], []
    for proposed in offered:
        case = draft.case(looked_at(model, draft.edition, injuries=[injury], proposed=proposed))
        decision = draft.decide(case)
        text, why = _PROPOSALS[proposed]
        claim = Decided(("repair",), case={"proposed": proposed})
        rulings += [one for one in decision.rulings if one.subject == "proposal" and one not in rulings]
        if decision.verdict == "repair":
            right.append(Choice(text, why, claim=claim))
        else:
            mistakes = ("one-piece-at-any-angle",) if proposed == "one-piece" else why
            if not any(draft.decide(case, name).verdict == "repair" for name in mistakes):
                raise Redraw("something else decides")
            wrong.append(Choice(text, mistakes, unsafe=proposed != "one-piece", claim=claim))
    return draft.several(
        stem=[
            say(
                "A nail hole in mid-crown of a {tire}: {diameter} across after damage removal, the "
                "channel {angle}° from the perpendicular, still in the repairable crown at the liner. "
                "Nothing else was found.",
                tire=model.name,
                diameter=diameter,
                angle=angle,
            ),
            rng.choice(
                [
                    say("Which of these are acceptable repairs of it? Choose all."),
                    say("Which of these may be done? Choose all."),
                ]
            ),
        ],
        right=right,
        wrong=wrong,
        is_listed=True,
        rulings=rulings,
        case=draft.case(looked_at(model, draft.edition, injuries=[injury])),
        features={"lean_deg": angle},
    )
