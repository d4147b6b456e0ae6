"""Gauges that must be read: a dial tread gauge, a caliper, a tapered probe and a probe in a protractor.

Graduations stand to scale and the pointer, jaw or mark stands exactly at the reading. The reading itself is printed
nowhere: the description counts marks from the nearest number, as the eye does.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from fractions import Fraction

from training.drawings.ink import LINE, PAPER, RUBBER, STEEL, Figure, Sheet, along, frame, pen
from training.rulebook import Quantity
from training.trade.lists import one_of

KINDS = ("tread-gauge", "caliper", "probe")
_IN = Fraction(254, 10)  # mm, exact by definition


@dataclass(frozen=True, slots=True)
class Scale:
    """One graduated scale: what a mark is worth, how often a longer mark and a number stand, and their unit."""

    mark: Fraction  # in the base unit: mm, or degrees
    longer: int  # every so many marks a longer one
    number: int  # every so many marks a number
    each: Fraction  # what the printed number counts, in the base unit
    caption: str  # printed once beside the scale
    words: str  # "one millimeter": what a mark is worth, in words

    def text(self, marks: int) -> str:
        value = marks * self.mark / self.each
        return str(value.numerator) if value.denominator == 1 else f"{value.numerator}/{value.denominator}"


_INCH_32 = Scale(_IN / 32, 2, 4, _IN / 32, "32nds of an inch", "one 32nd of an inch")
_INCH_64 = Scale(_IN / 64, 2, 8, _IN / 32, "32nds of an inch", "one 64th of an inch")
_TAPER_32 = Scale(_IN / 32, 2, 2, _IN / 32, "32nds of an inch", "one 32nd of an inch")
_TAPER_HALF = Scale(Fraction(1, 2), 2, 2, Fraction(1), "mm", "half a millimeter")
_MM_HALF = Scale(Fraction(1, 2), 2, 4, Fraction(1), "mm", "half a millimeter")
_MM_TENTH = Scale(Fraction(1, 10), 5, 10, Fraction(1), "mm", "a tenth of a millimeter")
_MM_WHOLE = Scale(Fraction(1), 5, 10, Fraction(1), "mm", "one millimeter")
_INCH_16 = Scale(_IN / 16, 4, 16, _IN, "in", "one 16th of an inch")
_DEGREE = Scale(Fraction(1), 5, 10, Fraction(1), "deg", "one degree")


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
    return _caliper(reading) if kind == "caliper" else _taper(reading)


def _inches(reading: Quantity) -> bool:
    return reading.unit.strip().startswith("in")


def _stand(value: Fraction, scale: Scale, what: str) -> str:
    """Where a pointer stands, in the words of someone counting marks from a printed number."""
    marks = value / scale.mark
    whole = marks.numerator // marks.denominator
    number = whole // scale.number * scale.number
    past = whole - number
    marked = scale.text(number)
    count = f"{past} mark{'' if past == 1 else 's'} past the number {marked}"
    if marks == whole:
        return f"{what} stands on the number {marked}" if past == 0 else f"{what} stands {count}"
    start = f"the number {marked}" if past == 0 else f"the mark {count}"
    return f"{what} stands between {start} and the next mark"


def _every(scale: Scale) -> str:
    ordinal = f"{scale.number}{'nd' if scale.number == 2 else 'th'}"
    return f"A mark is {scale.words}; a number stands at every {ordinal} mark."


def _on_mark(value: Fraction, *scales: Scale) -> Scale:
    """The coarsest of the scales on which the value falls on a mark; else the finest."""
    return next((scale for scale in scales if (value / scale.mark).denominator == 1), scales[-1])


def _dial(reading: Quantity) -> Figure:
    """A tread gauge with a round dial; its pin stands in a groove between two tread blocks."""
    if _inches(reading):
        scale, turn = _on_mark(reading.value, _INCH_32, _INCH_64), _IN * 24 / 32
    else:
        scale, turn = _on_mark(reading.value, _MM_HALF, _MM_TENTH), Fraction(16)
    if reading.value >= turn:
        turn = turn * 2
        scale = _INCH_32 if _inches(reading) else _MM_HALF
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
    words = (
        f"A dial tread gauge with its pin in a groove. {_every(scale)} {_stand(reading.value, scale, 'The pointer')}."
    )
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


def _ruled(sheet: Sheet, scale: Scale, marks: int, *, step: float, y: float) -> None:
    """A straight graduation along x, its marks standing on y."""
    fine = bold = ""
    for i in range(marks + 1):
        if i % scale.number == 0:
            bold += pen("M", i * step, y, "v", -7.5)
            sheet.text(i * step, y - 9.2, scale.text(i))
        else:
            fine += pen("M", i * step, y, "v", -5.5 if i % scale.longer == 0 else -3.6)
    sheet.path(fine, width=sheet.hair)
    sheet.path(bold, width=sheet.line)


def _caliper(reading: Quantity) -> Figure:
    """A sliding caliper, its inside jaws spread in a hole; jaws and scale share one enlargement."""
    value = reading.value
    if value > 150:
        raise ValueError(f'reading: "{reading.text}" is not accepted; the caliper reads up to 150 mm')
    vernier = False
    if _inches(reading):
        small = value <= _IN / 2
        scale = _on_mark(value, _INCH_32, _INCH_64) if small else _INCH_16
        span = _IN * Fraction(9, 16) if small else _IN * (value / _IN).__ceil__()
    else:
        small = value <= 14
        scale = _MM_HALF if small else _MM_WHOLE
        vernier = small and (value / scale.mark).denominator != 1 and (value * 10).denominator == 1
        if vernier:
            scale = Scale(Fraction(1), 5, 5, Fraction(1), "mm", "one millimeter")
        span = Fraction(15) if small else Fraction(math.ceil(value / 10) * 10)
    length = 112.0
    beam = span + (9 if vernier else 0)
    k = length / float(beam)
    sheet = Sheet(-30, 130)
    at = float(value) * k
    _hole_cut_open(sheet, at)
    _beam(sheet)
    _slider(sheet, at, wide=9 * k + 7 if vernier else 26.0)
    _fixed_jaws(sheet, at)
    _ruled(sheet, scale, int(beam / scale.mark), step=float(scale.mark) * k, y=18)
    if vernier:
        fine = ""
        for i in range(11):
            fine += pen("M", at + i * k * 0.9, 18, "v", 6.0 if i % 5 == 0 else 4.0)
            if i % 5 == 0:
                sheet.text(at + i * k * 0.9, 24.6 + sheet.size * 0.72, str(i))
        sheet.path(fine, width=sheet.hair)
    else:
        sheet.path(pen("M", at, 18, "v", 13), width=sheet.line)
        sheet.path(pen("M", at, 18, "l", -2.4, 5, "h", 4.8, "Z"), fill=LINE, width=sheet.hair)
    sheet.reach(-46, 62)
    sheet.label([(128, 30, "end"), (3, 30, "start"), (128, 45, "end")], scale.caption)
    words = "A caliper with its inside jaws spread in a hole. "
    if vernier:
        past = int(value) % 5
        number = int(value) - past
        words += (
            "A mark on the beam is one millimeter, with a number at every 5th. The zero of the small scale stands "
            f"between the mark {f'{past} past' if past else 'with'} the number {number} and the next; "
            f"of the ten marks of the small scale, mark {int(value * 10) % 10} lines up with a mark on the beam."
        )
    else:
        words += f"{_every(scale)} {_stand(value, scale, 'The index of the slider')}."
    return Figure(sheet.svg(words), words, 1 / k)


def _hole_cut_open(sheet: Sheet, at: float) -> None:
    """The rubber on both sides of a hole, from 0 to `at`, over the caliper."""
    for part in (frame(-28, -46, 0, -27), frame(at, -46, min(at + 30, 128), -27)):
        sheet.polygon(part, fill=RUBBER)
        sheet.hatch_tread(part)


def _beam(sheet: Sheet) -> None:
    """The beam that carries the scale, its end cut off."""
    end, wave = 128.0, 1.2
    cut = ("C", end - wave, 10, end + wave, 2, end, -6)
    sheet.path(pen("M", -28, -6, "V", 18, "H", end, *cut, "Z"), fill=PAPER)


def _slider(sheet: Sheet, at: float, *, wide: float) -> None:
    """The slider above and below the scale, with its inside and outside jaws, lock screw and thumb grip."""
    near, far = max(at - 6, 0.7), min(at + wide, 128.0)
    bar = min(at + 30, 128.0)
    blade = min(4.0, at * 0.45)
    above = [(at, -41), (at, -17), (at + 6, -13), (bar, -13), (bar, -6), (near, -6), (near, -13), (at - blade, -15)]
    sheet.polygon(above, fill=STEEL)
    below = [(near, 18), (far, 18), (far, 33), (at + 14, 33), (at + 6, 60), (at, 60), (at, 33), (near, 33)]
    sheet.polygon(below, fill=STEEL)
    sheet.box(at + 14, -18, 8, 5, fill=STEEL, width=sheet.hair)
    grip = at + 15
    sheet.box(grip, 33, 10, 4.5, fill=STEEL, width=sheet.hair)
    sheet.path("".join(pen("M", grip + x, 34.2, "v", 2.6) for x in (2.0, 4.0, 6.0, 8.0)), width=sheet.hair)
    sheet.boxes += [(near, 18, far, 38), (at, 33, at + 14, 60)]


def _fixed_jaws(sheet: Sheet, at: float) -> None:
    """The head of the beam with its inside jaw and its outside jaw."""
    blade = min(4.0, at * 0.45)
    sheet.polygon([(0, -41), (0, -17), (-8, -13), (-28, -13), (-28, -6), (blade, -6), (blade, -15)], fill=STEEL)
    sheet.polygon([(-28, 18), (0, 18), (0, 60), (-6, 60), (-16, 33), (-28, 33)], fill=STEEL)
    sheet.boxes.append((-28, 18, 0, 60))


def _taper(reading: Quantity) -> Figure:
    """A tapered probe pushed into a hole until it fits: the tread's surface cuts its graduation at the diameter."""
    value = reading.value
    if _inches(reading):
        scale, span = _on_mark(value, _TAPER_32, _INCH_64), _IN / 4
        lowest, highest = _IN / 16, _IN * 5 / 8
    else:
        scale, span = _on_mark(value, _TAPER_HALF, _MM_TENTH), Fraction(7)
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
    words = (
        "A tapered probe pushed into a hole until it fits, its thick end up. "
        f"{_every(scale)} The surface of the tread {_below(counted - value / scale.mark, scale.text(counted))}."
    )
    return Figure(sheet.svg(words), words, None)


def _below(marks: Fraction, number: str) -> str:
    """How many marks under a printed number, in the words of someone counting down."""
    whole = marks.numerator // marks.denominator
    if marks == whole:
        return f"cuts it {whole} mark{'' if whole == 1 else 's'} below the number {number}"
    return f"cuts it between the marks {whole} and {whole + 1} below the number {number}"


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
    words = (
        "A probe standing in the hole, a protractor set on the tread with 0 at the perpendicular. "
        f"{_every(_DEGREE)} {_stand(value, _DEGREE, 'The probe')}."
    )
    return Figure(sheet.svg(words), words, None)
