"""Gauges that must be read: a dial tread gauge, a caliper, a tapered probe and a probe in a protractor.

Graduations stand to scale and the pointer, jaw or mark stands exactly at the reading. The reading itself is printed
nowhere: the description counts marks from the nearest number, as the eye does.
"""

from __future__ import annotations

import math
from fractions import Fraction

from training.drawings.caliper import caliper
from training.drawings.ink import LINE, PAPER, RUBBER, STEEL, Figure, Sheet
from training.drawings.path import along, frame, pen
from training.drawings.scales import (
    DEGREE,
    INCH,
    INCH_32,
    INCH_64,
    MM_HALF,
    MM_TENTH,
    TAPER_32,
    TAPER_HALF,
    every,
    is_in_inches,
    on_mark,
    stand,
)
from training.rulebook import Quantity
from training.trade.lists import one_of
from training.trade.speech import say, say_many

KINDS = ("tread-gauge", "caliper", "probe")


def gauge(kind: str, reading: Quantity) -> Figure:
    """The gauge of a kind, standing at a reading.

    Args:
        kind: one of KINDS; a "probe" measures a diameter as a taper, or an angle in a protractor.
        reading: a length, or an angle for the probe; the scale is in the unit it was taken in.

    Raises:
        ValueError: for another kind, or a reading the gauge cannot take.
    """
    if kind not in KINDS:
        raise ValueError(f'kind: "{kind}" is not accepted; choose {one_of(KINDS)}')
    if reading.value < 0:
        raise ValueError(f'reading: "{reading.text}" is not accepted; a gauge reads 0 or more')
    if kind == "probe" and reading.dimension == "angle":
        return _protractor(reading)
    if reading.dimension != "length":
        raise ValueError(f'reading: "{reading.text}" is not accepted; a {kind} reads a length')
    if kind == "tread-gauge":
        return _dial(reading)
    return caliper(reading) if kind == "caliper" else _taper(reading)


def _dial(reading: Quantity) -> Figure:
    """A tread gauge with a round dial; its pin stands in a groove between two tread blocks."""
    if is_in_inches(reading):
        scale, turn = on_mark(reading.value, INCH_32, INCH_64), INCH * 24 / 32
    else:
        scale, turn = on_mark(reading.value, MM_HALF, MM_TENTH), Fraction(16)
    if reading.value >= turn:
        turn = turn * 2
        scale = INCH_32 if is_in_inches(reading) else MM_HALF
    sheet = Sheet(-62, 62)
    radius, back = 40.0, 9.0
    _blocks(sheet, top=72.0, depth=15.0)
    sheet.polygon(frame(-1.3, 56, 1.3, 87), fill=STEEL, width=sheet.hair)  # the pin
    sheet.polygon(frame(-27, 66, 27, 72), fill=STEEL)  # the foot, flat on both blocks
    sheet.polygon([(-6, 50), (6, 50), (6, 62), (9, 66), (-9, 66), (-6, 62)], fill=STEEL)
    sheet.box(-5, -68, 10, 13, fill=STEEL, corner=1.5)  # the knob that pushes the pin down
    sheet.path("".join(pen("M", x, -66, "V", -59) for x in (-2.5, 0.0, 2.5)), width=sheet.hair)
    sheet.circle(0, 0, 58, fill=STEEL, width=sheet.line * 1.2)
    sheet.circle(0, 0, 52.5, fill=PAPER)
    count = int(turn / scale.mark)
    marks = {3.2: "", 5.0: "", 7.0: ""}  # by their length
    for i in range(count):
        is_numbered = i % scale.number == 0
        length = 7.0 if is_numbered else 5.0 if i % scale.longer == 0 else 3.2
        c, s = _clock(i / count)
        marks[length] += pen("M", radius * c, radius * s, "L", (radius - length) * c, (radius - length) * s)
        if is_numbered:
            sheet.text(46.2 * c, 46.2 * s + sheet.size * 0.35, scale.text(i))
    for length, d in marks.items():
        sheet.path(d, width=sheet.line if length == 7.0 else sheet.hair)
    c, s = _clock(float(reading.value / turn))
    # the caption keeps to the half of the dial the pointer leaves free
    sheet.text(0, 20.0 if s < 0 else -16.0, scale.caption)
    tail = [(-back * c - side * 1.9 * s, -back * s + side * 1.9 * c) for side in (1, -1)]
    sheet.polygon([(radius * c, radius * s), *tail], fill=LINE, width=sheet.hair)
    sheet.circle(0, 0, 3.2, fill=PAPER)
    sheet.reach(-69, 96)
    told = (
        say("A dial tread gauge with its pin in a groove."),
        every(scale),
        stand(reading.value, scale, say("The pointer")),
    )
    words = " ".join(told)
    return Figure(sheet.svg(words), words, None)


