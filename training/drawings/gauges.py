"""Gauges that must be read: a dial tread gauge, a caliper, a tapered probe and a probe in a protractor.

Graduations stand to scale and the pointer, jaw or mark stands exactly at the reading. The reading itself is printed
nowhere: the description counts marks from the nearest number, as the eye does.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from fractions import Fraction

from training.drawings.ink import PAPER, RUBBER, Figure, Sheet, num
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


def gauge(kind: str, reading: Quantity, *, prefer: str = "in") -> Figure:
    """The gauge of a kind, standing at a reading.

    Args:
        kind: one of KINDS; a "probe" measures a diameter as a taper, or an angle in a protractor.
        reading: a length, or an angle for the probe; it decides the scale (inches or millimeters).
        prefer: accepted for the common signature; a gauge has the scale its reading was taken in.

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
    return f"A mark is {scale.words}; a number stands at every {_ORDINALS[scale.number]} mark."


_ORDINALS = {1: "", 2: "2nd", 4: "4th", 5: "5th", 8: "8th", 10: "10th", 16: "16th"}


def _on_mark(value: Fraction, *scales: Scale) -> Scale:
    """The coarsest of the scales on which the value falls on a mark; else the finest."""
    for scale in scales:
        if (value / scale.mark).denominator == 1:
            return scale
    return scales[-1]


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
    radius = 40.0
    _blocks(sheet, top=62.0, depth=15.0)
    sheet.polygon([(-1.3, 46), (1.3, 46), (1.3, 77), (-1.3, 77)], fill=PAPER, width=sheet.hair)
    sheet.polygon([(-20, 55), (20, 55), (20, 62), (-20, 62)], fill=PAPER)
    sheet.polygon([(-5, 40), (5, 40), (5, 55), (-5, 55)], fill=PAPER)
    sheet.circle(0, 0, 55, fill=PAPER, width=sheet.line * 1.3)
    count = int(turn / scale.mark)
    short: list[str] = []
    middle: list[str] = []
    long: list[str] = []
    for i in range(count):
        kind = long if i % scale.number == 0 else middle if i % scale.longer == 0 else short
        length = 7.0 if kind is long else 5.0 if kind is middle else 3.2
        c, s = _clock(i / count)
        kind.append(f"M{num(radius * c)} {num(radius * s)}L{num((radius - length) * c)} {num((radius - length) * s)}")
        if kind is long:
            sheet.text(46.6 * c, 46.6 * s + sheet.size * 0.35, scale.text(i))
    sheet.path("".join(short), width=sheet.hair)
    sheet.path("".join(middle), width=sheet.hair)
    sheet.path("".join(long), width=sheet.line)
    part = float(reading.value / turn)
    c, s = _clock(part)
    # the caption keeps to the half of the dial the pointer leaves free
    sheet.text(0, 20.0 if s < 0 else -16.0, scale.caption)
    back = 9.0
    sheet.polygon(
        [
            (radius * c, radius * s),
            (-back * c - 1.9 * s, -back * s + 1.9 * c),
            (-back * c + 1.9 * s, -back * s - 1.9 * c),
        ],
        fill="#211f1d",
        width=sheet.hair,
    )
    sheet.circle(0, 0, 3.2, fill=PAPER)
    sheet.reach(-56, 86)
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
    low = top + depth
    sheet.path(
        f"M-44 {num(low + 8)}V{num(top)}H-9L-7.5 {num(low)}H7.5L9 {num(top)}H44V{num(low + 8)}"
        f"Q33 {num(low + 10.5)} 22 {num(low + 8)}T0 {num(low + 8)}T-22 {num(low + 8)}T-44 {num(low + 8)}Z",
        fill=RUBBER,
    )


def _ruled(sheet: Sheet, scale: Scale, marks: int, *, step: float, y: float, down: float, x0: float = 0.0) -> None:
    """A straight graduation along x from x0; `down` is 1 for marks hanging from y, -1 for marks standing on it."""
    d: dict[bool, list[str]] = {False: [], True: []}
    for i in range(marks + 1):
        long = i % scale.number == 0
        length = 7.5 if long else 5.5 if i % scale.longer == 0 else 3.6
        d[long].append(f"M{num(x0 + i * step)} {num(y)}v{num(down * length)}")
        if long:
            at = y + down * 9.2 + (sheet.size * 0.74 if down > 0 else 0)
            sheet.text(x0 + i * step, at, scale.text(i))
    sheet.path("".join(d[False]), width=sheet.hair)
    sheet.path("".join(d[True]), width=sheet.line)


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
    sheet = Sheet(-22, 130)
    sheet.reach(-43, 40)
    at = float(value) * k
    marks = int(beam / scale.mark)
    # the plate with the hole, cut open
    edge = max(at + 14, 30.0)
    sheet.polygon([(-20, -43), (0, -43), (0, -24), (-20, -24)], fill=RUBBER)
    sheet.polygon([(at, -43), (edge + 10, -43), (edge + 10, -24), (at, -24)], fill=RUBBER)
    for points in (
        [(-20, -43), (0, -43), (0, -24), (-20, -24)],
        [(at, -43), (edge + 10, -43), (edge + 10, -24), (at, -24)],
    ):
        sheet.hatch(points, step=4)
    # beam, fixed jaw, slider and its jaw; the right jaw is drawn first, so that the tips cross as they do closed
    sheet.box(-20, -6, 148, 24, fill=PAPER)
    reach = min(9.0, max(at, 2.0))
    sheet.polygon([(at, -36), (at, -6), (at + 16, -6), (at + 16, -14), (at - reach * 0.45, -14)], fill=PAPER)
    sheet.polygon([(0, -36), (0, -6), (-16, -6), (-16, -14), (min(reach * 0.45, at), -14)], fill=PAPER)
    _ruled(sheet, scale, marks, step=float(scale.mark) * k, y=18, down=-1)
    sheet.box(
        at - 5 if not vernier else at - 7, 18, 10 if not vernier else 9 * k + 14, 17 if vernier else 13, fill=PAPER
    )
    sheet.polygon([(at, -6), (at + 16, -6), (at + 16, -9), (at, -9)], fill=PAPER, width=sheet.hair)
    if vernier:
        fine = []
        for i in range(11):
            fine.append(f"M{num(at + i * k * 0.9)} 18v{num(6.5 if i % 5 == 0 else 4.2)}")
            if i % 5 == 0:
                sheet.text(at + i * k * 0.9, 26 + sheet.size * 0.72, str(i))
        sheet.path("".join(fine), width=sheet.hair)
    else:
        sheet.path(f"M{num(at)} 18v13", width=sheet.line)
        sheet.path(f"M{num(at)} 18l-2.4 5h4.8Z", fill="#211f1d", width=sheet.hair)
    sheet.label([(127, 31, "end"), (-20, 31, "start")], scale.caption)
    words = "A caliper with its inside jaws spread in a hole. "
    if vernier:
        line = int(value * 10) % 10
        whole = int(value)
        words += (
            f"A mark on the beam is one millimeter, with a number at every 5th. The zero of the small scale stands "
            f"between the mark {_counted(whole, 5)} and the next; of the ten marks of the small scale, mark {line} "
            f"lines up with a mark on the beam."
        )
    else:
        words += f"{_every(scale)} {_stand(value, scale, 'The index of the slider')}."
    return Figure(sheet.svg(words), words, 1 / k)


