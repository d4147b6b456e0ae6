"""Graduated scales of gauges, and where a pointer stands on one in the words of someone counting its marks."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from training.rulebook import Quantity
from training.trade.speech import say, say_many, saying

INCH = Fraction(254, 10)  # mm, exact by definition
_ORDINALS = {
    2: saying("2nd"), 4: saying("4th"), 5: saying("5th"), 8: saying("8th"), 10: saying("10th"), 16: saying("16th"),
}  # fmt: skip


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
        """The number printed at the mark so many marks after zero, a fraction where it falls between."""
        value = marks * self.mark / self.each
        return str(value.numerator) if value.denominator == 1 else f"{value.numerator}/{value.denominator}"


INCH_32 = Scale(INCH / 32, 2, 4, INCH / 32, saying("32nds of an inch"), saying("one 32nd of an inch"))
INCH_64 = Scale(INCH / 64, 2, 8, INCH / 32, saying("32nds of an inch"), saying("one 64th of an inch"))
TAPER_32 = Scale(INCH / 32, 2, 2, INCH / 32, saying("32nds of an inch"), saying("one 32nd of an inch"))
TAPER_HALF = Scale(Fraction(1, 2), 2, 2, Fraction(1), "mm", saying("half a millimeter"))
MM_HALF = Scale(Fraction(1, 2), 2, 4, Fraction(1), "mm", saying("half a millimeter"))
MM_TENTH = Scale(Fraction(1, 10), 5, 10, Fraction(1), "mm", saying("a tenth of a millimeter"))
MM_WHOLE = Scale(Fraction(1), 5, 10, Fraction(1), "mm", saying("one millimeter"))
INCH_16 = Scale(INCH / 16, 4, 16, INCH, "in", saying("one 16th of an inch"))
DEGREE = Scale(Fraction(1), 5, 10, Fraction(1), "deg", saying("one degree"))


def is_in_inches(reading: Quantity) -> bool:
    """True where a length was taken in inches."""
    return reading.unit.strip().startswith("in")


def stand(value: Fraction, scale: Scale, what: str) -> str:
    """A sentence: where a pointer stands, for someone counting marks from a printed number. `what` is its name."""
    marks = value / scale.mark
    whole = marks.numerator // marks.denominator
    number = whole // scale.number * scale.number
    past = whole - number
    marked = scale.text(number)
    if marks == whole and past == 0:
        return say("{pointer} stands on the number {number}.", pointer=what, number=marked)
    if marks == whole:
        return say_many(
            "{pointer} stands {count} mark past the number {number}.",
            "{pointer} stands {count} marks past the number {number}.",
            past,
            pointer=what,
            number=marked,
        )
    if past == 0:
        return say("{pointer} stands between the number {number} and the next mark.", pointer=what, number=marked)
    return say_many(
        "{pointer} stands between the mark {count} mark past the number {number} and the next mark.",
        "{pointer} stands between the mark {count} marks past the number {number} and the next mark.",
        past,
        pointer=what,
        number=marked,
    )


def every(scale: Scale) -> str:
    """A sentence: what a mark of the scale is worth, and where numbers stand."""
    return say(
        "A mark is {worth}; a number stands at every {ordinal} mark.",
        worth=scale.words,
        ordinal=_ORDINALS[scale.number],
    )


def on_mark(value: Fraction, *scales: Scale) -> Scale:
    """The coarsest of the scales on which the value falls on a mark; else the finest."""
    return next((scale for scale in scales if (value / scale.mark).denominator == 1), scales[-1])
