"""The crown cut across: tread, belts, body ply and liner told apart by hatching, and the channels through them.

One user unit is one millimeter; x is the lateral position, y the depth below the tread.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from training.drawings.boxes import Box, text_box, text_width
from training.drawings.crown import Channel, Crown
from training.drawings.ink import LINE, PAPER, RUBBER, Sheet
from training.drawings.path import Point, along, curve, frame, num, pen
from training.trade.speech import say

_TAPER = 0.8  # of a groove's wall
_WAVE = 0.7  # of a cut edge, in hundredths of the drawing's width
# Where the layers lie under the grooves, as parts of the rubber there; drawn, never said.
_BELTS, _PLY, _LINER = (0.14, 0.62), (0.67, 0.8), 0.86
INNERMOST_MM = 5.0  # of rubber from the liner up, in a close view; of it the same layers, drawn and never said
_ROW, _NEAR_PLY, _NEAR_LINER = 1.35, (2.3, 3.1), 3.7  # mm below the cut: middle of the belt, ply, top of the liner


def draw_rubber(sheet: Sheet, crown: Crown) -> None:
    """Tread with its grooves, shoulders and liner as one outline, the layers inside it, each in its own hatching."""
    t = crown.thickness
    outline = _outline(sheet, crown)
    sheet.path(along(outline) + "Z", fill=RUBBER, stroke="none")
    sheet.hatch_tread(outline)
    _belts(sheet, crown)
    _ply(sheet, crown)
    liner = [*_inside(sheet, crown, _depth(crown, _LINER)), *reversed(_inside(sheet, crown, t))]
    sheet.polygon(liner, fill=RUBBER, width=sheet.hair)
    sheet.hatch_liner(liner)
    sheet.polygon(outline)
    sheet.keep_clear((crown.left, 0, crown.right, 0), (crown.left, t, crown.right, t))
    if not (crown.is_cut_left and crown.is_cut_right):
        low = _shoulder(crown)[-1]
        for side in (-1.0,) * (not crown.is_cut_left) + (1.0,) * (not crown.is_cut_right):
            foot = (side * low[0], low[1])
            sheet.keep_clear((side * crown.flat, t, *foot), (*foot, side * crown.end, t * 0.8))
        sheet.reach(0, low[1])
    sheet.reach(0, t)


def name_grooves(sheet: Sheet, crown: Crown) -> bool:
    """The name of each groove in its own white, where it has room; returns whether an outermost one has its name."""
    size = sheet.size
    is_named = False
    for a, b in crown.grooves:
        is_outer = crown.groove is not None and min(abs(a), abs(b)) >= crown.groove - 0.01
        lines = _in_two(say("outer groove") if is_outer else say("inner groove"))
        room = b - a - 2 * _TAPER * 1.3 * size / crown.groove_depth - sheet.line
        if max(text_width(line, size) for line in lines) > room or crown.groove_depth < size * (len(lines) + 0.3):
            continue
        placed = [(line, size * row) for row, line in enumerate(lines, start=1)]
        boxes = [text_box((a + b) / 2, y, line, size, "middle") for line, y in placed]
        if all(sheet.is_free(_slim(box)) for box in boxes):
            for line, y in placed:
                sheet.text((a + b) / 2, y, line)
            is_named = is_named or is_outer
    return is_named


def _in_two(name: str) -> tuple[str, ...]:
    """A name in two lines, broken between words so that it runs least wide; one line for a single word."""
    words = name.split(" ")
    if len(words) == 1:
        return (name,)
    breaks = [(" ".join(words[:at]), " ".join(words[at:])) for at in range(1, len(words))]
    return min(breaks, key=lambda lines: max(text_width(line, 1.0) for line in lines))


def _slim(box: Box) -> Box:
    """A box without the air around its letters."""
    return (box[0] + 0.01, max(box[1], 0.01), box[2] - 0.01, box[3])


def key(sheet: Sheet, belts: int, x: float, y: float, *, has_tread: bool = True) -> float:
    """The layers' hatchings in a row, each with its name, or in two where the names are long.

    `belts`: how many of them are drawn. `y` is the baseline of the first row; returns that of the last.
    """
    size, start = sheet.size, x
    wide, high = size * 1.5, size * 0.8
    layers = (
        (say("tread"), _tread_key), (say("belts") if belts > 1 else say("belt"), _belt_key),
        (say("body ply"), _ply_key), (say("liner"), _liner_key),
    )  # fmt: skip
    for name, draw in layers if has_tread else layers[1:]:
        end = x + wide + size * 0.3 + text_width(name, size)
        if end > sheet.right + sheet.unit and x > start:
            x, y = start, y + size * 1.5
        draw(sheet, (x, y - high, x + wide, y))
        sheet.text(x + wide + size * 0.3, y, name, anchor="start")
        x += wide + size * 1.0 + text_width(name, size)
    return y


def _tread_key(sheet: Sheet, box: Box) -> None:
    _swatch(sheet, box, RUBBER)
    sheet.hatch_tread(frame(*box))


def _belt_key(sheet: Sheet, box: Box) -> None:
    left, top, right, low = box
    _swatch(sheet, box, PAPER)
    _cords(sheet, (left, right), (top * 2 + low) / 3, (low - top) * 0.26, shift=0.5)
    _cords(sheet, (left, right), (top + low * 2) / 3, (low - top) * 0.26, shift=0.0)


def _ply_key(sheet: Sheet, box: Box) -> None:
    left, top, right, low = box
    _swatch(sheet, box, PAPER)
    third = (low - top) / 3
    sheet.path(pen("M", left, top + third, "H", right, "M", left, low - third, "H", right), width=sheet.hair)


def _liner_key(sheet: Sheet, box: Box) -> None:
    _swatch(sheet, box, RUBBER)
    sheet.hatch_liner(frame(*box))


def _swatch(sheet: Sheet, box: Box, fill: str) -> None:
    left, top, right, low = box
    sheet.box(left, top, right - left, low - top, fill=fill, width=sheet.hair)


# -- the outline


def _shoulder(crown: Crown) -> list[Point]:
    """From the edge of the tread over the right-hand shoulder to the cut through the sidewall, and along it inward."""
    t, half, end = crown.thickness, crown.half, crown.end
    outer, inner = (end, t * 0.8), (crown.flat + 7.0, t + 4.0)
    run, drop = (inner[0] - outer[0]) / 3, (inner[1] - outer[1]) / 3
    bend = ((outer[0] + run - 0.8, outer[1] + drop - 1.0), (outer[0] + 2 * run + 0.8, outer[1] + 2 * drop + 1.0))
    edge = (half, 0.0)
    return [*curve(edge, (half + 3, 0.0), (end - 1, t * 0.3), outer), *curve(outer, *bend, inner)[1:]]


def _cut_edge(sheet: Sheet, x: float, t: float) -> list[Point]:
    """A wavy break from the tread down to the liner."""
    wave = sheet.unit * _WAVE
    return [(x + wave * math.sin(2 * math.pi * i / 12), t * i / 12) for i in range(13)]


def _wave_at(sheet: Sheet, crown: Crown, y: float) -> float:
    return sheet.unit * _WAVE * math.sin(2 * math.pi * y / crown.thickness)


def _outline(sheet: Sheet, crown: Crown) -> list[Point]:
    """All around the rubber in view, clockwise from the left end of the tread."""
    t, depth = crown.thickness, crown.groove_depth
    shoulder = _shoulder(crown)
    points: list[Point] = [(crown.left if crown.is_cut_left else -crown.half, 0.0)]
    for a, b in crown.grooves:
        points += [(a, 0.0), (a + _TAPER, depth), (b - _TAPER, depth), (b, 0.0)]
    points += _cut_edge(sheet, crown.right, t) if crown.is_cut_right else shoulder
    points += list(reversed(_inside(sheet, crown, t)))[1:-1]
    if crown.is_cut_left:
        return [*points, *reversed(_cut_edge(sheet, crown.left, t)[1:])]
    return [*points, *((-x, y) for x, y in reversed(shoulder[1:]))]


# -- the layers


def _depth(crown: Crown, part: float) -> float:
    return crown.groove_depth + (crown.thickness - crown.groove_depth) * part


def _inside(sheet: Sheet, crown: Crown, y: float) -> list[Point]:
    """A line that follows the inside of the casing at a depth under the crown, left to right, as far as the cut."""
    t, flat = crown.thickness, crown.flat
    end = (flat + 7.0 + (t - y) * 0.9, t + 4.0 - (t - y) * 0.45)
    third = ((flat + 10 / 3, y), (flat + 5 + (end[0] - flat - 5) / 3, y + (end[1] - y) / 3))
    turn = curve((flat, y), *third, end)
    wave = _wave_at(sheet, crown, y)
    left = [(crown.left + wave, y)] if crown.is_cut_left else [(-x, there) for x, there in reversed(turn)]
    return [*left, *([(crown.right + wave, y)] if crown.is_cut_right else turn)]


def _belts(sheet: Sheet, crown: Crown) -> None:
    """Each belt as a row of cord ends on white, every other row offset by half a cord."""
    top, low = (_depth(crown, part) for part in _BELTS)
    row = (low - top) / max(crown.belts, 2)
    for i in range(crown.belts):
        y = top + row * (i + 0.5)
        wave, wide = _wave_at(sheet, crown, y), crown.half - 3.0 - 2.5 * i
        left = crown.left + wave if crown.is_cut_left else -wide
        right = crown.right + wave if crown.is_cut_right else wide
        sheet.box(left, y - row * 0.36, right - left, row * 0.72, fill=PAPER, stroke="none")
        _cords(sheet, (left, right), y, row * 0.5, shift=0.5 * (i % 2))


def _cords(sheet: Sheet, ends: tuple[float, float], y: float, dot: float, *, shift: float) -> None:
    """Cord ends as round dots between two ends, counted from the centerline so that a mirrored case is mirrored."""
    pitch = dot * 2.0
    first = math.ceil((ends[0] + dot * 0.6) / pitch - shift) + shift
    last = math.floor((ends[1] - dot * 0.6) / pitch - shift) + shift
    d = pen("M", first * pitch, y, "H", last * pitch + 0.05)
    sheet.path(d, width=dot, dash=f"0.05 {num(pitch - 0.05)}", cap="round")


def _ply(sheet: Sheet, crown: Crown) -> None:
    """The body ply as two long lines on white."""
    top, low = (_depth(crown, part) for part in _PLY)
    for share, width, stroke in ((0.5, low - top, PAPER), (0.3, sheet.hair, LINE), (0.7, sheet.hair, LINE)):
        sheet.path(along(_inside(sheet, crown, top + (low - top) * share)), width=width, stroke=stroke)


def draw_innermost(sheet: Sheet, left: float, right: float) -> None:
    """The innermost belt, the body ply and the liner in a close view, cut off in waves above and at both ends."""
    t = INNERMOST_MM
    count = 2 * round((right - left) / t)
    waves = [
        (left + (right - left) * i / (count * 6), _wave(sheet, i / (count * 6) * count)) for i in range(count * 6 + 1)
    ]
    ends = [[(x + _wave(sheet, i / 12), t * i / 12) for i in range(1, 12)] for x in (left, right)]
    outline = [*waves, *ends[1], (right, t), (left, t), *reversed(ends[0])]
    sheet.path(along(outline) + "Z", fill=RUBBER, stroke="none")
    dot = 0.75
    sheet.box(left, _ROW - dot * 0.72, right - left, dot * 1.44, fill=PAPER, stroke="none")
    _cords(sheet, (left, right), _ROW, dot, shift=0.0)
    top, low = _NEAR_PLY
    sheet.box(left, top, right - left, low - top, fill=PAPER, stroke="none")
    lines = (pen("M", left, top + (low - top) * share, "H", right) for share in (0.3, 0.7))
    sheet.path("".join(lines), width=sheet.hair)
    liner = [(left, _NEAR_LINER), (right, _NEAR_LINER), (right, t), (left, t)]
    sheet.polygon(liner, fill=RUBBER, width=sheet.hair)
    sheet.hatch_liner(liner)
    sheet.polygon(outline)
    sheet.reach(0, t)


def _wave(sheet: Sheet, turns: float) -> float:
    return sheet.unit * _WAVE * math.sin(2 * math.pi * turns)


# -- the channels


def draw_channel(sheet: Sheet, hole: Channel, crown: Crown, *, tail: float | None = None) -> None:
    """The channel as an empty parallelogram with its two walls and its axis; what is not through is a notch.

    `tail`: how far below the liner the axis is run on, far enough for the label of its lean if None.
    """
    t = crown.thickness
    if not hole.is_through:
        deep = t * (0.62 if hole.injury.reaches == "cord" else 0.3)
        left, right = hole.at - hole.half, hole.at + hole.half
        sheet.polygon([(left, -0.4), (right, -0.4), (hole.at, deep)], fill=PAPER, stroke="none")
        sheet.polyline([(left, 0), (hole.at, deep), (right, 0)])
        sheet.keep_clear((left, 0, hole.at, deep), (hole.at, deep, right, 0))
        return
    slope = (hole.exit - hole.at) / t
    a, b = hole.at - hole.half, hole.at + hole.half
    c, d = hole.exit - hole.half, hole.exit + hole.half
    sheet.polygon([(a, 0), (b, 0), (d, t), (c, t)], fill=PAPER, stroke="none")
    lips = pen("M", a, 0, "H", b, "M", c, t, "H", d)
    sheet.path(lips, stroke=PAPER, width=sheet.line * 2)
    walls = "".join(
        pen("M", top + slope * start, start, "L", low, t)
        for top, low in ((a, c), (b, d))
        for start in [_wall_start(top, slope, crown)]
    )
    sheet.path(walls, dash="" if hole.is_seen_whole or hole.injury.azimuth is not None else sheet.dashes)
    tail = axis_tail(sheet, hole) if tail is None else tail
    head = sheet.size * 0.4
    axis = (hole.at - slope * head, -head, hole.exit + slope * tail, t + tail)
    sheet.path(pen("M", axis[:2], "L", axis[2:]), width=sheet.hair, dash=sheet.chain)
    sheet.keep_clear(axis, (a, 0, c, t), (b, 0, d, t))


def axis_tail(sheet: Sheet, hole: Channel) -> float:
    """How far below the liner the axis is run on, so that its length stays about the same for every lean."""
    return sheet.size * min(2.9, 3.6 * math.cos(math.radians(hole.lean_deg)))


def _wall_start(x: float, slope: float, crown: Crown) -> float:
    """The depth at which a wall of the channel meets rubber: below the floor where it enters through a groove."""
    for a, b in crown.grooves:
        if a < x < b and a <= x + slope * crown.groove_depth <= b:
            return crown.groove_depth
    return 0.0


def openings(holes: Sequence[Channel]) -> Iterator[tuple[float, float]]:
    """Where each channel comes out on the liner, from edge to edge."""
    for hole in holes:
        if hole.is_through:
            yield hole.exit - hole.half, hole.exit + hole.half
