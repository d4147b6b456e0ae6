"""Read the caliper and judge: of two holes, which may be repaired by its size?"""

from assessments.questions.cases.casebook import hole, length, looked_at
from assessments.questions.cases.phrases import tire_words
from assessments.questions.cases.two_holes import NAMES, answers
from assessments.questions.drafts.draft import Draft
from assessments.questions.drafts.family import item_family
from assessments.questions.drafts.seeding import Redraw
from assessments.questions.items.item import Item
from assessments.questions.work.read_off import PAIRS, beliefs_of_size, marks
from training.drawings import gauge
from training.trade.speech import say, saying
from training.trade.words import LIGHT, STEEL

_STATIONS_DEG = (10, 160)
_DRAWN_TO_MM = 12  # up to there the caliper is drawn with its finest marks


@item_family(
    "caliper-verdict",
    title=saying("Read the caliper and judge"),
    skill="measuring",
    formats=("one",),
    casings=(*LIGHT, *STEEL),
    lesson="measure-and-choose/measure-the-injury",
)
def build(draft: Draft) -> Item:
    rng = draft.rng
    model = draft.pick_model("injury.diameter")
    clause = draft.limit("injury.diameter", model.casing)
    within, over = ([text for text in some if length(text).value < _DRAWN_TO_MM] for some in marks(draft, clause))
    passing = draft.steady("right").choice(PAIRS)  # each of the four answers is right as often
    first, second = (rng.choice(within if passes else over) for passes in passing)
    if first == second:
        raise Redraw("twice the same hole")
    injuries = [
        hole(name, diameter=size, lateral=draft.told(draft.between(-15, 15)), station_deg=station)
        for name, size, station in zip(NAMES, (first, second), _STATIONS_DEG, strict=True)
    ]
    case = draft.case(looked_at(model, draft.edition, injuries=injuries))
    key, wrong = answers(draft, case, [(name,) for name in beliefs_of_size(model.casing)])
    rulings = [one for one in draft.decide(case).rulings if one.clause == clause.id]
    if tuple(one.holds for one in rulings) != passing:
        raise Redraw("something else decides")
    return draft.one(
        stem=[
            tire_words(rng, model),
            say(
                "Two nail holes near the centerline, far apart and straight through, each after the last pass. The "
                "caliper in the drawing spans A at its widest. Over B, at its widest, another reads {size}. Judge "
                "each as if it were the only one. Nothing else was found.",
                size=second,
            ),
            rng.choice([say("Which of them may be repaired?"), say("Read the caliper and judge both holes.")]),
        ],
        key=key,
        wrong=wrong,
        is_even=True,
        case=case,
        rulings=rulings,
        figure=lambda: gauge("caliper", length(first)),
        features={"distance_mm": min(_away(size, within, over) for size in (first, second))},
    )


def _away(size: str, within: list[str], over: list[str]) -> float:
    """How far a size lies from the nearest mark on the other side of the limit [mm]."""
    other = over[0] if size in within else within[-1]
    return round(float(abs(length(size).value - length(other).value)), 2)