def _clock(part: float) -> tuple[float, float]:
    """Where a part of a turn, clockwise from the top, points on a unit circle with y downward."""
    angle = 2 * math.pi * part
    return math.sin(angle), -math.cos(angle)


def _blocks(sheet: Sheet, *, top: float, depth: float) -> None:
    """Two tread blocks and the groove between them, cut off below by a break line."""
    floor = top + depth
    low = floor + 8
    corners = [(-44.0, top), (-9.0, top), (-7.5, floor), (7.5, floor), (9.0, top), (44.0, top)]
    wave = [(x, low + 1.6 * math.sin(x / 7)) for x in range(44, -45, -4)]
    outline = [*corners, *wave]
    sheet.path(along(outline) + "Z", fill=RUBBER)
    sheet.hatch_tread(outline)


def _taper(reading: Quantity) -> Figure:
    """A tapered probe pushed into a hole until it fits: the tread's surface cuts its graduation at the diameter."""
    value = reading.value
    if is_in_inches(reading):
        scale, span = on_mark(value, TAPER_32, INCH_64), INCH / 4
        lowest, highest = INCH / 16, INCH * 5 / 8
    else:
        scale, span = on_mark(value, TAPER_HALF, MM_TENTH), Fraction(7)
        lowest, highest = Fraction(1), Fraction(16)
    if not lowest <= value <= highest:
        raise ValueError(
            f'reading: "{reading.text}" is not accepted; the probe reads from {float(lowest):g} to '
            f"{float(highest):g} mm"
        )
    numbered = scale.mark * scale.number
    low = max(math.floor((value - span * 2 / 5) / numbered) * numbered, numbered)  # the reading keeps off both ends
    high = low + span
    rise = 76.0 / float(span)  # user units of probe length a millimeter of diameter
    wide = 2.0  # user units a millimeter across, so that the taper shows
    sheet = Sheet(-48, 48)
    top, ground = -float(high - value) * rise, float(value - low) * rise
    half_top, half_low = float(high) * wide / 2, float(low) * wide / 2
    half = float(value) * wide / 2
    depth = ground + 6
    for side in (-1, 1):
        block = frame(side * half, 0, side * 46, depth)
        sheet.polygon(block, fill=RUBBER, stroke="none")
        sheet.hatch_tread(block)
        sheet.path(pen("M", side * half, depth, "V", 0, "H", side * 46))
        sheet.path(pen("M", side * 46, 0, "V", depth, "H", side * half), width=sheet.hair, dash=sheet.dashes)
    tip = [(half_low, ground), (0.0, ground + 4), (-half_low, ground)]
    sheet.polygon([(-half_top, top), (half_top, top), *tip], fill=PAPER)
    grip = half_top + 3
    sheet.box(-half_top - 1, top - 3, half_top * 2 + 2, 3, fill=STEEL)
    sheet.box(-grip, top - 20, grip * 2, 17, fill=STEEL, corner=2)
    ribs = "".join(pen("M", x * grip / 4, top - 18, "V", top - 5) for x in range(-3, 4))
    sheet.path(ribs, width=sheet.hair)
    fine = bold = ""
    counted = last = int(high / scale.mark)
    for i in range(int(low / scale.mark), last + 1):
        y, here = -float(i * scale.mark - value) * rise, float(i * scale.mark) * wide / 2
        if i % scale.number:
            fine += pen("M", -here, y, "H", here)
            continue
        bold += pen("M", -here, y, "H", here)
        if y < -sheet.size * 0.6:
            counted = min(counted, i)
            sheet.text(half_top + 6, y + sheet.size * 0.35, scale.text(i), anchor="start")
            fine += pen("M", here, y, "H", half_top + 5)
    sheet.path(fine, width=sheet.hair)
    sheet.path(bold, width=sheet.line)
    sheet.reach(top - 21, depth + 4)
    sheet.text(half_top + 6, top - 20 + 8.5 + sheet.size * 0.35, scale.caption, anchor="start")
    told = (
        say("A tapered probe pushed into a hole until it fits, its thick end up."),
        every(scale),
        _below(counted - value / scale.mark, scale.text(counted)),
    )
    words = " ".join(told)
    return Figure(sheet.svg(words), words, None)


