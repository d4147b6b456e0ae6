"""Our own drawings on paper: the plain SVG that they are written in, drawn on a PDF canvas line for line.

Only what our drawings use is read; anything else is refused by name, so that no line is ever lost silently.
"""

import math
import re
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from html.parser import HTMLParser

from reportlab.lib.colors import HexColor
from reportlab.pdfgen.canvas import Canvas
from reportlab.pdfgen.pathobject import PDFPathObject

from certificates.documents import fonts
from certificates.documents.blocks import Painted, draw_line

Attributes = Mapping[str, str]
Box = tuple[float, float, float, float]  # left, top, width, height

_NUMBER = re.compile(r"[-+]?(?:\d+\.?\d*|\.\d+)(?:e[-+]?\d+)?")
_COMMAND = re.compile(r"([A-Za-z])([^A-Za-z]*)")
_TURN = re.compile(r"rotate\(([-.\d]+) ([-.\d]+) ([-.\d]+)\)")
_PLACES = {"M": 2, "L": 2, "H": 1, "V": 1, "C": 6, "Q": 4, "T": 2, "A": 7, "Z": 0}
_SHAPES = ("path", "polygon", "polyline", "line", "rect", "circle", "ellipse")
_CAPS = {"butt": 0, "round": 1, "square": 2}
# what a drawing may say of a line or a letter; more would be drawn wrong
_LINE = {"fill", "stroke", "stroke-width", "stroke-dasharray", "stroke-linecap", "stroke-linejoin"}
_LETTER = {"font-size", "font-weight", "font-family", "text-anchor", "transform"}
_GEOMETRY = {"d", "points", "x", "y", "x1", "y1", "x2", "y2", "width", "height", "rx", "ry", "cx", "cy", "r"}
_MUTE = {"xmlns", "role", "aria-label", "aria-hidden", "viewbox"}
CIRCLE = 4 / 3 * (math.sqrt(2) - 1)  # the handle of a quarter circle as one Bezier curve


class NotDrawn(ValueError):
    """The drawing uses something that is not read here; the message names it."""


@dataclass(frozen=True)
class Mark:
    """One element with its attributes; `words` is the text of a label."""

    name: str
    attributes: Attributes
    words: str = ""


@dataclass(frozen=True)
class Drawing:
    """A drawing that was read: its box in its own units and its marks in the order they are drawn."""

    box: Box
    look: Attributes
    marks: tuple[Mark, ...]


class _Reader(HTMLParser):
    def __init__(self) -> None:
        super().__init__()
        self.root: Attributes | None = None
        self.marks: list[Mark] = []
        self.label: Attributes | None = None
        self.words = ""

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        given = {name: value or "" for name, value in attrs}
        if unknown := sorted(given.keys() - _LINE - _LETTER - _GEOMETRY - _MUTE):
            raise NotDrawn(f"svg: <{tag} {unknown[0]}> is not drawn on paper")
        if tag == "svg":
            self.root = given
        elif tag == "text":
            self.label, self.words = given, ""
        elif tag in _SHAPES:
            self.marks.append(Mark(tag, given))
        else:
            raise NotDrawn(f"svg: <{tag}> is not drawn on paper; use {', '.join(_SHAPES)} or text")

    def handle_data(self, data: str) -> None:
        if self.label is not None:
            self.words += data

    def handle_endtag(self, tag: str) -> None:
        if tag == "text" and self.label is not None:
            self.marks.append(Mark("text", self.label, self.words))
            self.label = None


def read(svg: str) -> Drawing:
    """Read one of our drawings. Raises NotDrawn for an element or attribute that is not drawn on paper."""
    reader = _Reader()
    reader.feed(svg)
    reader.close()
    if reader.root is None:
        raise NotDrawn("svg: there is no <svg> element")
    box = tuple(float(number) for number in reader.root.get("viewbox", "").split())
    if len(box) != 4:
        raise NotDrawn('svg: viewBox is missing; give four numbers, for example "0 0 100 50"')
    return Drawing((box[0], box[1], box[2], box[3]), reader.root, tuple(reader.marks))


def figure(svg: str, *, width: float, height: float) -> Painted:
    """A drawing to set in a page, as large as fits into `width` and `height` [pt]."""
    drawing = read(svg)
    left, top, wide, high = drawing.box
    scale = min(width / wide, height / high)

    def paint(canvas: Canvas) -> None:
        canvas.setLineJoin(1 if drawing.look.get("stroke-linejoin") == "round" else 0)
        canvas.translate(0, high * scale)
        canvas.scale(scale, -scale)  # downward, as in the drawing
        canvas.translate(-left, -top)
        for mark in drawing.marks:
            _draw(canvas, mark, {**drawing.look, **mark.attributes})

    return Painted(wide * scale, high * scale, paint)


