"""A new hole in a tire that was repaired before: may it be repaired again?"""

from dataclasses import replace

from assessments.questions.cases.casebook import hole, looked_at
from assessments.questions.cases.one_hole import STATES, one_hole
from assessments.questions.cases.phrases import outcome, subjects, tire_words, words
from assessments.questions.cases.ticket import where_words
from assessments.questions.drafts.choice import Choice
from assessments.questions.drafts.draft import Draft
from assessments.questions.drafts.family import item_family
from assessments.questions.drafts.seeding import Redraw
from assessments.questions.items.claims import Decided
from assessments.questions.items.explanation import explaining
from assessments.questions.items.item import Item
from training.rulebook import Decision
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
    foretells=True,
)
def build(draft: Draft) -> Item:
    rng = draft.rng
    model = draft.pick_model("injury.diameter")
    # The earlier repair decides as often as the new hole does, by its place or its size, and as often as nothing does.
    state = draft.steady("right").choice(("earlier", *STATES))
    draft.foretell(state != "fine", of=3)
    kind, zone, sound, look, lenient = rng.choice(_REPAIRS[_SOUND:] if state == "earlier" else _REPAIRS[:_SOUND])
    found = one_hole(draft, model, "fine" if state == "earlier" else state)
    away = f"{rng.choice((150, 180, 210))} deg"
    earlier = {"id": "R1", "kind": kind, "zone": zone, "injury": "4 mm", "sound": sound, "station": away}
    injury = hole(diameter=found.diameter, lateral=draft.told(found.lateral))
    case = draft.case(looked_at(model, draft.edition, injuries=[injury], earlier_repairs=[earlier]))
    decision = draft.decide(case)
    if (decision.verdict == "repair") != (state == "fine") or len(subjects(decision, draft.edition)) > 1:
        raise Redraw("something else decides too")
    mild = lenient if state == "earlier" else found.mild
    beliefs = [mild] if mild else []
    beliefs += [(*lenient, *held) for held in found.refused]
    wrong = [_said(draft.decide(case, *held), draft, *held) for held in beliefs]
    scraps = (*found.mild, "any-earlier-repair-scraps")
    wrong.append(_said(draft.decide(case, *scraps), draft, *scraps))
    return draft.one(
        stem=[
            tire_words(rng, model),
            say(
                "New: a nail hole straight through, {diameter} across after damage removal, its center {place}.",
                diameter=found.diameter,
                place=where_words(draft, model, found.bound, found.lateral),
            ),
            say("Old, on the far side: {repair}.", repair=look),
            rng.choice(
                [say("Nothing else was found. What do you do?"), say("All else is in order. What is your call?")]
            ),
        ],
        key=_said(decision, draft),
        wrong=wrong,
        is_even=True,
        case=case,
        rulings=explaining(decision),
        features={"earlier": kind, "zone": zone, "sound": sound},
    )


def _said(decision: Decision, draft: Draft, *held: str) -> Choice:
    """A decision as an option; what is wrong with the earlier repair is left for its explanation."""
    said = outcome(decision, draft.edition, held, together=True)
    claim = said.claim
    if isinstance(claim, Decided) and claim.because and claim.because[0].startswith("repair"):
        claim = replace(claim, because=("repair",))
        return replace(said, text=words(claim), claim=claim)
    return said
