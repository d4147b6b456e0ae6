"""Something was seen that nobody can judge: what follows?"""

from assessments.questions.cases.bodies import REPAIRED, repaired
from assessments.questions.cases.casebook import hole, looked_at
from assessments.questions.cases.crown import usual_hole
from assessments.questions.cases.one_hole import STATES, one_hole
from assessments.questions.cases.phrases import DOUBTFUL, outcome, subjects
from assessments.questions.cases.ticket import where_words
from assessments.questions.drafts.draft import Draft
from assessments.questions.drafts.family import item_family
from assessments.questions.drafts.seeding import Redraw
from assessments.questions.items.item import Item
from training.trade.speech import say, saying

_CLEARED = saying("a faint mark inside, looked at again by a second technician, who is sure that it is a mold mark")


@item_family(
    "doubt",
    title=saying("In doubt"),
    skill="safety",
    formats=("one",),
    casings=REPAIRED,
    lesson="inspect-and-reject/off-the-wheel",
    foretells=True,
)
def build(draft: Draft) -> Item:
    rng = draft.rng
    model = draft.model_of(*repaired(draft))
    finding = rng.choice(sorted(DOUBTFUL))
    # Each of the four answers is right as often: what is seen says less than the hole, or more.
    state = draft.steady("right").choice(("doubt", *STATES))
    draft.foretell(state != "fine", of=3, catches=("doubt-is-fine",) if state == "doubt" else ())
    is_cleared = state != "doubt"
    found = one_hole(draft, model, state if is_cleared else "fine")
    injury = hole(diameter=found.diameter, lateral=draft.told(found.lateral))
    doubtful = () if is_cleared else (finding,)
    case = draft.case(looked_at(model, draft.edition, injuries=[injury], doubtful=doubtful))
    decision = draft.decide(case)
    if (decision.verdict == "repair") != (state == "fine") or len(subjects(decision, draft.edition)) > 1:
        raise Redraw("something else decides")
    mild = found.mild if is_cleared else ("doubt-is-fine",)
    beliefs = [mild] if mild else []
    beliefs += [held if is_cleared else (*mild, *held) for held in found.refused]
    wrong = [outcome(draft.decide(case, *held), draft.edition, held, together=True) for held in beliefs]
    if is_cleared:
        usual = hole(diameter=usual_hole(draft, model.casing, "4 mm"))
        doubted = draft.decide(draft.case(looked_at(model, draft.edition, injuries=[usual], doubtful=[finding])))
        wrong.append(outcome(doubted, draft.edition, ("doubt-stays",)))
    mark = _CLEARED if is_cleared else DOUBTFUL[finding]
    return draft.one(
        stem=[
            say(
                "A {tire}, {designation}, off the wheel. Nail hole straight through, {diameter} after "
                "damage removal, its center {place}.",
                tire=model.name,
                designation=model.designation,
                diameter=found.diameter,
                place=where_words(draft, model, found.bound, found.lateral),
            ),
            say("Also seen: {mark}. Nothing else was found.", mark=mark),
            rng.choice([say("What do you do?"), say("What is your call?")]),
        ],
        key=outcome(decision, draft.edition),
        wrong=wrong,
        is_even=True,
        case=case,
        rulings=decision.deciding,
        features={"in_doubt": not is_cleared, "state": state},
    )
