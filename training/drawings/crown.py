"""The crown's rubber and the channels in it, in true measure: what a section shows before anything is dimensioned.

One user unit is one millimeter; x is the lateral position, y the depth below the tread.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from training.drawings.ink import PAPER, RUBBER, Sheet, num, pen
from training.drawings.words import size_of
from training.rulebook import Case, Injury, Quantity, Tire

_USUAL_THICKNESS = 13.0  # drawn, never said, where the crown was not measured
_USUAL_HALF_TREAD = 80.0
STEEPEST_DRAWN = 70.0  # degrees; a steeper channel would leave the page
_INNER_GROOVES = (0.27, 0.36, 0.2, 0.44, 0.14, 0.52, 0.6, 0.66)  # tried in this order, as parts of the outer one
_LAYERS = {"truck": 4, "light-truck-steel": 3, "motorcycle": 1}


@dataclass(frozen=True, slots=True)
class Channel:
    """One injury as the section plane shows it; lengths in mm, the lean signed toward increasing lateral."""

    injury: Injury
    lateral: Quantity
    at: float
    exit: float
    half: float  # half of its width along the tread
    lean_deg: float
    is_seen_whole: bool  # False where the channel also runs along the tire, or its direction was not measured
    is_through: bool
    thickness: float

    def span_to(self, depth: float) -> tuple[float, float]:
        """The least and greatest lateral the channel takes up from the tread down to a depth."""
        there = self.at + (self.exit - self.at) * depth / self.thickness
        return min(self.at, there) - self.half, max(self.at, there) + self.half

    @property
    def low(self) -> float:
        return min(self.at, self.exit) - self.half

    @property
    def high(self) -> float:
        return max(self.at, self.exit) + self.half


@dataclass(frozen=True, slots=True)
class Crown:
    """The rubber in view: half tread, thickness, grooves, and the part of the crown that is drawn."""

    half: float
    thickness: float
    groove: float | None
    groove_width: float
    groove_depth: float
    flat: float  # half of the liner that is drawn flat, before it turns into the sidewall
    end: float  # the outermost point of the shoulder
    left: float
    right: float
    cut: int  # -1: cut just left of the centerline, 1: just right of it, 0: the whole crown
    grooves: tuple[tuple[float, float], ...]
    belts: int


def half_tread(tire: Tire) -> float:
    """Half of the tread's width, guessed from the groove where it was not measured."""
    if tire.tread_width:
        return tire.tread_width.number / 2
    return tire.outer_groove.number * 1.32 if tire.outer_groove else _USUAL_HALF_TREAD


def groove_width(half: float, groove: float) -> float:
    """How wide the outermost groove is drawn, between its inner edge and the edge of the tread."""
    return min(8.0, (half - groove) * 0.45)


def channels(case: Case, *, injury: str | None = None) -> tuple[Channel, ...]:
    """The injuries whose place across the tread was measured, as seen in the section."""
    thickness = case.tire.crown_thickness.number if case.tire.crown_thickness else _USUAL_THICKNESS
    return tuple(
        _channel(each, each.lateral, thickness)
        for each in case.injuries or ()
        if (injury is None or each.id == injury) and each.lateral is not None
    )


def _channel(injury: Injury, lateral: Quantity, thickness: float) -> Channel:
    at = lateral.number
    size = size_of(injury)
    wide = size.number if size is not None else 2.0
    through = injury.kind == "puncture" and injury.angle is not None
    angle = injury.angle.number if injury.angle is not None else 0.0
    if angle > STEEPEST_DRAWN:
        through, angle = False, 0.0
    along = math.radians(injury.azimuth.number) if injury.azimuth is not None else (0.0 if at >= 0 else math.pi)
    slope = math.tan(math.radians(angle)) * math.cos(along)
    if abs(slope) < 1e-9:
        slope = 0.0
    lean = math.atan(slope)
    seen_whole = angle == 0 or (injury.azimuth is not None and injury.azimuth.number % 180 == 0)
    exit_mm, half = at + thickness * slope, wide / 2 / math.cos(lean)
    return Channel(injury, lateral, at, exit_mm, half, math.degrees(lean), seen_whole, through, thickness)


