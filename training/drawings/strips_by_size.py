"""Several holes by their size, each in a strip through the layers at the liner, all at one ruler and one limit.

One user unit is one millimeter; x is measured from the near edge of the hole, y the depth below where the rubber is cut
off. All strips have one width and one height, so that the eye compares them.
"""

from __future__ import annotations

from collections.abc import Collection, Sequence
from fractions import Fraction

from training.drawings.ink import LINE, PAPER, Figure, Sheet
from training.drawings.layers import INNERMOST_MM, draw_innermost, key
from training.drawings.path import pen
from training.drawings.ruler import Limit, Marks, draw_ruler, hidden
from training.drawings.strips import TEXT_PART, Strips
from training.rulebook import Quantity
from training.trade.speech import say

_AROUND = 2.5  # mm of rubber beside the holes
_MARKS = {"in": Marks(Fraction("25.4") / 32, 2, 4), "mm": Marks(Fraction(1, 2), 2, 4)}


def size_strips(sizes: Sequence[Quantity], limit: Quantity, *, prefer: str, ringed: Collection[int] = ()) -> Strips:
    """A strip for each size of a hole, which goes straight through.

    Args:
        sizes: how wide each is.
        limit: the greatest that is allowed, as the rulebook states it.
        prefer: "in" or "mm", the unit of the ruler.
        ringed: places of the sizes that get the crayon ring.
    """
    line = Limit(float(limit.value), say("limit"), limit.text)
    ends = (-_AROUND, max(float(size.value) for size in (*sizes, limit)) + _AROUND)
    figures = []
    for place, size in enumerate(sizes):
        words = say("The hole is {size} across; the limit is {limit}.", size=size.text, limit=limit.text)
        sheet = _sheet(ends)
        draw_innermost(sheet, *ends)
        _hole(sheet, float(size.value), line, is_ringed=place in ringed)
        figures.append(Figure(sheet.svg(words), words))
    ruler = _sheet(ends)
    title = say("inches across") if prefer == "in" else say("mm across")
    draw_ruler(ruler, ends, _MARKS[prefer], line, title=title, prefer=prefer, first=0)
    return Strips(hidden(ruler), tuple(figures), _key(ends), limit.text)


def _sheet(ends: tuple[float, float]) -> Sheet:
    edge = (ends[1] - ends[0]) * 0.01
    return Sheet(ends[0] - edge, ends[1] + edge, text_part=TEXT_PART)


def _hole(sheet: Sheet, wide: float, line: Limit, *, is_ringed: bool) -> None:
    """From its near edge at zero to where it ends, on rubber that is drawn already."""
    low, unit = INNERMOST_MM, sheet.unit
    sheet.box(0, -unit * 1.5, wide, low + unit * 2.1, fill=PAPER, stroke="none")
    sheet.path(pen("M", 0, 0, "V", low, "M", wide, 0, "V", low))
    sheet.path(pen("M", 0, low + unit * 2.4, "H", wide), width=unit * 0.9)
    top, foot = -unit * 2.4, low + unit * 5
    sheet.path(pen("M", line.at_mm, top - unit, "V", foot + unit), dash=sheet.limit)  # on into the next strip
    if is_ringed:
        sheet.ring(wide / 2, low + unit * 0.4, wide / 2 + unit * 3.2, unit * 4.2)
    sheet.reach(top, foot)


def _key(ends: tuple[float, float]) -> str:
    """The hatchings of the layers and the bar, each with its name."""
    sheet = _sheet(ends)
    size = sheet.size
    y = key(sheet, 1, sheet.left, 0.0, has_tread=False) + size * 1.5
    sheet.box(sheet.left, y - size * 0.55, size * 1.5, size * 0.3, fill=LINE, stroke="none")
    sheet.text(sheet.left + size * 1.8, y, say("how wide it is"), anchor="start")
    sheet.reach(-size, y + size * 0.2)
    return hidden(sheet)
