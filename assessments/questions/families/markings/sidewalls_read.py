"""What somebody read off several sidewalls, date codes and plies: which of the readings are right?"""

from collections.abc import Iterable

from assessments.questions.cases.sidewall import date_code_line, has_body, identification, made, plies, week_words
from assessments.questions.drafts.choice import Choice
from assessments.questions.drafts.draft import Draft
from assessments.questions.drafts.family import item_family
from assessments.questions.drafts.seeding import Redraw
from assessments.questions.items.item import Item
from training.trade.days import MONTHS_A_YEAR
from training.trade.speech import say, saying

_DATES, _BODIES = 3, 3
_MISREAD = ("year-before-week", "month-not-week", "decade-guessed", "weeks-from-midyear")


@item_family(
    "sidewalls-read",
    title=saying("Which readings of a sidewall are right"),
    skill="markings",
    formats=("several",),
    casings=("light-truck-fabric", "light-truck-steel"),
    lesson="inspect-and-reject/read-the-sidewall",
)
def build(draft: Draft) -> Item:
    rng = draft.rng
    right: list[Choice] = []
    wrong: list[Choice] = []
    dates: list[tuple[str, str]] = []
    for how in rng.sample(("", "", *_MISREAD), _DATES):
        week, year = rng.sample(range(10, 26), 2)
        if how == "month-not-week":
            week = rng.randint(2, min(year - 1, MONTHS_A_YEAR))
        code, readings = f"{week:02d}{year:02d}", dict(_readings(week, year))
        unit, number, of_year = readings.get(how, ("week", week, year))
        beside = identification(rng, code)
        (wrong if how else right).append(
            made(code, number, of_year, *((how,) if how else readings), unit=unit, beside=beside)
        )
        dates.append((code, say("{code}: {meaning}", code=code, meaning=week_words(week, 2000 + year))))
    clause = draft.limit("tire.casing", "light-truck")
    read = set[str]()  # no two alike, so that a load range stands before one body alone
    for is_steel in rng.sample((True, False, rng.random() < 0.5), _BODIES):
        letter = rng.choice("CDE")
        taken = {"belts-decide": True, "plies-misread": True, "load-range-decides": letter == "E"}
        name = rng.choice(["", *taken])
        says = taken.get(name, is_steel)
        why = tuple(one for one, steel in taken.items() if (steel == says) != (is_steel == says))
        molded, body = plies(rng, steel_body=is_steel), "steel" if says else "fabric"
        if molded in read:
            raise Redraw("two tires are molded alike")
        read.add(molded)
        if says:
            text = say("Range {letter}, {plies}: steel body", letter=letter, plies=molded)
        else:
            text = say("Range {letter}, {plies}: fabric body", letter=letter, plies=molded)
        choice = has_body(molded, body, "sidewall_plies", text, *why, unsafe=says and not is_steel)
        (right if says == is_steel else wrong).append(choice)
    return draft.several(
        stem=[
            rng.choice(
                [
                    say(
                        "An apprentice has written down what the sidewalls of light truck tires say, and what it means."
                    ),
                    say("Notes on the sidewalls of light truck tires: what is molded there, and what was made of it."),
                ]
            ),
            rng.choice(
                [say("Which of the notes are right? Choose all."), say("Which were read correctly? Choose all.")]
            ),
        ],
        right=right,
        wrong=wrong,
        is_listed=True,
        clauses=[clause.id],
        explanation=[date_code_line(", ".join(code for code, _ in dates), "; ".join(told for _, told in dates))],
        features={"readings": _DATES + _BODIES, "right": len(right)},
    )


def _readings(week: int, year: int) -> Iterable[tuple[str, tuple[str, int, int]]]:
    """What each misreading makes of a date code: week or month, which, and of which year."""
    yield "year-before-week", ("week", year, week)
    if week <= MONTHS_A_YEAR:
        yield "month-not-week", ("month", week, year)
    yield "decade-guessed", ("week", week, year - 10 if year > 15 else year + 10)
    yield "weeks-from-midyear", ("week", week + 26, year)
