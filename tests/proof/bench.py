"""A question on the bench: its case, decided as often as needed, and what the rulebook then says of it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from assessments.questions.items.claims import Asked, Claim
from assessments.questions.items.item import Item
from training.rulebook import Decision, Edition, RepairUnit, decide, parse_case, parse_quantity
from training.trade.words import LIGHT, STEEL


@dataclass(frozen=True, slots=True)
class Recheck:
    """What the rulebook says of a question: the options that are right, the right number in the base unit, the right
    place on the rulers of its drawing (of one coordinate where any other will do), or what is wrong with its key.

    `between`: the clauses whose statements disagree on what is asked.
    """

    right: frozenset[str] = frozenset()
    number: float | None = None
    between: tuple[str, ...] = ()
    place: tuple[float | None, float | None] | None = None
    complaints: tuple[str, ...] | None = None


class Bench:
    """One question on the bench: its case, decided as often as needed, with what lies between statements noted."""

    def __init__(self, item: Item, edition: Edition) -> None:
        self.item, self.edition = item, edition
        self.between: dict[str, None] = {}

    def decide(self, data: Mapping[str, Any] | None = None, units: list[RepairUnit] | None = None) -> Decision:
        """The decision on the case of the question, or on another one."""
        given = self.item.case if data is None else data
        case = parse_case(given or {})
        decision = decide(case, edition=self.edition, units=units, rest_in_order=True)
        between = [one for one in decision.rulings if one.between_statements]
        # Where states differ, it is settled once the case lies in one of them and the stem gives that one's law.
        laws = {one.clause: self.edition.clause(one.clause).statements for one in between}
        self.between.update(
            (one.clause, None)
            for one in between
            if not (
                any(case.jurisdiction in law.jurisdictions for law in laws[one.clause]) and one.limit in self.item.stem
            )
        )
        return decision

    def reads(self, asked: Asked) -> tuple[float | str, ...]:
        """What may be read of something otherwise than the rulebook reads it; nothing where it is not."""
        return ()

    def judges(self, claim: Claim) -> bool | None:
        """What is judged of a claim otherwise than the rulebook judges it; None where it is not."""
        return None

    @property
    def told_by(self) -> tuple[Edition, ...]:
        """The rulebooks by which the reasons of a decision may be told."""
        return (self.edition,)

    @property
    def data(self) -> dict[str, Any]:
        """The case of the question, to be changed."""
        return dict(self.item.case or {})

    def number(self, value: Fraction | float) -> Recheck:
        """A number in the base unit."""
        return Recheck(number=float(value), between=tuple(self.between))


def unit_of(length: float, width: float) -> list[RepairUnit]:
    """Units of this size in mm for every casing, so that the plan can use no other."""
    sides = (parse_quantity(f"{round(side, 3):g} mm", "length") for side in (length, width))
    long, wide = sides
    return [RepairUnit(kind, kind, long, wide, None, (*LIGHT, *STEEL), None) for kind in ("patch", "one-piece")]
