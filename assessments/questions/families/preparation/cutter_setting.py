"""Tool, speed, direction and side: which way of running the cutter keeps to every clause on it?"""

from assessments.questions.cases.bodies import REPAIRED, repaired
from assessments.questions.cases.phrases import how_often
from assessments.questions.drafts.choice import Choice
from assessments.questions.drafts.draft import Draft
from assessments.questions.drafts.family import item_family
from assessments.questions.items.claims import All, Permitted
from assessments.questions.items.item import Item
from assessments.questions.work.facts import permits
from training.trade.speech import say, saying
from training.trade.words import LIGHT

_FACTORS = ((1, 2), (2, 3), (3, 4), (9, 10))
_TOO_FAST = ((3, 2), (2, 1), (5, 2), (3, 1))
# By the direction and the side where it begins.
_WORDS = {
    ("clockwise", "inside"): saying("{speed}, clockwise, from inside first, {times} each way"),
    ("clockwise", "outside"): saying("{speed}, clockwise, from outside first, {times} each way"),
    ("counterclockwise", "inside"): saying("{speed}, counterclockwise, from inside first, {times} each way"),
    ("counterclockwise", "outside"): saying("{speed}, counterclockwise, from outside first, {times} each way"),
}
_TIMES = {
    1: saying("once"),
    2: saying("twice"),
    3: saying("three times"),
    4: saying("four times"),
    5: saying("five times"),
    6: saying("six times"),
}


@item_family(
    "cutter-setting",
    title=saying("How the cutter is run"),
    skill="preparation",
    formats=("one",),
    casings=REPAIRED,
    lesson="prepare-install-return/clean-and-cut",
    recall=True,
)
def build(draft: Draft) -> Item:
    rng = draft.rng
    model = draft.model_of(*repaired(draft))
    speed, direction, start, passes = (
        draft.limit(f"job.{name}", model.casing)
        for name in ("cutter_speed", "cutter_direction", "cutter_start", "passes_each_way")
    )
    bounds = speed.strictest.upper or speed.strictest.quantities
    fastest, fewest = int(bounds[0].value), int(draft.stated(passes).value)
    slowest = int(draft.stated(speed).value) if speed.strictest.bound == "between" else 0

    def rpm(factors: tuple[tuple[int, int], ...]) -> int:
        above, below = rng.choice(factors)
        found = fastest * above // below // 50 * 50
        return found if found >= slowest else rng.randrange(-(-slowest // 50) * 50, fastest + 1, 50)

    turns, sides = ("clockwise", "counterclockwise"), ("inside", "outside")
    settings = [
        (rpm(_FACTORS), turns[0], sides[0], fewest + rng.randint(0, 1), ()),
        (rpm(_TOO_FAST), turns[0], sides[0], fewest, ("faster-is-cleaner",)),
        (rpm(_FACTORS), turns[1], sides[0], fewest, ("cutter-turns-back",)),
        (rpm(_FACTORS), turns[0], sides[1], fewest, ("outside-first",)),
        (rpm(_FACTORS), turns[0], sides[0], rng.randint(1, fewest - 1), ("one-pass-will-do",)),
        (rpm(_FACTORS), turns[0], sides[1], 1, ("outside-first", "one-pass-will-do")),
        (rpm(_TOO_FAST), turns[1], sides[0], fewest + 1, ("faster-is-cleaner", "cutter-turns-back")),
    ]
    if model.casing not in LIGHT:  # what is right in a fabric body
        other = int(draft.stated(draft.limit("job.cutter_speed")).value) * rng.choice((15, 18, 20)) // 20 // 50 * 50
        enough = int(draft.stated(draft.limit("job.passes_each_way")).value)
        settings[1] = (other, turns[0], sides[0], fewest, ("cable-as-fabric",))
        if enough < fewest:  # a strict shop may ask as many of fabric as of cable
            settings[4] = (rpm(_FACTORS), turns[0], sides[0], rng.randint(enough, fewest - 1), ("cable-as-fabric",))
    right: list[Choice] = []
    wrong: list[Choice] = []
    for revolutions, turn, side, times, why in settings:
        values = (f"{revolutions} rpm", turn, side, f"{times} passes")
        said = list(zip((speed, direction, start, passes), values, strict=True))
        keeps = all(permits(clause, value) for clause, value in said)
        often, rate = _TIMES.get(times) or how_often(times), f"{revolutions:,} rpm"
        text = say(_WORDS[turn, side], speed=rate, times=often)
        claim = All(tuple(Permitted(clause.id, value) for clause, value in said))
        (right if keeps else wrong).append(Choice(text, why, together=True, claim=claim))
    return draft.one(
        stem=[
            say(
                "Damage removal in a {tire}: a carbide cutter in a hand-held drill, following the lean of the injury.",
                tire=model.name,
            ),
            rng.choice([say("How is the cutter run?"), say("Which of these is right?")]),
        ],
        key=right[0],
        wrong=wrong,
        clauses=[speed.id, direction.id, start.id, passes.id],
        features={"parameters": 4},
    )
