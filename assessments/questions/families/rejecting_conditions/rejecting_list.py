"""A list of findings: which of them end the evaluation, whatever else there is?"""

from typing import Any

from assessments.questions.cases.casebook import hole, looked_at
from assessments.questions.cases.phrases import SEEN, who_decides
from assessments.questions.cases.ticket import finding_passed_by
from assessments.questions.drafts.choice import Choice
from assessments.questions.drafts.draft import Draft
from assessments.questions.drafts.family import item_family
from assessments.questions.items.claims import Decided, laid_over
from assessments.questions.items.item import Item
from training.rulebook import Ruling
from training.trade.speech import say, saying
from training.trade.words import LIGHT, STEEL, VERDICTS, capital

_Note = tuple[dict[str, Any], str, tuple[str, ...]]
_OFFERED = 6
# What is noted or mended, and does not end the evaluation by itself: case fields, words, and who thinks it does.
_HARMLESS: tuple[_Note, ...] = (
    ({"findings": {"weather-checking": True}}, SEEN["weather-checking"][0], ("weather-is-ozone",)),
    ({"tread_depths": ["5/32 in"]}, saying("5/32 in of tread in the lowest groove"), ("half-tread",)),
    ({"injuries": [{"id": "S", "kind": "surface"}]}, saying("a shallow nick in a tread block"), ()),
    (
        {"earlier_repairs": [{"id": "R1", "kind": "two-piece", "zone": "crown", "injury": "4 mm", "sound": True}]},
        saying("an earlier stem and patch in the crown, every edge bonded"),
        ("any-earlier-repair-scraps",),
    ),
    (
        {"injuries": [hole(diameter="5/32 in")]},
        saying("a nail hole in mid-crown, 5/32 in after damage removal"),
        ("stricter-size",),
    ),
)
# What of it is told otherwise in millimeters, by the words in inches.
_METRIC: dict[str, tuple[dict[str, Any], str]] = {
    _HARMLESS[1][1]: ({"tread_depths": ["4 mm"]}, saying("4 mm of tread in the lowest groove")),
    _HARMLESS[4][1]: (
        {"injuries": [hole(diameter="4 mm")]},
        saying("a nail hole in mid-crown, 4 mm after damage removal"),
    ),
}


@item_family(
    "rejecting-list",
    title=saying("Which findings end the evaluation"),
    skill="rejecting-conditions",
    formats=("several",),
    casings=(*LIGHT, *STEEL),
    lesson="inspect-and-reject/reject-on-sight",
)
def build(draft: Draft) -> Item:
    rng = draft.rng
    model = draft.pick_model("injury.diameter")
    count = rng.randint(_OFFERED - len(_HARMLESS), _OFFERED - 1)
    offered: list[_Note] = [
        ({"findings": {slug: True}}, SEEN[slug][0], (name,))
        for slug, name in rng.sample(sorted(finding_passed_by().items()), count)
    ]
    offered += rng.sample(_HARMLESS, _OFFERED - count)
    sound = looked_at(model, draft.edition)
    right: list[Choice] = []
    wrong: list[Choice] = []
    rulings: list[Ruling] = []
    for more, words, why in offered:
        if draft.prefer == "mm":
            more, words = _METRIC.get(words, (more, words))
        case = draft.case(laid_over(sound, more))
        decision = draft.decide(case)
        ends = decision.verdict == "reject"
        otherwise = [verdict for verdict in VERDICTS if (verdict == "reject") != ends]
        choice = Choice(capital(words), who_decides(draft, case, otherwise, why), claim=Decided(("reject",), case=more))
        if ends:
            rulings += decision.deciding
            right.append(choice)
        else:
            wrong.append(choice)
    return draft.several(
        stem=[
            rng.choice(
                [
                    say("Each of these was found on its own, on another tire, off the wheel."),
                    say("Tires on the rack, and one note on each."),
                ]
            ),
            rng.choice(
                [
                    say("Which of them take the tire out of service? Choose all."),
                    say("Which of these mean that the tire comes off the road? Choose all."),
                ]
            ),
        ],
        right=right,
        wrong=wrong,
        is_listed=True,
        rulings=rulings,
        case=draft.case(sound),
        features={"findings": _OFFERED, "rejecting": len(right)},
    )