def _below(marks: Fraction, number: str) -> str:
    """A sentence: how many marks under a printed number the tread cuts the probe, for someone counting down."""
    whole = marks.numerator // marks.denominator
    if marks == whole:
        return say_many(
            "The surface of the tread cuts it {count} mark below the number {number}.",
            "The surface of the tread cuts it {count} marks below the number {number}.",
            whole,
            number=number,
        )
    return say(
        "The surface of the tread cuts it between the marks {upper} and {lower} below the number {number}.",
        upper=whole,
        lower=whole + 1,
        number=number,
    )


def _protractor(reading: Quantity) -> Figure:
    """A probe standing in the hole, read on a protractor set on the tread; 0 is the perpendicular."""
    value = reading.value
    if value > 60:
        raise ValueError(f'reading: "{reading.text}" is not accepted; the protractor reads up to 60 deg')
    sheet = Sheet(-78, 78)
    radius = 80.0
    fine = bold = ""
    for i in range(-60, 61):
        c, s = _clock(i / 360)
        length = 3.5 if i % 5 else 6.0 if i % 10 else 8.0
        mark = pen("M", radius * c, radius * s, "L", (radius - length) * c, (radius - length) * s)
        if i % 10:
            fine += mark
        else:
            bold += mark
            sheet.text((radius + 6) * c, (radius + 6) * s + sheet.size * 0.35, str(abs(i)))
    x, y = math.sin(math.radians(64)), -math.cos(math.radians(64))
    inner = 58.0
    outer = pen("M", -radius * x, radius * y, "A", radius, radius, 0, 0, 1, radius * x, radius * y)
    sheet.path(outer + pen("L", inner * x, inner * y, "A", inner, inner, 0, 0, 0, -inner * x, inner * y, "Z"),
               fill=PAPER)  # fmt: skip
    for side in (-1, 1):  # the legs from the base to the arc, on either side of the hole
        on_arc = [(side * r * x, r * y) for r in (inner + 9, inner)]
        sheet.polygon([(side * 34, -7), (side * 46, -7), *on_arc], fill=STEEL)
        sheet.polygon(frame(side * 20, -7, side * 76, 0), fill=STEEL)
    sheet.path(fine, width=sheet.hair)
    sheet.path(bold, width=sheet.line)
    sheet.rule(0, 0, 0, -radius + 10, dash=sheet.chain)
    ground = frame(-76, 0, 76, 15)
    sheet.polygon(ground, fill=RUBBER, stroke="none")
    sheet.hatch_tread(ground)
    sheet.path("M-76 0H76")
    c, s = _clock(float(value) / 360)
    # the probe runs on into the rubber along the channel
    tip, foot, half = radius - 2.5, -15.0 / s, 3.0 / -s
    over = -foot * c
    sheet.polygon([(-half, 0), (half, 0), (over + half, 15), (over - half, 15)], fill=PAPER, stroke="none")
    sheet.path(pen("M", -half, 0, "H", half), stroke=PAPER, width=sheet.line * 1.2)
    sheet.path(pen("M", -half, 0, "L", over - half, 15, "M", half, 0, "L", over + half, 15))
    sheet.path(pen("M", tip * c, tip * s, "L", over, 15), width=sheet.line * 1.7)
    sheet.reach(-radius - 13, 16)
    told = (
        say("A probe standing in the hole, a protractor set on the tread with 0 at the perpendicular."),
        every(DEGREE),
        stand(value, DEGREE, say("The probe")),
    )
    words = " ".join(told)
    return Figure(sheet.svg(words), words, None)
