"""Rows of horizontal dimension lines above or below a drawing, their text set where nothing crosses it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise, permutations

from training.drawings.ink import Box, Sheet, boxes_meet, pen, segment_meets, text_box, text_width

ROW = 1.62  # row height in text sizes
_MOST_TRIED = 4  # spans whose every order is tried when the usual one is crowded


@dataclass(frozen=True, slots=True)
class Span:
    """One dimension: from x1 to x2, its text, and where its extension lines leave the part."""

    x1: float
    x2: float
    text: str
    y1: float = 0.0
    y2: float = 0.0


@dataclass(frozen=True, slots=True)
class _Laid:
    """A span with its row and its text's place."""

    span: Span
    row: int
    spot: float
    y: float
    box: Box


def rows(
    sheet: Sheet,
    spans: Sequence[Span],
    *,
    start: float,
    up: bool,
    shared: float | None = 0.0,
    keep: Sequence[float] = (),
) -> float:
    """Draw the spans in rows away from the part, the shortest nearest; return the outer edge of the last row.

    Args:
        start: y of the near edge of the first row.
        up: True where rows stack upward.
        shared: x of a line that is drawn by the caller (the centerline) and needs no extension line here.
        keep: x of lines that the caller draws right through all the rows.
    """
    if not spans:
        return start
    way = -1.0 if up else 1.0
    ordered = sorted(spans, key=lambda s: (abs(s.x2 - s.x1), s.x1))
    faults, laid = _lay(sheet, ordered, start, way, keep)
    if faults and len(ordered) <= _MOST_TRIED:  # the usual order has no room for a text: any other that has is better
        tries = [_lay(sheet, order, start, way, keep) for order in permutations(ordered)]
        laid = min([(faults, laid), *tries], key=lambda tried: tried[0])[1]
    edge = start
    d: list[str] = []
    for each in laid:
        span, y = each.span, each.y
        low, high = min(span.x1, span.x2), max(span.x1, span.x2)
        d.append(_dimension_path(sheet, low, high, y, each.box))
        for x, foot in ((span.x1, span.y1), (span.x2, span.y2)):
            if x != shared and x not in keep:
                d.append(pen("M", x, foot + way * sheet.unit * 0.7, "V", y + way * sheet.unit * 0.9))
                sheet.keep_clear((x, foot, x, y))
        sheet.keep_clear((low, y, high, y))
        sheet.text(each.spot, y - sheet.size * 0.3, span.text)
        edge = min(edge, y - sheet.size * 1.2) if up else max(edge, y + sheet.size * 0.35)
    sheet.path("".join(d), width=sheet.hair)
    return edge


def _lay(
    sheet: Sheet, ordered: Sequence[Span], start: float, way: float, keep: Sequence[float]
) -> tuple[int, list[_Laid]]:
    """Give each span its row and text place in turn; also returns how badly texts and lines meet, 0 for not at all."""
    laid: list[_Laid] = []
    faults = 0
    for i, span in enumerate(ordered):
        later = [x for s in ordered[i + 1 :] for x in (s.x1, s.x2)]
        crossing = [x for x in (*later, *keep) if x not in (span.x1, span.x2)]
        fault, best = _settle(sheet, span, crossing, laid, start, way)
        laid.append(best)
        faults += fault
    return faults, laid


def _settle(
    sheet: Sheet, span: Span, crossing: Sequence[float], laid: Sequence[_Laid], start: float, way: float
) -> tuple[int, _Laid]:
    """The first row and text place that meets no other text and no line that will cross it, or the least bad one."""
    worst = 10**6
    best = None
    low, high = min(span.x1, span.x2), max(span.x1, span.x2)
    ends = _feet(span)
    height, size = sheet.size * ROW, sheet.size
    spots = _spots(sheet, span, crossing)
    for row in range(max((each.row for each in laid), default=-1) + 3):
        y = start - row * height - size * 0.2 if way < 0 else start + (row + 1) * height - size * 0.35
        for spot in spots:
            box = text_box(spot, y - size * 0.3, span.text, size, "middle")
            left, right = min(low, box[0]) + 1e-6, max(high, box[2]) - 1e-6
            faults = 8 * len([x for x in crossing if box[0] < x < box[2]])
            for each in laid:
                if (
                    each.row == row
                    and left < max(each.span.x1, each.span.x2, each.box[2])
                    and (min(each.span.x1, each.span.x2, each.box[0]) < right)
                ):
                    faults += 20
                lines = [(x, foot, x, each.y) for x, foot in _feet(each.span)]
                faults += 9 * len([line for line in lines if segment_meets(box, line)])
                faults += 9 * len([x for x, foot in ends if segment_meets(each.box, (x, foot, x, y))])
            faults += 9 * len([other for other in sheet.boxes if boxes_meet(box, other)])
            faults += 9 * len([line for line in sheet.segments if segment_meets(box, line)])
            if box[0] < sheet.left or box[2] > sheet.right:
                faults += 5
            if best is None or faults < worst:
                worst, best = faults, _Laid(span, row, spot, y, box)
            if not faults:
                return 0, best
    return worst, best or _Laid(span, 0, spots[0], start, (0.0, 0.0, 0.0, 0.0))


def _feet(span: Span) -> tuple[tuple[float, float], tuple[float, float]]:
    return (span.x1, span.y1), (span.x2, span.y2)


def _spots(sheet: Sheet, span: Span, crossing: Sequence[float]) -> list[float]:
    """Where along a dimension its text may stand: the middle, between crossing lines, beyond either end."""
    low, high = min(span.x1, span.x2), max(span.x1, span.x2)
    room = text_width(span.text, sheet.size) + sheet.size * 0.26
    spots = [(low + high) / 2] if high - low > room else []
    stops = [low, *sorted(x for x in crossing if low < x < high), high]
    for a, b in pairwise(stops):
        if b - a > room:
            spots.append((a + b) / 2)
    far, near = (span.x2, span.x1) if abs(span.x2) >= abs(span.x1) else (span.x1, span.x2)
    side = 1.0 if far >= near else -1.0
    most = room / 2 + sheet.size * 0.1
    beyond = [far, near, *sorted((x for x in crossing if (x - far) * side > 0), key=lambda x: abs(x - far))]
    for spot in (x + (side if x != near else -side) * most for x in beyond):
        spots.append(min(max(spot, sheet.left + most), sheet.right - most))
    return spots


def _dimension_path(sheet: Sheet, low: float, high: float, y: float, box: Box) -> str:
    """The dimension line with slim arrowheads; heads turn outside-in where the span is too short for them."""
    a, b = sheet.unit * 1.7, sheet.unit * 0.65
    left, right = low, high
    if high - low < 3 * a:
        a, left, right = -a, low - 1.8 * a, high + 1.8 * a
    heads = pen("M", low + a, y - b, "L", low, y, "L", low + a, y + b)
    heads += pen("M", high - a, y - b, "L", high, y, "L", high - a, y + b)
    if box[2] > high + sheet.size * 0.2:  # the text stands outside: the line runs on under it
        right = max(right, box[2])
    if box[0] < low - sheet.size * 0.2:
        left = min(left, box[0])
    return pen("M", left, y, "H", right, heads)
