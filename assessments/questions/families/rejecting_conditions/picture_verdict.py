"""A tire with a nail hole in order, and a picture of one more place on it: may it be repaired?"""

from itertools import pairwise

from assessments.questions.cases.casebook import hole, looked_at
from assessments.questions.cases.crown import passing_hole
from assessments.questions.cases.phrases import outcome, tire_words
from assessments.questions.cases.sights import JUDGED, asked_pair, beside, features_of, figure, rulings_on, seen_in
from assessments.questions.drafts.choice import Choice
from assessments.questions.drafts.draft import Draft
from assessments.questions.drafts.family import item_family
from assessments.questions.drafts.seeding import Redraw, seeded
from assessments.questions.items.claims import laid_over
from assessments.questions.items.item import Item
from training.rulebook import Edition, decide, parse_case
from training.trade.speech import once_a_language, say, saying
from training.trade.words import LIGHT, STEEL

_OTHERS = 4  # how many pairs of other conditions are tried beside one picture


@item_family(
    "picture-verdict",
    title=saying("What a picture means for the tire"),
    skill="rejecting-conditions",
    formats=("one",),
    casings=(*LIGHT, *STEEL),
    lesson="inspect-and-reject/reject-on-sight",
)
def build(draft: Draft) -> Item:
    rng = draft.rng
    model = draft.pick_model("injury.diameter")
    diameter = passing_hole(draft, model.casing)
    # as often one as the other, however many tries either takes
    look_alike = seeded(draft.family.name, draft.seed, "sound").random() < 0.5
    pair, photographs = asked_pair(draft, JUDGED, casing=model.casing)
    others = beside(pair, JUDGED)
    rng.shuffle(others)
    seen = seen_in(draft, pair, look_alike, photographs)
    sound = looked_at(model, draft.edition, injuries=[hole(diameter=diameter)])
    shown, taken = (draft.case(laid_over(sound, pair.case(looks))) for looks in (look_alike, not look_alike))
    decision, believed = draft.decide(shown), draft.decide(taken)
    if {decision.verdict, believed.verdict} != {"repair", "reject"}:
        raise Redraw("the picture does not decide")
    where = {
        "sidewall": say("One place on its sidewall looks as in the picture."),
        "bead": say("One place at its bead looks as in the picture."),
        "tread": say("One place on its tread looks as in the picture."),
        "liner": say("One place on its liner looks as in the picture."),
    }
    stem = [
        tire_words(rng, model),
        say(
            "A nail hole goes straight through on the crown centerline, {diameter} across after damage removal.",
            diameter=diameter,
        ),
        where[pair.surface],
        rng.choice([say("Nothing else was found. What do you do?"), say("All else is in order. What is your call?")]),
    ]
    for one, other in list(pairwise(others))[:_OTHERS]:  # by other words the length of the key may be unremarkable
        try:
            return draft.one(
                stem=stem,
                key=outcome(decision, draft.edition),
                wrong=[
                    outcome(believed, draft.edition, (pair.belief(look_alike),)),
                    of_another(draft.edition, model.casing, one.condition),
                    of_another(draft.edition, model.casing, other.condition),
                ],
                figure=lambda: figure(pair, seen),
                case=shown,
                rulings=rulings_on(draft, pair, decision),
                features=features_of(pair, seen, look_alike),
            )
        except Redraw:
            continue
    raise Redraw("no two others fit")


@once_a_language(1024)
def of_another(edition: Edition, casing: str, condition: str) -> Choice:
    """The outcome for a tire with this condition alone: it is the same in every size, with or without a hole."""
    [pair] = (one for one in JUDGED if one.condition == condition)
    model = next(one for one in edition.sizes if one.casing == casing)
    case = parse_case(laid_over(looked_at(model, edition, injuries=[]), pair.case(look_alike=False)))
    return outcome(decide(case, edition=edition, rest_in_order=True), edition)
