"""How we write days, instants and lists, whatever the language of the machine."""

from __future__ import annotations

from collections.abc import Iterable
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


def all_of(words: Iterable[str]) -> str:
    """Words joined as a sentence joins them; empty for none. A comma keeps apart words that hold an "and" themselves.

    >>> all_of(["a", "b", "c"]), all_of(["truck and bus tires", "motorcycle tires"])
    ('a, b and c', 'truck and bus tires, and motorcycle tires')
    """
    told = tuple(words)
    return _joined(told, ", and " if any(" and " in one for one in told) else " and ")


def one_of(words: Iterable[str]) -> str:
    """Words as a choice in a sentence; empty for none.

    >>> one_of(["in", "mm"]), one_of(["a", "b", "c"])
    ('in or mm', 'a, b or c')
    """
    return _joined(tuple(words), " or ")


def _joined(words: tuple[str, ...], last: str) -> str:
    return f"{', '.join(words[:-1])}{last}{words[-1]}" if len(words) > 1 else "".join(words)
