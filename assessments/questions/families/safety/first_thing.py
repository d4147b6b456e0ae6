"""A punctured tire comes in, on or off its wheel: what is done with it now?"""

from dataclasses import replace

from assessments.questions.cases.casebook import hole, looked_at
from assessments.questions.cases.crown import usual_hole
from assessments.questions.cases.phrases import (
    AIR_AND_GO,
    REPAIR_FROM_INSIDE,
    STRING_FROM_OUTSIDE,
    TAKE_ANOTHER,
    what_to_do_now,
    who_decides,
)
from assessments.questions.drafts.choice import Choice
from assessments.questions.drafts.draft import Draft
from assessments.questions.drafts.family import item_family
from assessments.questions.drafts.seeding import Redraw
from assessments.questions.items.claims import Decided, laid_over
from assessments.questions.items.item import Item
from training.trade.speech import say, saying
from training.trade.words import LIGHT

_INSPECT = saying("Take the tire off the wheel and look at it from inside")
_SEEN = {
    "on": saying(
        "A {tire}, {designation}, is still on its wheel; a nail sits near the middle of the tread and it has lost "
        "some air."
    ),
    "off": saying(
        "A {tire}, {designation}, is off its wheel; nothing was found in or on it but a nail hole in mid-crown, {size} "
        "after damage removal."
    ),
    "loose": saying(
        "A {tire}, {designation}, is off its wheel; it has a nail hole in mid-crown, {size} after damage removal, and "
        "liner that lifts."
    ),
}


@item_family(
    "first-thing",
    title=saying("What is done now"),
    skill="safety",
    formats=("one",),
    casings=(*LIGHT, "light-truck-steel"),
    lesson="inspect-and-reject/off-the-wheel",
)
def build(draft: Draft) -> Item:
    rng = draft.rng
    model = draft.pick_model()
    state = rng.choice(("on", "off", "loose"))
    found = ["liner-separation"] if state == "loose" else []
    size = usual_hole(draft, model.casing, "4 mm")
    data = looked_at(model, draft.edition, injuries=[hole(diameter=size)], found=found, on_wheel=state == "on")
    if state == "on":
        data["findings"] = {}
    decision = draft.decide(draft.case(data))
    string = {"proposed": "string", "on_wheel": False}
    inspect = Choice(_INSPECT, claim=Decided(("inspect",)))
    case = draft.case(data)
    repair = Choice(
        REPAIR_FROM_INSIDE,
        who_decides(draft, case, ("repair",), ("look-from-outside", "liner-is-cosmetic")),
        claim=Decided(("repair",)),
    )
    scraps = who_decides(draft, case, ("reject",), ("judged-unseen", "stricter-size"))
    reject = Choice(TAKE_ANOTHER, scraps, claim=Decided(("reject",)))
    key = {"inspect": inspect, "repair": repair, "reject": reject}.get(decision.verdict)
    if key is None:
        raise Redraw("something else decides")
    as_it_is = {"purpose": "service", "on_wheel": True}
    sent = draft.case(laid_over(data, as_it_is))
    wrong = [
        repair,
        Choice(
            STRING_FROM_OUTSIDE,
            ("string-from-outside", *(("liner-is-cosmetic",) if state == "loose" else ())),
            together=True,
            claim=Decided(("repair",), case=string),
        ),
        Choice(
            AIR_AND_GO,
            who_decides(draft, sent, ("accept", "advise"), ("air-and-go",)),
            claim=Decided(("accept", "advise"), case=as_it_is),
        ),
        reject,
    ]
    return draft.one(
        stem=[
            say(_SEEN[state], tire=model.name, designation=model.designation, size=size),
            what_to_do_now(rng),
        ],
        key=key,
        wrong=[replace(choice, why=()) if choice is key else choice for choice in wrong],
        case=case,
        rulings=decision.deciding,
        features={"state": state},
    )
