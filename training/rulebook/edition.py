"""An edition: one jurisdiction's rulebook in one version, and the same as someone alters it."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import date
from functools import cached_property
from pathlib import Path
from typing import Unpack

from training.rulebook.altering import (
    Beliefs,
    altered_clauses,
    altered_cover,
    altered_crowns,
    altered_work,
    named_clauses,
    within,
)
from training.rulebook.audit_rules import WorkRules
from training.rulebook.citations import Library
from training.rulebook.clauses import Clause, Step, UnknownClause
from training.rulebook.dating import Span, holding
from training.rulebook.essentials import Essentials
from training.rulebook.geometry import CrownRule
from training.rulebook.header import HEADER, Header, Version, read_crowns, read_header
from training.rulebook.loader import Place, RulebookError, tables_in
from training.rulebook.sizes import Model, read_sizes
from training.rulebook.taking import (
    SIZES,
    TRADE,
    Files,
    check_without,
    clauses_of,
    essentials_of,
    library_of,
    procedure_of,
    read_files,
    work_of,
)
from training.trade.speech import SOURCE, say
from training.trade.words import CASINGS, PURPOSES


@dataclass(frozen=True, eq=False)
class Edition:
    """One version of one rulebook. `covered`: the (casing, purpose) pairs it has the clauses for that it must have.

    `worked`: the verdicts of the lessons' worked examples that come out otherwise than their text says, by title.
    `language`: what its people read.
    `origin`: the edition as it was
    read, where this is what somebody makes of it.
    """

    name: str
    version: str
    title: str
    in_force_from: date
    units: str
    clauses: Mapping[str, Clause]
    procedure: tuple[Step, ...]
    orders: Mapping[str, tuple[str, ...]]
    crowns: Mapping[str, CrownRule]
    covered: frozenset[tuple[str, str]]
    work: WorkRules | None = None
    sizes: tuple[Model, ...] = ()
    essentials: Essentials = field(default_factory=Essentials)
    worked: Mapping[str, str] = field(default_factory=dict)
    library: Library = field(default_factory=Library)
    language: str = SOURCE
    prepared: dict[tuple[str, str], object] = field(default_factory=dict, repr=False, compare=False)
    origin: "Edition | None" = field(default=None, repr=False, compare=False)

    def clause(self, id: str) -> Clause:
        """The clause of this id. Raises UnknownClause naming the edition and the ids it has."""
        try:
            return self.clauses[id]
        except KeyError:
            known = ", ".join(sorted(self.clauses))
            raise UnknownClause(
                say(
                    '{name} {version} has no clause "{id}"; it has {known}',
                    name=self.name,
                    version=self.version,
                    id=id,
                    known=known,
                )
            ) from None

    @cached_property
    def starts(self) -> tuple[date, ...]:
        """Days on which single clauses come into force, where their source gives one."""
        return tuple(sorted({one.in_force_from for one in self.clauses.values() if one.in_force_from}))

    def as_of(self, day: date) -> "Edition":
        """This rulebook without the clauses that come into force after a day; coverage stays as it was."""
        later = [one for one in self.starts if one > day]
        if not later:
            return self
        known = self._before.get(later[0])
        if known is None:
            hidden = {one.id for one in self.clauses.values() if one.in_force_from and one.in_force_from > day}
            known = self._before[later[0]] = self.altered(without=hidden)
        return known

    @cached_property
    def _before(self) -> dict[date, "Edition"]:
        return {}

    @property
    def released_version(self) -> str:
        """The version as it was released, without what a shop's house rules add to it."""
        return self.version.partition("+")[0]

    @cached_property
    def _by_quantity(self) -> dict[str, list[Clause]]:
        found: dict[str, list[Clause]] = {}
        for clause in self.clauses.values():
            found.setdefault(clause.quantity, []).append(clause)
        return found

    def clauses_on(self, quantity: str) -> Sequence[Clause]:
        """The clauses on a quantity, in their order."""
        return self._by_quantity.get(quantity, ())

    def limit(self, quantity: str, casing: str) -> Clause | None:
        """The first clause that limits a quantity, such as "job.cutter_speed", for a casing."""
        for clause in self._by_quantity.get(quantity, ()):
            if casing in clause.casings:
                return clause
        return None

    @cached_property
    def of_work(self) -> tuple[Clause, ...]:
        """The clauses that limit the work, not the tire."""
        return tuple(clause for clause in self.clauses.values() if clause.is_for_job())

    def altered(self, **beliefs: Unpack[Beliefs]) -> "Edition":
        """This rulebook as someone believes it to be.

        What it covers stays as it was, so that a dropped clause is not noticed, as by a person who has forgotten it.
        Raises UnknownClause, or ValueError naming what is altered and value.
        """
        for id in named_clauses(beliefs, self.clauses):
            self.clause(id)
        work = altered_work(self.orders, self.work, beliefs)
        return replace(
            self,
            clauses=altered_clauses(self.clauses, beliefs),
            crowns=altered_crowns(self.crowns, beliefs),
            covered=altered_cover(self.covered, beliefs),
            orders=work.orders,
            work=work.rules,
            prepared={},
            origin=self.origin or self,
        )

    def believed(self, beliefs: Beliefs) -> "Edition":
        """The same; what is believed of clauses that this rulebook does not have changes nothing."""
        return self.altered(**within(beliefs, self.clauses))


