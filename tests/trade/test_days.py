"""Months are counted as calendars do."""

from datetime import date

import pytest

from training.trade.days import add_months


@pytest.mark.parametrize(
    ("day", "months", "later"),
    [
        (date(2026, 11, 25), 24, date(2028, 11, 25)),
        (date(2026, 11, 25), 1, date(2026, 12, 25)),
        (date(2026, 12, 31), 1, date(2027, 1, 31)),
        (date(2027, 1, 31), 1, date(2027, 2, 28)),
        (date(2028, 1, 31), 1, date(2028, 2, 29)),  # 2028 is a leap year
        (date(2028, 2, 29), 12, date(2029, 2, 28)),
        (date(2026, 10, 31), 60, date(2031, 10, 31)),
    ],
)
def test_months_on(day: date, months: int, later: date) -> None:
    assert add_months(day, months) == later
