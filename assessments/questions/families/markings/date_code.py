"""The date code in a tire identification number: when was the tire made?"""

from assessments.questions.cases.sidewall import date_code_line, identification, made, week_words
from assessments.questions.drafts.draft import Draft
from assessments.questions.drafts.family import item_family
from assessments.questions.items.item import Item
from training.trade.days import MONTHS_A_YEAR
from training.trade.speech import say, saying


@item_family(
    "date-code",
    title=saying("When the tire was made"),
    skill="markings",
    formats=("one",),
    casings=(),
    lesson="inspect-and-reject/read-the-sidewall",
    recall=True,
)
def build(draft: Draft) -> Item:
    rng = draft.rng
    year = rng.randint(10, 25)
    # Both halves could be a week, a month or a year: only someone who knows the code can tell them apart.
    week = rng.choice([number for number in range(8, 26) if number != year])
    code = f"{week:02d}{year:02d}"
    wrong = [made(code, year, week, "year-before-week")]
    if week <= MONTHS_A_YEAR:
        wrong.append(made(code, week, year, "month-not-week", unit="month"))
    if year <= MONTHS_A_YEAR:
        wrong.append(made(code, year, week, "year-before-week", "month-not-week", unit="month", together=True))
    wrong.append(made(code, week, year - 10 if year > 15 else year + 10, "decade-guessed"))
    wrong.append(made(code, week + 26, year, "weeks-from-midyear"))
    return draft.one(
        stem=[
            say("Near the bead it reads {number}.", number=identification(rng, code)),
            rng.choice([say("When was this tire made?"), say("What does the date code say?")]),
        ],
        key=made(code, week, year),
        wrong=wrong,
        explanation=[date_code_line(code, week_words(week, 2000 + year))],
        features={"week": week, "year": 2000 + year},
    )
