"""What must have been looked at before a tire is released: the facts of a case, where they are seen, and which of them
an edition does not insist on."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from functools import cached_property

from training.rulebook.case import Case, EarlierRepair, Injury
from training.rulebook.case_words import WORDS
from training.rulebook.decision import Look
from training.rulebook.loader import Place
from training.rulebook.measures import MEASURES
from training.trade.reading import shown
from training.trade.speech import saying
from training.trade.words import CASINGS, PLACES_TO_LOOK, PURPOSES

FACTS = "facts.toml"
_FILE = frozenset({"fact", "optional", "unused"})
_FACT = frozenset({"id", "where", "words", "why", "quantities", "fields"})
_OPTIONAL = frozenset({"facts", "casings", "purposes", "why"})
_FINDING = "finding."
_SHELF = ("shelf",)  # no part of a case: the repair units that are given with it


@dataclass(frozen=True)
class Fact:
    """One thing a person looks at: `words` finish "Still to look at: ...", `where` is one of PLACES_TO_LOOK.

    `quantities` are the measures it feeds, `fields` the places in a case that state it; any of them is enough. Fields
    of a finding besides its own settle it too: a measured tread depth says whether the tire is worn out.
    """

    id: str
    where: str
    words: str
    why: str
    quantities: tuple[str, ...]
    fields: tuple[str, ...]

    @classmethod
    def of_clause(cls, id: str, meaning: str) -> Fact:
        """What stands in for the fact of a clause whose quantity no fact names."""
        return cls(id, PLACES_TO_LOOK[0], meaning.rstrip(".").lower(), meaning, (), ())

    @cached_property
    def _paths(self) -> tuple[tuple[str, ...], ...]:
        # that a finding was not stated is known before it is asked here
        return tuple(tuple(name.split(".")) for name in self.fields if name != f"findings.{self.id[len(_FINDING) :]}")

    @cached_property
    def is_of_shelf(self) -> bool:
        """Is it about the repair units, which are no part of a case?"""
        return self.fields == _SHELF

    @cached_property
    def is_said_once(self) -> bool:
        """Is a finding's own field the only one that states it?"""
        return not self._paths

    def is_stated(self, case: Case, subject: object) -> bool:
        """Does the case say it, of this injury or earlier repair where it is about one? Units are no part of it."""
        if self.is_of_shelf:
            return True
        stated = False
        for path in self._paths:
            stated = stated or _value(case, subject, path) is not None
        return stated


def _value(case: Case, subject: object, path: Sequence[str]) -> object:
    first, *rest = path
    if first in ("injuries", "earlier_repairs") and rest:
        listed = _subjects(case, subject, first)
        # whether the list itself was stated is a fact of its own
        return all(getattr(one, rest[0]) is not None for one in listed or ()) or None
    value: object = getattr(case, first)
    if first == "findings" and isinstance(value, Mapping):
        return value.get(rest[0])
    for name in rest:
        value = getattr(value, name, None)
    return value


def _subjects(case: Case, subject: object, of: str) -> Sequence[object] | None:
    """Those of the subject that are injuries, or earlier repairs; of the whole case where it is neither."""
    kind = Injury if of == "injuries" else EarlierRepair
    named = tuple(one for one in (subject if isinstance(subject, tuple) else (subject,)) if isinstance(one, kind))
    return named if named or isinstance(subject, Injury | EarlierRepair | tuple) else getattr(case, of)


@dataclass(frozen=True, slots=True)
class Optional:
    """Facts that an edition does not insist on, for some casings and purposes, and why."""

    facts: tuple[str, ...]
    casings: tuple[str, ...]
    purposes: tuple[str, ...]
    why: str


