"""Reads a drawing back from its SVG, knowing nothing of the code that drew it."""

import math
import re
from dataclasses import dataclass, field
from itertools import pairwise
from pathlib import Path
from xml.etree import ElementTree

from reportlab.pdfbase.ttfonts import TTFont

from certificates import documents

WHITE, RUBBER, CRAYON = "#ffffff", "#e0ded9", "#f5c400"
_NAME = "{http://www.w3.org/2000/svg}"
_COMMAND = re.compile(r"([MLHVCQTAZhvlqmaz])([^MLHVCQTAZhvlqmaz]*)")
_NUMBER = re.compile(r"-?\d*\.?\d+")
# The condensed face that drawings are written in, as it is shipped for paper.
_FACE = TTFont("Labels", str(Path(documents.__file__).parent / "fonts" / "BarlowCondensed-SemiBold.ttf"))


@dataclass
class Drawing:
    """Shapes of one drawing in user units."""

    root: ElementTree.Element
    view: tuple[float, float, float, float]
    size: float
    polygons: list[tuple[str, list[tuple[float, float]]]] = field(default_factory=list)
    paths: list[tuple[ElementTree.Element, list[list[tuple[float, float]]]]] = field(default_factory=list)
    texts: list[tuple[str, tuple[float, float, float, float]]] = field(default_factory=list)

    def channels(self) -> list[list[tuple[float, float]]]:
        """White four-cornered shapes: the holes through the rubber."""
        return [points for fill, points in self.polygons if fill == WHITE and len(points) == 4]

    def lines(self) -> list[tuple[tuple[float, float], tuple[float, float]]]:
        """Every straight piece that was drawn in line color, curves as short chords."""
        found = []
        for element, runs in self.paths:
            if element.get("stroke") in (None, CRAYON, WHITE):
                continue
            for run in runs:
                found += list(pairwise(run))
        return found


def read(svg: str) -> Drawing:
    """Parse one drawing; XML that is not well formed fails here."""
    root = ElementTree.fromstring(svg)
    left, top, width, height = (float(part) for part in root.get("viewBox", "").split())
    drawing = Drawing(root, (left, top, left + width, top + height), float(root.get("font-size", "0")))
    for element in root.iter():
        tag = element.tag.removeprefix(_NAME)
        if tag == "polygon":
            points = _pairs(element.get("points", ""))
            drawing.polygons.append((element.get("fill", ""), points))
            drawing.paths.append((element, [[*points, points[0]]]))
        elif tag == "polyline":
            drawing.paths.append((element, [_pairs(element.get("points", ""))]))
        elif tag == "path":
            drawing.paths.append((element, _runs(element.get("d", ""))))
        elif tag == "line":
            x1, y1, x2, y2 = (float(element.get(name, "0")) for name in ("x1", "y1", "x2", "y2"))
            drawing.paths.append((element, [[(x1, y1), (x2, y2)]]))
        elif tag == "rect":
            x, y, w, h = (float(element.get(name, "0")) for name in ("x", "y", "width", "height"))
            drawing.paths.append((element, [[(x, y), (x + w, y), (x + w, y + h), (x, y + h), (x, y)]]))
        elif tag == "text":
            drawing.texts.append((element.text or "", _text_box(element, drawing.size)))
    return drawing


def _text_box(element: ElementTree.Element, size: float) -> tuple[float, float, float, float]:
    """Where the letters stand: cap height over the baseline, no air around."""
    size = float(element.get("font-size", size))
    x, y = float(element.get("x", "0")), float(element.get("y", "0"))
    width = _FACE.stringWidth(element.text or "", size)
    anchor = element.get("text-anchor", "start")
    left = x if anchor == "start" else x - width if anchor == "end" else x - width / 2
    return (left, y - size * 0.7, left + width, y)


def _pairs(text: str) -> list[tuple[float, float]]:
    return [(float(a), float(b)) for a, b in (pair.split(",") for pair in text.split())]


def _runs(d: str) -> list[list[tuple[float, float]]]:
    """A path as polylines; curves by their end points and middle, which is enough to keep labels off them."""
    runs: list[list[tuple[float, float]]] = []
    x = y = 0.0
    control = (0.0, 0.0)
    for command, rest in _COMMAND.findall(d):
        values = [float(number) for number in _NUMBER.findall(rest)]
        if command == "M":
            x, y = values[:2]
            runs.append([(x, y)])
            continue
        if command in "Zz":
            runs[-1].append(runs[-1][0])
            continue
        if command == "m":
            x, y = x + values[0], y + values[1]
            runs.append([(x, y)])
            continue
        step = {"H": 1, "V": 1, "h": 1, "v": 1, "L": 2, "l": 2, "T": 2, "Q": 4, "q": 4, "C": 6, "A": 7, "a": 7}[command]
        for i in range(0, len(values), step):
            part = values[i : i + step]
            start = (x, y)
            if command == "H":
                x = part[0]
            elif command == "V":
                y = part[0]
            elif command == "h":
                x += part[0]
            elif command == "v":
                y += part[0]
            elif command in "lqa":
                x, y = x + part[-2], y + part[-1]
            else:
                x, y = part[-2:]
            if command == "C":
                runs[-1] += [_bezier(start, part, t / 6) for t in range(1, 6)]
            elif command in "QT":
                control = (
                    (part[0], part[1]) if command == "Q" else (2 * start[0] - control[0], 2 * start[1] - control[1])
                )
                a, b = control
                runs[-1].append((start[0] / 4 + a / 2 + x / 4, start[1] / 4 + b / 2 + y / 4))
            runs[-1].append((x, y))
    return runs


def _bezier(start: tuple[float, float], part: list[float], t: float) -> tuple[float, float]:
    weights = ((1 - t) ** 3, 3 * t * (1 - t) ** 2, 3 * t * t * (1 - t), t**3)
    xs, ys = (start[0], *part[0::2]), (start[1], *part[1::2])
    return (
        math.fsum(w * v for w, v in zip(weights, xs, strict=True)),
        math.fsum(w * v for w, v in zip(weights, ys, strict=True)),
    )
