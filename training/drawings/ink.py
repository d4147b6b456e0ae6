"""Line and letter of our drawings: a small SVG writer with dimension lines, hatching, break lines and the crayon ring.

Coordinates are user units, y downward. Only plain elements and presentation attributes are written (no ids, classes,
style sheets, patterns or clips), so that a drawing prints, rasterises and is inlined twice on one page as it stands.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from training.drawings.boxes import Box, Segment, boxes_meet, segment_meets, text_box, text_width
from training.drawings.path import Point, escape, num, pairs, pen

LINE = "#211f1d"
RUBBER = "#e0ded9"
HATCH = "#9c9891"  # of cut rubber
STEEL = "#e6e9e4"
PAPER = "#ffffff"
CRAYON = "#f5c400"
FONT = "'Barlow Condensed', sans-serif"
TEXT_PART = 0.043  # of the drawing's width: 14 px where a phone shows the drawing 340 px wide
_BARS = {"in": ((12.7, "1/2 in"), (25.4, "1 in")), "mm": ((10.0, "10 mm"), (20.0, "20 mm"))}
_LEAST_PART = 0.7  # of the size of letters; smaller ones cannot be read on a phone
_NEAR = 90.0  # mm across; a drawing of less has the shorter scale bar


@dataclass(frozen=True, slots=True)
class Figure:
    """A drawing and its words. `scale` is the millimetres one user unit stands for, None where lengths mean nothing."""

    svg: str
    description: str
    scale: float | None = 1.0


class Sheet:
    """One drawing under the pen. Its width fixes text size and line weights; its height follows from what is drawn."""

    __slots__ = (
        "bottom",
        "boxes",
        "hair",
        "left",
        "line",
        "parts",
        "right",
        "segments",
        "size",
        "top",
        "unit",
        "words",
    )

    def __init__(self, left: float, right: float, *, text_part: float = TEXT_PART) -> None:
        self.left, self.right = left, right
        self.top, self.bottom = 0.0, 0.0
        width = right - left
        self.unit = width / 100
        self.size = width * text_part
        self.line = width * 0.0052
        self.hair = width * 0.0028
        self.parts: list[str] = []
        self.boxes: list[Box] = []
        self.segments: list[Segment] = []
        self.words: list[str] = []

    # -- extent and what labels must keep clear of

    def reach(self, top: float, bottom: float) -> None:
        self.top = min(self.top, top)
        self.bottom = max(self.bottom, bottom)

    def keep_clear(self, *lines: Segment) -> None:
        """Lines no later label may touch."""
        self.segments.extend(lines)

    def is_free(self, box: Box) -> bool:
        return not any(boxes_meet(box, other) for other in self.boxes) and not any(
            segment_meets(box, line) for line in self.segments
        )

    # -- shapes

    def raw(self, part: str) -> None:
        self.parts.append(part)

    def _shape(
        self,
        element: str,
        *,
        fill: str = "",
        width: float | None = None,
        stroke: str = LINE,
        dash: str = "",
        more: str = "",
    ) -> None:
        """One element: its name and geometry, then how it is painted; `width` of the stroke, a usual line's if None."""
        painted = f' fill="{fill}"' if fill else ""
        if stroke != "none":
            painted += f' stroke="{stroke}" stroke-width="{num(self.line if width is None else width)}"'
        if dash:
            painted += f' stroke-dasharray="{dash}"'
        self.parts.append(f"<{element}{painted}{more}/>")

    def path(
        self,
        d: str,
        *,
        width: float | None = None,
        fill: str = "none",
        dash: str = "",
        stroke: str = LINE,
        cap: str = "",
    ) -> None:
        more = f' stroke-linecap="{cap}"' if cap else ""
        self._shape(f'path d="{d}"', fill=fill, width=width, stroke=stroke, dash=dash, more=more)

    def polygon(
        self, points: Iterable[Point], *, fill: str = "none", width: float | None = None, stroke: str = LINE
    ) -> None:
        self._shape(f'polygon points="{pairs(points)}"', fill=fill, width=width, stroke=stroke)

    def polyline(self, points: Iterable[Point]) -> None:
        self._shape(f'polyline points="{pairs(points)}"', fill="none")

    def rule(self, x1: float, y1: float, x2: float, y2: float, *, width: float | None = None, dash: str = "") -> None:
        geometry = f'line x1="{num(x1)}" y1="{num(y1)}" x2="{num(x2)}" y2="{num(y2)}"'
        self._shape(geometry, width=self.hair if width is None else width, dash=dash)

    def circle(self, x: float, y: float, r: float, *, fill: str = "none", width: float | None = None) -> None:
        self._shape(f'circle cx="{num(x)}" cy="{num(y)}" r="{num(r)}"', fill=fill, width=width)

    def dot(self, x: float, y: float, r: float) -> None:
        self._shape(f'circle cx="{num(x)}" cy="{num(y)}" r="{num(r)}"', fill=LINE, stroke="none")

    def ellipse(
        self, x: float, y: float, rx: float, ry: float, *, turn: float, fill: str, width: float, dash: str = ""
    ) -> None:
        turned = f' transform="rotate({num(turn)} {num(x)} {num(y)})"' if turn else ""
        geometry = f'ellipse cx="{num(x)}" cy="{num(y)}" rx="{num(rx)}" ry="{num(ry)}"'
        self._shape(geometry, fill=fill, width=width, dash=dash, more=turned)

    def box(
        self,
        x: float,
        y: float,
        w: float,
        h: float,
        *,
        fill: str = "none",
        width: float | None = None,
        stroke: str = LINE,
        dash: str = "",
        corner: float = 0,
    ) -> None:
        geometry = f'rect x="{num(x)}" y="{num(y)}" width="{num(w)}" height="{num(h)}"'
        more = f' rx="{num(corner)}"' if corner else ""
        self._shape(geometry, fill=fill, width=width, stroke=stroke, dash=dash, more=more)

    # -- the line kinds of a workshop drawing

    @property
    def chain(self) -> str:
        """Long dash, dot: axes and centerlines."""
        return f"{num(self.unit * 3)} {num(self.unit * 0.9)} {num(self.unit * 0.6)} {num(self.unit * 0.9)}"

    @property
    def limit(self) -> str:
        """One long and one short dash: the line that a limit is judged at."""
        return " ".join(num(self.unit * part) for part in (3.5, 1.2, 0.9, 1.2))

    @property
    def dashes(self) -> str:
        """Short dashes: edges behind, outlines still to be drawn."""
        return f"{num(self.unit * 1.6)} {num(self.unit * 1.1)}"

    def arrow(
        self,
        x1: float,
        y1: float,
        x2: float,
        y2: float,
        *,
        width: float | None = None,
        head: float = 1.6,
        both: bool = False,
    ) -> None:
        """A straight line with an open arrowhead at its end, or at both ends."""
        size = self.unit * head
        d = pen("M", x1, y1, "L", x2, y2) + _head(x1, y1, x2, y2, size)
        if both:
            d += _head(x2, y2, x1, y1, size)
        self.path(d, width=self.hair if width is None else width)

    def hatch(
        self,
        points: Sequence[Point],
        *,
        step: float,
        width: float | None = None,
        stroke: str = LINE,
        is_falling: bool = False,
    ) -> None:
        """Lines at 45 degrees, rising or falling to the right, clipped to a polygon so that no clip needs a name."""
        turn = -1.0 if is_falling else 1.0
        corners = [(x + turn * y, x, y) for x, y in points]
        sides = [*zip(corners, (*corners[1:], corners[0]), strict=True)]
        d = []
        at = math.floor(min(corners)[0] / step) * step + step
        while at < max(corners)[0]:
            cut = []
            for (a, x1, y1), (b, x2, y2) in sides:
                if (a < at) != (b < at):
                    part = (at - a) / (b - a)
                    cut.append((x1 + part * (x2 - x1), y1 + part * (y2 - y1)))
            cut.sort()
            for (x1, y1), (x2, y2) in zip(cut[::2], cut[1::2], strict=True):
                d.append(f"M{num(x1)} {num(y1)}L{num(x2)} {num(y2)}")
            at += step
        if d:
            self.path("".join(d), width=self.hair if width is None else width, stroke=stroke)

    def hatch_tread(self, points: Sequence[Point]) -> None:
        """The hatching of cut tread and sidewall: wide and gray, rising to the right."""
        self.hatch(points, step=self.unit * 2.6, stroke=HATCH)

    def hatch_liner(self, points: Sequence[Point]) -> None:
        """The hatching of the cut liner: close and black, falling to the right."""
        self.hatch(points, step=self.unit * 1.15, width=self.hair * 0.8, is_falling=True)

    def ring(self, x: float, y: float, rx: float, ry: float) -> None:
        """The inspector's crayon ring: drawn by hand, its end running past its beginning."""
        start, *bends = [(x + rx * a, y + ry * b) for a, b in _RING]
        d = pen("M", start, "C", *bends)
        self.path(d, width=self.unit * 1.25, stroke=CRAYON, cap="round")

    # -- letters

    def text(self, x: float, y: float, text: str, *, anchor: str = "middle", size: float | None = None) -> None:
        """A label on its baseline; it claims its place, so that later labels keep away.

        Words that would leave the sheet are written smaller: in another language they may run longer.
        """
        text = str(text)
        size = self._fitting(x, text, anchor, self.size if size is None else size)
        box = text_box(x, y, text, size, anchor)
        self.boxes.append(box)
        self.reach(0, box[3] - self.unit)
        self.words.append(text)
        where = "" if anchor == "start" else f' text-anchor="{anchor}"'
        big = "" if size == self.size else f' font-size="{num(size)}"'
        self.parts.append(f'<text x="{num(x)}" y="{num(y)}"{where}{big}>{escape(text)}</text>')

    def _fitting(self, x: float, text: str, anchor: str, size: float) -> float:
        """The size of letters, or a smaller one at which the words stay on the sheet."""
        ends = (x - self.left + self.unit, self.right + self.unit - x)
        room = ends[1] if anchor == "start" else ends[0] if anchor == "end" else 2 * min(ends)
        wide = text_width(text, size)
        return size if wide <= room or room <= 0 else max(size * room / wide, size * _LEAST_PART)

    def label(
        self, spots: Sequence[tuple[float, float, str]], text: str, *, over: Sequence[Segment] = (), ground: str = ""
    ) -> Box:
        """Write a label at the first spot (x, baseline, anchor) that touches nothing and stays on the sheet.

        Lines in `over` may be covered by the label, on a patch of `ground`, where no spot is free of them. Where every
        spot is taken the label goes to the free place nearest to them, away from the part if they lead away.
        """
        text, size = str(text), self.size
        free = []
        for x, y, anchor in spots:
            box = text_box(x, y, text, size, anchor)
            if self.has_room((x, y, anchor), text):
                if not any(segment_meets(box, line) for line in over):
                    self.text(x, y, text, anchor=anchor)
                    return box
                free.append((x, y, anchor))
        x, y, anchor = free[0] if free else (*self._nearest_free(spots, text, size), "middle")
        box = text_box(x, y, text, size, anchor)
        if ground and any(segment_meets(box, line) for line in over):
            self.box(box[0], box[1], box[2] - box[0], box[3] - box[1], fill=ground, stroke="none")
        self.text(x, y, text, anchor=anchor)
        return box

    def has_room(self, spot: tuple[float, float, str], text: str) -> bool:
        """Whether a label at this spot touches nothing and stays on the sheet."""
        x, y, anchor = spot
        box = text_box(x, y, text, self.size, anchor)
        return box[0] >= self.left and box[2] <= self.right and self.is_free(box)

    def _nearest_free(self, spots: Sequence[tuple[float, float, str]], text: str, size: float) -> Point:
        """Middle and baseline of the free place nearest to the first spot."""
        box = text_box(*spots[0][:2], text, size, spots[0][2])
        wish_x, wish_y = (box[0] + box[2]) / 2, spots[0][1]
        half = (box[2] - box[0]) / 2
        ups, downs = (any((y - wish_y) * way > size for _, y, _ in spots) for way in (-1.0, 1.0))
        ys = [
            wish_y + way * step * size * 0.9 for step in range(14) for way in ((-1,) * ups + (1,) * (downs or not ups))
        ]
        count = max(1, int((self.right - self.left - 2 * half) / size * 2))
        xs = [self.left + half + (self.right - self.left - 2 * half) * i / count for i in range(count + 1)]
        places = sorted(((x - wish_x) ** 2 + (2 * (y - wish_y)) ** 2, x, y) for x in xs for y in ys)
        for _, x, y in places:
            if self.is_free(text_box(x, y, text, size, "middle")):
                return x, y
        return wish_x, wish_y

    def _bar(self, prefer: str) -> tuple[float, str]:
        return _BARS[prefer][0 if self.right - self.left < _NEAR else 1]

    def scale_room(self, prefer: str) -> float:
        """How wide a scale bar runs, caption included."""
        length, caption = self._bar(prefer)
        return length + self.unit + text_width(caption, self.size)

    def scale_bar(self, x: float, y: float, prefer: str) -> None:
        """A heavy bar as long as its caption says, caption at its right."""
        length, caption = self._bar(prefer)
        self.path(pen("M", x, y, "H", x + length, "V", y - self.unit * 0.9, "H", x, "Z"), fill=LINE, stroke="none")
        self.text(x + length + self.unit, y, caption, anchor="start")

    # -- the finished drawing

    def svg(self, description: str) -> str:
        """The drawing as one SVG element whose spoken name is its description."""
        pad = self.unit
        left, top = self.left - pad, self.top - pad
        width, height = self.right - self.left + 2 * pad, self.bottom - self.top + 2 * pad
        return (
            f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="{num(left)} {num(top)} {num(width)} {num(height)}" '
            f'role="img" aria-label="{escape(description)}" font-family="{FONT}" font-weight="600" '
            f'font-size="{num(self.size)}" fill="{LINE}" stroke-linejoin="round">'
            f"{''.join(self.parts)}</svg>"
        )


