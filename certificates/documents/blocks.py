"""Blocks of a printed page, set under one another in a column. Lengths in points; plain values in, never a model.

A column without a canvas only measures, so that a page can be set smaller before anything is drawn.
"""

from collections.abc import Callable, Iterable, Sequence
from functools import lru_cache

from reportlab.lib.colors import HexColor
from reportlab.lib.styles import ParagraphStyle
from reportlab.lib.units import mm
from reportlab.pdfgen.canvas import Canvas
from reportlab.platypus import Flowable, Paragraph

from certificates.documents import fonts

GUTTER = 2 * mm  # between a caption and what it is about
RUBBER, WORN, HAIRLINE, CRAYON = HexColor("#211f1d"), HexColor("#5b5853"), HexColor("#c3c8c0"), HexColor("#f5c400")


@lru_cache
def _style(font: str, size: float, is_quiet: bool, leading: float) -> ParagraphStyle:
    color = WORN if is_quiet else RUBBER
    return ParagraphStyle(font, fontName=font, fontSize=size, leading=size * leading, textColor=color, splitLongWords=1)


def paragraph(text: str, font: str, size: float, *, is_quiet: bool = False, leading: float = 1.35) -> Paragraph:
    """A paragraph of plain text, each word in a font that can draw it."""
    markup = fonts.markup(text, font)  # first, since it loads the font that the style only names
    return Paragraph(markup, _style(font, size, is_quiet, leading))


def draw_line(canvas: Canvas, text: str, font: str, size: float, *, x: float, y: float) -> None:
    """One line of text with its base at (x, y), each word in a font that can draw it."""
    line = canvas.beginText(x, y)
    for face, piece in fonts.runs(text, font):
        line.setFont(face, size)
        line.textOut(piece)
    canvas.drawText(line)


def widest(captions: Iterable[str], font: str, size: float, *, least: float, most: float) -> float:
    """How wide a column of captions is made: `least` unless one needs more, `most` where one would need more still."""
    needed = max(fonts.width(caption, font, size) for caption in captions) + GUTTER
    return float(min(max(least, needed), most))


def size_to_fit(font: str, size: float, lines: Iterable[str], room: float) -> float:
    """The size at which lines that are set beside one another are no wider than `room`, `size` at the most."""
    width = sum(fonts.width(line, font, size) for line in lines)
    return size if width <= room else size * room / width


class Painted(Flowable):  # type: ignore[misc]  # reportlab has no types
    """A block of fixed size in a page that flows; `paint` draws it with its lower left corner at the origin."""

    def __init__(self, width: float, height: float, paint: Callable[[Canvas], None]) -> None:
        super().__init__()
        self.width, self.height, self.paint = width, height, paint

    def wrap(self, available_width: float, available_height: float) -> tuple[float, float]:
        """Its size."""
        return self.width, self.height

    def draw(self) -> None:
        """Draw it."""
        self.canv.saveState()
        self.paint(self.canv)
        self.canv.restoreState()


class Column:
    """Fills from the top down: `y` starts at 0 and goes negative, from the canvas's origin at the upper left corner."""

    def __init__(self, canvas: Canvas | None, width: float) -> None:
        self.canvas, self.width, self.y = canvas, width, 0.0

    def skip(self, height: float) -> float:
        """Leave a gap; returns the y below it."""
        self.y -= height
        return self.y

    def text(
        self,
        text: str,
        font: str = fonts.TEXT,
        size: float = 10.5,
        *,
        before: float = 0,
        is_quiet: bool = False,
        leading: float = 1.35,
    ) -> None:
        """A paragraph of plain text."""
        self.skip(before)
        self.y -= self._put(paragraph(text, font, size, is_quiet=is_quiet, leading=leading), 0, self.width)

    def facts(self, facts: Sequence[tuple[str, str]], *, before: float) -> None:
        """Facts two in a line, each with a quiet caption over it."""
        gutter = 8 * mm
        width = (self.width - gutter) / 2
        self.skip(before - 8)
        for first in range(0, len(facts), 2):
            self.skip(8)
            heights = []
            for index, (caption, value) in enumerate(facts[first : first + 2]):
                x = index * (width + gutter)
                height = self._put(paragraph(caption, fonts.TEXT, 9.5, is_quiet=True), x, width)
                heights.append(height + self._put(paragraph(value, fonts.STRONG, 12), x, width, below=height))
            self.y -= max(heights)

    def rows(self, rows: Sequence[tuple[str, str]], *, least: float, before: float) -> None:
        """What, then the facts about it, a hairline over each row and under the last; captions at `least` so wide."""
        self.skip(before)
        caption_width = widest([caption for caption, _ in rows], fonts.STRONG, 10.5, least=least, most=self.width / 3)
        for caption, value in rows:
            self._hairline(0, self.width)
            heights = (
                self._put(paragraph(caption, fonts.STRONG, 10.5), 0, caption_width, below=4),
                self._put(paragraph(value, fonts.TEXT, 10.5), caption_width, self.width - caption_width, below=4),
            )
            self.y -= max(heights) + 9
        self._hairline(0, self.width)

    def signatures(self, captions: Sequence[str], *, before: float) -> None:
        """Lines to sign on, side by side, a caption under each."""
        gutter = 8 * mm
        width = (self.width - gutter * (len(captions) - 1)) / len(captions)
        self.skip(before)
        heights = []
        for index, caption in enumerate(captions):
            x = index * (width + gutter)
            self._hairline(x, x + width, is_strong=True)
            heights.append(self._put(paragraph(caption, fonts.TEXT, 9.5, is_quiet=True), x, width, below=3))
        self.y -= max(heights) + 3

    def _put(self, paragraph: Paragraph, x: float, width: float, *, below: float = 0) -> float:
        """Draw a paragraph whose upper edge is `below` under the current y; returns its height."""
        _, height = paragraph.wrap(width, 10000)
        if self.canvas:
            paragraph.drawOn(self.canvas, x, self.y - below - height)
        return float(height)

    def _hairline(self, left: float, right: float, *, is_strong: bool = False) -> None:
        if self.canvas:
            self.canvas.setStrokeColor(RUBBER if is_strong else HAIRLINE)
            self.canvas.setLineWidth(0.6)
            self.canvas.line(left, self.y, right, self.y)
