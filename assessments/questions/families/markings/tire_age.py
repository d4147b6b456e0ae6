"""The date code and today's date: how old is the tire, in full years?"""

from datetime import timedelta

from assessments.questions.cases.sidewall import date_code_line, identification, week_words
from assessments.questions.drafts.draft import Draft
from assessments.questions.drafts.family import item_family
from assessments.questions.drafts.seeding import Redraw
from assessments.questions.items.claims import Measure
from assessments.questions.items.item import Item
from training.rulebook import production_week, whole_years
from training.trade.days import long_day
from training.trade.speech import say, saying


@item_family(
    "tire-age",
    title=saying("How old the tire is"),
    skill="markings",
    formats=("number",),
    casings=(),
    lesson="inspect-and-reject/read-the-sidewall",
)
def build(draft: Draft) -> Item:
    rng = draft.rng
    year, week = rng.randint(2004, 2012), rng.randint(1, 51)
    code = f"{week:02d}{year % 100:02d}"
    first, last = production_week(code)
    today = first + timedelta(days=rng.randint(400, 5200))
    age = whole_years(last, today)
    # Three weeks to either side of a full year nothing is asked: neither the day in the week nor a leap day matters.
    margin = timedelta(weeks=3)
    if {whole_years(first - margin, today), whole_years(last + margin, today)} != {age}:
        raise Redraw("too near to a full year")
    tire = {"casing": "passenger", "date_code": code}
    case = {"edition": draft.edition.name, "on": today.isoformat(), "tire": tire}
    year_first, _ = production_week(code[2:] + code[:2])
    wrong = [(today.year - year, "counted-calendar-years"), (whole_years(year_first, today), "year-before-week")]
    return draft.number(
        stem=[
            say(
                "On the sidewall it reads {number}. Today is {day}.",
                number=identification(rng, code),
                day=long_day(today),
            ),
            rng.choice([say("How old is the tire, in full years?"), say("How many full years ago was it made?")]),
        ],
        key=f"{age} years",
        tolerance="0 years",
        units=("years",),
        wrong=[(f"{value} years", why) for value, why in wrong if value >= 0],
        asks=Measure("tire.age", case=case),
        explanation=[
            date_code_line(
                code,
                say(
                    "{week}: from {first} to {last}",
                    week=week_words(week, year),
                    first=long_day(first),
                    last=long_day(last),
                ),
            )
        ],
        features={"age_years": age, "calendar_difference": today.year - year},
    )
