"""What somebody read off several sidewalls, date codes and plies: which of the readings are right?"""

from collections.abc import Iterable

from assessments.questions.cases.sidewall import date_code_line, identification, ply_words
from assessments.questions.drafts.draft import Choice, Draft
from assessments.questions.drafts.family import item_family
from assessments.questions.items.item import Item
from training.trade.days import MONTHS

_DATES, _BODIES = 4, 3
_MISREAD = ("year-before-week", "month-not-week", "decade-guessed", "weeks-from-midyear")


@item_family(
    "sidewalls-read",
    title="Which readings of a sidewall are right",
    skill="markings",
    formats=("several",),
    casings=("light-truck-fabric", "light-truck-steel"),
    lesson="inspect-and-reject/read-the-sidewall",
)
def build(draft: Draft) -> Item:
    rng = draft.rng
    right: list[Choice] = []
    wrong: list[Choice] = []
    lines = []
    for how in rng.sample(("", "", *_MISREAD), _DATES):
        week, year = rng.sample(range(10, 26), 2)
        if how == "month-not-week":
            week = rng.randint(2, min(year - 1, len(MONTHS)))
        code, meant = f"{week:02d}{year:02d}", f"week {week} of 20{year:02d}"
        said = dict(_readings(week, year))
        choice = Choice(f"{identification(rng, code)}: {said.get(how, meant)}", (how,) if how else tuple(said))
        (wrong if how else right).append(choice)
        lines.append(date_code_line(code, meant))
    clause = draft.limit("tire.casing", "light-truck")
    for is_steel in rng.sample((True, False, rng.random() < 0.5), _BODIES):
        letter = rng.choice("CDE")
        taken = {"belts-decide": True, "plies-misread": True, "load-range-decides": letter == "E"}
        name = rng.choice(["", *taken])
        says = taken.get(name, is_steel)
        why = tuple(one for one, steel in taken.items() if (steel == says) != (is_steel == says))
        molded = ply_words(rng, steel_body=is_steel).removeprefix("Molded on it: ").removesuffix(".")
        text = f"Range {letter}, {molded}: {'steel' if says else 'fabric'} body"
        (right if says == is_steel else wrong).append(Choice(text, why, unsafe=says and not is_steel))
    return draft.several(
        stem=[
            rng.choice(
                [
                    "An apprentice has written down what the sidewalls of light truck tires say, and what it means.",
                    "Notes on the sidewalls of light truck tires: what is molded there, and what was made of it.",
                ]
            ),
            rng.choice(["Which of the notes are right? Choose all.", "Where is the meaning read rightly? Choose all."]),
        ],
        right=right,
        wrong=wrong,
        clauses=[clause.id],
        explanation=lines,
        features={"readings": _DATES + _BODIES, "right": len(right)},
    )


def _readings(week: int, year: int) -> Iterable[tuple[str, str]]:
    """What each misreading makes of a date code."""
    yield "year-before-week", f"week {year} of 20{week:02d}"
    if week <= len(MONTHS):
        yield "month-not-week", f"{MONTHS[week - 1]} 20{year:02d}"
    yield "decade-guessed", f"week {week} of 20{year - 10 if year > 15 else year + 10:02d}"
    yield "weeks-from-midyear", f"week {week + 26} of 20{year:02d}"
