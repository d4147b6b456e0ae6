"""Pages in the language of tests: every text of a page that passed the seam stands in brackets."""

from __future__ import annotations

import re
from collections.abc import Iterator
from contextlib import contextmanager
from html import unescape
from unittest import mock

from django.utils.translation.trans_real import CONTEXT_SEPARATOR

from tests.speaking import BRACKETED, Bracketed, bracketed
from training import speaking
from training.access import Place


class _Pages(Bracketed):
    """What templates say, in the shape that Django asks for."""

    def gettext(self, message: str) -> str:
        """Every text in brackets; one that is looked up with its context first is not known with it."""
        return message if CONTEXT_SEPARATOR in message else super().gettext(message)

    def language(self) -> str:
        return BRACKETED.lower()

    def to_language(self) -> str:
        return BRACKETED.lower()


@contextmanager
def bracketed_pages() -> Iterator[None]:
    """Inside, every page, of a shop or of nobody's, is in the language of tests, its templates too."""
    with (
        bracketed(),
        mock.patch.dict("django.utils.translation.trans_real._translations", {BRACKETED.lower(): _Pages()}),
        mock.patch.dict(speaking._TAGS, dict.fromkeys(speaking._TAGS, BRACKETED)),
        mock.patch.object(Place, "language", BRACKETED),
        speaking.speaking(BRACKETED),
    ):
        yield


def words_of(page: str) -> str:
    """What a page says to eyes and ears: its text, and the attributes that are shown or read aloud."""
    html = re.sub(r"<(svg|style|script)\b.*?</\1>", " ", page, flags=re.DOTALL)
    told = re.findall(r'\s(?:aria-label|data-label|title|alt|placeholder)="([^"]*)"', html)
    return unescape(" ".join([re.sub(r"<[^>]*>", " ", html), *told]))
