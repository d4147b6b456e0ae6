"""What can be told of a question before it is made, so that a form need not make what it cannot use."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction
from typing import NamedTuple


class Foretold(NamedTuple):
    """`critical`: how much of what may be answered wrongly will be critical, 0 to 1; `catches`: misconceptions that
    the question will catch, of which it may catch more."""

    critical: Fraction
    catches: frozenset[str]


class Enough(Exception):
    """A draw that was only to be foretold has told all that can be."""

    def __init__(self, foretold: Foretold) -> None:
        super().__init__()
        self.foretold = foretold


class Foretelling:
    """The part of a draft that tells ahead. A family that does says so where it registers itself: `foretells`."""

    only_foretells: bool

    def foretell(self, critical: int, of: int, catches: Iterable[str] = ()) -> None:
        """Say as early as it is known that `critical` of `of` wrong answers will be critical, of a list each line.

        Ends a draw that is made for nothing else.
        """
        if self.only_foretells:
            raise Enough(Foretold(Fraction(critical, of), frozenset(catches)))
