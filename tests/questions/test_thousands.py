"""A comma before three digits in an answer: that of thousands where nobody measures to a thousandth, else refused."""

import pytest

from assessments.questions.items.numbers import NotANumber, parse_measure


@pytest.mark.parametrize("unit", ["lb", "kg", "rpm", "mi", "km"])
def test_is_that_of_thousands_in_units_of_whole_numbers(unit) -> None:
    assert parse_measure(f"11,640 {unit}") == parse_measure(f"11640 {unit}")
    assert parse_measure(f"11,640 {unit}") != parse_measure(f"11.640 {unit}")


@pytest.mark.parametrize("typed", ["1,250 mm", "1,250 in", "5,5 kg", "11,64 lb", "1,2345 kg"])
def test_is_refused_where_it_may_be_a_decimal_one(typed) -> None:
    with pytest.raises(NotANumber):
        parse_measure(typed)
