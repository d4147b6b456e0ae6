"""A language for tests alone, in which every text that passes the seam stands in brackets: what stands outside of them
never passed it."""

from __future__ import annotations

import gettext
import re
from collections.abc import Iterator
from contextlib import contextmanager, nullcontext
from unittest import mock

from django.utils import translation
from django.utils.safestring import SafeData, mark_safe

from training import speaking
from training.trade import speech

BRACKETED = "en-XA"
OPEN, CLOSE = "⟦", "⟧"
# read as they stand in every language: units, signs of lengths and loads, marks on a sidewall, keys of a keyboard
UNITS = frozenset(
    [
        "mm",
        "cm",
        "m",
        "km",
        "in",
        "lb",
        "kg",
        "psi",
        "kPa",
        "bar",
        "rpm",
        "mph",
        "km/h",
        "h",
        "min",
        "s",
        "N",
        "N·m",
        "ft",
        "ft-lb",
        "J",
        "C",
        "F",
        "°C",
        "°F",
        "L",
        "ml",
    ]
)


class Bracketed(gettext.NullTranslations):
    """Every text in brackets, whatever it is."""

    def gettext(self, message: str) -> str:
        return f"{OPEN}{message}{CLOSE}"

    def ngettext(self, one: str, many: str, count: int) -> str:
        return f"{OPEN}{one if count == 1 else many}{CLOSE}"


def _in_brackets(text: str) -> str:
    """As Django's own translations do: what needs no escaping stays so, and nothing stays nothing."""
    told = f"{OPEN}{text}{CLOSE}" if text else text
    return mark_safe(told) if isinstance(text, SafeData) else told


@contextmanager
def bracketed() -> Iterator[None]:
    """Inside, whatever passes the seam is put in brackets, that of templates and of Django's own texts too."""
    known = speech.catalogue

    def catalogue(tag: str) -> gettext.NullTranslations:
        return Bracketed() if tag == BRACKETED else known(tag)

    # a page asks for the language of its shop; it gets this one
    asked = mock.patch.object(speaking, "in_language", return_value=nullcontext())
    of_django = mock.patch.multiple(
        translation._trans,  # type: ignore[attr-defined]
        gettext=_in_brackets,
        ngettext=lambda one, many, count: _in_brackets(one if count == 1 else many),
        pgettext=lambda context, text: _in_brackets(text),
        npgettext=lambda context, one, many, count: _in_brackets(one if count == 1 else many),
    )
    with mock.patch.object(speech, "catalogue", catalogue), asked, of_django, speech.in_language(BRACKETED):
        yield


def outside(text: str) -> list[str]:
    """The words that stand outside of all brackets; units and single letters are no words.

    >>> outside("⟦At most ⟦six⟧⟧ 5 mm or so"), outside("plain")
    (['or', 'so'], ['plain'])
    """
    kept, depth = [], 0
    for mark in text:
        if mark == OPEN:
            depth += 1
        elif mark == CLOSE:
            depth -= 1
        elif depth == 0:
            kept.append(mark)
            continue
        kept.append(" ")
    words = re.findall(r"[^\W\d_][\w'’-]*(?:[·/][^\W\d_]+)?", "".join(kept))
    return [word for word in words if len(word) > 1 and word not in UNITS]
