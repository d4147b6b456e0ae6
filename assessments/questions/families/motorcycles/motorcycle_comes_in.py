"""A punctured motorcycle tire comes in, on or off its wheel: what is done with it now?"""

from assessments.questions.cases.casebook import MOTORCYCLE
from assessments.questions.cases.phrases import (
    AIR_AND_GO,
    REPAIR_FROM_INSIDE,
    STRING_FROM_OUTSIDE,
    TAKE_ANOTHER,
    what_to_do_now,
)
from assessments.questions.drafts.choice import Choice
from assessments.questions.drafts.draft import Draft
from assessments.questions.drafts.family import item_family
from assessments.questions.drafts.seeding import Redraw
from assessments.questions.families.motorcycles.common import LOOK_INSIDE, MAKER, tire
from assessments.questions.items.claims import Decided, laid_over
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
    out = Decided(("reject",))
    key = {
        "inspect": Choice(LOOK_INSIDE, claim=Decided(("inspect",))),
        "refer": Choice(MAKER, claim=Decided(("refer",))),
        "reject": Choice(TAKE_ANOTHER, claim=out),
    }.get(decision.verdict)
    if key is None or (state == "on" and decision.verdict != "inspect"):
        raise Redraw("something else decides")
    seen = {"on": ("look-from-outside",), "off": (), "loose": ("liner-is-cosmetic",)}[state]
    plugs = ("motorcycle-as-car", "string-from-outside", *(("liner-is-cosmetic",) if state == "loose" else ()))
    holed = {"injuries": [injury]}
    string = holed | {"proposed": "string", "on_wheel": False}
    as_it_is = holed | {"purpose": "service", "on_wheel": True}

    def by(text: str, claim: Decided, *held: str) -> Choice:
        """The option, carried by those who hold all of this if they come to it."""
        decided = draft.decide(draft.case(laid_over(data, claim.case)), *held)
        return Choice(text, held if decided.verdict in claim.verdicts else (), together=True, claim=claim)

    wrong = [
        by(REPAIR_FROM_INSIDE, Decided(("repair",), case=holed), "motorcycle-as-car", *seen),
        by(STRING_FROM_OUTSIDE, Decided(("repair",), case=string), *plugs),
        by(AIR_AND_GO, Decided(("accept", "advise"), case=as_it_is), "air-and-go"),
        by(TAKE_ANOTHER, out, "judged-unseen" if state == "on" else "motorcycle-any-hole-ends"),
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
