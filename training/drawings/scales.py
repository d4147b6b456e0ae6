"""Graduated scales of gauges, and where a pointer stands on one in the words of someone counting its marks."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from training.rulebook import Quantity
from training.trade.speech import say, saying

INCH = Fraction(254, 10)  # mm, exact by definition


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
    """Where a pointer stands, in the words of someone counting marks from a printed number."""
    marks = value / scale.mark
    whole = marks.numerator // marks.denominator
    number = whole // scale.number * scale.number
    past = whole - number
    marked = scale.text(number)
    count = say("{past} mark{value} past the number {marked}", past=past, value="" if past == 1 else "s", marked=marked)
    if marks == whole:
        return (
            say("{what} stands on the number {marked}", what=what, marked=marked)
            if past == 0
            else say("{what} stands {count}", what=what, count=count)
        )
    start = say("the number {marked}", marked=marked) if past == 0 else say("the mark {count}", count=count)
    return say("{what} stands between {start} and the next mark", what=what, start=start)


def every(scale: Scale) -> str:
    ordinal = f"{scale.number}{'nd' if scale.number == 2 else 'th'}"
    return say("A mark is {words}; a number stands at every {ordinal} mark.", words=scale.words, ordinal=ordinal)


def on_mark(value: Fraction, *scales: Scale) -> Scale:
    """The coarsest of the scales on which the value falls on a mark; else the finest."""
    return next((scale for scale in scales if (value / scale.mark).denominator == 1), scales[-1])
