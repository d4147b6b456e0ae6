"""What is molded on a sidewall, in words: plies, load range, identification number. All plant codes are invented."""

from __future__ import annotations

from random import Random

_FABRIC = ("POLYESTER", "RAYON", "NYLON")
_LETTERS = "ABCDEFHJKLMNPRTUVWXY123456789"


def ply_words(rng: Random, *, steel_body: bool) -> str:
    """The ply material as it is molded: tread plies with steel belts, and the sidewall plies, which are the body."""
    body = "STEEL" if steel_body else rng.choice(_FABRIC)
    count = 1 if steel_body else rng.choice((1, 2))
    cap = rng.choice(("", " + 1 NYLON", " + 2 NYLON"))
    plies = "PLY" if count == 1 else "PLIES"
    return f"Molded on it: TREAD PLIES {count} {body} + 2 STEEL{cap}, SIDEWALL {plies} {count} {body}."


def identification(rng: Random, date_code: str) -> str:
    """A tire identification number of 13 symbols that ends in this date code."""
    signs = "".join(rng.choice(_LETTERS) for _ in range(9))
    return f"DOT {signs[:3]} {signs[3:9]} {date_code}"
