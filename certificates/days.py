"""Days and months of a certificate's life. Pure."""

import calendar
from datetime import date


def add_months(day: date, months: int) -> date:
    """The same day so many months on, or the last day of a month that is too short.

    >>> add_months(date(2026, 8, 31), 6)
    datetime.date(2027, 2, 28)
    """
    year, month = divmod(day.year * 12 + day.month - 1 + months, 12)
    return date(year, month + 1, min(day.day, calendar.monthrange(year, month + 1)[1]))
