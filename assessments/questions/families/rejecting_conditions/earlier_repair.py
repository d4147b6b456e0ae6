"""A new hole in a tire that was repaired before: may it be repaired again?"""

from assessments.questions.cases.casebook import hole, looked_at
from assessments.questions.cases.crown import crown_bound, passing_hole
from assessments.questions.cases.phrases import outcome, tire_words
from assessments.questions.cases.ticket import where_words
from assessments.questions.drafts.draft import Draft
from assessments.questions.drafts.family import item_family
from assessments.questions.drafts.seeding import Redraw
from assessments.questions.items.explanation import explaining
from assessments.questions.items.item import Item
from training.trade.speech import say, saying
from training.trade.words import LIGHT, STEEL

_HOLDS, _ANYWHERE, _UNSEEN = "earlier-repair-holds", "earlier-repair-anywhere", "earlier-repair-not-looked-at"
# Kind, zone, is it sound, how it looks, and the misconceptions that let it pass.
_REPAIRS = (
    ("two-piece", "crown", True, saying("a stem under a patch in the crown, every edge bonded"), ()),
    ("one-piece", "crown", True, saying("a one-piece unit in the crown, every edge bonded"), ()),
    ("two-piece", "crown", False, saying("a stem under a patch in the crown, one edge lifting"), (_UNSEEN,)),
    ("one-piece", "crown", False, saying("a one-piece unit in the crown, cracked across"), (_UNSEEN,)),
    ("two-piece", "shoulder", True, saying("a stem under a patch in the shoulder, every edge bonded"), (_ANYWHERE,)),
    ("one-piece", "sidewall", True, saying("a one-piece unit in the sidewall, every edge bonded"), (_ANYWHERE,)),
    ("string", "crown", True, saying("a string plug in the crown, holding air"), (_HOLDS,)),
    ("patch-only", "crown", True, saying("a patch over an open channel in the crown, holding air"), (_HOLDS,)),
    ("stem-only", "crown", True, saying("a stem without a patch in the crown, holding air"), (_HOLDS,)),
)
_SOUND = 2


@item_family(
    "earlier-repair",
    title=saying("A tire that was repaired before"),
    skill="rejecting-conditions",
    formats=("one",),
    casings=(*LIGHT, *STEEL),
    lesson="measure-and-choose/two-injuries",
)
def build(draft: Draft) -> Item:
    rng = draft.rng
    model = draft.pick_model("injury.diameter")
    is_fine = rng.random() < 0.4
    kind, zone, sound, look, mild = rng.choice(_REPAIRS[:_SOUND] if is_fine else _REPAIRS[_SOUND:])
    diameter = passing_hole(draft, model.casing)
    bound = crown_bound(draft, model)
    lateral = (bound.inner_mm - draft.between(6, 13)) * rng.choice((-1, 1))
    strict = (bound.refused_sooner[0], "light-limit-for-steel" if model.casing in STEEL else "stricter-size")
    away = f"{rng.choice((150, 180, 210))} deg"
    earlier = {"id": "R1", "kind": kind, "zone": zone, "injury": "4 mm", "sound": sound, "station": away}
    injury = hole(diameter=diameter, lateral=draft.told(lateral))
    case = draft.case(looked_at(model, draft.edition, injuries=[injury], earlier_repairs=[earlier]))
    decision = draft.decide(case)
    if decision.verdict != ("repair" if is_fine else "reject"):
        raise Redraw("the earlier repair does not decide")
    beliefs = [(*mild, held) for held in ("any-earlier-repair-scraps", *strict)]
    beliefs.append(mild if mild else ("any-lean-is-steep",))
    wrong = [outcome(draft.decide(case, *held), draft.edition, held, together=True) for held in beliefs]
    return draft.one(
        stem=[
            tire_words(rng, model),
            say(
                "New: a nail hole straight through, {diameter} across after damage removal, its center {place}.",
                diameter=diameter,
                place=where_words(draft, model, bound, lateral),
            ),
            say("Old, on the far side: {repair}.", repair=look),
            rng.choice(
                [say("Nothing else was found. What do you do?"), say("All else is in order. What is your call?")]
            ),
        ],
        key=outcome(decision, draft.edition),
        wrong=wrong,
        case=case,
        rulings=explaining(decision),
        features={"earlier": kind, "zone": zone, "sound": sound},
    )
