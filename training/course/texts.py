"""The texts that a lesson's Markdown is made of: each heading, paragraph and item of a list is translated by itself."""

from __future__ import annotations

import re
from collections.abc import Iterator

from training.trade.speech import say, saying

_BETWEEN = re.compile(r"(\s*\n\s*\n\s*|\n(?=[-*] |\d+\. |#{2,6} ))")
_MARK = re.compile(r"\s*(?:[-*] +|\d+\. +|#{2,6} +)?")


def texts(markdown: str) -> Iterator[tuple[str, str]]:
    """What stands before each text, as a dash or a number or the lines between, and the text.

    Both in a row make up the Markdown again.

    >>> list(texts("## Cut\\n\\n- from inside\\n- {limit:cutter-speed}"))
    [('## ', 'Cut'), ('\\n\\n- ', 'from inside'), ('\\n- ', '{limit:cutter-speed}')]
    """
    before = ""
    for at, part in enumerate(_BETWEEN.split(markdown)):
        if at % 2:
            before += part
            continue
        mark = _MARK.match(part)
        start = mark.end() if mark else 0
        end = max(start, len(part.rstrip()))
        if end > start:
            yield before + part[:start], part[start:end]
            before = part[end:]
        else:
            before += part
    if before:
        yield before, ""


def mark_texts(markdown: str) -> None:
    """Mark each text for translation. Inline directives in it are places: a translation keeps them."""
    for _, text in texts(markdown):
        saying(text)


def spoken(markdown: str) -> str:
    """The Markdown with each text in the language spoken."""
    return "".join(before + (say(text) if text else "") for before, text in texts(markdown))
