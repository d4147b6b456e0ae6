"""Days and instants: how we write them, whatever the language of the machine, and months counted as calendars do."""

from __future__ import annotations

import calendar
from datetime import date, datetime

MONTHS = (
    "January", "February", "March", "April", "May", "June",
    "July", "August", "September", "October", "November", "December",
)  # fmt: skip


def written_day(day: date) -> str:
    """A day as pages, messages and documents write it.

    >>> written_day(date(2026, 9, 5))
    '5 Sep 2026'
    """
    return f"{day.day} {MONTHS[day.month - 1][:3]} {day.year}"


def written_instant(at: datetime) -> str:
    """An instant in the time zone it is given in, to the minute.

    >>> written_instant(datetime(2026, 9, 5, 7, 3))
    '5 Sep 2026, 07:03'
    """
    return f"{written_day(at)}, {at:%H:%M}"


def add_months(day: date, months: int) -> date:
    """The same day so many months on, or the last day of a month that is too short.

    >>> add_months(date(2026, 8, 31), 6)
    datetime.date(2027, 2, 28)
    """
    year, month = divmod(day.year * 12 + day.month - 1 + months, 12)
    return date(year, month + 1, min(day.day, calendar.monthrange(year, month + 1)[1]))
