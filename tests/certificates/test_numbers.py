"""Certificate numbers: what the check symbol catches, and how people's spellings are read back."""

import random

import pytest

from certificates.numbers import SYMBOLS, MalformedNumber, new_number, read_number, show_number


def numbers(count: int) -> list[str]:
    rng = random.Random("numbers")
    return [new_number(rng) for _ in range(count)]


def check_symbol_by_hand(nine: str) -> str:
    """ISO 7064 MOD 37-2 written out: the sum of a_i * 2^i is 1 modulo 37, i counted from the right."""
    alphabet = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ*"
    weighted = sum(alphabet.index(symbol) * 2**place for place, symbol in enumerate(reversed(nine), 1))
    return alphabet[(1 - weighted) % 37]


def test_the_check_symbol_is_that_of_iso_7064_mod_37_2() -> None:
    # the standard's own example, as printed in the ISBT 128 technical specification and by python-stdnum
    assert check_symbol_by_hand("G123489654321") == "Y"
    for number in numbers(200):
        assert number[-1] == check_symbol_by_hand(number[:-1])


def test_a_number_has_ten_symbols_of_crockfords_base_32() -> None:
    # Source: Crockford, Base 32: the ten digits and the letters without I, L, O and U
    assert set(SYMBOLS) == set("0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ") - set("ILOU")
    for number in numbers(2000):
        assert len(number) == 10
        assert set(number) <= set(SYMBOLS)


def test_two_thousand_numbers_are_all_different() -> None:
    assert len(set(numbers(2000))) == 2000


def test_every_single_wrong_symbol_is_caught() -> None:
    for number in numbers(25):
        for place, right in enumerate(number):
            for wrong in SYMBOLS:
                if wrong != right:
                    with pytest.raises(MalformedNumber, match="one symbol is wrong or two have changed places"):
                        read_number(number[:place] + wrong + number[place + 1 :])


def test_every_swap_of_two_neighbors_is_caught() -> None:
    for number in numbers(300):
        for place in range(9):
            swapped = number[:place] + number[place + 1] + number[place] + number[place + 2 :]
            if swapped != number:
                with pytest.raises(MalformedNumber):
                    read_number(swapped)


def number_with(symbols: str) -> str:
    """A number that holds all of these symbols."""
    return next(number for number in numbers(5000) if set(symbols) <= set(number))


@pytest.mark.parametrize(
    "spell",
    [
        show_number,
        str.lower,
        lambda number: f" {show_number(number)} ",
        lambda number: " ".join(number),
        lambda number: number.replace("1", "I").replace("0", "O"),
        lambda number: number.replace("1", "l").replace("0", "o"),
    ],
)
def test_the_usual_spellings_are_read_as_the_same_number(spell) -> None:
    number = number_with("01")

    assert read_number(spell(number)) == number


def test_a_number_is_shown_in_groups_of_four_four_and_two() -> None:
    assert show_number("K7QD2M9X4T") == "K7QD-2M9X-4T"


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("", "has 10 letters and digits; this has 0"),
        ("K7QD-2M9X", "this has 8"),
        ("K7QD-2M9X-4TT", "this has 11"),
        ("K7QD-2M9X-4U", '"U" is not used in certificate numbers'),
        ("K7QD-2M9X-4é", "is not used in certificate numbers"),
        ("<script>", '"<" is not used in certificate numbers'),
    ],
)
def test_what_cannot_be_a_number_is_refused_in_words(text: str, words: str) -> None:
    with pytest.raises(MalformedNumber, match=words):
        read_number(text)