@dataclass(frozen=True)
class Essentials:
    """The facts of an edition by id, the exceptions, and why some words of the vocabulary decide nothing here."""

    facts: Mapping[str, Fact] = field(default_factory=dict)
    optional: tuple[Optional, ...] = ()
    unused: tuple[Optional, ...] = ()

    @cached_property
    def _feeding(self) -> Mapping[str, tuple[Fact, ...]]:
        feeding: dict[str, tuple[Fact, ...]] = {}
        for fact in self.facts.values():
            for quantity in fact.quantities:
                feeding[quantity] = (*feeding.get(quantity, ()), fact)
        return feeding

    def feeding(self, quantity: str) -> tuple[Fact, ...]:
        """The facts a quantity is computed from; a misreading of a quantity is computed from the same."""
        return self._feeding.get(MEASURES[quantity].misreads or quantity, ())

    def insisted_on(self, quantities: Iterable[str], casing: str, purpose: str) -> Iterator[Fact]:
        """The facts that these quantities are computed from and without which this edition releases nothing."""
        for quantity in quantities:
            for fact in self.feeding(quantity):
                if self.exception(fact.id, casing, purpose) is None:
                    yield fact

    def exception(self, fact: str, casing: str, purpose: str) -> str | None:
        """Why this edition releases a tire without the fact; None where it does not."""
        return _why(self.optional, fact, casing, purpose)

    def reason_unused(self, name: str, casing: str, purpose: str) -> str | None:
        """Why a field of a case decides nothing here; None where nothing is said of it."""
        return _why(self.unused, name, casing, purpose)


def _why(tables: Iterable[Optional], name: str, casing: str, purpose: str) -> str | None:
    held = (one for one in tables if name in one.facts and casing in one.casings and purpose in one.purposes)
    return next((one.why for one in held), None)


def read_essentials(trade: Mapping[str, object], own: Mapping[str, object], file: str) -> Essentials:
    """The facts of the trade and of a country, whose own replace those of the same id. Raises RulebookError."""
    facts: dict[str, Fact] = {}
    optional: list[Optional] = []
    unused: list[Optional] = []
    for data in (trade, own):
        Place(file).keys(data, _FILE)
        here: dict[str, Fact] = {}
        for table in Place(file, "fact").tables(data, "fact"):
            fact = _fact(table, file)
            if fact.id in here:
                Place(file, f'fact "{fact.id}"').refuse("id", "is used twice")
            here[fact.id] = fact
        facts.update(here)
    for data in (trade, own):
        for name, known, kept in (("optional", tuple(facts), optional), ("unused", None, unused)):
            place = Place(file, name)
            kept += [_optional(table, known, place) for table in place.tables(data, name)]
    return Essentials(facts, tuple(optional), tuple(unused))


def _fact(table: Mapping[str, object], file: str) -> Fact:
    id = table.get("id")
    place = Place(file, f"fact {shown(id)}")
    place.keys(table, _FACT)
    id = place.text(table, "id")
    if id.startswith(_FINDING):
        slug = id.removeprefix(_FINDING)
        place.word({"id": slug}, "id", WORDS["findings"])
        table = {"quantities": [id], "fields": [f"findings.{slug}", *place.words(table, "fields", None, default=())],
                 **{name: value for name, value in table.items() if name != "fields"}}  # fmt: skip
    return Fact(
        id,
        place.word(table, "where", PLACES_TO_LOOK),
        saying(place.text(table, "words")),
        saying(place.text(table, "why")),
        place.words(table, "quantities", tuple(MEASURES)),
        place.words(table, "fields", None),
    )


def _optional(table: Mapping[str, object], accepted: tuple[str, ...] | None, place: Place) -> Optional:
    place.keys(table, _OPTIONAL)
    return Optional(
        place.words(table, "facts", accepted),
        place.words(table, "casings", CASINGS, default=CASINGS),
        place.words(table, "purposes", PURPOSES, default=PURPOSES),
        saying(place.text(table, "why")),
    )


def looks(facts: Iterable[Fact]) -> tuple[Look, ...]:
    """Facts as people look for them: each place with its words, the place that costs the least first."""
    by_place: dict[str, list[str]] = {where: [] for where in PLACES_TO_LOOK}
    for fact in facts:
        by_place[fact.where].append(fact.words)
    return tuple(Look(where, tuple(words)) for where, words in by_place.items() if words)
