"""Several tires, each repaired before: beside which of the earlier repairs may a new nail hole be repaired?"""

from assessments.questions.cases.casebook import hole, looked_at
from assessments.questions.cases.crown import passing_hole
from assessments.questions.drafts.choice import Choice
from assessments.questions.drafts.draft import Draft
from assessments.questions.drafts.family import item_family
from assessments.questions.drafts.seeding import Redraw
from assessments.questions.items.claims import Decided
from assessments.questions.items.item import Item
from training.rulebook import Decision, Ruling
from training.trade.speech import say, saying

_OFFERED = 7
_BONDED = (saying("every edge bonded"), saying("flat and bonded all around"), saying("tight to the liner everywhere"))
_HOLDS_AIR, _FAILED = saying("holding air"), (saying("one edge lifting"), saying("cracked across"))
_PROPER, _IMPROPER = ("two-piece", "one-piece"), ("string", "patch-only", "stem-only")
_SAID = {
    ("two-piece", "crown"): saying("A stem under a patch in the crown, {state}"),
    ("two-piece", "shoulder"): saying("A stem under a patch in the shoulder, {state}"),
    ("two-piece", "sidewall"): saying("A stem under a patch in the sidewall, {state}"),
    ("one-piece", "crown"): saying("A one-piece unit in the crown, {state}"),
    ("one-piece", "shoulder"): saying("A one-piece unit in the shoulder, {state}"),
    ("one-piece", "sidewall"): saying("A one-piece unit in the sidewall, {state}"),
    ("string", "crown"): saying("A string plug in the crown, {state}"),
    ("patch-only", "crown"): saying("A patch over an open channel in the crown, {state}"),
    ("stem-only", "crown"): saying("A stem without a patch in the crown, {state}"),
}


@item_family(
    "repairs-found",
    title=saying("Which earlier repairs may stay"),
    skill="rejecting-conditions",
    formats=("several",),
    lesson="measure-and-choose/two-injuries",
)
def build(draft: Draft) -> Item:
    rng = draft.rng
    model = draft.pick_model()
    injury = hole(diameter=passing_hole(draft, model.casing))
    proper = [(kind, "crown", state, "any-earlier-repair-scraps") for kind in _PROPER for state in _BONDED]
    improper = [
        [(kind, "crown", _HOLDS_AIR, "earlier-repair-holds") for kind in _IMPROPER],
        [(kind, zone, _BONDED[0], "earlier-repair-anywhere") for kind in _PROPER for zone in ("shoulder", "sidewall")],
        [(kind, "crown", state, "earlier-repair-not-looked-at") for kind in _PROPER for state in _FAILED],
    ]
    mixed = [one for some in improper for one in rng.sample(some, 2)]
    rng.shuffle(mixed)
    found = [*rng.sample(proper, rng.randint(1, 4)), *mixed]
    right: list[Choice] = []
    wrong: list[Choice] = []
    rulings: list[Ruling] = []
    known: dict[tuple[str, str, bool], Decision] = {}
    for kind, zone, state, mistake in found[:_OFFERED]:
        which = kind, zone, state not in _FAILED
        old = {"id": "R1", "kind": kind, "zone": zone, "injury": "4 mm", "sound": which[2], "station": "180 deg"}
        if which not in known:
            case = draft.case(looked_at(model, draft.edition, injuries=[injury], earlier_repairs=[old]))
            known[which] = draft.decide(case)
            if draft.decide(case, mistake).verdict == known[which].verdict:
                raise Redraw("the misconception decides nothing")
        decision = known[which]
        stays = decision.verdict == "repair"
        text = say(_SAID[kind, zone], state=state)
        claim = Decided(("repair",), case={"earlier_repairs": [old]})
        (right if stays else wrong).append(Choice(text, (mistake,), claim=claim))
        rulings += [one for one in decision.deciding if not stays and one not in rulings]
    return draft.several(
        stem=[
            say(
                "Each of these earlier repairs was found in another {tire}. On the far side, near the "
                "crown centerline, each has a new nail hole that may be repaired by itself.",
                tire=model.name,
            ),
            rng.choice(
                [
                    say("Beside which of them may the new hole be repaired? Choose all."),
                    say("With which of them does the tire stay repairable? Choose all."),
                ]
            ),
        ],
        right=right,
        wrong=wrong,
        rulings=rulings,
        case=draft.case(looked_at(model, draft.edition, injuries=[injury])),
        features={"repairs": _OFFERED, "staying": len(right)},
    )
