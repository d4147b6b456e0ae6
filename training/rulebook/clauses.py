"""What an edition is made of: clauses with their statements, and the steps of the procedure."""

from collections.abc import Collection, Mapping
from dataclasses import dataclass, replace
from datetime import date
from fractions import Fraction
from functools import cached_property

from training.rulebook.case_words import severity
from training.rulebook.citations import Cited, Said
from training.rulebook.quantities import Quantity, converted
from training.trade.composed import Composed
from training.trade.lists import either
from training.trade.measures import as_read, in_signs
from training.trade.quantity_words import CONDITION_WORDS
from training.trade.speech import say, saying
from training.trade.words import KIND_WORDS, written

HOUSE = "house-rule"  # the kind of a shop's own statement; no edition file may claim it
KINDS = tuple(kind for kind in KIND_WORDS if kind != HOUSE)
QUANTITY_BOUNDS = ("at_most", "below", "at_least", "above", "between", "about", "exactly")
WORD_BOUNDS = ("must_be", "must_not_be")
BOUNDS = QUANTITY_BOUNDS + WORD_BOUNDS
_NEAR = 1e-6
_NONE = {"not found": saying("none")}  # of what a clause forbids, named where it was found, there may be none
_IN_WORDS = {
    "at_most": saying("at most {limit}"),
    "below": saying("less than {limit}"),
    "at_least": saying("at least {limit}"),
    "above": saying("more than {limit}"),
    "about": saying("about {limit}"),
}
_SHARES = {
    "larger": saying("{limit} or {share}, whichever is larger"),
    "smaller": saying("{limit} or {share}, whichever is smaller"),
    "sum": saying("{limit} and {share} added"),  # nobody prints one: it is what somebody has wrong
}


class UnknownClause(KeyError):
    """The edition has no such clause."""

    def __str__(self) -> str:
        return str(self.args[0])


@dataclass(frozen=True, slots=True)
class Share:
    """A limit that also grows with the tire: the larger or smaller of the printed limit and a share of a quantity.

    In a rulebook that someone has wrong also their "sum".
    """

    quantity: str
    percent: Quantity
    takes: str

    def applied(self, limit: Fraction, whole: Fraction) -> Fraction:
        """The limit in the base unit, for this tire."""
        part = whole * self.percent.value / 100
        if self.takes == "sum":
            return limit + part
        return max(limit, part) if self.takes == "larger" else min(limit, part)


def bounded(bound: str, limit: str) -> str:
    """A limit with its bound in words; one that is met exactly stands alone.

    >>> bounded("at_most", "6 mm"), bounded("exactly", "6 mm")
    ('at most 6 mm', '6 mm')
    """
    return say(_IN_WORDS[bound], limit=limit) if bound in _IN_WORDS else limit


