"""What is molded on a sidewall, in words: plies, load range, identification number. All plant codes are invented."""

from __future__ import annotations

from datetime import date
from random import Random

from assessments.questions.drafts.choice import Choice
from assessments.questions.items.claims import All, Is, Molded
from training.trade.days import month_of_year
from training.trade.speech import say

FABRICS = ("polyester", "rayon", "nylon")
_LETTERS = "ABCDEFHJKLMNPRTUVWXY123456789"


def plies(rng: Random, *, steel_body: bool) -> str:
    """The ply material as it is molded: tread plies with steel belts, and the sidewall plies, which are the body."""
    body = "STEEL" if steel_body else rng.choice(FABRICS).upper()
    count = 1 if steel_body else rng.choice((1, 2))
    cap = rng.choice(("", " + 1 NYLON", " + 2 NYLON"))
    # The belts and the plies under the tread are both counted as tread plies.
    tread = f"{count + 2} STEEL" if steel_body else f"{count} {body} + 2 STEEL"
    return f"TREAD PLIES {tread}{cap}, SIDEWALL {'PLY' if count == 1 else 'PLIES'} {count} {body}"


def ply_words(rng: Random, *, steel_body: bool) -> str:
    """What is molded of the plies, as a sentence."""
    return say("Molded on it: {plies}.", plies=plies(rng, steel_body=steel_body))


def has_body(molded: str, body: str, by: str, text: str, *why: str, unsafe: bool = False) -> Choice:
    """The option that a tire has this body, "steel" or "fabric", by one of the things molded on it."""
    return Choice(text, why, unsafe=unsafe, claim=Is(Molded(molded, f"body_by_{by}"), body))


def identification(rng: Random, date_code: str) -> str:
    """A tire identification number of 13 symbols that ends in this date code."""
    signs = "".join(rng.choice(_LETTERS) for _ in range(9))
    return f"DOT {signs[:3]} {signs[3:9]} {date_code}"


def made(
    code: str,
    number: int,
    year: int,
    *why: str,
    unit: str = "week",
    beside: str = "",
    together: bool = False,
) -> Choice:
    """The option that a tire with this date code was made in this week, or month, of 2000 and this year.

    `beside`: the marking that it is read off, where each option has another.
    """
    of_year = f"20{year:02d}"
    if unit == "month":
        month = month_of_year(date(2000 + year, number, 1))
        text = f"{beside}: {month}" if beside else say("In {month}", month=month)
    elif beside:
        text = f"{beside}: {week_words(number, of_year)}"
    else:
        text = say("In week {number} of {year}", number=number, year=of_year)
    claim = All((Is(Molded(code, unit), f"{number}"), Is(Molded(code, "year"), of_year)))
    return Choice(text, why, together=together, claim=claim)


def week_words(number: int, year: int | str) -> str:
    """A week of a year, as a date code says it: "week 12 of 2020"."""
    return say("week {number} of {year}", number=number, year=year)


def date_code_line(code: str, meaning: str) -> dict[str, object]:
    """The line of an explanation that reads a date code."""
    return {
        "clause": "",
        "subject": say("date code"),
        "holds": None,
        "found": code,
        "limit": meaning,
        "because": say(
            "Four digits: the week first, then the year. Week 01 is the first full week of the calendar year."
        ),
        "kind": "law",
        "source": "49 CFR 574.5",
    }
