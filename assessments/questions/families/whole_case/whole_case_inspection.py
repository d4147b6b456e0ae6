"""One tire, first part: what would have ended its evaluation."""

from typing import Any

from assessments.questions.cases.bodies import REPAIRED
from assessments.questions.cases.casebook import looked_at
from assessments.questions.cases.phrases import SEEN
from assessments.questions.cases.ticket import finding_passed_by
from assessments.questions.drafts.choice import Choice
from assessments.questions.drafts.draft import Draft
from assessments.questions.drafts.family import item_family
from assessments.questions.drafts.seeding import Redraw
from assessments.questions.families.whole_case.common import SERIES, whole_case_of
from assessments.questions.items.claims import Decided, laid_over
from assessments.questions.items.item import Item
from training.rulebook import Ruling
from training.trade.speech import say, saying
from training.trade.words import capital

_OFFERED = 5
_Note = tuple[str, str, dict[str, Any]]
_HARMLESS: tuple[_Note, ...] = (
    ("weather-checking", "weather-is-ozone", {"findings": {"weather-checking": True}}),
    (saying("5/32 in of tread in the lowest groove"), "half-tread", {"tread_depths": ["5/32 in"]}),
    (saying("A shallow nick in a tread block"), "", {"injuries": [{"id": "S", "kind": "surface"}]}),
    (saying("A sound earlier stem and patch on the far side, in the crown"), "any-earlier-repair-scraps",
     {"earlier_repairs": [{"id": "R1", "kind": "two-piece", "zone": "crown", "injury": "4 mm", "sound": True}]}),
)  # fmt: skip
_METRIC = tuple(
    note
    if note[1] != "half-tread"
    else (saying("4 mm of tread in the lowest groove"), note[1], {"tread_depths": ["4 mm"]})
    for note in _HARMLESS
)


@item_family(
    "whole-case-inspection",
    title=saying("Whole case: what would end it"),
    skill="rejecting-conditions",
    formats=("several",),
    casings=REPAIRED,
    lesson="inspect-and-reject/reject-on-sight",
    series=SERIES,
    part=1,
)
def build(draft: Draft) -> Item:
    rng = draft.rng
    whole = whole_case_of(draft)
    count = rng.randint(1, _OFFERED - 1)
    offered: list[_Note] = [
        (slug, name, {"findings": {slug: True}})
        for slug, name in rng.sample(sorted(finding_passed_by().items()), count)
    ]
    harmless = _METRIC if draft.prefer == "mm" else _HARMLESS
    offered += rng.sample(harmless, _OFFERED - count)
    right: list[Choice] = []
    wrong: list[Choice] = []
    rulings: list[Ruling] = []
    sound = looked_at(whole.model, draft.edition)
    for words, name, more in offered:
        decision = draft.decide(draft.case(laid_over(sound, more)))
        seen = SEEN[words][0] if words in SEEN else words
        choice = Choice(capital(seen), (name,) if name else (), claim=Decided(("reject",), case=more))
        (right if decision.verdict == "reject" else wrong).append(choice)
        rulings += decision.deciding if decision.verdict == "reject" else ()
    if len(right) != count:
        raise Redraw("a shop's own limit decides otherwise")
    return draft.several(
        stem=[
            whole.opening(1),
            say(
                "It comes in with a nail in the tread. It is taken off the wheel and looked over inside "
                "and outside; nothing ends its evaluation."
            ),
            rng.choice(
                [
                    say("Which of these, had it been found, would have taken it out of service? Choose all."),
                    say("Which of these would have ended its evaluation? Choose all."),
                ]
            ),
        ],
        right=right,
        wrong=wrong,
        is_listed=True,
        rulings=rulings,
        case=whole.case,
        features={"part": 1, "rejecting": count},
    )
