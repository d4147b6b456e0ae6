"""A punctured motorcycle tire comes in, on or off its wheel: what is done with it now?"""

from assessments.questions.cases.casebook import MOTORCYCLE
from assessments.questions.cases.phrases import (
    AIR_AND_GO,
    OUT_FOR_ITS_LINER,
    REPAIR_FROM_INSIDE,
    STRING_FROM_OUTSIDE,
    what_to_do_now,
)
from assessments.questions.drafts.choice import Choice
from assessments.questions.drafts.draft import Draft
from assessments.questions.drafts.family import item_family
from assessments.questions.drafts.seeding import Redraw
from assessments.questions.families.motorcycles.common import LOOK_INSIDE, MAKER, tire
from assessments.questions.items.claims import Decided
from assessments.questions.items.item import Item
from training.trade.speech import say, saying

_SEEN = {
    "on": saying(
        "A motorcycle tire, {designation}, is still on its wheel; {object} sits near the middle of the tread and the "
        "tire has lost some air."
    ),
    "off": saying(
        "A motorcycle tire, {designation}, is off its wheel; nothing was found in or on it but {hole} {size} "
        "across, {distance} from the middle of the tread."
    ),
    "loose": saying(
        "A motorcycle tire, {designation}, is off its wheel; it has {hole} {size} across, {distance} from the "
        "middle of the tread, and liner that lifts."
    ),
}
# What made the hole, and the hole it left.
_OBJECTS = (
    (saying("a nail"), saying("a nail hole")),
    (saying("a screw"), saying("a screw hole")),
    (saying("a wire"), saying("a wire hole")),
)


@item_family(
    "motorcycle-comes-in",
    title=saying("A punctured motorcycle tire comes in"),
    skill="safety",
    formats=("one",),
    casings=MOTORCYCLE,
    lesson="motorcycles/motorcycle-tires",
)
def build(draft: Draft) -> Item:
    rng = draft.rng
    model = draft.pick_model()
    state, size = rng.choice(tuple(_SEEN)), draft.told(draft.near(rng.choice((2, 3, 4, 5))))
    thing, left = rng.choice(_OBJECTS)
    places = {"object": thing, "hole": left, "size": size, "distance": draft.told(draft.between(0, 20))}
    injury = {"id": "A", "kind": "puncture", "zone": "crown", "diameter": size}
    found = ["liner-separation"] if state == "loose" else []
    data = tire(draft, model, "repair", injuries=[injury], found=found, on_wheel=state == "on")
    if state == "on":
        data["findings"] = {}
        data["injuries"] = None
    decision = draft.decide(draft.case(data))
    out = Decided(("reject",), because=("finding.liner-separation",))
    key = {
        "inspect": Choice(LOOK_INSIDE, claim=Decided(("inspect",))),
        "refer": Choice(MAKER, claim=Decided(("refer",))),
        "reject": Choice(OUT_FOR_ITS_LINER, claim=out),
    }.get(decision.verdict)
    if key is None or (state == "on" and decision.verdict != "inspect"):
        raise Redraw("something else decides")
    seen = {"on": ("look-from-outside",), "off": (), "loose": ("liner-is-cosmetic",)}[state]
    wrong = [
        Choice(REPAIR_FROM_INSIDE, ("motorcycle-as-car", *seen), together=True, claim=Decided(("repair",))),
        Choice(STRING_FROM_OUTSIDE, ("string-from-outside",), claim=Decided(("repair",), methods=("string",))),
        Choice(AIR_AND_GO, ("air-and-go",), claim=Decided(("accept",))),
        Choice(OUT_FOR_ITS_LINER, ("judged-unseen",), claim=out),
    ]
    if state != "on":
        wrong.append(Choice(MAKER, ("motorcycle-all-to-its-maker",), claim=Decided(("refer",))))
    return draft.one(
        stem=[
            say(_SEEN[state], designation=model.designation, **places),
            what_to_do_now(rng),
        ],
        key=key,
        wrong=wrong,
        case=draft.case(data),
        rulings=decision.deciding,
        features={"state": state},
    )
