"""Gray pictures on paper: one beside its question, or several in rows with their numbers under them."""

from collections.abc import Sequence
from io import BytesIO
from typing import Any

from reportlab.lib.units import mm
from reportlab.lib.utils import ImageReader
from reportlab.pdfgen.canvas import Canvas
from reportlab.platypus import Table, TableStyle

from certificates.documents import fonts
from certificates.documents.blocks import Painted, paragraph
from training.trade.speech import say

IN_A_ROW, GAP = 3, 4 * mm
SIZE = 9.0


def shot(file: bytes, width: float) -> Painted:
    """One picture, `width` [pt] wide."""
    across, down = ImageReader(BytesIO(file)).getSize()
    height = width * down / across

    def paint(canvas: Canvas) -> None:
        canvas.drawImage(ImageReader(BytesIO(file)), 0, 0, width, height)

    return Painted(width, height, paint)


def beside(file: bytes, width: float) -> list[Any]:
    """One picture, and what it is, in a column `width` [pt] wide."""
    return [shot(file, width), paragraph(say("Computed, not photographed."), fonts.TEXT, SIZE, is_quiet=True)]


def in_rows(files: Sequence[bytes], width: float) -> list[Any]:
    """Several pictures over `width` [pt], numbered in their order, and what they are."""
    wide = width / IN_A_ROW
    cells: list[Any] = [
        [
            shot(file, wide - GAP),
            paragraph(say("Picture {number}", number=number), fonts.STRONG, SIZE),
        ]
        for number, file in enumerate(files, 1)
    ]
    cells += [""] * (-len(cells) % IN_A_ROW)
    rows = [cells[start : start + IN_A_ROW] for start in range(0, len(cells), IN_A_ROW)]
    paddings = [(f"{side}PADDING", (0, 0), (-1, -1), 0) for side in ("LEFT", "RIGHT")]
    table = Table(rows, colWidths=[wide] * IN_A_ROW, style=TableStyle([("VALIGN", (0, 0), (-1, -1), "TOP"), *paddings]))
    return [table, paragraph(say("All computed, none photographed."), fonts.TEXT, SIZE, is_quiet=True)]
