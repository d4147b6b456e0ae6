"""Days and instants as the language spoken writes them, and months counted as calendars do."""

from __future__ import annotations

import calendar
from datetime import date, datetime
from functools import cache

from babel import Locale, UnknownLocaleError, dates

from training.trade.speech import language, once_a_language

MONTHS_A_YEAR = 12


@once_a_language(4096)
def written_day(day: date) -> str:
    """A day as pages, messages and documents write it, by CLDR.

    >>> written_day(date(2026, 9, 5))
    'Sep 5, 2026'
    """
    return dates.format_date(day, "medium", locale=_locale())


@once_a_language(4096)
def long_day(day: date) -> str:
    """A day with its month in full, as a sentence has it.

    >>> long_day(date(2005, 8, 7))
    'August 7, 2005'
    """
    return dates.format_date(day, "long", locale=_locale())


def month_name(month: int) -> str:
    """The name of a month, 1 to 12, as it stands alone.

    >>> month_name(8)
    'August'
    """
    return str(dates.get_month_names("wide", context="stand-alone", locale=_locale())[month])


def month_of_year(day: date) -> str:
    """The month and the year of a day.

    >>> month_of_year(date(2005, 8, 7))
    'August 2005'
    """
    return dates.format_skeleton("yMMMM", day, locale=_locale())


def written_time(at: datetime) -> str:
    """The time of day of an instant, in the time zone it is given in, to the minute; it never breaks before AM or PM.

    >>> written_time(datetime(2026, 9, 5, 7, 3)).replace(chr(160), " ")
    '7:03 AM'
    """
    return _spaced(dates.format_time(at.time(), "short", locale=_locale()))


def written_instant(at: datetime) -> str:
    """An instant in the time zone it is given in, to the minute.

    >>> written_instant(datetime(2026, 9, 5, 7, 3)).replace(chr(160), " ")
    'Sep 5, 2026, 7:03 AM'
    """
    pattern = dates.get_datetime_format("medium", locale=_locale())
    return str(pattern).format(written_time(at), written_day(at.date()))


def written_moment(at: datetime) -> str:
    """An instant to the second, with the name of the time zone it is given in.

    >>> from zoneinfo import ZoneInfo
    >>> written_moment(datetime(2026, 9, 5, 7, 3, 2, tzinfo=ZoneInfo("America/Chicago"))).replace(chr(160), " ")
    'Sep 5, 2026, 7:03:02 AM CDT'
    """
    time = _spaced(dates.format_time(at, "long", tzinfo=at.tzinfo, locale=_locale()))
    pattern = dates.get_datetime_format("medium", locale=_locale())
    return str(pattern).format(time, written_day(at.date()))


def add_months(day: date, months: int) -> date:
    """The same day so many months on, or the last day of a month that is too short.

    >>> add_months(date(2026, 8, 31), 6)
    datetime.date(2027, 2, 28)
    """
    year, month = divmod(day.year * MONTHS_A_YEAR + day.month - 1 + months, MONTHS_A_YEAR)
    return date(year, month + 1, min(day.day, calendar.monthrange(year, month + 1)[1]))


def _spaced(time: str) -> str:
    return time.replace("\N{NARROW NO-BREAK SPACE}", "\N{NO-BREAK SPACE}")  # fonts of papers lack the narrow one


def _locale() -> Locale:
    return _locale_of(language())


@cache
def _locale_of(tag: str) -> Locale:
    try:
        return Locale.parse(tag, sep="-")
    except UnknownLocaleError:  # a language that no place is known for: the dates of its main form
        return Locale.parse(tag.partition("-")[0])
