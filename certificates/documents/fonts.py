"""The fonts of printed pages: loaded once a process, with a second font for words the first cannot draw.

ReportLab draws a missing character as nothing and says nothing, so every name is checked here first.
"""

import re
import unicodedata
from functools import cache
from pathlib import Path
from xml.sax.saxutils import escape

from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.ttfonts import TTFont

FOLDER = Path(__file__).parent / "fonts"
TEXT, STRONG, HEAD = "Barlow-Regular", "Barlow-SemiBold", "BarlowCondensed-SemiBold"
SECOND = {TEXT: "DejaVuSans", STRONG: "DejaVuSans-Bold", HEAD: "DejaVuSans-Bold"}

LAST_READABLE = 0xFFFF  # beyond it ReportLab draws, but the text can no longer be searched or read aloud
# written right to left, or joined and stacked by rules that ReportLab does not follow
_NEEDS_SHAPING = frozenset({"R", "AL", "AN"})
_NOT_DRAWN_ALONE = frozenset({"Mn", "Mc", "Me", "Cc", "Cf", "Cs", "Co", "Cn", "Zl", "Zp"})


@cache
def _loaded(font: str) -> frozenset[int]:
    """Load a font of ours, once; returns the code points it has a shape for."""
    face = TTFont(font, str(FOLDER / f"{font}.ttf"))
    pdfmetrics.registerFont(face)
    return frozenset(point for point, glyph in face.face.charToGlyph.items() if glyph)


def composed(text: str) -> str:
    """The text with every accent joined to its letter where Unicode has the joined letter."""
    return unicodedata.normalize("NFC", str(text))


def missing_glyphs(text: str) -> str:
    """Characters of `text` that no font of ours can draw correctly, each once, in order; empty when all can be drawn.

    A script written from right to left, and a mark that has to be set over a letter, count as missing:
    a name drawn backwards or with its marks beside it is not that name.
    """
    missing = []
    for word in composed(text).split(" "):
        for character in word:
            is_set_by_rules = unicodedata.bidirectional(character) in _NEEDS_SHAPING
            is_not_drawn_alone = unicodedata.category(character) in _NOT_DRAWN_ALONE
            is_beyond = ord(character) > LAST_READABLE
            if (
                is_set_by_rules
                or is_not_drawn_alone
                or is_beyond
                or not all(_draws(font, word, character) for font in SECOND)
            ):
                missing.append(character)
    return "".join(dict.fromkeys(missing))


def _draws(font: str, word: str, character: str) -> bool:
    """Whether the character has a shape in the font that draws its word: the first if it has all of the word."""
    first = _loaded(font)
    return all(ord(other) in first for other in word) or ord(character) in _loaded(SECOND[font])


def runs(text: str, font: str) -> list[tuple[str, str]]:
    """Cut a text into (font, piece): a word the font lacks a character of is drawn whole in the second font."""
    points = _loaded(font)
    pieces: list[tuple[str, str]] = []
    for word in re.split("( )", composed(text)):
        has_all = all(ord(character) in points for character in word)
        if not has_all:
            _loaded(SECOND[font])
        face = font if has_all else SECOND[font]
        if pieces and pieces[-1][0] == face:
            word = pieces.pop()[1] + word
        pieces.append((face, word))
    return pieces


def width(text: str, font: str, size: float) -> float:
    """How wide a text is drawn, in points."""
    return sum(float(pdfmetrics.stringWidth(piece, face, size)) for face, piece in runs(text, font))


def lines(text: str, font: str, size: float, room: float) -> list[str]:
    """The text in lines no wider than `room`, broken between words."""
    found = [""]
    for word in text.split():
        longer = f"{found[-1]} {word}".strip()
        if found[-1] and width(longer, font, size) > room:
            found.append(word)
        else:
            found[-1] = longer
    return found


def markup(text: str, font: str) -> str:
    """The text as paragraph markup: nothing in it is read as a tag, and each word has a font that can draw it."""
    escaped = ((face, escape(piece)) for face, piece in runs(text, font))
    return "".join(piece if face == font else f'<font name="{face}">{piece}</font>' for face, piece in escaped)
