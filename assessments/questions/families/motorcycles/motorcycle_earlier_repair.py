"""A motorcycle tire that somebody plugged or patched before: by zone, kind and state, what follows?"""

from assessments.questions.cases.casebook import MOTORCYCLE
from assessments.questions.drafts.draft import Draft
from assessments.questions.drafts.family import item_family
from assessments.questions.families.motorcycles.common import REPAIRS, as_a_car, judged, tire, verdict
from assessments.questions.items.item import Item
from training.trade.speech import say, saying

_USES = {
    "service": saying("A motorcycle tire, {designation}. The tire is in use and was inspected off the wheel."),
    "fit-used": saying("A motorcycle tire, {designation}. The tire is used and is to be fitted to another motorcycle."),
}


@item_family(
    "motorcycle-earlier-repair",
    title=saying("A motorcycle tire that was repaired before"),
    skill="rejecting-conditions",
    formats=("one",),
    casings=MOTORCYCLE,
    lesson="motorcycles/what-law-says-of-motorcycles",
)
def build(draft: Draft) -> Item:
    rng = draft.rng
    model = draft.pick_model()
    # What is judged otherwise than in a car comes up more often than what ends every tire.
    note = rng.choice((*REPAIRS, *REPAIRS[:4]))
    purpose = rng.choice(tuple(_USES))
    data = tire(draft, model, purpose, note)
    earlier = data["earlier_repairs"][0]
    offside = {**data, "earlier_repairs": [{**earlier, "zone": "sidewall"}]}
    lifted = {**data, "earlier_repairs": [{**earlier, "zone": "crown", "sound": False}]}
    others = [
        verdict(draft.decide(draft.case(taken)), draft.edition, purpose, why)
        for taken, why in ((as_a_car(data), ("motorcycle-as-car",)), (offside, ()), (lifted, ()))
    ]
    mild = [*note.passes, "motorcycle-used-as-in-use"]
    return judged(
        draft,
        stem=[
            say(_USES[purpose], designation=model.designation),
            say("Found: {repair}. Tread and rubber are good, and nothing else was found.", repair=note.words),
            rng.choice([say("What do you do?"), say("What is your call?")]),
        ],
        data=data,
        beliefs=[*((name,) for name in (*mild, *note.ends)), tuple(mild)],
        others=others,
        features={"purpose": purpose, "repair": {name: earlier[name] for name in ("kind", "zone", "sound")}},
    )
