"""Measures a drawing back from its SVG and holds it against the case: a picture that lies is found by ruler."""

from __future__ import annotations

import math
import re
from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from html.parser import HTMLParser

from training.rulebook import Case, Injury, parse_quantity

PLACE_MM, LEAN_DEG = 0.5, 1.0  # how true a drawing has to be
_WHITE, _RUBBER = "#ffffff", "#e0ded9"
_INCH_MM = 25.4
_NUMBER = r"((?:\d+ )?\d+(?:[./]\d+)?)"  # a plain one, or a whole and a fraction
_REPAIRED = "A piece of the liner from inside"

Point = tuple[float, float]


class _Shapes(HTMLParser):
    """The elements of a drawing in their order, with their attributes; texts with their words."""

    def __init__(self, svg: str) -> None:
        super().__init__()
        self.found: list[tuple[str, dict[str, str]]] = []
        self.feed(svg)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.found.append((tag, {name: value or "" for name, value in attrs}))

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.handle_starttag(tag, attrs)

    def handle_data(self, data: str) -> None:
        if self.found and self.found[-1][0] == "text":
            self.found[-1][1]["words"] = data

    def polygons(self, fill: str, corners: int) -> list[list[Point]]:
        """Polygons of this fill and number of corners."""
        drawn = [_points(a["points"]) for tag, a in self.found if tag == "polygon" and a.get("fill") == fill]
        return [points for points in drawn if len(points) == corners]

    def numbers(self) -> Iterator[tuple[int, Point]]:
        """The whole numbers printed, each with the anchor of its text."""
        for tag, a in self.found:
            if tag == "text" and a.get("words", "").isdigit():
                yield int(a["words"]), (float(a["x"]), float(a["y"]))


@dataclass(frozen=True, slots=True)
class _Channel:
    """One hole through the crown as it is to be drawn, in mm and degrees."""

    lateral: float
    across: float
    lean: float
    thickness: float

    @property
    def exit(self) -> float:
        return self.lateral + self.thickness * math.tan(math.radians(self.lean))


def misdrawn(svg: str, description: str, case: Case | None, reading: str | None = None) -> list[str]:
    """What is drawn otherwise than the case (or the reading of a gauge) says: one line a deviation; none is true.

    Knows the cross-section, the unrolled crown and the gauges by the opening of their descriptions; of any other
    drawing it says nothing. Lengths are true within 0.5 mm, angles within 1 deg.
    """
    shapes = _Shapes(svg)
    if "a nail in it" in description and case is not None:
        return _nail(svg, case)
    if "one side of it" in description and case is not None:
        return _level(shapes, case)
    if description.startswith(_REPAIRED):
        return _unit(shapes, description)
    if description.startswith("Cross-section of the crown") and case is not None:
        return _section(shapes, case)
    if description.startswith("The crown unrolled") and case is not None:
        return _plan(shapes, case)
    if reading is not None and (drawn := _gauge(shapes, description)) is not None:
        return _differ("reading", drawn, _mm(reading), 0.05)
    return []


def gauge_reading(svg: str, description: str) -> float | None:
    """What a drawn gauge shows, in mm; None for any other drawing."""
    return _gauge(_Shapes(svg), description)


def is_known(description: str) -> bool:
    """Is this one of the drawings that can be measured back?"""
    return description.startswith(("Cross-section of the crown", "The crown unrolled", _REPAIRED, *_GAUGES))


def nail_of(svg: str) -> tuple[float, float]:
    """Where a drawn nail enters the tread [mm], and its lean to the right going in [deg]. ValueError without one."""
    shank = _Shapes(svg).polygons(_WHITE, 4)
    if not shank:
        raise ValueError("no nail is drawn")
    (x1, y1), (x2, y2), (x3, y3), (x4, y4) = shank[0]
    foot, head = ((x1 + x2) / 2, (y1 + y2) / 2), ((x3 + x4) / 2, (y3 + y4) / 2)
    return foot[0], math.degrees(math.atan2(foot[0] - head[0], foot[1] - head[1]))


def _nail(svg: str, case: Case) -> list[str]:
    """A nail still in the tread: it enters at the lateral of the case and leans as the channel does."""
    meant = _channel(case, (case.injuries or ())[0])
    if meant is None:
        return ["nail: none is meant"]
    lateral, lean = nail_of(svg)
    return _differ("lateral", lateral, meant.lateral, PLACE_MM) + _differ("lean", lean, meant.lean, LEAN_DEG)


