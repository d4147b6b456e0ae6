"""By which sentence a question asks: the text as it was written, before its places were filled."""

from __future__ import annotations

import hashlib
from collections.abc import Mapping

from training.trade.speech import Saying

_DIGITS = 12


def template_of(asked: str, heard: Mapping[str, str]) -> str:
    """A short digest of the sentence `asked`, the same whatever its places are filled with and in every language.

    `heard` maps what was said while the question was made to the text as it was written. A sentence put together from
    several texts is told by all of them in their order, and one that nobody said by itself.
    """
    written = str.__str__(asked) if isinstance(asked, Saying) else heard.get(asked)
    if written is None:
        written = "\n".join(_pieces(asked, heard)) or asked
    return hashlib.sha256(str.__str__(written).encode()).hexdigest()[:_DIGITS]


def _pieces(asked: str, heard: Mapping[str, str]) -> list[str]:
    """The texts that the sentence is made of, the longest first where one holds another."""
    found, rest = [], asked
    for told in sorted(heard, key=len, reverse=True):
        place = rest.find(told) if told.strip() else -1
        if place >= 0:
            found.append((place, str.__str__(heard[told])))
            rest = rest[:place] + "\0" * len(told) + rest[place + len(told) :]
    return [written for _, written in sorted(found)]
