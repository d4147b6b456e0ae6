"""The crown and the channels in it, in true measure: what of it a section shows, before anything is drawn.

One user unit is one millimeter; x is the lateral position, y the depth below the tread.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

from training.drawings.words import size_of
from training.rulebook import Case, Injury, Quantity, Tire

_USUAL_THICKNESS = 13.0  # drawn, never said, where the crown was not measured
_USUAL_HALF_TREAD = 80.0
STEEPEST_DRAWN = 70.0  # degrees; a steeper channel would leave the page
_INNER_GROOVES = (0.27, 0.36, 0.2, 0.44, 0.14, 0.52, 0.6, 0.66)  # tried in this order, as parts of the outer one
_AROUND = 9.0  # mm of rubber around what is in view
_LEAST_IN_VIEW = 48.0  # mm across; less would be drawn too large
_BEFORE_SHOULDER = 2.5  # mm of tread from which on the shoulder is shown too
_AXIS_RUN = 6.0  # mm that an axis runs on below the liner
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
class View:
    """What a section shows at least, whatever hole is drawn in it, so that the scale stays as the hole moves: from one
    lateral to another, with room for a crown so thick [mm]."""

    left: float
    right: float
    thickness: float


@dataclass(frozen=True, slots=True)
class Crown:
    """The rubber in view: half tread, thickness, grooves, and the part of the crown that is drawn."""

    half: float
    thickness: float
    groove: float | None
    groove_depth: float
    flat: float  # half of the liner that is drawn flat, before it turns into the sidewall
    end: float  # the outermost point of the shoulder
    left: float
    right: float
    grooves: tuple[tuple[float, float], ...]  # those in view, left to right
    belts: int

    @property
    def is_cut_left(self) -> bool:
        return self.left > -self.end

    @property
    def is_cut_right(self) -> bool:
        return self.right < self.end

    @property
    def shows_center(self) -> bool:
        return self.left < 0 < self.right

    def narrowed(self, low: float, high: float) -> Crown:
        """No more of it than lies between two laterals; a shoulder is shown whole or cut off before it begins."""
        left = self.left if low < -self.half + _BEFORE_SHOULDER else max(low, self.left)
        right = self.right if high > self.half - _BEFORE_SHOULDER else min(high, self.right)
        return replace(self, left=left, right=right, grooves=_in_view(self.grooves, left, right))


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
    """How much crown to draw: one half where all the injuries lie on one side, else all of it."""
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
    end = max(half + 8.0, flat + 12.0)
    left, right = -end, end
    side = _side_of(holes, half)
    if side:
        beside = _AROUND * 2 if len(holes) > 1 else 5.0  # room for the name of the innermost
        near = max(-end, min([-7.0, *(min(side * h.low, side * h.high) - beside for h in holes)]))
        left, right = (near, end) if side > 0 else (-end, -near)
    in_view = _in_view(_grooves(groove, half, width, depth, holes), left, right)
    belts = _LAYERS.get(tire.casing, 2)
    return Crown(half, thickness, groove, depth, flat, end, left, right, in_view, belts)


def _side_of(holes: Sequence[Channel], half: float) -> int:
    """1 or -1 where all injuries lie on the right or the left half, or hardly past the centerline; else 0."""
    if not holes:
        return 0
    slack = min(20.0, half * 0.25)
    on_right, on_left = min(h.low for h in holes) > -slack, max(h.high for h in holes) < slack
    if on_right and (not on_left or sum(h.at for h in holes) >= 0):
        return 1
    return -1 if on_left else 0


def close_up(crown: Crown, holes: Sequence[Channel], line: float | None = 0.0) -> Crown:
    """Of a half crown no more than its injuries and the line where it ends, with some rubber around them.

    `line`: how far from the centerline that lies [mm]; 0 for the outermost groove, None where there is none.
    """
    if not holes or crown.is_cut_left == crown.is_cut_right:
        return crown
    side = 1 if crown.is_cut_left else -1
    lows, highs = [], []
    for hole in holes:
        run = _AXIS_RUN * math.sin(math.radians(side * hole.lean_deg))
        lows.append(min(side * hole.low, side * hole.high) + min(run, 0.0) - _AROUND)
        highs.append(max(side * hole.low, side * hole.high) + max(run, 0.0) + _AROUND)
    if line:
        lows.append(line - _AROUND)
        highs.append(line + _AROUND)
    elif line is not None and crown.groove is not None:
        lows.append(crown.groove - _AROUND)
        highs.append(crown.groove + groove_width(crown.half, crown.groove) + _AROUND / 2)
    low, high = min(*lows, max(highs) - _LEAST_IN_VIEW), max(highs)
    low = low if low > _AROUND / 2 else -crown.end  # so near to the centerline it is shown too
    return crown.narrowed(low, high) if side > 0 else crown.narrowed(-high, -low)


def _in_view(grooves: Sequence[tuple[float, float]], left: float, right: float) -> tuple[tuple[float, float], ...]:
    return tuple((a, b) for a, b in grooves if a > left + 1.0 and b < right - 1.0)


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