def _level(shapes: _Shapes, case: Case) -> list[str]:
    """One side of the crown with a hole on the centerline to show its size."""
    diameter, groove = (case.injuries or ())[0].diameter, case.tire.outer_groove
    across = [2 * float(a["r"]) for tag, a in shapes.found if tag == "circle"]
    wrong = _differ("diameter", across[0], float(diameter.value), PLACE_MM) if diameter and across else []
    return wrong + ([] if groove is None else _groove(shapes, float(groove.value)))


def _unit(shapes: _Shapes, description: str) -> list[str]:
    """The unit of an earlier repair lies on the rulers where the words say."""
    each = _INCH_MM if "rulers, in inches" in description else 1.0
    said = [_read(text) * each for pair in re.findall(rf"from {_NUMBER} to {_NUMBER}", description) for text in pair]
    for tag, a in shapes.found:
        if tag == "rect" and a.get("fill") == "none":
            x, y, width, height = (float(a[name]) for name in ("x", "y", "width", "height"))
            drawn = [x, x + width, -y - height, -y]
            return [
                line for one, other in zip(drawn, said, strict=True) for line in _differ("unit", one, other, PLACE_MM)
            ]
    return ["unit: none is drawn"]


def _read(text: str) -> float:
    """A plain number, or a whole and a fraction."""
    return float(sum(map(Fraction, text.split()), Fraction(0)))


def _mm(text: object) -> float:
    return float(parse_quantity(str(text), "length").value)


def _differ(what: str, drawn: float, meant: float, within: float) -> list[str]:
    return [] if abs(drawn - meant) <= within else [f"{what}: {drawn:.2f} is drawn, {meant:.2f} is meant"]


def _points(text: str) -> list[Point]:
    pairs = (pair.split(",") for pair in text.split())
    return [(float(x), float(y)) for x, y in pairs]


def _channel(case: Case, injury: Injury) -> _Channel | None:
    thickness = case.tire.crown_thickness
    if injury.lateral is None or injury.diameter is None or injury.angle is None:
        return None
    azimuth = 0.0 if injury.azimuth is None else float(injury.azimuth.value)
    straight = math.tan(math.radians(float(injury.angle.value))) * math.cos(math.radians(azimuth))
    return _Channel(
        lateral=float(injury.lateral.value),
        across=float(injury.diameter.value),
        lean=math.degrees(math.atan(straight)),
        thickness=0.0 if thickness is None else float(thickness.value),
    )


def _section(shapes: _Shapes, case: Case) -> list[str]:
    meant = [one for injury in case.injuries or () if (one := _channel(case, injury)) is not None]
    drawn = shapes.polygons(_WHITE, 4)
    if len(drawn) != len(meant):
        return [f"channels: {len(drawn)} are drawn, {len(meant)} are meant"]
    wrong: list[str] = []
    for points, one in zip(drawn, meant, strict=True):
        top, low = sorted(points, key=lambda point: point[1])[:2], sorted(points, key=lambda point: point[1])[2:]
        (left, _), (right, _) = sorted(top)
        depth = low[0][1] - top[0][1]
        over = (low[0][0] + low[1][0] - left - right) / 2
        lean = math.degrees(math.atan2(over, depth))
        wrong += _differ("lateral", (left + right) / 2, one.lateral, PLACE_MM)
        wrong += _differ("thickness", depth, one.thickness, PLACE_MM)
        wrong += _differ("lean", lean, one.lean, LEAN_DEG)
        wrong += _differ("diameter", (right - left) * math.cos(math.radians(lean)), one.across, PLACE_MM)
    outline = next(a["d"] for tag, a in shapes.found if tag == "path" and a.get("fill") == _RUBBER)
    edges = [x for x, y in _corners(outline) if y == 0]
    groove = case.tire.outer_groove
    if groove is not None:
        edge = float(groove.value)
        wrong += [] if any(abs(abs(x) - edge) <= PLACE_MM for x in edges) else [f"groove: none is drawn at {edge:g}"]
    return wrong


def _corners(path: str) -> Iterator[Point]:
    """The end points of the straight pieces of a path in absolute commands; curves count by where they end."""
    x = y = 0.0
    for command, rest in re.findall(r"([MLHVCQT])([^MLHVCQTZ]*)", path):
        values = [float(number) for number in re.findall(r"-?\d*\.?\d+", rest)]
        if command in "HV":
            for value in values:
                x, y = (value, y) if command == "H" else (x, value)
                yield x, y
        else:
            step = {"C": 6, "Q": 4}.get(command, 2)
            for end in range(step, len(values) + 1, step):
                x, y = values[end - 2], values[end - 1]
                yield x, y