def _head(x1: float, y1: float, x2: float, y2: float, size: float) -> str:
    """The open arrowhead at the end of a line."""
    length = math.hypot(x2 - x1, y2 - y1) or 1.0
    ux, uy = (x2 - x1) / length * size, (y2 - y1) / length * size
    wing_x, wing_y = uy * 0.4, ux * 0.4
    return pen("M", x2 - ux - wing_x, y2 - uy + wing_y, "L", x2, y2, "L", x2 - ux + wing_x, y2 - uy - wing_y)


def _ring_points() -> tuple[Point, ...]:
    """The hand-drawn ring on the unit circle: Bezier points through a circle that wobbles and overshoots its start."""
    radii = (1.02, 0.96, 1.03, 1.0, 0.95, 1.04, 1.01, 0.97, 1.05, 1.12)
    turns = (-100, -58, -14, 30, 72, 116, 160, 205, 250, 286)
    through = [
        (r * math.cos(math.radians(a)), r * math.sin(math.radians(a))) for r, a in zip(radii, turns, strict=True)
    ]
    points = [through[0]]
    for i in range(len(through) - 1):
        before, here = through[max(i - 1, 0)], through[i]
        there, after = through[i + 1], through[min(i + 2, len(through) - 1)]
        points.append((here[0] + (there[0] - before[0]) / 6, here[1] + (there[1] - before[1]) / 6))
        points.append((there[0] - (after[0] - here[0]) / 6, there[1] - (after[1] - here[1]) / 6))
        points.append(there)
    return tuple(points)


_RING = _ring_points()
