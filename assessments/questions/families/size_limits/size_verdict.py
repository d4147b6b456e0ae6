"""Two measured holes, each alone: which of them passes by its size?"""

from assessments.questions.cases.casebook import edge_mm, hole, length, looked_at, readings
from assessments.questions.cases.phrases import tire_words
from assessments.questions.cases.two_holes import NAMES, answers
from assessments.questions.drafts.draft import Draft
from assessments.questions.drafts.family import item_family
from assessments.questions.drafts.seeding import Redraw
from assessments.questions.items.item import Item
from training.trade.speech import say, saying
from training.trade.words import LIGHT, STEEL

_MISTAKES = ("stricter-size", "halfway-limit", "truck-limit-for-all", "size-does-not-matter")
_OF_STEEL = ("light-limit-for-steel", "stricter-size", "half-inch-for-steel", "size-does-not-matter")


@item_family(
    "size-verdict",
    title=saying("Do these holes pass"),
    skill="size-limits",
    formats=("one",),
    casings=(*LIGHT, *STEEL),
    lesson="measure-and-choose/measure-the-injury",
    foretells=True,
)
def build(draft: Draft) -> Item:
    rng = draft.rng
    model = draft.pick_model("injury.diameter")
    clause = draft.limit("injury.diameter", model.casing)
    low, high = edge_mm(clause)
    most = high * (7 if model.casing not in STEEL else 6) / 4
    within, beyond = readings(draft.prefer, low / 2, low), readings(draft.prefer, high, most)
    # Each hole is as often too large as not, so that no answer is right more often than another.
    first, second = (rng.choice(within if rng.random() < 0.5 else beyond) for _ in NAMES)
    if first == second:
        raise Redraw("twice the same hole")
    draft.foretell((0, 2, 3)[(first in beyond) + (second in beyond)], of=3)
    injuries = [
        hole(name, diameter=size, lateral=draft.told(draft.between(-15, 15)), station_deg=station)
        for name, size, station in zip(NAMES, (first, second), (10, 160), strict=True)
    ]
    case = draft.case(looked_at(model, draft.edition, injuries=injuries))
    key, wrong = answers(draft, case, [(name,) for name in (_OF_STEEL if model.casing in STEEL else _MISTAKES)])
    return draft.one(
        stem=[
            tire_words(rng, model),
            say(
                "Two nail holes near the centerline, far apart and both straight through: A is {first} across after "
                "damage removal, B is {second}. Judge each as if it were the only one. Nothing else was found.",
                first=first,
                second=second,
            ),
            rng.choice([say("Which of them passes by its size?"), say("Which of them may be repaired?")]),
        ],
        key=key,
        wrong=wrong,
        is_even=True,
        case=case,
        rulings=[ruling for ruling in draft.decide(case).rulings if ruling.clause == clause.id],
        features={
            "distance_mm": round(
                float(min(abs(length(size).value - edge) for size in (first, second) for edge in (low, high))), 2
            ),
            "unit": draft.prefer,
        },
    )