def _plan(shapes: _Shapes, case: Case) -> list[str]:
    meant = [one for injury in case.injuries or () if (one := _channel(case, injury)) is not None]
    drawn = [
        [float(a[name]) for name in ("cx", "cy", "rx", "ry")]
        for tag, a in shapes.found
        if tag == "ellipse" and a.get("fill") == _WHITE
    ]
    if len(drawn) != len(meant):
        return [f"holes: {len(drawn)} are drawn, {len(meant)} are meant"]
    wrong: list[str] = []
    # They may be drawn in another order than told: the nearest one is meant.
    for one in meant:
        x, _, _, half = min(drawn, key=lambda shape: abs(shape[0] - one.exit) + abs(2 * shape[3] - one.across))
        wrong += _differ("hole", x, one.exit, PLACE_MM) + _differ("diameter", 2 * half, one.across, PLACE_MM)
    groove = case.tire.outer_groove
    wrong += [] if groove is None else _groove(shapes, float(groove.value))
    strips = sum(tag == "path" and a.get("fill") == _RUBBER for tag, a in shapes.found)
    # Between two strips a part of the way around is left out, so only one strip is true to it.
    return wrong + (_stations(case, [(x, y) for x, y, _, _ in drawn]) if strips == 1 else [])


def _groove(shapes: _Shapes, edge: float) -> list[str]:
    upright = [
        float(x)
        for tag, a in shapes.found
        if tag == "path" and "stroke-dasharray" in a
        for x in re.findall(r"M(-?\d+(?:\.\d+)?) -?\d+(?:\.\d+)?V", a["d"])
    ]
    return [] if any(abs(abs(x) - edge) <= PLACE_MM for x in upright) else [f"groove: none is drawn at {edge:g}"]


def _stations(case: Case, mouths: list[Point]) -> list[str]:
    """Two straight holes lie as far apart around the tire as their stations say."""
    injuries = [injury for injury in case.injuries or () if injury.station is not None]
    if len(injuries) != 2 or len(mouths) != 2 or any(injury.angle and injury.angle.value for injury in injuries):
        return []
    around = _liner_around(case)
    degrees = [float(injury.station.value) for injury in injuries if injury.station is not None]
    turn = abs((degrees[1] - degrees[0] + 180) % 360 - 180)
    return (
        []
        if around is None
        else _differ("apart around", abs(mouths[0][1] - mouths[1][1]), turn / 360 * around, PLACE_MM)
    )


def _liner_around(case: Case) -> float | None:
    """The way around the liner in mm from the size: rim and twice the section height, less the crown on both sides."""
    found = re.match(r"(?:P|LT)?(\d{3})/(\d{2})R(\d{2}(?:\.5)?)", str(case.tire.designation or ""))
    if found is None or case.tire.crown_thickness is None:
        return None
    section, aspect, rim = int(found[1]), int(found[2]), float(found[3])
    height = math.floor(section * aspect / 100 + 0.5)
    return math.pi * (rim * _INCH_MM + 2 * height - 2 * float(case.tire.crown_thickness.value))


HOLE_GAUGES = ("A tapered probe", "A caliper")  # they measure across a hole
_GAUGES = ("A dial tread gauge", *HOLE_GAUGES)


def _gauge(shapes: _Shapes, description: str) -> float | None:
    """What a gauge shows, in mm: by its pointer, its jaws or its cone, and by its printed numbers."""
    unit = _INCH_MM / 32 if "32nd of an inch" in description else 1.0
    if description.startswith("A dial"):
        pointer = shapes.polygons("#211f1d", 3)[0]
        x, y = max(pointer, key=lambda point: math.hypot(*point))
        printed = sorted(number for number, _ in shapes.numbers())
        full = printed[-1] + printed[1] - printed[0]
        return math.degrees(math.atan2(x, -y)) % 360 / 360 * full * unit
    blocks = shapes.polygons(_RUBBER, 4)
    if description.startswith("A tapered probe") and len(blocks) >= 2:
        return (min(x for x, _ in blocks[1]) - max(x for x, _ in blocks[0])) / 2  # drawn twice as wide as it is
    if description.startswith("A caliper") and len(blocks) >= 2:
        anchors = {number: x for number, (x, _) in shapes.numbers()}
        far = max(anchors)
        scale = (anchors[far] - anchors[0]) / far
        return (min(x for x, _ in blocks[1]) - max(x for x, _ in blocks[0])) / scale * unit
    return None
