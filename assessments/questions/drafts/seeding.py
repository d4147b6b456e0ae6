"""Chance in a draw: a generator from a seed, and how a draw that makes no fair question is given up."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterable, Sequence
from random import Random
from typing import TYPE_CHECKING, TypeVar

if TYPE_CHECKING:
    from _typeshed import SupportsLenAndGetItem

T = TypeVar("T")


class Redraw(Exception):
    """The numbers that came up make no fair question; `draw` goes on with the same generator."""


class DrawRandom(Random):
    """A random generator for families: where strict limits leave nothing to choose from, the draw makes no question."""

    def choice(self, seq: SupportsLenAndGetItem[T]) -> T:
        """One of these. Raises Redraw for none."""
        if not len(seq):
            raise Redraw("nothing to choose from")
        return super().choice(seq)

    def randint(self, a: int, b: int) -> int:
        """A whole number from `a` to `b`. Raises Redraw where there is none."""
        if b < a:
            raise Redraw(f"no whole number from {a} to {b}")
        return super().randint(a, b)

    def sample(self, population: Sequence[T], k: int, *, counts: Iterable[int] | None = None) -> list[T]:
        """So many different ones of these. Raises Redraw for too few."""
        if not 0 <= k <= len(population):
            raise Redraw("too few to choose from")
        return super().sample(population, k, counts=counts)


def seeded(*parts: str) -> DrawRandom:
    """The generator of these texts: the same texts, the same numbers."""
    return DrawRandom(int.from_bytes(hashlib.sha256(json.dumps(parts).encode()).digest()[:16], "big"))


def key_place(name: str, seed: str, options: int) -> int:
    """The place, from 1, of the key among so many options in a draw of this family by this seed.

    It hangs on nothing else, so that a form whose keys stand too often at one place need not draw a question to see.
    """
    return 1 + seeded(name, seed, "key place").randrange(options)
