"""Certificate numbers: random symbols and one check symbol that catches a slip of the pen.

Nine random symbols of Crockford's base 32 (45 bits: no one can walk through the numbers), then the check symbol of
ISO 7064 MOD 37-2, which catches every single wrong symbol and every two neighbors swapped.
"""

import random
import re

from stdnum.iso7064 import mod_37_2

from training.trade.speech import say

SYMBOLS = "0123456789ABCDEFGHJKMNPQRSTVWXYZ"  # no I, L, O, U: they are read as 1, 1, 0 and V
RANDOM_LENGTH, LENGTH = 9, 10
_READ_AS = str.maketrans({"I": "1", "L": "1", "O": "0", "-": "", "–": "", " ": ""})


class MalformedNumber(ValueError):
    """The text cannot be a certificate number; the message says what does not fit."""


def new_number(rng: random.Random) -> str:
    """Draw a number of ten symbols, without hyphens; again while its check symbol is one we do not print."""
    while True:
        drawn = "".join(rng.choice(SYMBOLS) for _ in range(RANDOM_LENGTH))
        check = mod_37_2.calc_check_digit(drawn)
        if check in SYMBOLS:
            return drawn + str(check)


def show_number(number: str) -> str:
    """The number as people read it.

    >>> show_number("K7QD2M9X4T")
    'K7QD-2M9X-4T'
    """
    return f"{number[:4]}-{number[4:8]}-{number[8:]}"


def read_number(text: str) -> str:
    """The ten symbols of a number as a person wrote it: small letters, spaces, hyphens, I or L for 1, O for 0.

    Raises MalformedNumber for what no certificate can carry.
    """
    symbols = re.sub(r"\s", "", text).upper().translate(_READ_AS)
    if strange := [symbol for symbol in dict.fromkeys(symbols) if symbol not in SYMBOLS]:
        raise MalformedNumber(
            say(
                '"{strange}" is not used in certificate numbers; they have digits and letters, without I, L, O, U',
                strange=strange[0],
            )
        )
    if len(symbols) != LENGTH:
        raise MalformedNumber(
            say(
                "a certificate number has {length} letters and digits; this has {count}",
                length=LENGTH,
                count=len(symbols),
            )
        )
    if not mod_37_2.is_valid(symbols):
        raise MalformedNumber(say("one symbol is wrong or two have changed places; compare it with the paper again"))
    return symbols
