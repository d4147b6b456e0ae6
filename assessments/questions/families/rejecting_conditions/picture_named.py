"""A picture: what does it show, a condition that ends the evaluation or what is taken for it?"""

from assessments.questions.cases.sights import Pair, asked_pair, beside, clauses_on, features_of, figure, seen_in
from assessments.questions.drafts.choice import Choice
from assessments.questions.drafts.draft import Draft
from assessments.questions.drafts.family import item_family
from assessments.questions.items.claims import Sighted
from assessments.questions.items.item import Item
from training.trade.speech import say, saying


@item_family(
    "picture-named",
    title=saying("What a picture shows"),
    skill="rejecting-conditions",
    formats=("one",),
    casings=(),
    lesson="inspect-and-reject/reject-on-sight",
)
def build(draft: Draft) -> Item:
    rng = draft.rng
    pair, photographs = asked_pair(draft)
    other, look_alike = rng.choice(beside(pair)), rng.random() < 0.5
    seen = seen_in(draft, pair, look_alike, photographs)
    # the key and the three others come from the same four names, so that none of them is the right one more often
    taken = _named(pair, not look_alike, pair.belief(look_alike), unsafe=not look_alike)
    strange = [_named(other, one, unsafe=one and not look_alike) for one in (False, True)]
    where = {
        "sidewall": say("A place on the sidewall, seen under a lamp that stands to one side."),
        "bead": say("A place at the bead, seen under a lamp that stands to one side."),
        "tread": say("A place on the tread, seen under a lamp that stands to one side."),
        "liner": say("A place on the liner, seen under a lamp that stands to one side."),
    }
    if photographs:
        where = {
            "sidewall": say("A place on the sidewall, photographed in your shop."),
            "bead": say("A place at the bead, photographed in your shop."),
            "tread": say("A place on the tread, photographed in your shop."),
            "liner": say("A place on the liner, photographed in your shop."),
        }
    return draft.one(
        stem=[where[pair.surface], rng.choice([say("What is it?"), say("What do you see there?")])],
        key=_named(pair, look_alike),
        wrong=[taken, *strange],
        figure=lambda: figure(pair, seen),
        clauses=clauses_on(draft, pair),
        features=features_of(pair, seen, look_alike),
    )


def _named(pair: Pair, look_alike: bool, *why: str, unsafe: bool = False) -> Choice:
    """One of a pair by its name; `unsafe` where it makes little of what ends the evaluation."""
    claim = Sighted("look-alike" if look_alike else "condition", pair.condition)
    return Choice(pair.words(look_alike), why, unsafe=unsafe, claim=claim)
