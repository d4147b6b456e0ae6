"""What a draft asks the rulebook, and the rulebook as misconceptions alter it."""

from __future__ import annotations

from collections import OrderedDict
from collections.abc import Sequence
from functools import reduce
from random import Random
from typing import NamedTuple

from assessments.questions.drafts.family import Family
from assessments.questions.drafts.seeding import DrawRandom, Redraw
from assessments.questions.items.item import Json
from assessments.questions.mistakes.misconceptions import misconceptions
from training.rulebook import (
    Case,
    Clause,
    Decision,
    Edition,
    Model,
    OneCase,
    OnShelf,
    Quantity,
    Ruling,
    decide,
    injury_geometry,
    measured,
    parse_case,
)


class NoSuchLimit(LookupError):
    """The edition says nothing on what the family asks."""


class InjuryPlace(NamedTuple):
    """Where an injury lies, in mm: everything that a fully measured case gives."""

    lateral: float
    exit_lateral: float
    half_lateral: float
    half_crown: float
    liner_circumference: float


_altered: OrderedDict[tuple[int, str], tuple[Edition, Edition]] = OrderedDict()


def altered(edition: Edition, misconception: str) -> Edition:
    """The edition as this misconception has it; what it believes of clauses the edition does not have changes nothing.

    Kept, since altering costs more than deciding.
    """
    place = (id(edition), misconception)
    kept = _altered.get(place)
    if kept is None or kept[0] is not edition:
        kept = _altered[place] = (edition, edition.believed(misconceptions()[misconception].alteration))
        if len(_altered) > 1024:
            _altered.popitem(last=False)
    return kept[1]


class Rules:
    """The part of a draft that asks its edition, as it stands or as someone with misconceptions has it."""

    family: Family
    edition: Edition
    prefer: str
    units: Sequence[OnShelf] | None
    casings: tuple[str, ...]
    rng: DrawRandom
    one_case: OneCase
    cases: dict[str, Case]

    def case(self, data: Json) -> Case:
        """The case of these words and numbers; the same object for the same ones."""
        told = repr(data)
        if told not in self.cases:
            self.cases[told] = parse_case(data)
        return self.cases[told]

    def decide(self, case: Case, *mistakes: str) -> Decision:
        """The decision on this case, or what someone holding these misconceptions would decide.

        The stem says that what it does not name is in order.
        """
        edition = reduce(altered, mistakes, self.edition)
        return decide(case, edition=edition, units=self.units, rest_in_order=True, prefer=self.prefer,
                      one_case=self.one_case)  # fmt: skip

    def measured(self, case: Case, ruling: Ruling, *mistakes: str) -> float:
        """What a ruling of those who hold these misconceptions rests on [base unit]. Redraw where it is no number."""
        edition = reduce(altered, mistakes, self.edition)
        quantity = edition.clause(ruling.clause).quantity
        found = measured(case, quantity, ruling.subject, edition=edition, units=self.units)
        if found is None:
            raise Redraw(f"{quantity} is not measured")
        return float(found)

    def clause(self, clause_id: str) -> Clause:
        """The clause of the edition in use."""
        return self.edition.clause(clause_id)

    def pick_model(self, *limited: str, rng: Random | None = None) -> Model:
        """A size of tire, of the casings that are asked about and for which the edition limits all these quantities.

        Raises NoSuchLimit where it limits them for none of the casings.
        """
        casings = [one for one in self.casings if all(self.edition.limit(name, one) for name in limited)]
        if not casings:
            raise NoSuchLimit(
                f'family "{self.family.name}": edition {self.edition.name} {self.edition.version} does not limit '
                f"{' and '.join(limited)} for {' or '.join(self.casings)}"
            )
        return self.model_of(*casings, rng=rng)

    def model_of(self, *casings: str, rng: Random | None = None) -> Model:
        """A size of tire of one of these casings, as the edition's country fits it. Raises NoSuchLimit without one."""
        known = [model for model in self.edition.sizes if model.casing in casings]
        if not known:
            raise NoSuchLimit(
                f'family "{self.family.name}": edition {self.edition.name} {self.edition.version} has no size of '
                f"{' or '.join(casings)}"
            )
        return (rng or self.rng).choice(known).measured_in(self.prefer)

    def limit(self, quantity: str, casing: str = "passenger") -> Clause:
        """The clause that limits this quantity for a casing. Raises NoSuchLimit where the edition has none."""
        clause = self.edition.limit(quantity, casing)
        if clause is None:
            raise NoSuchLimit(
                f'family "{self.family.name}": edition {self.edition.name} {self.edition.version} has no limit for '
                f"{quantity} ({casing})"
            )
        return clause

    def stated(self, clause: Clause) -> Quantity:
        """The limit of a clause as its strictest source states it first. Raises NoSuchLimit for a limit in words."""
        quantity = clause.strictest.quantity
        if quantity is None:
            raise NoSuchLimit(f'family "{self.family.name}": clause "{clause.id}" states no quantity')
        return quantity

    def placed(self, case: Case) -> InjuryPlace:
        """Where the first injury of a case lies."""
        injury = (case.injuries or ())[0]
        found = injury_geometry(case, injury, edition=self.edition)
        values = [getattr(found, f"{name}_mm") for name in InjuryPlace._fields]
        if None in values:
            raise Redraw("a measurement is missing")
        return InjuryPlace(*values)

    def permits(self, mistake: str, clause_id: str, measured: Quantity) -> bool:
        """Would someone holding the misconception let this measurement pass the clause?"""
        clause = altered(self.edition, mistake).clauses.get(clause_id)
        return clause is None or clause.strictest.permits(measured)