def _counted(marks: int, number: int) -> str:
    past = marks % number
    return f"{past} past the number {marks - past}" if past else f"with the number {marks}"


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
        block = [(side * half, 0.0), (side * 46, 0.0), (side * 46, depth), (side * half, depth)]
        sheet.polygon(block, fill=RUBBER, stroke="none")
        sheet.path(f"M{num(side * half)} {num(depth)}V0H{num(side * 46)}")
        sheet.path(f"M{num(side * 46)} 0V{num(depth)}H{num(side * half)}", width=sheet.hair, dash=sheet.dashes)
    sheet.polygon(
        [(-half_top, top), (half_top, top), (half_low, ground), (0, ground + 4), (-half_low, ground)], fill=PAPER
    )
    sheet.box(-half_top - 3, top - 13, half_top * 2 + 6, 13, fill=PAPER, corner=2)
    first = int(low / scale.mark)
    last = int(high / scale.mark)
    fine: list[str] = []
    bold: list[str] = []
    counted = last
    for i in range(first, last + 1):
        at = i * scale.mark
        y = -float(at - value) * rise
        here = float(at) * wide / 2
        long = i % scale.number == 0
        reach = 6.0 if long else 3.0
        (bold if long else fine).append(f"M{num(-here)} {num(y)}H{num(here)}")
        if long and y < -sheet.size * 0.6:
            counted = min(counted, i)
            sheet.text(half_top + 6, y + sheet.size * 0.35, scale.text(i), anchor="start")
            fine.append(f"M{num(here)} {num(y)}H{num(half_top + reach - 1)}")
    sheet.path("".join(fine), width=sheet.hair)
    sheet.path("".join(bold), width=sheet.line)
    sheet.reach(top - 14, depth + 4)
    sheet.text(half_top + 6, top - 13 + 6.5 + sheet.size * 0.35, scale.caption, anchor="start")
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
    scale = _DEGREE
    sheet = Sheet(-78, 78)
    radius = 80.0
    fine: list[str] = []
    bold: list[str] = []
    for i in range(-60, 61):
        c, s = math.sin(math.radians(i)), -math.cos(math.radians(i))
        long = i % 10 == 0
        length = 8.0 if long else 6.0 if i % 5 == 0 else 3.5
        (bold if long else fine).append(
            f"M{num(radius * c)} {num(radius * s)}L{num((radius - length) * c)} {num((radius - length) * s)}"
        )
        if (long and i % 20 == 0) or abs(i) in (10, 30, 50):
            sheet.text((radius + 6) * c, (radius + 6) * s + sheet.size * 0.35, str(abs(i)))
    end = (radius * math.sin(math.radians(60)), -radius * math.cos(math.radians(60)))
    sheet.path(
        f"M0 0L{num(-end[0])} {num(end[1])}A{num(radius)} {num(radius)} 0 0 1 {num(end[0])} {num(end[1])}Z", fill=PAPER
    )
    sheet.path("".join(fine), width=sheet.hair)
    sheet.path("".join(bold), width=sheet.line)
    sheet.rule(0, 0, 0, -radius + 10, dash=sheet.chain)
    sheet.polygon([(-76, 0), (76, 0), (76, 15), (-76, 15)], fill=RUBBER, stroke="none")
    sheet.path("M-76 0H76")
    lean = float(value)
    c, s = math.sin(math.radians(lean)), -math.cos(math.radians(lean))
    # the probe runs on into the rubber along the channel
    tip, foot = radius - 2.5, -15.0 / s
    sheet.path(f"M{num(tip * c)} {num(tip * s)}L{num(-foot * c)} 15", width=sheet.line * 1.5)
    sheet.reach(-radius - 13, 16)
    words = (
        "A probe standing in the hole, a protractor set on the tread with 0 at the perpendicular. "
        f"{_every(scale)} {_stand(value, scale, 'The probe')}."
    )
    return Figure(sheet.svg(words), words, None)
