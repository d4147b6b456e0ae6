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
from training.rulebook.audit_rules import WorkRules, read_work
from training.rulebook.clauses import Clause, Step, UnknownClause
from training.rulebook.geometry import CrownRule
from training.rulebook.header import HEADER, Header, read_header
from training.rulebook.loader import RulebookError, read_clauses, read_procedure, read_toml
from training.rulebook.sizes import Model, read_sizes
from training.rulebook.taking import PROCEDURE, SIZES, WHOLE, WORK, folder_of, respelled, respelled_step, taken
from training.trade.words import CASINGS, PURPOSES


@dataclass(frozen=True, eq=False)
class Edition:
    """One version of one rulebook. `covered`: the (casing, purpose) pairs it has the essential clauses for."""

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
    prepared: dict[tuple[str, str], object] = field(default_factory=dict, repr=False, compare=False)

    def clause(self, id: str) -> Clause:
        """The clause of this id. Raises UnknownClause naming the edition and the ids it has."""
        try:
            return self.clauses[id]
        except KeyError:
            known = ", ".join(sorted(self.clauses))
            raise UnknownClause(f'{self.name} {self.version} has no clause "{id}"; it has {known}') from None

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
    def _limits(self) -> dict[tuple[str, str], Clause]:
        limited: dict[tuple[str, str], Clause] = {}
        for clause in self.clauses.values():
            for casing in clause.casings:
                limited.setdefault((clause.quantity, casing), clause)
        return limited

    def limit(self, quantity: str, casing: str) -> Clause | None:
        """The clause that limits a quantity of the work, such as "job.cutter_speed", for a casing."""
        return self._limits.get((quantity, casing))

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
        )

    def believed(self, beliefs: Beliefs) -> "Edition":
        """The same; what is believed of clauses that this rulebook does not have changes nothing."""
        return self.altered(**within(beliefs, self.clauses))


def read_edition(folder: Path, *, editions: Path | None = None) -> Edition:
    """Read one version of an edition from its folder of TOML files. Raises RulebookError.

    `editions` is where those stand from which it may take what the trade does everywhere: else the folder above.
    """
    if not (folder / HEADER).is_file():
        raise RulebookError(f"{folder.name}: has no {HEADER}; every edition opens with one")
    header = read_header(read_toml(folder / HEADER), HEADER)
    clauses: dict[str, Clause] = {}
    whole = {name: folder / name for name in (PROCEDURE, WORK) if (folder / name).is_file()}
    for take in header.takes:
        other = folder_of(take.edition, take.version, editions or folder.parent)
        whole |= {name: other / name for name in (PROCEDURE, WORK) if name in take.files}
        for clause in taken(take, other):
            _keep(clauses, respelled(clause, header.spelling))
    for path in sorted(folder.glob("*.toml")):
        if path.name not in WHOLE:
            for clause in read_clauses(read_toml(path), path.name):
                _keep(clauses, clause)
    steps: tuple[Step, ...] = ()
    orders: dict[str, tuple[str, ...]] = {}
    if PROCEDURE in whole:
        left_out = [id for take in header.takes if PROCEDURE in take.files for id in take.without]
        steps, orders = read_procedure(read_toml(whole[PROCEDURE]), clauses, PROCEDURE, without=left_out)
        if whole[PROCEDURE].parent != folder:
            steps = tuple(respelled_step(step, header.spelling) for step in steps)
    return Edition(
        name=header.name,
        version=header.version,
        title=header.title,
        in_force_from=header.in_force_from,
        units=header.units,
        clauses=clauses,
        procedure=steps,
        orders=orders,
        crowns=header.crowns,
        covered=_covered(clauses, header),
        work=read_work(read_toml(whole[WORK]), orders, WORK) if WORK in whole else None,
        sizes=read_sizes(read_toml(folder / SIZES), SIZES) if (folder / SIZES).is_file() else (),
    )


def _keep(clauses: dict[str, Clause], clause: Clause) -> None:
    if clause.id in clauses:
        first = clauses[clause.id].file
        raise RulebookError(f'{clause.file}: clause "{clause.id}", id: is used twice, also in {first}')
    clauses[clause.id] = clause


def _covered(clauses: Mapping[str, Clause], header: Header) -> frozenset[tuple[str, str]]:
    """Pairs for which every essential quantity of the purpose is limited by some clause."""
    limited = {(clause.quantity, casing, purpose)
               for clause in clauses.values() for casing in clause.casings for purpose in clause.purposes}  # fmt: skip

    def is_covered(casing: str, purpose: str) -> bool:
        needed = header.essential_of.get((casing, purpose), header.essential.get(purpose, ()))
        return bool(needed) and all(any((name, casing, purpose) in limited for name in group) for group in needed)

    return frozenset((casing, purpose) for casing in CASINGS for purpose in PURPOSES if is_covered(casing, purpose))


def read_versions(folder: Path) -> tuple[Edition, ...]:
    """Every version of an edition, the first in force first: the newest in its folder, earlier ones in folders inside.

    Raises RulebookError, also for a version that stands twice or that another edition's name is on.
    """
    kept = sorted(path for path in folder.iterdir() if (path / HEADER).is_file())
    versions = [read_edition(path, editions=folder.parent) for path in [*kept, folder]]
    for place, one in enumerate(versions):
        if one.name != versions[-1].name:
            raise RulebookError(f'{HEADER}: name: "{one.name}" stands in a folder of "{versions[-1].name}"')
        if one.version in [other.version for other in versions[:place]]:
            raise RulebookError(f'{HEADER}: version: "{one.version}" of {one.name} stands in two folders')
    return tuple(sorted(versions, key=lambda one: (one.in_force_from, [int(part) for part in one.version.split(".")])))


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
