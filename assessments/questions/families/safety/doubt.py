"""Something was seen that nobody can judge: what follows?"""

from assessments.questions.cases.bodies import REPAIRED, repaired
from assessments.questions.cases.casebook import hole, looked_at
from assessments.questions.cases.crown import crown_bound, passing_hole
from assessments.questions.cases.phrases import DOUBTFUL, outcome
from assessments.questions.cases.ticket import where_words
from assessments.questions.drafts.draft import Draft
from assessments.questions.drafts.family import item_family
from assessments.questions.drafts.seeding import Redraw
from assessments.questions.items.item import Item
from training.trade.speech import say, saying
from training.trade.words import STEEL

_CLEARED = saying("a faint mark inside, looked at again by a second technician, who is sure that it is a mold mark")


@item_family(
    "doubt",
    title=saying("In doubt"),
    skill="safety",
    formats=("one",),
    casings=REPAIRED,
    lesson="inspect-and-reject/off-the-wheel",
)
def build(draft: Draft) -> Item:
    rng = draft.rng
    model = draft.model_of(*repaired(draft))
    finding = rng.choice(sorted(DOUBTFUL))
    is_cleared = rng.random() < 0.4
    diameter = passing_hole(draft, model.casing)
    bound = crown_bound(draft, model)
    strict = (bound.refused_sooner[0], "light-limit-for-steel" if model.casing in STEEL else "stricter-size")
    lateral = (bound.inner_mm - draft.between(6, 13)) * rng.choice((-1, 1))
    injury = hole(diameter=diameter, lateral=draft.told(lateral))
    doubtful = () if is_cleared else (finding,)
    case = draft.case(looked_at(model, draft.edition, injuries=[injury], doubtful=doubtful))
    decision = draft.decide(case)
    if decision.verdict != ("repair" if is_cleared else "reject"):
        raise Redraw("something else decides")
    mild = () if is_cleared else ("doubt-is-fine",)
    beliefs = [*((*mild, belief) for belief in strict), mild or ("any-lean-is-steep",)]
    wrong = [outcome(draft.decide(case, *held), draft.edition, held, together=True) for held in beliefs]
    if is_cleared:
        doubted = draft.decide(draft.case(looked_at(model, draft.edition, injuries=[injury], doubtful=[finding])))
        wrong.append(outcome(doubted, draft.edition, ("judged-unseen",)))
    mark = _CLEARED if is_cleared else DOUBTFUL[finding]
    return draft.one(
        stem=[
            say(
                "A {tire}, {designation}, off the wheel. Nail hole straight through, {diameter} after "
                "damage removal, its center {place}.",
                tire=model.name,
                designation=model.designation,
                diameter=diameter,
                place=where_words(draft, model, bound, lateral),
            ),
            say("Also seen: {mark}. Nothing else was found.", mark=mark),
            rng.choice([say("What do you do?"), say("What is your call?")]),
        ],
        key=outcome(decision, draft.edition),
        wrong=wrong,
        case=case,
        rulings=decision.deciding,
        features={"in_doubt": not is_cleared},
    )
