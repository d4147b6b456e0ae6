"""Where things lie on the unrolled liner, and the strips they are drawn in.

One user unit is one millimeter; x is the lateral position, upward is increasing station on the liner. What lies far
apart around the tire goes into strips of its own.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from itertools import pairwise

from training.drawings.boxes import Box
from training.drawings.crown import STEEPEST_DRAWN
from training.drawings.words import length_label
from training.rulebook import (
    Case,
    EarlierRepair,
    Injury,
    InjuryGeometry,
    Quantity,
    place_injury,
    station_deg,
    tread_circumference_mm,
)

_NOMINAL_AROUND_MM = 1900.0  # spreads the strips where the size gives no circumference; never measured or said
_EDGE = 15.0  # liner drawn beyond the outermost thing of a strip
_FAR = 75.0  # bare liner longer than this is broken out
_BREAK = 9.0
_BESIDE = 1.5  # between a hole and its name


@dataclass(slots=True)
class Thing:
    """One injury or earlier repair on the liner; `y` is set when the strips are laid out."""

    id: str
    lateral: float
    exit: float
    around: float  # of the exit from its own station, upward
    reach: float  # half of what it takes up around the tire
    across: float  # half of what it takes up across the tire
    station: float | None
    station_text: str
    lateral_text: str
    injury: Injury | None = None
    place: InjuryGeometry | None = None
    repair: EarlierRepair | None = None
    unit: tuple[float, float] | None = None  # length across, width around
    outline: tuple[float, float] | None = None
    y: float = 0.0

    @property
    def top(self) -> float:
        return self.around + self.reach if self.unit or self.outline else max(0.0, self.around) + self.reach

    @property
    def low(self) -> float:
        return self.around - self.reach if self.unit or self.outline else min(0.0, self.around) - self.reach


@dataclass(slots=True)
class Strip:
    """Things near one another around the tire, and the part of the drawing they share."""

    things: list[Thing] = field(default_factory=list)
    top: float = 0.0
    low: float = 0.0


Placed = Callable[[Case, Injury], InjuryGeometry]


def things_of(case: Case, placed: Placed = place_injury, *, units: bool = False, outlines: bool = False) -> list[Thing]:
    """The injuries and earlier repairs whose place across the tread was measured, with their units where asked for."""
    found = []
    for injury in case.injuries or ():
        place = placed(case, injury)
        if place.lateral_mm is None:
            continue
        exit_mm, around = place.lateral_mm, 0.0
        known = not place.is_azimuth_assumed and (place.angle_deg or 0.0) <= STEEPEST_DRAWN
        if known and place.exit_lateral_mm is not None and place.exit_offset_around_mm is not None:
            exit_mm, around = place.exit_lateral_mm, place.exit_offset_around_mm
        hole = (place.ellipse_long_mm or place.diameter_mm or 2.0) / 2 + 6.0
        unit = (place.unit.length_mm, place.unit.width_mm) if units and known and place.unit else None
        outline = (place.outline.length_mm, place.outline.width_mm) if outlines and known and place.outline else None
        largest = outline or unit or (2 * hole, 2 * hole)
        found.append(
            Thing(
                injury.id,
                place.lateral_mm,
                exit_mm,
                around,
                largest[1] / 2,
                largest[0] / 2,
                place.station_deg,
                _station_text(injury.station),
                length_label(injury.lateral, unsigned=True),
                injury=injury,
                place=place,
                unit=unit,
                outline=outline,
            )
        )
    for repair in case.earlier_repairs or ():
        if repair.lateral is None:
            continue
        lateral = repair.lateral.number
        size = (repair.unit.length.number, repair.unit.width.number) if repair.unit else None
        across, reach = (size[0] / 2, size[1] / 2) if size else (8.0, 8.0)
        found.append(
            Thing(
                repair.id,
                lateral,
                lateral,
                0.0,
                reach,
                across,
                station_deg(case, repair.station),
                _station_text(repair.station),
                length_label(repair.lateral, unsigned=True),
                repair=repair,
                unit=size,
            )
        )
    return found


def _station_text(station: Quantity | None) -> str:
    return station.printed if station else ""


def strips_of(case: Case, things: Sequence[Thing]) -> list[Strip]:
    """Group things by where they lie around the tire, beginning after the longest bare part, and lay the strips out."""
    tread = tread_circumference_mm(case)
    thickness = case.tire.crown_thickness.number if case.tire.crown_thickness else 0.0
    around = tread - 2 * math.pi * thickness if tread else None
    length = around or _NOMINAL_AROUND_MM
    placed = sorted((t for t in things if t.station is not None), key=lambda t: t.station or 0.0)
    loose = [t for t in things if t.station is None]
    strips: list[Strip] = []
    if placed:
        gaps = [((b.station or 0) - (a.station or 0)) % 360 for a, b in pairwise([*placed, placed[0]])]
        first = (gaps.index(max(gaps)) + 1) % len(placed) if len(placed) > 1 else 0
        ordered = placed[first:] + placed[:first]
        base = ordered[0].station or 0.0
        for thing in ordered:
            thing.y = (((thing.station or 0.0) - base) % 360) / 360 * length
        strips.append(Strip([ordered[0]], ordered[0].y + ordered[0].top, ordered[0].y + ordered[0].low))
        for thing in ordered[1:]:
            last = strips[-1]
            far = thing.y + thing.low - last.top > _FAR or (around is None and thing.station != last.things[-1].station)
            if far:
                strips.append(Strip([], thing.y + thing.top, thing.y + thing.low))
                last = strips[-1]
            last.things.append(thing)
            last.top, last.low = max(last.top, thing.y + thing.top), min(last.low, thing.y + thing.low)
    strips += [Strip([thing], thing.top, thing.low) for thing in loose]
    if not strips:
        strips.append(Strip([], 25.0, -25.0))
    base = 0.0  # the bottom of the next strip, counted upward; then turned to y downward
    for strip in strips:
        shift = base - (strip.low - _EDGE)
        height = strip.top - strip.low + 2 * _EDGE
        for thing in strip.things:
            thing.y = -(thing.y + shift)
        strip.low, strip.top = -base, -(base + height)
        base += height + _BREAK
    return strips


def cropped(things: Sequence[Thing], half: float) -> tuple[float, float]:
    """One half of the crown where everything lies there, else all of it."""
    if not things:
        return -half, half
    low = min(min(t.exit, t.lateral) - t.across for t in things)
    high = max(max(t.exit, t.lateral) + t.across for t in things)
    if low > -half * 0.3:  # a name needs room beside what lies across the centerline
        return max(-half, min(-9.0, low - (30.0 if any(t.exit < 0 for t in things) else 5.0))), half
    if high < half * 0.3:
        return -half, min(half, max(9.0, high + (30.0 if any(t.exit > 0 for t in things) else 5.0)))
    return -half, half


def box_of(thing: Thing) -> Box:
    """The room an earlier repair takes, or a hole with its mouth on the liner."""
    if thing.repair is not None:
        x, y, half, high = thing.exit, thing.y, thing.across, thing.reach
    else:
        place = thing.place
        long = (place.ellipse_long_mm or place.diameter_mm or 2.0) / 2 + _BESIDE if place else 1.0
        x, y = (thing.exit + thing.lateral) / 2, thing.y - thing.around / 2
        half, high = abs(thing.exit - thing.lateral) / 2 + long, abs(thing.around) / 2 + long
    return (x - half, y - high, x + half, y + high)
