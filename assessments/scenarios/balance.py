"""Which rivals stand beside a key, and in which words: so that the length of an option says nothing about it."""

from __future__ import annotations

from collections.abc import Sequence
from random import Random

from .wordings import wordings

_SHUFFLES = 4


def beside(
    rng: Random, key: str, rivals: Sequence[str], *, places: int, shorter: int
) -> tuple[str, list[tuple[int, str]]] | None:
    """The key in some wording, and `places` rivals (by index, in some wording) of which `shorter` are shorter than it.

    A rival of the same length counts as shorter or longer, whichever is wanted. None where it cannot be done.
    """
    keys = list(wordings(key))
    rng.shuffle(keys)
    for own in keys:
        length = len(own)
        able: list[tuple[int, list[str], list[str]]] = []
        for place, rival in enumerate(rivals):
            said = wordings(rival)
            able.append((place, [s for s in said if len(s) <= length], [s for s in said if len(s) >= length]))
        for _ in range(_SHUFFLES):
            rng.shuffle(able)
            chosen = _fill(rng, able, places, shorter)
            if chosen is not None:
                return own, chosen
    return None


def _fill(
    rng: Random, able: Sequence[tuple[int, list[str], list[str]]], places: int, shorter: int
) -> list[tuple[int, str]] | None:
    below, above = shorter, places - shorter
    chosen: list[tuple[int, str]] = []
    for place, short, long in able:
        if len(chosen) == places:
            break
        # Whichever side has more room left takes a rival that could stand on both.
        wants_below = below > 0 and bool(short) and (not long or above == 0 or rng.random() * (below + above) < below)
        if wants_below:
            chosen.append((place, _off(rng, short, long)))
            below -= 1
        elif above > 0 and long:
            chosen.append((place, _off(rng, long, short)))
            above -= 1
    return chosen if len(chosen) == places else None


def _off(rng: Random, side: list[str], other: list[str]) -> str:
    """A wording on one side; one that is exactly as long as the key only where there is no other."""
    clear = [said for said in side if said not in other]
    return rng.choice(clear or side)
