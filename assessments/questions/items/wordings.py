"""The same answer in other words: phrases of options that stand for one another, so that length tells nothing.

They stand in the file beside this one; what is done with a text is done with the phrases of the language it is in.
"""

from __future__ import annotations

import re
import tomllib
from functools import lru_cache
from importlib import resources

from training.trade.speech import once_a_language, saying


@lru_cache(maxsize=1)
def groups() -> tuple[tuple[str, ...], ...]:
    """Each holds phrases that say the same; the first is the plain one."""
    data = tomllib.loads(resources.files(__package__).joinpath("wordings.toml").read_text("utf-8"))
    return tuple(tuple(map(saying, group)) for subject in data["subject"] for group in subject["groups"])


@once_a_language()
def _spoken() -> tuple[tuple[str, ...], ...]:
    """The groups in the language spoken; what two phrases have in common there stands once, in the first group."""
    seen: dict[str, None] = {}
    found = []
    for group in groups():
        told = [one for one in dict.fromkeys(map(str, group)) if one not in seen]
        seen |= dict.fromkeys(told)
        found.append(tuple(told))
    return tuple(group for group in found if group)


@once_a_language()
def _usual() -> dict[str, str]:
    return {phrase: group[0] for group in _spoken() for phrase in group}


@once_a_language()
def _phrase() -> re.Pattern[str]:
    letter = r"[^\W\d_]"
    longest_first = "|".join(map(re.escape, sorted(_usual(), key=len, reverse=True)))
    return re.compile(f"(?<!{letter})(?:{longest_first})(?!{letter})")


@once_a_language(8192)
def plain(text: str) -> str:
    """A text with every phrase in its first wording.

    >>> plain("up to 1/4 in")
    'at most 1/4 in'
    """
    usual = _usual()
    return _phrase().sub(lambda match: usual[match[0]], text)


@once_a_language(8192)
def wordings(text: str) -> tuple[str, ...]:
    """A text in all its wordings, itself first; each of its phrases is varied alone.

    >>> wordings("at most 1/4 in")
    ('at most 1/4 in', 'up to 1/4 in', 'no more than 1/4 in')
    """
    found, phrases = [text], set(_phrase().findall(text))
    for group in _spoken():
        if group[0] in phrases:  # and not merely a part of a longer one: "Only A" in "Only A and B"
            found += [text.replace(group[0], other) for other in group[1:]]
    return tuple(one for one in dict.fromkeys(found) if one == text or plain(one) == plain(text))
