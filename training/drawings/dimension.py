"""Rows of horizontal dimension lines above or below a drawing, one to a row, their text where nothing crosses it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise, permutations

from training.drawings.boxes import Box, Segment, boxes_meet, segment_meets, text_box, text_width
from training.drawings.ink import Sheet
from training.drawings.path import pen

ROW = 1.95  # row height in text sizes: 28 px on a phone
_BROKEN_ROW = 2.45  # where two lines are broken, so that their breaks do not run together
_MOST_TRIED = 4  # spans whose every order is tried when the usual one is crowded


@dataclass(frozen=True, slots=True)
class Span:
    """One dimension: from x1 to x2, its text, and where its extension lines leave the part.

    A broken one begins at the edge of what is drawn, `x1`: the point it is measured from lies beyond. `long` stands
    instead of the text where there is room for it.
    """

    x1: float
    x2: float
    text: str
    long: str = ""
    y1: float = 0.0
    y2: float = 0.0
    is_broken: bool = False

    @property
    def feet(self) -> tuple[tuple[float, float], ...]:
        """Where its extension lines begin."""
        return ((self.x2, self.y2),) if self.is_broken else ((self.x1, self.y1), (self.x2, self.y2))


@dataclass(frozen=True, slots=True)
class _Laid:
    """A span with its height and its text's place."""

    span: Span
    text: str
    spot: float
    y: float
    box: Box

    @property
    def extensions(self) -> list[Segment]:
        return [(x, foot, x, self.y) for x, foot in self.span.feet]


def rows(
    sheet: Sheet,
    spans: Sequence[Span],
    *,
    start: float,
    up: bool,
    shared: float | None = 0.0,
    keep: Sequence[float] = (),
) -> float:
    """Draw the spans in rows away from the part, each once, the shortest nearest; return the outer edge of the last.

    Args:
        start: y of the near edge of the first row.
        up: True where rows stack upward.
        shared: x of a line that is drawn by the caller (the centerline) and needs no extension line here.
        keep: x of lines that the caller draws right through all the rows.
    """
    if not spans:
        return start
    way = -1.0 if up else 1.0
    ordered = sorted(dict.fromkeys(spans), key=lambda s: (abs(s.x2 - s.x1), s.x1))
    faults, laid = _lay(sheet, ordered, start, way, keep)
    if faults and len(ordered) <= _MOST_TRIED:  # the usual order has no room for a text: any other that has is better
        tries = [_lay(sheet, order, start, way, keep) for order in permutations(ordered)]
        laid = min([(faults, laid), *tries], key=lambda tried: tried[0])[1]
    d: list[str] = []
    for each in laid:
        span, y = each.span, each.y
        d.append(_dimension_path(sheet, span, y, each.box))
        for x, foot in span.feet:
            if x != shared and x not in keep:
                d.append(pen("M", x, foot + way * sheet.unit * 0.7, "V", y + way * sheet.unit * 0.9))
                sheet.keep_clear((x, foot, x, y))
        sheet.keep_clear((min(span.x1, span.x2), y, max(span.x1, span.x2), y))
        sheet.text(each.spot, y - sheet.size * 0.3, each.text)
    sheet.path("".join(d), width=sheet.hair)
    last = laid[-1].y
    return last - sheet.size * 1.2 if up else last + sheet.size * 0.35


def _lay(
    sheet: Sheet, ordered: Sequence[Span], start: float, way: float, keep: Sequence[float]
) -> tuple[int, list[_Laid]]:
    """Give each span its row and text place in turn; also returns how badly texts and lines meet, 0 for not at all."""
    laid: list[_Laid] = []
    faults = 0
    height = sheet.size * (_BROKEN_ROW if sum(span.is_broken for span in ordered) > 1 else ROW)
    first = start - sheet.size * 0.3 if way < 0 else start + sheet.size * 1.35
    for row, span in enumerate(ordered):
        later = [x for s in ordered[row + 1 :] for x, _ in s.feet]
        crossing = [x for x in (*later, *keep) if x not in (span.x1, span.x2)]
        fault, best = _settle(sheet, span, crossing, laid, first + way * row * height)
        laid.append(best)
        faults += fault
    return faults, laid


