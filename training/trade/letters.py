"""Large and small letters, as the language spoken writes them."""

from __future__ import annotations

from training.trade.speech import language

NOUNS_ARE_LARGE = frozenset({"de", "lb"})  # German and Luxembourgish write every noun with a large first letter


def within(text: str) -> str:
    """A title or a heading as it stands within a sentence.

    >>> within("Passenger tires")
    'passenger tires'
    """
    told = str(text)
    return told if language().split("-")[0] in NOUNS_ARE_LARGE else told.lower()
