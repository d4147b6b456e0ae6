"""Date codes on the sidewall, and the age of a tire on a day. Pure: the day is given, no clock is read."""

from datetime import date, timedelta

_SUNDAY = 6
_NINETIES = 1990


def production_week(code: str) -> tuple[date, date]:
    """First and last day of the week a date code names.

    Four digits are week and year since 2000; three digits are week and year of the nineties. Week 01 is the first
    full week of the calendar year (49 CFR 574.5); weeks run Sunday to Saturday (from memory).

    >>> production_week("3205")
    (datetime.date(2005, 8, 7), datetime.date(2005, 8, 13))
    """
    week, year = int(code[:2]), int(code[2:])
    new_year = date(year + (2000 if len(code) == 4 else _NINETIES), 1, 1)
    first_sunday = new_year + timedelta(days=(_SUNDAY - new_year.weekday()) % 7)
    first_day = first_sunday + timedelta(weeks=week - 1)
    return first_day, first_day + timedelta(days=6)


def whole_years(since: date, on: date) -> int:
    """Completed years between two days; one that begins on 29 February is completed on 1 March.

    >>> whole_years(date(2016, 2, 29), date(2026, 2, 28))
    9
    """
    return on.year - since.year - ((on.month, on.day) < (since.month, since.day))
