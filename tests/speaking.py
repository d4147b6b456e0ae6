"""A language for tests alone, in which every text that passes the seam stands in brackets: what stands outside of them
never passed it."""

from __future__ import annotations

import gettext
import re
from collections.abc import Iterator
from contextlib import contextmanager, nullcontext
from unittest import mock

from django.utils import translation
from django.utils.translation import trans_real
from django.utils.translation.trans_real import CONTEXT_SEPARATOR

from training import speaking
from training.trade import speech
from training.trade.speech import SOURCE

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
        return _in_brackets(message)

    def ngettext(self, one: str, many: str, count: int) -> str:
        return _in_brackets(one if count == 1 else many)

    def to_language(self) -> str:
        """Django asks by this how days and numbers are written: as in American English."""
        return SOURCE.lower()


def _in_brackets(text: str) -> str:
    return f"{OPEN}{text.rpartition(CONTEXT_SEPARATOR)[2]}{CLOSE}"


@contextmanager
def bracketed() -> Iterator[None]:
    """Inside, whatever passes the seam is put in brackets, that of templates and of Django's own texts too."""
    known = speech.catalogue
    trans_real.gettext("Yes")  # Django finds its default language once and keeps it: that is not to be this one

    def catalogue(tag: str) -> gettext.NullTranslations:
        return Bracketed() if tag == BRACKETED else known(tag)

    # a page asks for the language of its shop; it gets this one
    asked = mock.patch.object(speaking, "in_language", return_value=nullcontext())
    of_django = mock.patch.object(trans_real, "translation", return_value=Bracketed())
    with (
        translation.override(SOURCE.lower()),  # the last to leave: Django's own texts come back once nothing is patched
        mock.patch.object(speech, "catalogue", catalogue),
        asked,
        of_django,
        translation.override(BRACKETED.lower()),
        speech.in_language(BRACKETED),
    ):
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
