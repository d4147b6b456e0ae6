"""Two holes before and after damage removal: which size counts, and what follows from it?"""

from assessments.questions.cases.casebook import edge_mm, hole, length, looked_at, readings
from assessments.questions.cases.phrases import tire_words
from assessments.questions.cases.two_holes import NAMES, alone_and_with, answers
from assessments.questions.drafts.draft import Draft
from assessments.questions.drafts.family import item_family
from assessments.questions.drafts.seeding import Redraw
from assessments.questions.items.item import Item
from training.trade.speech import say, saying
from training.trade.words import LIGHT, STEEL

_BEFORE = "measured-before-removal"
_MISTAKES = ("stricter-size", "halfway-limit", "truck-limit-for-all")
_OF_STEEL = ("light-limit-for-steel", "stricter-size", "half-inch-for-steel")


@item_family(
    "before-and-after",
    title=saying("Before and after damage removal"),
    skill="measuring",
    formats=("one",),
    casings=(*LIGHT, *STEEL),
    lesson="measure-and-choose/measure-the-injury",
    foretells=True,
)
def build(draft: Draft) -> Item:
    rng = draft.rng
    # Each hole is as often too large as not, so that no answer is right more often than another.
    small = [rng.random() < 0.5 for _ in NAMES]
    draft.foretell((3, 2, 0)[sum(small)], of=3)
    model = draft.pick_model("injury.diameter")
    clause = draft.limit("injury.diameter", model.casing)
    low, high = edge_mm(clause)
    most = high * 2 if model.casing not in STEEL else high * 3 / 2
    within, beyond = readings(draft.prefer, low / 3, low), readings(draft.prefer, high, most)
    sizes = [_sizes(draft, within, within[2:] if is_small else beyond) for is_small in small]
    injuries = [
        hole(name, diameter=after, before=before, lateral=draft.told(draft.between(-15, 15)), station_deg=station)
        for name, (before, after), station in zip(NAMES, sizes, (10, 160), strict=True)
    ]
    case = draft.case(looked_at(model, draft.edition, injuries=injuries))
    beliefs = alone_and_with(_BEFORE, _OF_STEEL if model.casing in STEEL else _MISTAKES)
    key, wrong = answers(draft, case, beliefs)
    grew_too_large = any(length(after).value > high for _, after in sizes)
    if grew_too_large and not any(_BEFORE in choice.why for choice in wrong):
        raise Redraw("the size before says the same")
    (first, grown), (second, widened) = sizes
    return draft.one(
        stem=[
            tire_words(rng, model),
            rng.choice(
                [
                    say(
                        "Two nail holes near the centerline, far apart. A is {first} across as found, and {grown} "
                        "after damage removal; B is {second} as found, and {widened} after it. Judge each as "
                        "if it were the only one.",
                        first=first,
                        grown=grown,
                        second=second,
                        widened=widened,
                    ),
                    say(
                        "Near the centerline two nails left holes far apart, A {first} across and B {second}. After "
                        "the last pass of the cutter A is {grown} across and B is {widened}. Judge each as if "
                        "it were the only one.",
                        first=first,
                        grown=grown,
                        second=second,
                        widened=widened,
                    ),
                ]
            ),
            rng.choice(
                [say("All else is in order. What is your call?"), say("Nothing else was found. What do you do?")]
            ),
        ],
        key=key,
        wrong=wrong,
        is_even=True,
        case=case,
        rulings=[ruling for ruling in draft.decide(case).rulings if ruling.clause == clause.id],
        features={
            "distance_mm": round(
                float(min(abs(length(after).value - edge) for _, after in sizes for edge in (low, high))), 2
            )
        },
    )


def _sizes(draft: Draft, within: list[str], among: list[str]) -> tuple[str, str]:
    """The size of a hole as found, which would pass, and one of `among` after damage removal."""
    if not among:
        raise Redraw("the limit leaves too few marks")
    after = draft.rng.choice(among)
    smaller = [text for text in within if length(text).value < length(after).value]
    if not smaller:
        raise Redraw("the limit leaves too few marks")
    return draft.rng.choice(smaller), after
