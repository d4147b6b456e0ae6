"""Date codes: the week a tire was made in, with its first and last day, by 49 CFR 574.5. No clock is read."""

from __future__ import annotations

import re
from dataclasses import dataclass
from datetime import date, timedelta

from training.rulebook.markings.errors import MarkingError, tidy
from training.trade.speech import say, saying

_CODE = re.compile(r"(?P<digits>[0-9]+)\s?(?P<triangle>[<^*]?)")
_TRIANGLES = str.maketrans(dict.fromkeys("◄◁◀▲△▴▵▶▷►", "<"))
_ACCEPTED = saying('give week and year as molded: four digits such as "3219", or before 2000 three such as "329"')
_DAYS_A_WEEK = 7
_MOST_WEEKS = 53
_FIRST_FOUR_DIGIT_YEAR = 2000
_FIRST_YEAR = 1971  # identification numbers began on 22 May 1971 (from memory)
_NINETIES = 1990
_LAST_THREE_DIGIT_YEAR = 1999


@dataclass(frozen=True, slots=True)
class Week:
    """One week of manufacture, Sunday to Saturday."""

    year: int
    number: int
    first_day: date
    last_day: date


@dataclass(frozen=True, slots=True)
class DateCode:
    """One date code: `week`, and every week of manufacture it can mean, latest first.

    Four digits mean one week. Three digits mean a tire made before 2000 and leave the decade open, so `year`,
    `first_day` and `last_day` are None and `weeks` holds one for each decade.
    """

    code: str
    week: int
    weeks: tuple[Week, ...]

    @property
    def is_before_2000(self) -> bool:
        """Whether the code has three digits."""
        return self.weeks[0].year < _FIRST_FOUR_DIGIT_YEAR

    @property
    def year(self) -> int | None:
        """Year of manufacture, None where the decade is open."""
        return self.weeks[0].year if len(self.weeks) == 1 else None

    @property
    def first_day(self) -> date | None:
        """Sunday on which the week began, None where the decade is open."""
        return self.weeks[0].first_day if len(self.weeks) == 1 else None

    @property
    def last_day(self) -> date | None:
        """Saturday on which the week ended, None where the decade is open."""
        return self.weeks[0].last_day if len(self.weeks) == 1 else None

    def age_on(self, day: date) -> int:
        """Age in completed years: from the first day of the week, of the latest week the code can mean.

        The tire is at least that old; with the decade open it may be ten or twenty years older.
        Raises MarkingError where the day lies before that week.

        >>> read_date_code("0109").age_on(date(2019, 1, 3)), read_date_code("0109").age_on(date(2019, 1, 4))
        (9, 10)
        """
        made = self.weeks[0].first_day
        if day < made:
            accepted = say(
                "the week began on {day}, after {today}; read it again",
                day=made.isoformat(),
                today=day.isoformat(),
            )
            raise MarkingError(say("date code"), self.code, accepted, problem=saying("{found} lies in the future"))
        return day.year - made.year - ((day.month, day.day) < (made.month, made.day))


def first_sunday(year: int) -> date:
    """The day week 01 begins: the first full calendar week of a year begins on its first Sunday."""
    new_year = date(year, 1, 1)
    return new_year + timedelta(days=-new_year.isoweekday() % _DAYS_A_WEEK)


def weeks_in(year: int) -> int:
    """How many weeks a year has by 49 CFR 574.5: as many as it has Sundays.

    >>> weeks_in(2017), weeks_in(2020)
    (53, 52)
    """
    return ((date(year, 12, 31) - first_sunday(year)).days // _DAYS_A_WEEK) + 1


def week_of(year: int, number: int) -> Week:
    """Week `number` of a year with its first and last day.

    Raises MarkingError for a week that the year does not have.
    Source: 49 CFR 574.5: 01 is the first full calendar week; weeks run Sunday to Saturday, the last one may run
    into the next year (the days from memory).

    >>> week_of(2009, 1).first_day.isoformat(), week_of(2009, 1).last_day.isoformat()
    ('2009-01-04', '2009-01-10')
    """
    if not 1 <= number <= weeks_in(year):
        accepted = say("{year} has the weeks 01 to {weeks_in}, Sunday to Saturday", year=year, weeks_in=weeks_in(year))
        raise MarkingError(
            say("week"), f"{number:02d}", accepted, problem=saying("{found} is not a week of {year}"), year=year
        )
    first = first_sunday(year) + timedelta(days=_DAYS_A_WEEK * (number - 1))
    return Week(year, number, first, first + timedelta(days=_DAYS_A_WEEK - 1))


def read_date_code(code: str, *, on: date | None = None) -> DateCode:
    """Read a date code of four digits (since 2000) or three (before).

    A triangle after three digits, written as the sign or as "<", means the nineties (common practice of some makers,
    no published source). With `on`, the day of the inspection, a week that begins after it is refused.
    Raises MarkingError naming week, year or the code as a whole.

    >>> read_date_code("3205").first_day.isoformat()
    '2005-08-07'
    >>> [week.year for week in read_date_code("329").weeks]
    [1999, 1989, 1979]
    """
    text = tidy(code.translate(_TRIANGLES) if isinstance(code, str) else code, say("date code"), _ACCEPTED)
    found = _CODE.fullmatch(text)
    if found is None or len(found["digits"]) not in (3, 4) or (found["triangle"] and len(found["digits"]) == 4):
        raise MarkingError(say("date code"), code, _ACCEPTED, problem=saying("{found} is not a date code"))
    digits = found["digits"]
    number = int(digits[:2])
    if not 1 <= number <= _MOST_WEEKS:
        raise MarkingError(
            say("week"),
            digits[:2],
            say(
                'the first two digits of "{digits}" are the week, 01 to {most}',
                digits=digits,
                most=_MOST_WEEKS,
            ),
        )
    if len(digits) == 4:
        weeks: tuple[Week, ...] = (week_of(_FIRST_FOUR_DIGIT_YEAR + int(digits[2:]), number),)
    else:
        weeks = _before_2000(number, int(digits[2]), _NINETIES if found["triangle"] else _FIRST_YEAR)
    if on is not None and weeks[0].first_day > on:
        accepted = say(
            "the week began on {day}, after {today}; read the code again",
            day=weeks[0].first_day.isoformat(),
            today=on.isoformat(),
        )
        raise MarkingError(say("year"), digits[2:], accepted, problem=saying("{found} lies in the future"))
    return DateCode(digits, number, weeks)


def _before_2000(number: int, last_digit: int, earliest: int) -> tuple[Week, ...]:
    years = [year for year in range(_LAST_THREE_DIGIT_YEAR, earliest - 1, -1) if year % 10 == last_digit]
    weeks = tuple(week_of(year, number) for year in years if number <= weeks_in(year))
    if not weeks:
        raise MarkingError(
            say("week"),
            f"{number:02d}",
            say("none of the years {years} has that week", years=", ".join(map(str, years))),
        )
    return weeks