def _draw(canvas: Canvas, mark: Mark, look: Attributes) -> None:
    canvas.saveState()
    if "transform" in mark.attributes:
        _turn(canvas, mark.attributes["transform"])
    if mark.name == "text":
        _write(canvas, mark.words, look)
    else:
        _outline(canvas, mark, look)
    canvas.restoreState()


def _turn(canvas: Canvas, transform: str) -> None:
    turn = _TURN.fullmatch(transform)
    if turn is None:
        raise NotDrawn(f'svg: transform="{transform}" is not drawn on paper; use rotate(degrees x y)')
    degrees, about_x, about_y = (float(part) for part in turn.groups())
    canvas.translate(about_x, about_y)
    canvas.rotate(degrees)
    canvas.translate(-about_x, -about_y)


def _outline(canvas: Canvas, mark: Mark, look: Attributes) -> None:
    fill = look.get("fill", "#000000")
    stroke = mark.attributes.get("stroke", "none")
    if fill != "none":
        canvas.setFillColor(HexColor(fill))
    if stroke != "none":
        canvas.setStrokeColor(HexColor(stroke))
        canvas.setLineWidth(float(look.get("stroke-width", "1")))
        canvas.setLineCap(_CAPS[look.get("stroke-linecap", "butt")])
        if dash := _numbers(look.get("stroke-dasharray", "")):
            canvas.setDash(dash, 0)
    path = canvas.beginPath()
    _trace(path, mark)
    canvas.drawPath(path, stroke=int(stroke != "none"), fill=int(fill != "none"), fillMode=1)


def _write(canvas: Canvas, words: str, look: Attributes) -> None:
    size = float(look["font-size"])
    width = fonts.width(words, fonts.HEAD, size)
    shift = {"start": 0.0, "middle": width / 2, "end": width}[look.get("text-anchor", "start")]
    canvas.translate(float(look["x"]) - shift, float(look["y"]))
    canvas.scale(1, -1)
    canvas.setFillColor(HexColor(look.get("fill", "#000000")))
    draw_line(canvas, words, fonts.HEAD, size, x=0, y=0)


def _numbers(text: str) -> list[float]:
    return [float(number) for number in _NUMBER.findall(text)]


def _trace(path: PDFPathObject, mark: Mark) -> None:
    """Lay the outline of one shape into a PDF path."""
    given = mark.attributes

    def value(name: str) -> float:
        return float(given.get(name, "0"))

    match mark.name:
        case "path":
            _trace_path(path, given.get("d", ""))
        case "polygon" | "polyline":
            numbers = _numbers(given.get("points", ""))
            points = list(zip(numbers[::2], numbers[1::2], strict=True))
            path.moveTo(*points[0])
            for point in points[1:]:
                path.lineTo(*point)
            if mark.name == "polygon":
                path.close()
        case "line":
            path.moveTo(value("x1"), value("y1"))
            path.lineTo(value("x2"), value("y2"))
        case "rect":
            corner = min(value("rx"), value("width") / 2, value("height") / 2)
            if corner:
                path.roundRect(value("x"), value("y"), value("width"), value("height"), corner)
            else:
                path.rect(value("x"), value("y"), value("width"), value("height"))
        case "circle":
            _ellipse(path, value("cx"), value("cy"), value("r"), value("r"))
        case "ellipse":
            _ellipse(path, value("cx"), value("cy"), value("rx"), value("ry"))


def _ellipse(path: PDFPathObject, x: float, y: float, rx: float, ry: float) -> None:
    path.moveTo(x + rx, y)
    for ux, uy, vx, vy in ((1, 0, 0, 1), (0, 1, -1, 0), (-1, 0, 0, -1), (0, -1, 1, 0)):
        handles = ((ux + CIRCLE * vx, uy + CIRCLE * vy), (vx + CIRCLE * ux, vy + CIRCLE * uy), (vx, vy))
        path.curveTo(*(part for a, b in handles for part in (x + rx * a, y + ry * b)))
    path.close()


