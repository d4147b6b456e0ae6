"""A country's own spelling of a text that is written once for all."""

import re
from collections.abc import Mapping

from training.trade.composed import Composed
from training.trade.speech import SOURCE, Saying, language


def spelled(text: str, spelling: Mapping[str, str]) -> str:
    """The text with each word as the table spells it; a translation spells for itself.

    >>> spelled("Tires are centered; the tire's center is not.", {"tire": "tyre", "tires": "tyres"})
    "Tyres are centered; the tyre's center is not."
    """

    def own(found: re.Match[str]) -> str:
        word = found[0]
        other = spelling.get(word.lower(), word)
        return other[0].upper() + other[1:] if word[0].isupper() else other

    def told() -> str:
        return re.sub(r"[A-Za-z]+", own, str(text)) if language() == SOURCE else str(text)

    if not spelling or not text:
        return text
    return Composed(told) if isinstance(text, Saying) else told()