def crown_of(case: Case, holes: Sequence[Channel]) -> Crown:
    """How much crown to draw: one half with a break line where all the injuries lie on one side."""
    tire = case.tire
    thickness = tire.crown_thickness.number if tire.crown_thickness else _USUAL_THICKNESS
    groove = tire.outer_groove.number if tire.outer_groove else None
    half = half_tread(tire)
    reach = max((max(abs(h.low), abs(h.high)) for h in holes), default=0.0)
    entry = max((abs(h.at) + h.half for h in holes), default=0.0)
    half = max(half, entry + 1.5, (groove or 0.0) + 4.0)
    width = groove_width(half, groove) if groove is not None else 8.0
    tails = max((abs(h.exit) + 19.0 * abs(math.sin(math.radians(h.lean_deg))) - 14.0 for h in holes), default=0.0)
    flat = max(half - 11.0, reach + 1.5, tails)
    depth = min(8.0, thickness * 0.52)
    cut = 0
    slack = min(20.0, half * 0.25)
    if holes:
        on_right, on_left = min(h.low for h in holes) > -slack, max(h.high for h in holes) < slack
        if on_right and (not on_left or sum(h.at for h in holes) >= 0):
            cut = -1
        elif on_left:
            cut = 1
    end = max(half + 8.0, flat + 12.0)
    left, right = -end, end
    if cut < 0:
        left = min(-7.0, min(h.low for h in holes) - 5.0)
    elif cut > 0:
        right = max(7.0, max(h.high for h in holes) + 5.0)
    grooves = _grooves(groove, half, width, depth, holes)
    belts = _LAYERS.get(tire.casing, 2)
    return Crown(half, thickness, groove, width, depth, flat, end, left, right, cut, grooves, belts)


def _grooves(
    groove: float | None, half: float, width: float, depth: float, holes: Sequence[Channel]
) -> tuple[tuple[float, float], ...]:
    """Grooves left to right: the measured outer pair, and an inner pair set where it meets no injury."""
    outer = groove if groove is not None else half * 0.72
    pairs = []
    if groove is not None:
        pairs += [(groove, groove + width), (-groove - width, -groove)]
    spans = [_mirrored(hole.span_to(depth)) for hole in holes]
    best = max(_INNER_GROOVES, key=lambda part: _clearance(outer * part, 7.0, spans))
    if outer * 0.5 > 16 and _clearance(outer * best, 7.0, spans) > 1.0:
        pairs += [(outer * best, outer * best + 7.0), (-outer * best - 7.0, -outer * best)]
    return tuple(sorted(pairs))


def _mirrored(span: tuple[float, float]) -> tuple[float, float]:
    """A span on the right-hand half, so that a mirrored case gets the mirrored drawing."""
    low, high = span
    if low < 0 < high:
        return 0.0, max(-low, high)
    return (low, high) if low >= 0 else (-high, -low)


def _clearance(start: float, width: float, spans: Sequence[tuple[float, float]]) -> float:
    """How far a groove keeps from every entry; enough is enough, so that near choices stay put."""
    return min((min(4.0, max(start - high, low - start - width)) for low, high in spans), default=4.0)


def draw_rubber(sheet: Sheet, crown: Crown) -> None:
    """Tread, grooves, shoulders and liner as one outline, the layers inside it."""
    t, half, flat, end, depth = crown.thickness, crown.half, crown.flat, crown.end, crown.groove_depth
    outer, inner = (end, t * 0.8), (flat + 7.0, t + 4.0)  # the ends of the cut across the sidewall
    run, drop = (inner[0] - outer[0]) / 3, (inner[1] - outer[1]) / 3
    bend = ((outer[0] + run - 0.8, outer[1] + drop - 1.0), (outer[0] + 2 * run + 0.8, outer[1] + 2 * drop + 1.0))
    shoulder = [(half, 0.0), (half + 3, 0.0), (end - 1, t * 0.3), outer, *bend, inner]  # from the tread to the cut
    mirrored = [(-x, y) for x, y in reversed(shoulder)]
    wave, taper = 1.5, 0.8
    if crown.cut < 0:
        x = crown.left
        d = pen("M", x, t, "C", x - wave, t * 0.66, x + wave, t * 0.33, x, 0)
    else:
        d = pen("M", mirrored[0], "C", *mirrored[1:4], "C", *mirrored[4:])
    for a, b in crown.grooves:
        if a > crown.left and b < crown.right:
            d += pen("H", a, "L", a + taper, depth, "H", b - taper, "L", b, 0)
    if crown.cut > 0:
        x = crown.right
        d += pen("H", x, "C", x - wave, t * 0.33, x + wave, t * 0.66, x, t)
    else:
        d += pen("H", half, "C", *shoulder[1:4], "C", *shoulder[4:], "Q", flat + 5, t, flat, t)
        sheet.keep_clear((flat, t, *inner), (*inner, *outer))
    if crown.cut < 0:
        d += pen("H", crown.left, "Z")
    else:
        d += pen("H", -flat, "Q", -flat - 5, t, mirrored[0], "Z")
        sheet.keep_clear((-flat, t, *mirrored[0]), (*mirrored[0], *mirrored[3]))
    sheet.path(d, fill=RUBBER)
    sheet.keep_clear((crown.left, 0, crown.right, 0), (crown.left, t, crown.right, t))
    _layers(sheet, crown)
    sheet.reach(0, inner[1])


