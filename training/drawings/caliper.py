"""A sliding caliper with its inside jaws in a hole: beam, slider, both pairs of jaws, and the scale to read."""

from __future__ import annotations

import math
from fractions import Fraction

from training.drawings.ink import LINE, PAPER, RUBBER, STEEL, Figure, Sheet
from training.drawings.path import frame, pen
from training.drawings.scales import (
    INCH,
    INCH_16,
    INCH_32,
    INCH_64,
    MM_HALF,
    MM_WHOLE,
    Scale,
    every,
    is_in_inches,
    on_mark,
    stand,
)
from training.rulebook import Quantity
from training.trade.speech import say, saying


def caliper(reading: Quantity) -> Figure:
    """A sliding caliper, its inside jaws spread in a hole; jaws and scale share one enlargement."""
    value = reading.value
    if value > 150:
        raise ValueError(f'reading: "{reading.text}" is not accepted; the caliper reads up to 150 mm')
    vernier = False
    if is_in_inches(reading):
        small = value <= INCH / 2
        scale = on_mark(value, INCH_32, INCH_64) if small else INCH_16
        span = INCH * Fraction(9, 16) if small else INCH * (value / INCH).__ceil__()
    else:
        small = value <= 14
        scale = MM_HALF if small else MM_WHOLE
        vernier = small and (value / scale.mark).denominator != 1 and (value * 10).denominator == 1
        if vernier:
            scale = Scale(Fraction(1), 5, 5, Fraction(1), "mm", saying("one millimeter"))
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
    told = [say("A caliper with its inside jaws spread in a hole.")]
    if vernier:
        told += _vernier_words(value)
    else:
        told += [every(scale), stand(value, scale, say("The index of the slider"))]
    words = " ".join(told)
    return Figure(sheet.svg(words), words, 1 / k)


def _vernier_words(value: Fraction) -> list[str]:
    """Sentences: where the zero of the small scale stands, and which of its marks lines up."""
    past = int(value) % 5
    number, tenth = int(value) - past, int(value * 10) % 10
    beam = say("A mark on the beam is one millimeter, with a number at every 5th.")
    if past:
        return [
            beam,
            say(
                "The zero of the small scale stands between the mark {past} past the number {number} and the next; "
                "of the ten marks of the small scale, mark {tenth} lines up with a mark on the beam.",
                past=past,
                number=number,
                tenth=tenth,
            ),
        ]
    return [
        beam,
        say(
            "The zero of the small scale stands between the mark with the number {number} and the next; "
            "of the ten marks of the small scale, mark {tenth} lines up with a mark on the beam.",
            number=number,
            tenth=tenth,
        ),
    ]


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
