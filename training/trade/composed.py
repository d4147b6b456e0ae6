"""A text made of others, such as a limit in words: put together when it is asked for, in the language spoken. Pure.

What its maker puts together depends on nothing but the language.
"""

from __future__ import annotations

from collections.abc import Callable

from training.trade import speech
from training.trade.speech import SOURCE, Saying, in_language, language


class Composed(Saying):
    """It compares as it reads in American English, and prints as its maker puts it together in the language spoken.

    >>> f"{Composed(lambda: 'at most 25°')}"
    'at most 25°'
    """

    __slots__ = ("_make", "_told")
    _make: Callable[[], str]
    _told: tuple[object, str]  # as it was told last, and by which catalogue

    def __new__(cls, make: Callable[[], str]) -> Composed:
        with in_language(SOURCE):
            self = super().__new__(cls, str(make()))
        self._make, self._told = make, (None, "")
        return self

    def __str__(self) -> str:
        spoken = language()
        if spoken == SOURCE:
            return str.__str__(self)
        catalogue = speech.catalogue(spoken)
        known, told = self._told
        if known is not catalogue:
            told = str(self._make())
            self._told = (catalogue, told)
        return told

    def __format__(self, spec: str) -> str:
        return format(str(self), spec)

    def __reduce__(self) -> tuple[type[str], tuple[str]]:  # type: ignore[override]
        return str, (str(self),)


def as_written(text: str) -> str:
    """What a text is compared by, whatever language is spoken: a marked text as it stands in the source."""
    return str.__str__(text)
