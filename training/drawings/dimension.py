"""Rows of horizontal dimension lines above or below a drawing, their text set where nothing crosses it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from training.drawings.ink import Sheet, boxes_meet, num, segment_meets, text_box, text_width

ROW = 1.62  # row height in text sizes


@dataclass(frozen=True, slots=True)
class Span:
    """One dimension: from x1 to x2, its text, and where its extension lines leave the part."""

    x1: float
    x2: float
    text: str
    y1: float = 0.0
    y2: float = 0.0


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
    height = sheet.size * ROW
    ordered = sorted(spans, key=lambda s: (abs(s.x2 - s.x1), s.x1))
    edge = start
    d: list[str] = []
    taken: list[list[tuple[float, float]]] = []
    for i, span in enumerate(ordered):
        later = [x for s in ordered[i + 1 :] for x in (s.x1, s.x2)]
        ends = {span.x1, span.x2}
        crossing = [x for x in (*later, *keep) if x not in ends]
        row, spot, y = _settle(sheet, span, crossing, taken, start=start, way=way, height=height)
        while len(taken) <= row:
            taken.append([])
        low, high = min(span.x1, span.x2), max(span.x1, span.x2)
        box = text_box(spot, y - sheet.size * 0.3, span.text, sheet.size, "middle")
        taken[row].append((min(low, box[0]), max(high, box[2])))
        d.append(_dimension_path(sheet, low, high, y, box))
        for x, foot in ((span.x1, span.y1), (span.x2, span.y2)):
            if x != shared and x not in keep:
                d.append(f"M{num(x)} {num(foot + way * sheet.unit * 0.7)}V{num(y + way * sheet.unit * 0.9)}")
                sheet.keep_clear((x, foot, x, y))
        sheet.keep_clear((low, y, high, y))
        sheet.text(spot, y - sheet.size * 0.3, span.text)
        edge = min(edge, y - sheet.size * 1.2) if up else max(edge, y + sheet.size * 0.35)
    sheet.path("".join(d), width=sheet.hair)
    return edge


def _settle(
    sheet: Sheet,
    span: Span,
    crossing: Sequence[float],
    taken: Sequence[Sequence[tuple[float, float]]],
    *,
    start: float,
    way: float,
    height: float,
) -> tuple[int, float, float]:
    """The first row and text place that meets no other text and no line that will cross it."""
    best = (10**6, 0, 0.0, 0.0)
    low, high = min(span.x1, span.x2), max(span.x1, span.x2)
    for row in range(len(taken) + 2):
        y = start - row * height - sheet.size * 0.2 if way < 0 else start + (row + 1) * height - sheet.size * 0.35
        for spot in _spots(sheet, span, crossing):
            box = text_box(spot, y - sheet.size * 0.3, span.text, sheet.size, "middle")
            reach = (min(low, box[0]), max(high, box[2]))
            faults = sum(8 for x in crossing if box[0] < x < box[2])
            if row < len(taken):
                faults += sum(20 for a, b in taken[row] if reach[0] < b - 1e-6 and a + 1e-6 < reach[1])
            faults += sum(9 for other in sheet.boxes if boxes_meet(box, other))
            faults += sum(9 for line in sheet.segments if segment_meets(box, line))
            if box[0] < sheet.left or box[2] > sheet.right:
                faults += 5
            for x, foot in ((span.x1, span.y1), (span.x2, span.y2)):
                faults += sum(9 for other in sheet.boxes if segment_meets(other, (x, foot, x, y)))
            if not faults:
                return row, spot, y
            if faults < best[0]:
                best = (faults, row, spot, y)
    return best[1:]


def _spots(sheet: Sheet, span: Span, crossing: Sequence[float]) -> list[float]:
    """Where along a dimension its text may stand: the middle, between crossing lines, beyond either end."""
    low, high = min(span.x1, span.x2), max(span.x1, span.x2)
    room = text_width(span.text, sheet.size) + sheet.size * 0.5
    spots = [(low + high) / 2] if high - low > room else []
    stops = [low, *sorted(x for x in crossing if low < x < high), high]
    for a, b in pairwise(stops):
        if b - a > room:
            spots.append((a + b) / 2)
    far, near = (span.x2, span.x1) if abs(span.x2) >= abs(span.x1) else (span.x1, span.x2)
    side = 1.0 if far >= near else -1.0
    most = room / 2 + sheet.size * 0.1
    for spot in (far + side * most, near - side * most):
        spots.append(min(max(spot, sheet.left + most), sheet.right - most))
    return spots


def _dimension_path(sheet: Sheet, low: float, high: float, y: float, box: tuple[float, float, float, float]) -> str:
    """The dimension line with slim arrowheads; heads turn outside-in where the span is too short for them."""
    a, b = sheet.unit * 1.7, sheet.unit * 0.65
    if high - low >= 3 * a:
        heads = (
            f"M{num(low + a)} {num(y - b)}L{num(low)} {num(y)}L{num(low + a)} {num(y + b)}"
            f"M{num(high - a)} {num(y - b)}L{num(high)} {num(y)}L{num(high - a)} {num(y + b)}"
        )
        left, right = low, high
    else:
        heads = (
            f"M{num(low - a)} {num(y - b)}L{num(low)} {num(y)}L{num(low - a)} {num(y + b)}"
            f"M{num(high + a)} {num(y - b)}L{num(high)} {num(y)}L{num(high + a)} {num(y + b)}"
        )
        left, right = low - 1.8 * a, high + 1.8 * a
    if box[2] > high + sheet.size * 0.2:  # the text stands outside: the line runs on under it
        right = max(right, box[2])
    if box[0] < low - sheet.size * 0.2:
        left = min(left, box[0])
    return f"M{num(left)} {num(y)}H{num(right)}{heads}"
