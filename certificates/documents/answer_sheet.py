"""The rows of an answer sheet: boxes to cross, letters and numbers to write. Lengths in points."""

from collections.abc import Sequence
from typing import Any, Protocol

from reportlab.lib.units import mm
from reportlab.pdfgen.canvas import Canvas
from reportlab.platypus import PageBreak, Table, TableStyle

from certificates.documents import fonts
from certificates.documents.blocks import RUBBER, WORN, Painted, draw_line, size_to_fit
from training.trade.speech import say

ROW, BOX, GUTTER = 8.9 * mm, 4.6 * mm, 8 * mm
ROWS = 20  # in a column: with two columns a page
START = 10 * mm
WORD, SPACE = 9.5, 1.8 * mm


class Asked(Protocol):
    """What a row needs of a question."""

    @property
    def number(self) -> int: ...
    @property
    def format(self) -> str: ...
    @property
    def options(self) -> Sequence[tuple[str, str]]: ...
    @property
    def units(self) -> Sequence[str]: ...


def answer_rows(questions: Sequence[Asked], width: float) -> list[Any]:
    """One row a question, down the first column, then down the second; a new page after two columns."""
    column = (width - GUTTER) / 2
    parts: list[Any] = []
    for first in range(0, len(questions), 2 * ROWS):
        if first:
            parts.append(PageBreak())
        group = questions[first : first + 2 * ROWS]
        half = -(-len(group) // 2)
        rows = [
            [_row(group[place], column), _row(group[place + half], column) if place + half < len(group) else ""]
            for place in range(half)
        ]
        plain = [(f"{side}PADDING", (0, 0), (-1, -1), 0) for side in ("LEFT", "RIGHT", "TOP", "BOTTOM")]
        parts.append(Table(rows, colWidths=[column + GUTTER, column], style=TableStyle(plain), hAlign="LEFT"))
    return parts


def _row(question: Asked, width: float) -> Painted:
    def paint(canvas: Canvas) -> None:
        canvas.setStrokeColor(RUBBER)
        canvas.setFillColor(RUBBER)
        canvas.setLineWidth(0.8)
        base = ROW / 2 - 1.4 * mm
        number = str(question.number)
        draw_line(canvas, number, fonts.HEAD, 13, x=START - 3 * mm - fonts.width(number, fonts.HEAD, 13), y=base)
        x = START
        match question.format:
            case "one" | "several":
                step = min(14 * mm, (width - START) / max(1, len(question.options)))
                for letter, _ in question.options:
                    _box(canvas, x)
                    draw_line(canvas, letter, fonts.TEXT, 10, x=x + BOX + 1.2 * mm, y=base)
                    x += step
            case "number":
                x = _blank(canvas, x, 26 * mm, base)
                for unit in question.units:
                    _box(canvas, x)
                    draw_line(canvas, unit, fonts.TEXT, 10, x=x + BOX + 1.2 * mm, y=base)
                    x += BOX + 3.5 * mm + fonts.width(unit, fonts.TEXT, 10)
            case "order":
                step = min(9.5 * mm, (width - START) / max(1, len(question.options)))
                for place in range(len(question.options)):
                    _box(canvas, x, side=BOX * 1.25)
                    if place + 1 < len(question.options):
                        canvas.line(x + BOX * 1.25 + 0.7 * mm, ROW / 2, x + step - 0.7 * mm, ROW / 2)
                    x += step
            case "place":
                words, unit = (say("across"), say("up")), "in" if "in" in question.units else "mm"
                size = size_to_fit(fonts.TEXT, WORD, (*words, unit, unit), width - START - 2 * 16 * mm - 6 * SPACE)
                for word in words:
                    x = _say(canvas, word, x, base, size)
                    x = _say(canvas, unit, _blank(canvas, x, 16 * mm, base), base, size)
            case "fault":
                words = (say("line"), say("reason"))
                size = size_to_fit(fonts.TEXT, WORD, words, width - START - 2 * (BOX * 1.25 + 5 * mm) - 2 * SPACE)
                for word in words:
                    x = _say(canvas, word, x, base, size)
                    _box(canvas, x, side=BOX * 1.25)
                    x += BOX * 1.25 + 5 * mm

    return Painted(width, ROW, paint)


def _box(canvas: Canvas, x: float, *, side: float = BOX) -> None:
    canvas.rect(x, (ROW - side) / 2, side, side, stroke=1, fill=0)


def _blank(canvas: Canvas, x: float, length: float, base: float) -> float:
    """A line to write on; returns where to go on."""
    canvas.line(x, base - 0.8 * mm, x + length, base - 0.8 * mm)
    return float(x + length + SPACE)


def _say(canvas: Canvas, word: str, x: float, base: float, size: float) -> float:
    """A quiet word; returns where to go on."""
    canvas.setFillColor(WORN)
    draw_line(canvas, word, fonts.TEXT, size, x=x, y=base)
    canvas.setFillColor(RUBBER)
    return float(x + fonts.width(word, fonts.TEXT, size) + SPACE)
