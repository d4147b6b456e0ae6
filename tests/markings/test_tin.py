"""Tire identification numbers. 49 CFR 574.5 (published): 13 symbols on a new tire, 7 on a retread, older ones fewer.

Groups of older numbers are from memory; the plant codes are invented.
"""

from datetime import date

import pytest

from training.rulebook.markings import MarkingError, read_tin

TODAY = date(2026, 11, 25)


@pytest.mark.parametrize("text", ["DOT 1AB CDEFHJ 3219", "1ABCDEFHJ3219", "dot-1AB-CDEFHJ-3219", "DOT1AB CDEF HJ3219"])
def test_a_new_tire_has_13_symbols_in_three_groups(text: str) -> None:
    tin = read_tin(text)

    assert (tin.form, tin.plant_code, tin.size_code, tin.maker_code) == ("new", "1AB", None, "CDEFHJ")
    assert tin.date_code is not None
    assert tin.date_code.first_day == date(2019, 8, 11)  # the 32nd Sunday of 2019
    assert tin.is_retread is False
    assert tin.doubts == ()


@pytest.mark.parametrize("text", ["DOT R ABC 2515", "DOT-R ABC 2515", "R ABC 2515", "DOT ABC 2515"])
def test_a_retread_has_seven_symbols(text: str) -> None:
    tin = read_tin(text)

    assert (tin.form, tin.plant_code, tin.maker_code, tin.is_retread) == ("retread", "ABC", None, True)
    assert tin.date_code is not None
    assert tin.date_code.year == 2015


def test_an_r_that_begins_a_plant_code_marks_no_retread() -> None:
    assert read_tin("DOT R1 AB CDEF 3205").is_retread is False


@pytest.mark.parametrize(
    ("text", "maker", "year"),
    [("DOT AB CD EFHJ 3205", "EFHJ", 2005), ("DOT AB CD 3205", None, 2005), ("ABCD E 3205", "E", 2005)],
)
def test_an_older_number_lawfully_has_8_to_12_symbols(text: str, maker: str | None, year: int) -> None:
    tin = read_tin(text)

    assert (tin.form, tin.plant_code, tin.size_code, tin.maker_code) == ("older", "AB", "CD", maker)
    assert tin.date_code is not None
    assert tin.date_code.year == year


@pytest.mark.parametrize("text", ["DOT AB CD EFHJ 329", "DOT AB CD 329", "ABCDEFHJ329"])
def test_three_digits_at_the_end_are_a_tire_made_before_2000(text: str) -> None:
    tin = read_tin(text)

    assert tin.form == "older"
    assert tin.date_code is not None
    assert tin.date_code.is_before_2000


def test_an_older_retread_keeps_its_longer_number() -> None:
    tin = read_tin("DOT R ABC 12 XYK 0105")

    assert (tin.form, tin.plant_code, tin.size_code, tin.maker_code, tin.is_retread) == (
        "older-retread", "ABC", "12", "XYK", True,
    )  # fmt: skip


# Without gaps "5107" may be week 51 of 2007 or, after one more symbol of the maker, week 10 of a year ending in 7.
def test_a_number_without_gaps_that_can_mean_two_dates_says_so() -> None:
    open_number = read_tin("ABCDEFH5107")
    grouped = read_tin("ABCD EFH 5107")

    assert any('"5107"' in doubt and '"107"' in doubt for doubt in open_number.doubts)
    assert grouped.doubts == ()


def test_twelve_symbols_leave_no_room_for_a_date_of_three_digits() -> None:
    assert read_tin("ABCDEFHJ5107").doubts == ()
    assert read_tin("R ABCDEFHJ5107").doubts != ()  # a retreader's plant code has three symbols


def test_seven_symbols_without_gaps_may_be_a_retread_or_an_old_tire() -> None:
    assert read_tin("ABC2515").is_retread is None
    assert read_tin("ABC2515", is_retread=True).is_retread is True
    assert read_tin("ABC2565").is_retread is True  # 565 would be week 56


@pytest.mark.parametrize(("text", "plant"), [("DOT 1AB CDEFHJ", "1AB"), ("DOT AB CD EFHJ", "AB")])
def test_the_short_number_of_the_outer_sidewall_sends_one_to_the_other_side(text: str, plant: str) -> None:
    tin = read_tin(text)

    assert (tin.form, tin.plant_code, tin.date_code) == ("partial", plant, None)
    assert any("other sidewall" in doubt for doubt in tin.doubts)


# The letters the regulation leaves out (from memory): G, I, O, Q, S, Z.
def test_a_letter_no_number_has_is_refused_in_the_plant_code_and_doubted_behind_it() -> None:
    with pytest.raises(
        MarkingError, match=r'plant code: "O1B" holds "O", which no identification number has; .*0 or D'
    ):
        read_tin("DOT O1B CDEFHJ 3219")
    assert any('"S"' in doubt for doubt in read_tin("DOT 1AB CDSFHJ 3219").doubts)


@pytest.mark.parametrize(
    ("text", "part", "words"),
    [
        ("DOT", "identification number", "has 0 symbols"),
        ("DOT 1AB CDEFHJK 3219", "identification number", "has 14 symbols"),
        ("DOT AB 3205", "identification number", "has 6 symbols"),
        ("AB3205", "identification number", "has 6 symbols"),
        ("3205", "identification number", "has 4 symbols"),
        ("ABCDEFHJKL", "date code", "ends with week and year"),
        ("DOT AB CD EFHJK 329", "identification number", "has 12 symbols"),
        ("DOT 1AB CDEFHJ 5420", "week", "01 to 53"),
        ("DOT 1AB CDEFHJ 0020", "week", "01 to 53"),
        ("DOT 1AB CDEFHJ 5320", "week", "2020 has the weeks 01 to 52"),
        ("DOT 1AB CDEFHJ 3229", "year", "in the future"),
        ("DOT 1AB CDEFHJ 32A9", "date code", "end with week and year"),
        ("DOT AB IB EFHJ 3205", "size code", 'holds "I"'),
        ("DOT AB CD EFHJ KLMN", "date code", "ends with week and year"),
        ("DOT 1AB CDE*HJ 3219", "identification number", "letters and numerals only"),
        ("", "identification number", "is empty"),
    ],
)
def test_a_bad_number_says_which_part_is_wrong(text: str, part: str, words: str) -> None:
    with pytest.raises(MarkingError) as refused:
        read_tin(text, on=TODAY)

    assert refused.value.part == part
    assert words in str(refused.value)


def test_a_number_marked_as_a_retreads_is_not_taken_for_a_new_tires() -> None:
    with pytest.raises(MarkingError, match="an R beside DOT marks a retread"):
        read_tin("DOT R ABC 2515", is_retread=False)
    with pytest.raises(MarkingError, match="a new tire has 13"):
        read_tin("DOT ABC 2515", is_retread=False)
