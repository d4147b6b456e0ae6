"""Several tires, each repaired before: beside which of the earlier repairs may a new nail hole be repaired?"""

from ..casebook import CASING_NAMES, hole, looked_at
from ..draft import Choice, Draft, Redraw
from ..model import Item
from ..registry import item_family
from ..within import passing_hole

_OFFERED = 7
_BONDED, _HOLDS_AIR, _FAILED = "every edge bonded", "holding air", ("one edge lifting", "cracked across")
_PROPER = {"two-piece": "A stem under a patch", "one-piece": "A one-piece unit"}
_IMPROPER = {
    "string": "A string plug",
    "patch-only": "A patch over an open channel",
    "stem-only": "A stem without a patch",
}


@item_family(
    "repairs-found",
    title="Which earlier repairs may stay",
    skill="rejecting-conditions",
    formats=("several",),
    lesson="measure-and-choose/two-injuries",
)
def build(draft: Draft) -> Item:
    rng = draft.rng
    model = draft.pick_model()
    injury = hole(diameter=passing_hole(draft, model.casing))
    found = [(kind, "crown", _BONDED, "any-earlier-repair-scraps") for kind in _PROPER]
    found += [(kind, "crown", _HOLDS_AIR, "earlier-repair-holds") for kind in rng.sample(sorted(_IMPROPER), 2)]
    found += [(kind, rng.choice(("shoulder", "sidewall")), _BONDED, "earlier-repair-anywhere") for kind in _PROPER]
    found += [(kind, "crown", rng.choice(_FAILED), "earlier-repair-not-looked-at") for kind in _PROPER]
    right: list[Choice] = []
    wrong: list[Choice] = []
    rulings = []
    for kind, zone, state, mistake in rng.sample(found, _OFFERED):
        sound = state not in _FAILED
        old = {"id": "R1", "kind": kind, "zone": zone, "injury": "4 mm", "sound": sound, "station": "180 deg"}
        case = draft.case(looked_at(model, draft.edition, injuries=[injury], earlier_repairs=[old]))
        decision = draft.decide(case)
        stays = decision.verdict == "repair"
        if (draft.decide(case, mistake).verdict == "repair") == stays:
            raise Redraw("the misconception decides nothing")
        text = f"{(_PROPER | _IMPROPER)[kind]} in the {zone}, {state}"
        (right if stays else wrong).append(Choice(text, (mistake,), unsafe=not stays))
        rulings += [one for one in decision.deciding if not stays and one not in rulings]
    if not right:
        raise Redraw("none may stay")
    return draft.several(
        stem=[
            f"Each of these earlier repairs was found in another {CASING_NAMES[model.casing]}. On the far side, near "
            "the crown centerline, each has a new nail hole that may be repaired by itself.",
            rng.choice(
                [
                    "Beside which of them may the new hole be repaired? Choose all.",
                    "With which of them does the tire stay repairable? Choose all.",
                ]
            ),
        ],
        right=right,
        wrong=wrong,
        rulings=rulings,
        case=draft.case(looked_at(model, draft.edition, injuries=[injury])),
        features={"repairs": _OFFERED, "staying": len(right)},
    )