def _layers(sheet: Sheet, crown: Crown) -> None:
    """Belts as rows of cord ends, the body ply as one cord along the cut, the liner as a heavy line."""
    t, base = crown.thickness, crown.thickness - crown.groove_depth
    left, right = crown.left + (1.2 if crown.cut < 0 else 0), crown.right - (1.2 if crown.cut > 0 else 0)
    top, room = crown.groove_depth + base * 0.2, base * 0.44
    dot = min(1.0, base * 0.13)
    dots = []
    for i in range(crown.belts):
        y = top + (room * i / (crown.belts - 1) if crown.belts > 1 else room / 2)
        wide = crown.half - 3.0 - 2.5 * i
        dots.append(pen("M", max(-wide, left + 0.6), y, "H", min(wide, right - 0.6)))
    sheet.path("".join(dots), width=dot, dash=f"0.05 {num(dot * 2.3)}", cap="round")
    ply, liner = t - base * 0.22, max(0.5, base * 0.09)
    for y, width in ((ply, sheet.hair * 1.4), (t - liner / 2, liner)):
        # both follow the inside of the casing as far as the cut
        x, low = crown.flat + 7.0 + (t - y) * 0.9, t + 4.0 - (t - y) * 0.45
        a = pen("M", left, y) if crown.cut < 0 else pen("M", -x, low, "Q", -crown.flat - 5, y, -crown.flat, y)
        b = pen("H", right) if crown.cut > 0 else pen("H", crown.flat, "Q", crown.flat + 5, y, x, low)
        sheet.path(a + b, width=width)


def draw_rings(sheet: Sheet, holes: Sequence[Channel], thickness: float) -> tuple[float, float]:
    """The crayon ring around each injury; returns the top and bottom they reach."""
    top, low = -sheet.size * 0.5, thickness + sheet.size * 0.3
    for hole in holes:
        deep = thickness if hole.is_through else thickness * 0.5
        rx = max((hole.high - hole.low) / 2 + 4.0, 7.0)
        ry = deep / 2 + max(3.6, sheet.size * 0.75)
        sheet.ring((hole.low + hole.high) / 2, deep / 2, rx, ry)
        top, low = min(top, deep / 2 - ry * 1.08), max(low, deep / 2 + ry * 1.05)
    return top, low


def draw_channel(sheet: Sheet, hole: Channel, crown: Crown) -> None:
    """The channel as an empty parallelogram with its two walls and its axis; what is not through is a notch."""
    t = crown.thickness
    if not hole.is_through:
        deep = t * (0.62 if hole.injury.reaches == "cord" else 0.3)
        left, right = hole.at - hole.half, hole.at + hole.half
        sheet.polygon([(left, -0.4), (right, -0.4), (hole.at, deep)], fill=PAPER, stroke="none")
        sheet.polyline([(left, 0), (hole.at, deep), (right, 0)])
        return
    bleed = sheet.line / 2
    slope = (hole.exit - hole.at) / t
    a, b = hole.at - hole.half, hole.at + hole.half
    c, d = hole.exit - hole.half, hole.exit + hole.half
    sheet.polygon([(a, 0), (b, 0), (d, t), (c, t)], fill=PAPER, stroke="none")
    lips = pen("M", a, 0, "H", b, "M", c, t, "H", d)
    sheet.path(lips, stroke=PAPER, width=sheet.line + 2 * bleed)
    walls = []
    for top, low in ((a, c), (b, d)):
        start = _wall_start(top, slope, crown)
        walls.append(pen("M", top + slope * start, start, "L", low, t))
    sheet.path("".join(walls), dash="" if hole.is_seen_whole or hole.injury.azimuth is not None else sheet.dashes)
    tail = axis_tail(sheet, hole)
    sheet.path(pen("M", hole.at, 0, "L", hole.exit + slope * tail, t + tail), width=sheet.hair, dash=sheet.chain)
    sheet.keep_clear((hole.exit, t, hole.exit + slope * tail, t + tail))


def axis_tail(sheet: Sheet, hole: Channel) -> float:
    """How far below the liner the axis is run on, so that its length stays about the same for every lean."""
    return sheet.size * min(2.9, 3.6 * math.cos(math.radians(hole.lean_deg)))


def _wall_start(x: float, slope: float, crown: Crown) -> float:
    """The depth at which a wall of the channel meets rubber: below the floor where it enters through a groove."""
    for a, b in crown.grooves:
        if a < x < b and a <= x + slope * crown.groove_depth <= b:
            return crown.groove_depth
    return 0.0
