"""Counting with chance: how likely an uneven count is, and how many different things there are behind those seen."""

from __future__ import annotations

import math
from collections.abc import Sequence


def chi_square_tail(value: float, freedom: int) -> float:
    """The chance that chi-square with this many degrees of freedom is at least `value`; exact for whole degrees.

    Source: the finite sums for integer degrees, Abramowitz and Stegun, Handbook of Mathematical Functions, 26.4.4-5.

    >>> round(chi_square_tail(7.815, 3), 3)
    0.05
    """
    if freedom < 1 or value <= 0:
        return 1.0
    half = value / 2
    if freedom % 2:
        total, term = math.erfc(math.sqrt(half)), math.exp(-half) * math.sqrt(half) / math.gamma(1.5)
        start = 1.5
    else:
        total, term = 0.0, math.exp(-half)
        start = 1.0
    for step in range(freedom // 2):
        total += term
        term *= half / (start + step)
    return min(1.0, total)


def evenness(counts: Sequence[int]) -> float:
    """The chance that an even distribution gives counts at least this uneven; 1 where there is nothing to compare."""
    total = sum(counts)
    if total == 0 or len(counts) < 2:
        return 1.0
    expected = total / len(counts)
    return chi_square_tail(sum((count - expected) ** 2 / expected for count in counts), len(counts) - 1)


def estimated_kinds(counts: Sequence[int]) -> float:
    """How many different kinds there are at least, from how often each was seen.

    Source: A. Chao (1984), Nonparametric estimation of the number of classes in a population, bias-corrected form.
    """
    once, twice = sum(count == 1 for count in counts), sum(count == 2 for count in counts)
    return len(counts) + once * (once - 1) / (2 * (twice + 1))
