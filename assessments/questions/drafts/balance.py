"""Which rivals stand beside a key, and in which words: so that neither the length nor the value of an option says
anything about it."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from random import Random

from assessments.questions.drafts.choice import Choice
from assessments.questions.items.wordings import wordings

_SHUFFLES = 4


def rivals_beside(
    rng: Random, key: str, rivals: Sequence[str], *, places: int, shorter: int
) -> tuple[str, list[tuple[int, str]]] | None:
    """The key in some wording, and `places` rivals (by index, in some wording) of which `shorter` are shorter than it.

    A rival of the same length counts as shorter or longer, whichever is wanted. None where it cannot be done.
    """
    keys = list(wordings(key))
    rng.shuffle(keys)
    for is_clear in (True, False):  # first without any rival that is just as long
        for own in keys:
            able = [_sides(place, wordings(rival), len(own), is_clear) for place, rival in enumerate(rivals)]
            for _ in range(_SHUFFLES):
                rng.shuffle(able)
                chosen = _fill(rng, able, places, shorter)
                if chosen is not None:
                    return own, chosen
    return None


def balanced_by_value(rng: Random, key: Choice, rivals: Sequence[Choice], places: int) -> list[Choice]:
    """`places` rivals, the key's rank by value among them drawn evenly from the ranks that are possible."""

    def rank(choice: Choice) -> tuple[Fraction, float]:
        return (choice.value or Fraction(0), rng.random())

    own = rank(key)
    below: list[Choice] = []
    above: list[Choice] = []
    for rival in rivals:
        (below if rank(rival) < own else above).append(rival)
    taken = rng.randint(max(0, places - len(above)), min(places, len(below)))
    return rng.sample(below, taken) + rng.sample(above, places - taken)


def _sides(place: int, said: Sequence[str], length: int, is_clear: bool) -> tuple[int, list[str], list[str]]:
    equal = [] if is_clear else [one for one in said if len(one) == length]
    short, long = [one for one in said if len(one) < length], [one for one in said if len(one) > length]
    return place, short or equal, long or equal


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
            chosen.append((place, rng.choice(short)))
            below -= 1
        elif above > 0 and long:
            chosen.append((place, rng.choice(long)))
            above -= 1
    return chosen if len(chosen) == places else None