@dataclass(frozen=True)
class Statement:
    """What one source says: a bound, in each unit the source prints it in, or words.

    `upper` is the other end of "between". `otherwise` is what follows when it does not hold. `kind` and `source` are
    as they are told where nobody names a state; a shop's own statement has nothing `cited`.
    """

    bound: str
    quantities: tuple[Quantity, ...]
    upper: tuple[Quantity, ...]
    words: tuple[str, ...]
    otherwise: str
    kind: str
    source: str
    jurisdictions: tuple[str, ...]
    stated: str = ""
    share: Share | None = None
    cited: Cited | None = None

    def said_in(self, place: str | None) -> Said:
        """Its kind and source as they are told in a country or state: law is called law only where it holds."""
        if place is None or self.cited is None:
            return Said(self.kind, self.source)
        return self.cited.said_in(place)

    @property
    def quantity(self) -> Quantity | None:
        """The limit in the unit the source states first; None for words."""
        return self.quantities[0] if self.quantities else None

    @property
    def is_house(self) -> bool:
        """Is this a shop's own, stricter statement?"""
        return self.kind == HOUSE

    @property
    def jurisdiction(self) -> str:
        """Whose law it is, or "" for everyone's."""
        return ", ".join(self.jurisdictions)

    @cached_property
    def text(self) -> str:
        """The limit as the source states it: "at most 1/4 in (6 mm)"."""
        return self.stated or Composed(self._told)

    def told_in(self, prefer: str) -> str:
        """The same to somebody who measures in this system, "in" or "mm": first what the source states in it.

        Where it states nothing in it, a conversion stands behind in brackets, since only what is stated decides.
        """
        system = "customary" if prefer == "in" else "metric"
        if not self.quantities or self.stated or self.quantities[0].system in ("", system):
            return str(self.text)
        pairs = list(zip(self.quantities, self.upper or self.quantities, strict=True))
        own = [pair for pair in pairs if pair[0].system == system]
        others = [pair for pair in pairs if pair[0].system != system]
        if not own:
            others.append((converted(pairs[0][0]), converted(pairs[0][1])))
        return self._worded([self._limit(*pair) for pair in (*own, *others)])

    def _told(self) -> str:
        if self.bound == "must_be":
            return either(_NONE.get(word) or written(word) for word in self.words)
        if self.bound == "must_not_be":
            return say("not {words}", words=either(map(written, self.words)))
        return self._worded(
            [self._limit(*pair) for pair in zip(self.quantities, self.upper or self.quantities, strict=True)]
        )

    def _limit(self, low: Quantity, high: Quantity) -> str:
        return say("{low} to {high}", low=_number(low), high=high) if self.bound == "between" else low.text

    def _worded(self, limits: list[str]) -> str:
        first, *others = limits
        limit = f"{first} ({', '.join(others)})" if others else first
        told = bounded(self.bound, limit)
        if self.share is None:
            return told
        share = say("{percent} of the {whole}", percent=self.share.percent, whole=CONDITION_WORDS[self.share.quantity])
        return say(_SHARES[self.share.takes], limit=told, share=share)

    @cached_property
    def printed(self) -> str:
        """The same as people read it: "at most 25°", "at most 1,200 rpm"."""
        return Composed(lambda: as_read(self.text))

    @cached_property
    def signed(self) -> str:
        """The same with the signs that people read and its numbers as stated, for what programs read as well."""
        return Composed(lambda: in_signs(self.text))

    def in_unit_of(self, measured: Quantity) -> tuple[int, ...]:
        """Places of the printed limits a measurement is held against: its own unit, else its own system, else all."""
        if len(self.quantities) == 1:
            return (0,)
        for attribute in ("unit", "system"):
            taken = getattr(measured, attribute)
            same = tuple(place for place, limit in enumerate(self.quantities) if getattr(limit, attribute) == taken)
            if same and taken:
                return same
        return tuple(range(len(self.quantities)))

    def for_whole(self, whole: Quantity) -> "Statement":
        """The same statement with its share worked out for one tire."""
        share = self.share
        if share is None:
            return self
        changed = tuple(replace(limit, value=share.applied(limit.value, whole.value)) for limit in self.quantities)
        return replace(self, quantities=changed, share=None, stated=self.text)

    def holds(self, value: Fraction | float, place: int, number: float | None = None) -> bool:
        """Does a value in the base unit keep to the limit printed at `place`? `number`: the value as a float."""
        bound, limit = self.bound, self.quantities[place]
        # A float far from the limit decides alone; near it the exact values do.
        away = (float(value) if number is None else number) - limit.number
        if bound == "between" or -_NEAR < away < _NEAR:
            return self._holds_exactly(value, limit.value, place)
        return away < 0 if bound in ("at_most", "below") else away > 0 if bound in ("at_least", "above") else False

    def _holds_exactly(self, value: Fraction | float, limit: Fraction, place: int) -> bool:
        if self.bound == "at_most":
            return value <= limit
        if self.bound == "at_least":
            return value >= limit
        if self.bound == "above":
            return value > limit
        if self.bound == "below":
            return value < limit
        if self.bound == "between":
            return limit <= value <= self.upper[place].value
        return value == limit

    def permits(self, measured: Quantity) -> bool:
        """Does a measurement keep to this statement, compared in the unit it was taken in?"""
        return all(self.holds(measured.value, place, measured.number) for place in self.in_unit_of(measured))


def _number(quantity: Quantity) -> str:
    return quantity.text.removesuffix(quantity.unit).strip()


@dataclass(frozen=True, slots=True)
class Condition:
    """A clause applies only when a quantity has one of these words, or keeps to this statement.

    `if_unknown`: "applies" or "skip" where the quantity was not stated; "" leaves it to the clause.
    """

    quantity: str
    words: tuple[str, ...] = ()
    statement: Statement | None = None
    if_unknown: str = ""


