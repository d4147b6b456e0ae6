"""Date codes as the rulebook uses them: the week a code names, and whole years between two days. No clock is read."""

from datetime import date
from functools import lru_cache

from training.rulebook.markings import read_date_code

_code = lru_cache(maxsize=4096)(read_date_code)


def production_week(code: str) -> tuple[date, date]:
    """First and last day of the week a date code names; of the latest one where three digits leave the decade open.

    Raises MarkingError, naming the part, for a code that names no week.

    >>> production_week("3205")
    (datetime.date(2005, 8, 7), datetime.date(2005, 8, 13))
    """
    latest = _code(code).weeks[0]
    return latest.first_day, latest.last_day


def leaves_decade_open(code: str) -> bool:
    """Three digits name week and last digit of the year: the tire is at least as old as the latest such year says."""
    return len(_code(code).weeks) > 1


def whole_years(since: date, on: date) -> int:
    """Completed years between two days; one that begins on 29 February is completed on 1 March.

    >>> whole_years(date(2016, 2, 29), date(2026, 2, 28))
    9
    """
    return on.year - since.year - ((on.month, on.day) < (since.month, since.day))