def _steps(d: str) -> Iterator[tuple[str, list[float]]]:
    """The commands of a path one by one, each with its own numbers."""
    for command, rest in _COMMAND.findall(d):
        count = _PLACES.get(command.upper())
        numbers = _numbers(rest)
        if count is None or (count and (not numbers or len(numbers) % count)):
            raise NotDrawn(f'svg: path command "{command}{rest}" is not drawn on paper')
        if not count:
            yield command, []
        for first in range(0, len(numbers), count or 1):
            # further pairs after a move are lines
            further = {"M": "L", "m": "l"}.get(command, command) if first else command
            yield further, numbers[first : first + count]


def _trace_path(path: PDFPathObject, d: str) -> None:
    x = y = start_x = start_y = 0.0
    bend: tuple[float, float] | None = None  # the control point of a quadratic curve just drawn
    for command, numbers in _steps(d):
        kind, is_relative = command.upper(), command.islower()
        base_x, base_y = (x, y) if is_relative else (0.0, 0.0)
        last_bend, bend = bend, None
        if kind == "Z":
            path.close()
            x, y = start_x, start_y
        elif kind == "H":
            x = base_x + numbers[0]
            path.lineTo(x, y)
        elif kind == "V":
            y = base_y + numbers[0]
            path.lineTo(x, y)
        elif kind == "A":
            end_x, end_y = base_x + numbers[5], base_y + numbers[6]
            _arc(path.curveTo, x, y, numbers, end_x, end_y)
            x, y = end_x, end_y
        else:
            points = [(base_x + a, base_y + b) for a, b in zip(numbers[::2], numbers[1::2], strict=True)]
            if kind == "M":
                path.moveTo(*points[0])
                start_x, start_y = points[0]
            elif kind == "L":
                path.lineTo(*points[0])
            elif kind == "C":
                path.curveTo(*points[0], *points[1], *points[2])
            else:
                mirrored = (2 * x - last_bend[0], 2 * y - last_bend[1]) if last_bend else (x, y)
                bend = points[0] if kind == "Q" else mirrored
                end = points[-1]
                # a quadratic curve raised to a cubic one: two thirds of the way to its control point from either end
                path.curveTo(
                    x + (bend[0] - x) * 2 / 3,
                    y + (bend[1] - y) * 2 / 3,
                    end[0] + (bend[0] - end[0]) * 2 / 3,
                    end[1] + (bend[1] - end[1]) * 2 / 3,
                    *end,
                )
            x, y = points[-1]


def _arc(
    curve: Callable[[float, float, float, float, float, float], None],
    x: float,
    y: float,
    numbers: list[float],
    end_x: float,
    end_y: float,
) -> None:
    """An elliptical arc by curves of at most a quarter turn.

    From its ends to its center as in SVG 1.1, appendix F.6.5; radii that are too small are enlarged (F.6.6).
    """
    rx, ry, turn = abs(numbers[0]), abs(numbers[1]), math.radians(numbers[2])
    cos, sin = math.cos(turn), math.sin(turn)
    half_x, half_y = (x - end_x) / 2, (y - end_y) / 2
    px, py = cos * half_x + sin * half_y, cos * half_y - sin * half_x
    grow = math.hypot(px / rx, py / ry)
    if grow > 1:
        rx, ry = rx * grow, ry * grow
    reach = (px / rx) ** 2 + (py / ry) ** 2
    factor = math.sqrt(max(0.0, 1 / reach - 1)) * (-1 if bool(numbers[3]) == bool(numbers[4]) else 1)
    qx, qy = factor * rx * py / ry, -factor * ry * px / rx
    center_x, center_y = cos * qx - sin * qy + (x + end_x) / 2, sin * qx + cos * qy + (y + end_y) / 2
    begin = math.atan2((py - qy) / ry, (px - qx) / rx)
    sweep = math.atan2((-py - qy) / ry, (-px - qx) / rx) - begin
    if numbers[4] and sweep < 0:
        sweep += 2 * math.pi
    elif not numbers[4] and sweep > 0:
        sweep -= 2 * math.pi
    pieces = max(1, math.ceil(abs(sweep) / (math.pi / 2) - 1e-9))
    step = sweep / pieces
    handle = 4 / 3 * math.tan(step / 4)

    def at(a: float, b: float) -> tuple[float, float]:
        """A point of the unit circle's plane on the page."""
        return center_x + cos * rx * a - sin * ry * b, center_y + sin * rx * a + cos * ry * b

    for piece in range(pieces):
        a, b = begin + piece * step, begin + (piece + 1) * step
        curve(
            *at(math.cos(a) - handle * math.sin(a), math.sin(a) + handle * math.cos(a)),
            *at(math.cos(b) + handle * math.sin(b), math.sin(b) - handle * math.cos(b)),
            *at(math.cos(b), math.sin(b)),
        )
