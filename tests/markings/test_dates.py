"""Date codes: weeks against the standard calendar, decades left open, ages, and codes that cannot be."""

import calendar
from datetime import date, timedelta
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from training.rulebook.markings import MarkingError, read_date_code, week_of, weeks_in

DAYS = st.dates(date(2000, 1, 1), date(2099, 12, 31))


# C89 strftime, %U: week of the year, Sunday first, all days before the first Sunday in week 0. 49 CFR 574.5 counts
# full weeks from the first Sunday, so both numbers agree from there on.
@given(DAYS)
def test_a_day_lies_in_the_week_the_c_library_gives_it(day: date) -> None:
    number = int(day.strftime("%U"))
    week = week_of(day.year, number) if number else week_of(day.year - 1, weeks_in(day.year - 1))

    assert week.first_day <= day <= week.last_day


@pytest.mark.parametrize("year", range(1971, 2100))
def test_the_weeks_of_a_year_are_the_calendars_weeks_that_begin_in_it(year: int) -> None:
    days = calendar.Calendar(firstweekday=calendar.SUNDAY).itermonthdates
    sundays = sorted({day for month in range(1, 13) for day in days(year, month)
                      if day.year == year and day.weekday() == calendar.SUNDAY})  # fmt: skip

    assert [week_of(year, number).first_day for number in range(1, weeks_in(year) + 1)] == sundays


@given(DAYS)
def test_weeks_follow_each_other_without_a_gap(day: date) -> None:
    weeks = [week_of(day.year, number) for number in range(1, weeks_in(day.year) + 1)]

    assert all(after.first_day - week.last_day == timedelta(days=1) for week, after in pairwise(weeks))
    assert week_of(day.year + 1, 1).first_day - weeks[-1].last_day == timedelta(days=1)


# 49 CFR 574.5 (from memory): the example in the rule, 0109 is the week of Sunday 4 to Saturday 10 January 2009.
def test_the_example_of_the_rule_reads_as_the_rule_says() -> None:
    code = read_date_code("0109")

    assert (code.first_day, code.last_day) == (date(2009, 1, 4), date(2009, 1, 10))


# A year with 53 Sundays has a week 53: 2017 and 2023 began on a Sunday; 2020, a leap year from a Wednesday, did not.
def test_week_53_is_there_only_in_a_year_with_53_sundays() -> None:
    assert read_date_code("5323").last_day == date(2024, 1, 6)
    with pytest.raises(MarkingError, match='week: "53" is not a week of 2020; 2020 has the weeks 01 to 52'):
        read_date_code("5320")


def test_three_digits_leave_the_decade_open() -> None:
    code = read_date_code("329")

    assert code.is_before_2000
    assert (code.year, code.first_day, code.last_day) == (None, None, None)
    assert [week.year for week in code.weeks] == [1999, 1989, 1979]


# Common practice of some makers, no published source: a triangle after the code marks the nineties.
@pytest.mark.parametrize("text", ["329<", "329 ◄", "329▲"])
def test_a_triangle_behind_three_digits_settles_the_nineties(text: str) -> None:
    assert read_date_code(text).year == 1999


# Identification numbers began in 1971 (from memory), so a 0 is 1990 or 1980 and no tire of 1970.
def test_no_code_means_a_year_before_identification_numbers() -> None:
    assert [week.year for week in read_date_code("100").weeks] == [1990, 1980]


# 1995 began on a Sunday and so has 53 weeks; 1985 and 1975 did not.
def test_a_week_53_of_three_digits_leaves_only_the_years_that_have_one() -> None:
    assert [week.year for week in read_date_code("535").weeks] == [1995]


# By hand: the first day of 0109 is 4 January 2009.
@pytest.mark.parametrize(
    ("on", "age"), [(date(2019, 1, 3), 9), (date(2019, 1, 4), 10), (date(2009, 1, 4), 0), (date(2029, 12, 31), 20)]
)
def test_age_counts_completed_years_from_the_first_day_of_the_week(on: date, age: int) -> None:
    assert read_date_code("0109").age_on(on) == age


def test_with_the_decade_open_the_age_is_that_of_the_latest_decade() -> None:
    assert read_date_code("329").age_on(date(2026, 11, 25)) == 27  # since August 1999


def test_a_week_begun_on_29_february_is_a_year_old_on_1_march() -> None:
    code = read_date_code("0904")  # 29 February 2004 was a Sunday, the ninth of its year

    assert code.first_day == date(2004, 2, 29)
    assert (code.age_on(date(2005, 2, 28)), code.age_on(date(2005, 3, 1))) == (0, 1)


def test_a_tire_from_the_future_was_misread() -> None:
    with pytest.raises(MarkingError, match='year: "29" lies in the future; the week began on 2029-08-12'):
        read_date_code("3229", on=date(2026, 11, 25))
    with pytest.raises(MarkingError, match="lies in the future"):
        read_date_code("3229").age_on(date(2026, 11, 25))
    assert read_date_code("4726", on=date(2026, 11, 25)).first_day == date(2026, 11, 22)


@pytest.mark.parametrize(
    ("text", "part", "found"),
    [
        ("0019", "week", "00"),
        ("5419", "week", "54"),
        ("999", "week", "99"),
        ("32", "date code", "32"),
        ("32195", "date code", "32195"),
        ("32A9", "date code", "32A9"),
        ("3219<", "date code", "3219<"),
        ("", "date code", ""),
        ("-219", "date code", "-219"),
        ("\N{ARABIC-INDIC DIGIT THREE}219", "date code", "\N{ARABIC-INDIC DIGIT THREE}219"),
    ],
)
def test_a_bad_date_code_says_which_part_is_wrong(text: str, part: str, found: str) -> None:
    with pytest.raises(MarkingError) as refused:
        read_date_code(text)

    assert (refused.value.part, refused.value.found) == (part, found)
