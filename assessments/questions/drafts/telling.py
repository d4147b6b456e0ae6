"""Measures in the unit that a question is told in: lengths that can be read off in it, and limits with it first."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from functools import lru_cache

from assessments.questions.drafts.seeding import DrawRandom
from assessments.questions.items.claims import States, states
from training.rulebook import UNITS, Clause, Quantity, parse_quantity, quantity, show

# what a length is told to, in mm: a millimeter, or a sixteenth of an inch
STEP_MM = {"mm": Fraction(1), "in": UNITS["length"]["in"] / 16}


@lru_cache(maxsize=4096)
def _steps_mm(count: int, unit: str) -> Fraction:
    return count * STEP_MM[unit]


@lru_cache(maxsize=16384)
def _told(length_mm: Fraction | int, unit: str) -> str:
    text = quantity(length_mm / UNITS["length"][unit], unit).text
    if parse_quantity(text, "length").value != length_mm:
        raise ValueError(f'{length_mm} mm cannot be told exactly in "{unit}"')
    return text


class Telling:
    """The part of a draft that draws and tells measures."""

    prefer: str
    rng: DrawRandom

    @property
    def step_mm(self) -> Fraction:
        """What places and thicknesses are measured to: 1 mm, or 1/16 in."""
        return STEP_MM[self.prefer]

    def between(self, least_mm: Fraction | float, most_mm: Fraction | float, rng: DrawRandom | None = None) -> Fraction:
        """A length from one to the other, both included, in steps of the unit told [mm]. Redraw where there is none."""
        top, bottom = self.step_mm.as_integer_ratio()
        (least, of_least), (most, of_most) = least_mm.as_integer_ratio(), most_mm.as_integer_ratio()
        # both bounds in steps, the lower one rounded up, the upper one down
        steps = (rng or self.rng).randint(-(-least * bottom // (of_least * top)), most * bottom // (of_most * top))
        return _steps_mm(steps, self.prefer)

    def near(self, length_mm: Fraction | int) -> Fraction:
        """The nearest length that one reads off in the unit told [mm]."""
        return _steps_mm(round(length_mm / self.step_mm), self.prefer)

    def told(self, length_mm: Fraction | int) -> str:
        """A length in the unit told, never rounded: what is printed is what the rulebook computes with.

        Raises ValueError for one that cannot be read off in that unit.
        """
        return _told(length_mm, self.prefer)

    def limit_text(self, clause: Clause) -> str:
        """The limit of a clause, with what its source states in the unit told first."""
        return clause.limit_told_in(self.prefer)

    def show(self, quantity: Quantity) -> str:
        """A quantity that a source states, the unit told first; one that is in that unit alone needs no other."""
        return show(quantity, prefer=self.prefer)

    def limit_like(self, clause: Clause, other: Clause) -> tuple[str, States]:
        """The limit of a clause as someone else has it, in words and as a claim, in as many units as the clause itself
        states."""
        stated, believed, claim = clause.strictest, other.strictest, states(other)
        if len(stated.quantities) != 1 or len(believed.quantities) < 2:
            return self.limit_text(other), claim
        last = replace(believed, quantities=believed.quantities[-1:])
        return last.told_in(self.prefer), replace(claim, quantities=(last.quantities[0].text,))
