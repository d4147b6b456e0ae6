"""A hole in a motorcycle tire: how is it repaired, and who says so?"""

from dataclasses import replace

from assessments.questions.cases.casebook import MOTORCYCLE, hole
from assessments.questions.cases.phrases import claims_of, outcome, patch_alone
from assessments.questions.drafts.draft import Draft
from assessments.questions.drafts.family import item_family
from assessments.questions.families.motorcycles.common import as_a_car, judged, tire
from assessments.questions.items.item import Item
from training.trade.speech import say, saying

_PLACES = {
    "crown": saying("in the middle of the tread"),
    "shoulder": saying("in the shoulder, outside the tread"),
    "sidewall": saying("in the sidewall"),
}
_IN_TREAD = 0.6


@item_family(
    "motorcycle-method",
    title=saying("How a motorcycle tire is repaired"),
    skill="angle-and-method",
    formats=("one",),
    casings=MOTORCYCLE,
    lesson="motorcycles/motorcycle-tires",
)
def build(draft: Draft) -> Item:
    rng, edition = draft.rng, draft.edition
    model = draft.pick_model()
    # Where no rule says that a hole beside the tread ends the tire, only holes in the tread are asked about.
    known = edition.limit("injury.zone", "motorcycle") is not None
    zone = "crown" if not known or rng.random() < _IN_TREAD else rng.choice(("shoulder", "sidewall"))
    angle, size = rng.choice((0, *range(8, 22), *range(38, 50))), draft.told(draft.near(rng.choice((2, 3, 4, 5))))
    measured = hole(diameter=size, angle_deg=angle)
    in_tread = tire(draft, model, "repair", injuries=[{**measured, "zone": "crown"}])
    told = {name: value for name, value in measured.items() if zone == "crown" or name != "lateral"}
    data = {**in_tread, "injuries": [{**told, "zone": zone}]}
    wrong = []
    for held in ((), ("any-lean-is-steep",), ("one-piece-at-any-angle",)):
        car = draft.decide(draft.case(as_a_car(in_tread)), *held)
        beliefs = ("motorcycle-as-car", *held, *(("motorcycle-sidewall-patched",) if zone != "crown" else ()))
        believed = draft.decide(draft.case(data), *beliefs)
        choice = outcome(car, edition, beliefs, together=True)
        wrong.append(choice if choice.claim in claims_of(believed, edition) else replace(choice, why=()))
    alone = ("motorcycle-as-car", "patch-alone") if zone == "crown" else ()
    wrong.append(replace(patch_alone(), why=alone, together=True))
    lean = say("straight through") if angle == 0 else say("leaning {angle}° from the perpendicular", angle=angle)
    return judged(
        draft,
        stem=[
            say(
                "A motorcycle tire, {designation}, off the wheel. Nail hole {place}, {size} across "
                "after damage removal, {lean}. Nothing else was found.",
                designation=model.designation,
                place=_PLACES[zone],
                size=size,
                lean=lean,
            ),
            rng.choice([say("How is it repaired?"), say("What do you do with it?")]),
        ],
        data=data,
        beliefs=[("motorcycle-any-hole-ends",)],
        others=wrong,
        features={"zone": zone, "lean_deg": angle},
    )