def _settle(sheet: Sheet, span: Span, crossing: Sequence[float], laid: Sequence[_Laid], y: float) -> tuple[int, _Laid]:
    """The first place of the text that meets no other text and no line that will cross it, or the least bad one."""
    tries = []
    own = [(x, foot, x, y) for x, foot in span.feet]
    long, short = span.long, span.text
    near, far = _spots(sheet, span, short, crossing)
    places = [(long, spot) for spot in _spots(sheet, span, long, crossing)[0]] if long else []
    for text, spot in (*places, *((short, spot) for spot in (*near, *far))):
        box = text_box(spot, y - sheet.size * 0.3, text, sheet.size, "middle")
        faults = 8 * len([x for x in crossing if box[0] < x < box[2]])
        for each in laid:
            faults += 9 * len([line for line in each.extensions if segment_meets(box, line)])
            faults += 9 * len([line for line in own if segment_meets(each.box, line)])
        faults += 9 * len([line for line in own if segment_meets(box, line)])
        faults += 9 * len([other for other in sheet.boxes if boxes_meet(box, other)])
        faults += 9 * len([line for line in sheet.segments if segment_meets(box, line)])
        faults += 5 * (box[0] < sheet.left or box[2] > sheet.right)
        tries.append((faults, _Laid(span, text, spot, y, box)))
        if not faults:
            break
    return min(tries, key=lambda tried: tried[0])


def _spots(sheet: Sheet, span: Span, text: str, crossing: Sequence[float]) -> tuple[list[float], list[float]]:
    """Where along a dimension its text may stand: between its ends or right beside them; past lines that cross it."""
    low, high = min(span.x1, span.x2), max(span.x1, span.x2)
    if span.is_broken:  # the break keeps its place
        low, high = (low + _break_room(sheet), high) if span.x2 > span.x1 else (low, high - _break_room(sheet))
    room = text_width(text, sheet.size) + sheet.size * 0.3
    near = [(low + high) / 2] if high - low > room else []
    stops = [low, *sorted(x for x in crossing if low < x < high), high]
    near += [(a + b) / 2 for a, b in pairwise(stops) if b - a > room]
    side = 1.0 if span.x2 >= span.x1 else -1.0
    most = room / 2 + sheet.size * 0.1
    past = sorted((x for x in crossing if (x - span.x2) * side > 0), key=lambda x: abs(x - span.x2))
    near.append(span.x2 + side * most)
    if not span.is_broken:
        near.append(span.x1 - side * most)
    near, far = (
        [min(max(spot, sheet.left + most), sheet.right - most) for spot in spots]
        for spots in (near, [x + side * most for x in past])
    )
    return near, far


def _break_room(sheet: Sheet) -> float:
    return sheet.unit * 7.5


def _dimension_path(sheet: Sheet, span: Span, y: float, box: Box) -> str:
    """The dimension line with slim arrowheads; heads turn outside-in where the span is too short for them.

    A broken line has one head, and a zigzag where what lies between is left out.
    """
    a, b = sheet.unit * 2.4, sheet.unit * 0.8
    low, high = min(span.x1, span.x2), max(span.x1, span.x2)
    left, right = low, high
    if high - low < 3 * a and not span.is_broken:
        a, left, right = -a, low - 1.8 * a, high + 1.8 * a
    heads = ""
    if not span.is_broken or low == span.x2:
        heads += pen("M", low + a, y - b, "L", low, y, "L", low + a, y + b)
    if not span.is_broken or high == span.x2:
        heads += pen("M", high - a, y - b, "L", high, y, "L", high - a, y + b)
    if box[2] > high + sheet.size * 0.2:  # the text stands outside: the line runs on under it
        right = max(right, box[2])
    if box[0] < low - sheet.size * 0.2:
        left = min(left, box[0])
    if not span.is_broken:
        return pen("M", left, y, "H", right, heads)
    u, way = sheet.unit, 1.0 if span.x2 > span.x1 else -1.0
    zigzag = [(span.x1 + way * u * x, y + u * dy) for x, dy in ((2.6, 0.0), (3.5, -1.7), (4.9, 1.7), (5.8, 0.0))]
    lines = "".join(pen("L", *point) for point in zigzag)
    return pen("M", span.x1, y) + lines + pen("H", right if way > 0 else left, heads)
