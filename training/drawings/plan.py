"""The unrolled crown seen from inside, to scale: injuries, earlier repairs, repair units and outlines where they lie.

One user unit is one millimeter; x is the lateral position, upward is increasing station on the liner. What lies far
apart around the tire is drawn in strips with break lines between them.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from itertools import pairwise

from training.drawings.dimension import Span, rows
from training.drawings.ink import LINE, PAPER, RUBBER, Box, Figure, Sheet, num, text_width
from training.drawings.words import join, length_label, said
from training.rulebook.case import Case, EarlierRepair, Injury, UnitSize
from training.rulebook.geometry import InjuryGeometry, place_injury, station_deg, tread_circumference_mm

_NOMINAL_AROUND_MM = 1900.0  # spreads the strips where the size gives no circumference; never measured or said
_EDGE = 20.0  # liner drawn beyond the outermost thing of a strip
_FAR = 75.0  # bare liner longer than this is broken out
_BREAK = 9.0
_USUAL_HALF_TREAD = 80.0


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


def crown_plan(
    case: Case,
    *,
    prefer: str = "in",
    show_units: bool = False,
    show_outline: bool = False,
    show_crown: bool = True,
    units: Mapping[str, UnitSize] | None = None,
    margin_mm: float | None = None,
) -> Figure:
    """The crown unrolled and seen from inside.

    Args:
        prefer: "in" or "mm", the unit the description gives first.
        show_units: draw the unit of each injury around its exit, arrows to the beads; sizes from `units`.
        show_outline: draw the outline to buff around each unit, `margin_mm` larger on each side.
        show_crown: dimension the inner edge of the outermost grooves.
        units: unit sizes by injury id.
        margin_mm: how far the outline lies beyond the unit; the caller reads it from the rulebook.
    """
    sizes = units or {}
    things = _things(case, sizes if show_units else {}, sizes if show_outline else {}, margin_mm or 0.0)
    strips = _strips(case, things)
    groove = case.tire.outer_groove.number if case.tire.outer_groove else None
    half = case.tire.tread_width.number / 2 if case.tire.tread_width else groove * 1.32 if groove else _USUAL_HALF_TREAD
    widest = max((max(abs(t.exit) + t.across, abs(t.lateral) + 4) for t in things), default=0.0)
    half = max(half, widest + 2.0, (groove or 0.0) + 6.0)
    left, right = _crop(things, half)
    stations = [t.station_text for t in things if t.station_text]
    part = text_width(max(stations, key=len), 1.0) * 0.041 * 1.06 if stations else 0.0
    margin = ((right - left + 6) * part + (5.0 if stations else 0.0)) / (1 - part)
    sheet = Sheet(left - 3, right + 3 + margin)
    for strip in strips:
        _liner(sheet, strip, left, right, half, groove)
    for thing in things:
        _draw(sheet, thing)
    _stations(sheet, things, right)
    top, low = strips[-1].top, strips[0].low
    _grid(sheet, case, things, groove, top, low, show_crown, left)
    for thing in things:
        _name(sheet, thing, several=len(things) > 1)
    _foot(sheet, low, left, right, prefer)
    words = _words(case, things, prefer, show_units, show_outline, show_crown)
    return Figure(sheet.svg(words), words)


# -- what is drawn and where


def _things(case: Case, units: Mapping[str, UnitSize], outlines: Mapping[str, UnitSize], margin: float) -> list[Thing]:
    found = []
    for injury in case.injuries or ():
        place = place_injury(case, injury)
        if place.lateral_mm is None:
            continue
        known = not place.is_azimuth_assumed and place.exit_lateral_mm is not None
        exit_mm = place.exit_lateral_mm if known and place.exit_lateral_mm is not None else place.lateral_mm
        around = place.exit_offset_around_mm if known and place.exit_offset_around_mm is not None else 0.0
        hole = (place.ellipse_long_mm or place.diameter_mm or 2.0) / 2 + 6.0
        unit = _size(units.get(injury.id), 0.0)
        outline = _size(outlines.get(injury.id), margin)
        largest = outline or unit
        found.append(
            Thing(
                injury.id,
                place.lateral_mm,
                exit_mm,
                around,
                largest[1] / 2 if largest else hole,
                largest[0] / 2 if largest else hole,
                place.station_deg,
                _station_text(injury.station.text if injury.station else ""),
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
        size = _size(repair.unit, 0.0)
        found.append(
            Thing(
                repair.id,
                lateral,
                lateral,
                0.0,
                size[1] / 2 if size else 8.0,
                size[0] / 2 if size else 8.0,
                station_deg(case, repair.station),
                _station_text(repair.station.text if repair.station else ""),
                length_label(repair.lateral, unsigned=True),
                repair=repair,
                unit=size,
            )
        )
    return found


def _size(unit: UnitSize | None, margin: float) -> tuple[float, float] | None:
    return None if unit is None else (unit.length.number + 2 * margin, unit.width.number + 2 * margin)


def _station_text(text: str) -> str:
    return text.replace(" deg", "°")


def _strips(case: Case, things: Sequence[Thing]) -> list[Strip]:
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


def _crop(things: Sequence[Thing], half: float) -> tuple[float, float]:
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


# -- the liner


def _liner(sheet: Sheet, strip: Strip, left: float, right: float, half: float, groove: float | None) -> None:
    """A strip of liner: straight along the edges of the tread, broken across; grooves behind it as dashed lines."""
    top, low = strip.top, strip.low
    across = []
    for y, begin, end in ((low, left, right), (top, right, left)):
        run = (end - begin) / 4
        across.append(f"Q{num(begin + run)} {num(y - 3)} {num(begin + 2 * run)} {num(y)}T{num(end)} {num(y)}")
    sheet.path(f"M{num(left)} {num(low)}{across[0]}V{num(top)}{across[1]}Z", fill=RUBBER, width=sheet.hair * 1.4)
    edges = "".join(f"M{num(x)} {num(low)}V{num(top)}" for x in (-half, half) if left <= x <= right)
    if edges:
        sheet.path(edges)
    if groove is not None:
        wide = min(8.0, (half - groove) * 0.45)
        lines = "".join(
            f"M{num(side * x)} {num(low)}V{num(top)}"
            for side in (-1, 1)
            for x in (groove, groove + wide)
            if left < side * x < right
        )
        sheet.path(lines, width=sheet.hair * 1.3, dash=sheet.dashes)
        sheet.keep_clear(*((side * groove, low, side * groove, top) for side in (-1.0, 1.0)))
    sheet.reach(top - 1.5, low + 1.5)


def _draw(sheet: Sheet, thing: Thing) -> None:
    if thing.repair is not None:
        _draw_repair(sheet, thing)
        return
    x, y = thing.exit, thing.y - thing.around
    if thing.outline:
        a, b = thing.outline
        sheet.box(x - a / 2, y - b / 2, a, b, width=sheet.hair * 1.6, dash=sheet.dashes)
        _keep_box(sheet, x, y, a, b)
    if thing.unit:
        a, b = thing.unit
        sheet.box(x - a / 2, y - b / 2, a, b, corner=3.0)
        _keep_box(sheet, x, y, a, b)
        for side in (-1.0, 1.0):
            sheet.arrow(x + side * a * 0.28, y, x + side * (a / 2 - 2.0), y, width=sheet.line, head=2.4)
            sheet.keep_clear((x + side * a * 0.28, y, x + side * a / 2, y))
    _hole(sheet, thing, x, y)


def _keep_box(sheet: Sheet, x: float, y: float, a: float, b: float) -> None:
    left, right, top, low = x - a / 2, x + a / 2, y - b / 2, y + b / 2
    sheet.keep_clear((left, top, right, top), (left, low, right, low), (left, top, left, low), (right, top, right, low))


def _hole(sheet: Sheet, thing: Thing, x: float, y: float) -> None:
    """The mouth on the liner as a white ellipse; the hole on the tread behind it dashed; the crayon ring around both."""
    place = thing.place
    short = (place.diameter_mm if place and place.diameter_mm else 2.0) / 2
    long = (place.ellipse_long_mm / 2) if place and place.ellipse_long_mm else short
    turn = -(place.azimuth_deg or 0.0) if place and place.angle_deg else 0.0
    spread_x, spread_y = abs(x - thing.lateral) / 2, abs(thing.around) / 2
    rx, ry = spread_x + long + 4.0, spread_y + long + 4.0
    middle_x, middle_y = (x + thing.lateral) / 2, thing.y - thing.around / 2
    sheet.ring(middle_x, middle_y, rx, ry)
    sheet.boxes.append((middle_x - rx, middle_y - ry, middle_x + rx, middle_y + ry))
    moved = spread_x > 0.3 or spread_y > 0.3
    if moved:
        sheet.raw(_ellipse(sheet, thing.lateral, thing.y, long, short, turn, fill="none", dash=sheet.dashes))
        sheet.rule(thing.lateral, thing.y, x, y, dash=sheet.chain)
    sheet.raw(_ellipse(sheet, x, y, long, short, turn, fill=PAPER, dash=""))


def _ellipse(sheet: Sheet, x: float, y: float, long: float, short: float, turn: float, *, fill: str, dash: str) -> str:
    turned = f' transform="rotate({num(turn)} {num(x)} {num(y)})"' if turn else ""
    dashed = f' stroke-dasharray="{dash}"' if dash else ""
    return (
        f'<ellipse cx="{num(x)}" cy="{num(y)}" rx="{num(long)}" ry="{num(short)}" fill="{fill}" stroke="{LINE}" '
        f'stroke-width="{num(sheet.hair * 1.6)}"{dashed}{turned}/>'
    )


def _draw_repair(sheet: Sheet, thing: Thing) -> None:
    """An earlier repair: its unit hatched, or a cross where no unit was measured."""
    x, y = thing.exit, thing.y
    if thing.unit:
        a, b = thing.unit
        sheet.hatch(
            [(x - a / 2, y - b / 2), (x + a / 2, y - b / 2), (x + a / 2, y + b / 2), (x - a / 2, y + b / 2)], step=6.0
        )
        sheet.box(x - a / 2, y - b / 2, a, b, corner=3.0)
        sheet.boxes.append((x - a / 2, y - b / 2, x + a / 2, y + b / 2))
        return
    arm = 5.0
    sheet.path(
        f"M{num(x - arm)} {num(y - arm)}L{num(x + arm)} {num(y + arm)}M{num(x - arm)} {num(y + arm)}"
        f"L{num(x + arm)} {num(y - arm)}",
        width=sheet.line * 1.4,
    )
    sheet.boxes.append((x - arm, y - arm, x + arm, y + arm))


# -- dimensions and names


def _stations(sheet: Sheet, things: Sequence[Thing], right: float) -> None:
    """At the right edge, the station of each thing on a short line that points at it."""
    for thing in sorted(things, key=lambda t: -t.y):
        if not thing.station_text:
            continue
        x = right + 2.5
        sheet.rule(right - 4.0, thing.y, x, thing.y, width=sheet.line)
        sheet.label(
            [
                (x + sheet.size * 0.3, thing.y + sheet.size * 0.35, "start"),
                (x + sheet.size * 0.3, thing.y - sheet.size * 0.7, "start"),
            ],
            thing.station_text,
        )


def _grid(
    sheet: Sheet,
    case: Case,
    things: Sequence[Thing],
    groove: float | None,
    top: float,
    low: float,
    show_crown: bool,
    left: float,
) -> None:
    """Distances from the centerline above the drawing, and the centerline itself."""
    spans, seen = [], set()
    for thing in things:
        if thing.lateral and (thing.lateral, thing.lateral_text) not in seen:
            seen.add((thing.lateral, thing.lateral_text))
            spans.append(Span(0.0, thing.lateral, thing.lateral_text, top, thing.y - 1.0))
    if show_crown and groove is not None:
        side = -1.0 if left < -groove and not any(t.exit > 0 for t in things) else 1.0
        spans.append(Span(0.0, side * groove, length_label(case.tire.outer_groove), top, top))
    edge = rows(sheet, spans, start=top - sheet.size * 0.3, up=True) if spans else top - sheet.size * 0.6
    sheet.path(f"M0 {num(edge)}V{num(low + sheet.size * 0.7)}", width=sheet.hair, dash=sheet.chain)
    sheet.keep_clear((0, edge, 0, low + sheet.size))
    sheet.reach(edge, low)


def _name(sheet: Sheet, thing: Thing, *, several: bool) -> None:
    """Id and size beside a thing, on the liner where nothing else is."""
    diameter = thing.injury.diameter or thing.injury.before_removal if thing.injury else None
    text = f"Ø {diameter.text}" if diameter is not None else ""
    if several:
        text = f"{thing.id}: {text}".rstrip(": ")
    if not text:
        return
    box = _box_of(thing)
    size, gap = sheet.size, sheet.size * 0.35
    middle, mid_y = (box[0] + box[2]) / 2, (box[1] + box[3]) / 2
    out = 1.0 if thing.exit >= 0 else -1.0
    beside = [(box[2] + gap, mid_y + size * 0.35, "start"), (box[0] - gap, mid_y + size * 0.35, "end")]
    if out < 0:
        beside.reverse()
    above = [(middle, box[1] - gap, "middle"), (middle, box[3] + size, "middle")]
    corners = [
        (box[2], box[1] - gap, "start"),
        (box[0], box[1] - gap, "end"),
        (box[2], box[3] + size, "start"),
        (box[0], box[3] + size, "end"),
    ]
    sheet.label([*beside, *above, *corners], text)


def _box_of(thing: Thing) -> Box:
    if thing.repair is not None:
        return (thing.exit - thing.across, thing.y - thing.reach, thing.exit + thing.across, thing.y + thing.reach)
    place = thing.place
    long = (place.ellipse_long_mm or place.diameter_mm or 2.0) / 2 if place else 1.0
    rx = abs(thing.exit - thing.lateral) / 2 + long + 4.0
    ry = abs(thing.around) / 2 + long + 4.0
    x, y = (thing.exit + thing.lateral) / 2, thing.y - thing.around / 2
    return (x - rx, y - ry, x + rx, y + ry)


def _foot(sheet: Sheet, low: float, left: float, right: float, prefer: str) -> None:
    y = low + sheet.size * 1.6
    bar, caption = (25.4, "1 in") if prefer == "in" else (20.0, "20 mm")
    room = bar + sheet.unit + text_width(caption, sheet.size)
    sheet.text(0, y, "center")
    free_left = text_width("center", sheet.size) / 2 + sheet.size
    x = left if -free_left - left > room else right - room
    sheet.scale_bar(x, y, bar, caption)
    sheet.reach(0, y + sheet.size * 0.25)


# -- the same in words


def _words(
    case: Case, things: Sequence[Thing], prefer: str, show_units: bool, show_outline: bool, show_crown: bool
) -> str:
    text = ["The crown unrolled and seen from inside, to scale; stations increase upward."]
    if show_crown and case.tire.outer_groove is not None:
        text.append(f"The outermost groove begins {said(case.tire.outer_groove, prefer)} from the centerline.")
    for thing in things:
        name = (
            f"Earlier repair {thing.id}" if thing.repair else f"Injury {thing.id}" if len(things) > 1 else "The injury"
        )
        length = thing.repair.lateral if thing.repair else thing.injury.lateral if thing.injury else None
        side = "right" if thing.lateral > 0 else "left"
        place = (
            "on the centerline"
            if not thing.lateral or length is None
            else (f"{said(length, prefer, unsigned=True)} {side} of the centerline")
        )
        station = f" at station {thing.station_text.replace('°', ' deg')}" if thing.station_text else ""
        facts = [f"lies {place}{station}"]
        if thing.injury is not None:
            diameter = thing.injury.diameter or thing.injury.before_removal
            if diameter is not None:
                facts.append(f"is {said(diameter, prefer)} across")
            facts += _exit_words(thing)
        text.append(f"{name} {join(facts)}.")
        if thing.unit:
            what = "Its unit" if thing.repair else "The unit over it"
            text.append(
                f"{what} is {num(thing.unit[0])} mm across the tire and {num(thing.unit[1])} mm around it"
                + (", its arrows to the beads." if not thing.repair else ".")
            )
        if thing.outline:
            text.append(f"A dashed outline {num(thing.outline[0])} by {num(thing.outline[1])} mm lies around it.")
    if not things:
        text.append("Nothing else is drawn: no place across the tread was measured.")
    return " ".join(text)


def _exit_words(thing: Thing) -> list[str]:
    """Where the mouth on the liner lies from the hole on the tread, as the drawing shows it."""
    over, up = thing.exit - thing.lateral, thing.around
    if abs(over) < 0.5 and abs(up) < 0.5:
        return []
    parts = []
    if abs(over) >= 0.5:
        parts.append(f"{abs(over):.0f} mm to the {'right' if over > 0 else 'left'}")
    if abs(up) >= 0.5:
        parts.append(f"{abs(up):.0f} mm {'up' if up > 0 else 'down'}")
    return [f"comes out on the liner {' and '.join(parts)} of its place on the tread"]
