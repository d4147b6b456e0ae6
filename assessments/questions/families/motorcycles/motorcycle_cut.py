"""A cut in a motorcycle tire: by the law where it runs, what follows?"""

from assessments.questions.cases.casebook import MOTORCYCLE
from assessments.questions.drafts.choice import Choice
from assessments.questions.drafts.draft import Draft
from assessments.questions.drafts.family import item_family
from assessments.questions.drafts.seeding import Redraw
from assessments.questions.families.motorcycles.common import STATES, judged, said, tire, verdict
from assessments.questions.items.claims import Decided
from assessments.questions.items.item import Item
from training.trade.speech import say, saying

_BOTTOM = {
    "rubber": saying("opened with a blunt tool to its bottom, it shows rubber only"),
    "cord": saying("opened with a blunt tool to its bottom, it shows cord"),
    "": saying("nobody has opened it to look at its bottom"),
}
_BELIEFS = ("motorcycle-any-cut-ends", "cord-is-only-noted", "cut-unopened")


@item_family(
    "motorcycle-cut",
    title=saying("A cut in a motorcycle tire"),
    skill="rejecting-conditions",
    formats=("one",),
    casings=MOTORCYCLE,
    lesson="motorcycles/what-law-says-of-motorcycles",
)
def build(draft: Draft) -> Item:
    rng, edition = draft.rng, draft.edition
    model = draft.pick_model()
    reaches, length = (
        rng.choice(("rubber", "cord", "")),
        draft.told(draft.near(rng.choice((*range(9, 22), *range(29, 45))))),
    )
    injury = {"id": "A", "kind": "cut", "zone": "crown", "length": length}
    injury |= {"reaches": reaches} if reaches else {}
    data = tire(draft, model, "service", injuries=[injury])
    known = edition.clauses.get("motorcycle-cut")
    laws = (
        {}
        if known is None
        else {one.jurisdiction: one.told_in(draft.prefer) for one in known.statements if one.jurisdictions}
    )
    decision = draft.decide(draft.case(data))
    law: list[str] = []
    others: list[Choice] = []
    if laws:
        here, there = rng.sample(sorted(laws), 2)
        law = [
            " ".join(
                say("In {state} the inspection code says: {law}.", state=STATES[one], law=laws[one])
                for one in sorted(laws)
            )
        ]
        law.append(say("This motorcycle is inspected in {state}.", state=STATES[here]))
        data["jurisdiction"] = here
        decision = draft.decide(draft.case(data))
        for held in ((), ("cord-is-only-noted",), ("cut-unopened",)):
            abroad = draft.decide(draft.case({**data, "jurisdiction": there}), *held)
            other = verdict(abroad, edition, why=("one-states-law-everywhere", *held), together=True)
            if other.claim not in {one.claim for one in others}:
                others.append(other)
    elif not reaches and not any(one.consequence == "inspect" for one in decision.rulings):
        raise Redraw("the edition leaves open what follows of a cut that nobody looked into")
    others.append(said(Decided(("accept",)), why=("cuts-are-cosmetic",)))
    return judged(
        draft,
        stem=[
            say(
                "The tread of a motorcycle tire in use, {designation}, has a cut {length} long; {bottom}.",
                designation=model.designation,
                length=length,
                bottom=_BOTTOM[reaches],
            ),
            *law,
            rng.choice([say("Nothing else was found. What do you do?"), say("What becomes of this tire?")]),
        ],
        data=data,
        beliefs=[(name,) for name in _BELIEFS],
        others=others,
        features={"reaches": reaches or "unknown"},
    )