def read_versions(folder: Path, *, trade: Files | None = None) -> tuple[Edition, ...]:
    """Every version of an edition from its folder of TOML files, the first in force first. Raises RulebookError.

    What every country takes from the trade stands in the folder beside it, or was read from there before.
    """
    if not (folder / HEADER).is_file():
        raise RulebookError(f"{folder.name}: has no {HEADER}; every edition opens with one")
    own = read_files(folder)
    if trade is None:
        trade = read_files(folder.parent / TRADE, f"{TRADE}/")
    header = read_header(own[HEADER], HEADER)
    check_without(header, trade)
    firsts = [version.in_force_from for version in header.versions]
    spans = [Span(*pair, changes=firsts[1:]) for pair in zip(firsts, [*firsts[1:], None], strict=True)]
    return tuple(
        _version(header, version, own, trade, span) for version, span in zip(header.versions, spans, strict=True)
    )


def read_edition(folder: Path) -> Edition:
    """The newest version of an edition from its folder of TOML files. Raises RulebookError."""
    return read_versions(folder)[-1]


def _version(header: Header, version: Version, own: Files, trade: Files, span: Span) -> Edition:
    clauses: dict[str, Clause] = {}
    library = library_of(own, trade, header)
    for clause in clauses_of(own, trade, header, span, library):
        _keep(clauses, clause)
    steps, orders = procedure_of(own, trade, header, span, clauses, library)
    crowns = holding(tables_in(own[HEADER], "crown", HEADER, beside=tuple(own[HEADER])), span, Place(HEADER, "crown"))
    return Edition(
        name=header.name,
        version=version.id,
        title=header.title,
        in_force_from=version.in_force_from,
        units=header.units,
        clauses=clauses,
        procedure=steps,
        orders=orders,
        crowns=read_crowns(crowns, HEADER, library),
        covered=_covered(clauses, header),
        work=work_of(own, trade, span, orders, library),
        sizes=read_sizes(own.get(SIZES, {}), SIZES),
        essentials=essentials_of(own, trade),
        worked=header.worked,
        library=library,
        language=header.language,
    )


def _keep(clauses: dict[str, Clause], clause: Clause) -> None:
    if clause.id in clauses:
        first = clauses[clause.id].file
        raise RulebookError(f'{clause.file}: clause "{clause.id}", id: is used twice, also in {first}')
    clauses[clause.id] = clause


def _covered(clauses: Mapping[str, Clause], header: Header) -> frozenset[tuple[str, str]]:
    """Pairs for which every quantity that the purpose needs is limited by some clause."""
    limited = {(clause.quantity, casing, purpose)
               for clause in clauses.values() for casing in clause.casings for purpose in clause.purposes}  # fmt: skip

    def is_covered(casing: str, purpose: str) -> bool:
        needed = header.covers_of.get((casing, purpose), header.covers.get(purpose, ()))
        return bool(needed) and all(any((name, casing, purpose) in limited for name in group) for group in needed)

    return frozenset((casing, purpose) for casing in CASINGS for purpose in PURPOSES if is_covered(casing, purpose))


def in_force(versions: Sequence[Edition], on: date) -> Edition:
    """The version in force on a day; on a day before the first, the first."""
    started = [edition for edition in versions if edition.in_force_from <= on]
    return started[-1] if started else versions[0]


def procedure(edition: Edition, *, method: str | None = None) -> tuple[Step, ...]:
    """The steps of a repair in order; without a method all steps, in the order the edition lists them."""
    if method is None:
        return edition.procedure
    if method not in edition.orders:
        raise ValueError(f'method: "{method}" is not accepted; choose {", ".join(edition.orders)}')
    steps = {step.id: step for step in edition.procedure}
    return tuple(steps[name] for name in edition.orders[method])