@dataclass(frozen=True)
class Clause:
    """One rule: what is measured, the limit, to which tires it applies, what follows, and what stands behind it.

    `title` is its label, as a technician would write it on a card; the id is never read by people.
    """

    id: str
    title: str
    quantity: str
    casings: tuple[str, ...]
    purposes: tuple[str, ...]
    statements: tuple[Statement, ...]
    because: str
    checked_on: date
    when: tuple[Condition, ...] = ()
    if_unknown: str = "unexamined"
    condition: str = ""
    usually: str = ""
    in_force_from: date | None = None
    passes: tuple[Mapping[str, object], ...] = ()
    fails: tuple[Mapping[str, object], ...] = ()
    file: str = ""

    @cached_property
    def strictest(self) -> Statement:
        """The statement that decides where no jurisdiction is named: a house rule, since it is never looser."""
        return self.house or min(self.statements, key=_looseness)

    @cached_property
    def house(self) -> Statement | None:
        """The shop's own statement, where one is laid over the edition's."""
        return next((one for one in self.statements if one.is_house), None)

    @cached_property
    def of_edition(self) -> Statement:
        """The strictest statement of the edition itself."""
        return min((one for one in self.statements if not one.is_house), key=_looseness)

    def deciding(self, jurisdiction: str | None) -> tuple[Statement, ...]:
        """The statements that count: a jurisdiction's own where it has any, and always a house rule; else all."""
        own = tuple(one for one in self.statements if jurisdiction is not None and jurisdiction in one.jurisdictions)
        if not own:
            return self.statements
        return own if self.house is None else (self.house, *own)

    @property
    def bound(self) -> str:
        return self.strictest.bound

    @property
    def otherwise(self) -> str:
        return self.strictest.otherwise

    @property
    def kind(self) -> str:
        return self.strictest.kind

    @property
    def source(self) -> str:
        return self.strictest.source

    def limit_text(self) -> str:
        """The limit as its source states it, with the usual range where the source gives one."""
        return self._with_the_usual(self.strictest.text)

    def limit_told_in(self, prefer: str) -> str:
        """The same with what it states in this system first, "in" or "mm"."""
        return self._with_the_usual(self.strictest.told_in(prefer))

    def _with_the_usual(self, limit: str) -> str:
        return say("{limit} (usually {usually})", limit=limit, usually=self.usually) if self.usually else limit

    def printed_limit(self) -> str:
        """The same as people read it."""
        return self._printed_limit

    @cached_property
    def _printed_limit(self) -> str:
        return Composed(lambda: as_read(self.limit_text()))

    @cached_property
    def signed_limit(self) -> str:
        """The same with the signs that people read and its numbers as stated, for what programs read as well."""
        return Composed(lambda: in_signs(self.limit_text()))

    def is_for_job(self) -> bool:
        """Is this a limit of the work, such as a cutter speed, and not of the tire?"""
        return self.quantity.startswith("job.")


def _looseness(statement: Statement) -> tuple[Fraction, int, int]:
    hardness = -severity(statement.otherwise) if statement.otherwise != "fault" else 0
    if not statement.quantities:
        return (Fraction(0), 0, hardness)
    limit = min(entry.value for entry in statement.quantities)
    lower = statement.bound in ("at_least", "above", "between")
    strict = statement.bound in ("above", "below")
    return (-limit if lower else limit, 0 if strict else 1, hardness)


@dataclass(frozen=True, slots=True)
class Criterion:
    """One line of the hands-on sheet; failing a critical one fails the evaluation. Without `casings` it is for all."""

    id: str
    text: str
    critical: bool
    kind: str
    source: str
    casings: tuple[str, ...] = ()
    cited: Cited | None = None

    def is_for(self, casings: Collection[str]) -> bool:
        """Is it seen where work on these casings is evaluated?"""
        return not self.casings or not set(self.casings).isdisjoint(casings)


@dataclass(frozen=True, slots=True)
class Step:
    """One step of the work, for which repairs, with the clauses whose limits it carries."""

    id: str
    title: str
    instruction: str
    clauses: tuple[str, ...]
    tools: tuple[str, ...]
    criteria: tuple[Criterion, ...]
    methods: tuple[str, ...]
