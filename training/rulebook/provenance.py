"""Where values come from: every value that somebody knew but has not read in its source, so that it can be checked."""

from collections.abc import Iterator
from dataclasses import dataclass

from training.rulebook.citations import MEMORY, Cited, Source
from training.rulebook.compare import crown_text, statement_text
from training.rulebook.edition import Edition
from training.rulebook.markings import values_from_memory
from training.trade.words import CASING_WORDS, capital


@dataclass(frozen=True, slots=True)
class Unread:
    """One value to check: where it stands, its title there, the value as printed, and the text to read.

    `clause` is the id of the clause that states it, else "".
    """

    where: str
    title: str
    value: str
    source: str
    clause: str = ""


def from_memory(edition: Edition) -> tuple[Unread, ...]:
    """Every value of an edition, and of the tables for markings, that was not read in the text of its source."""
    return (*_clauses(edition), *_criteria(edition), *_tables())


def cited_sources(edition: Edition) -> tuple[Source, ...]:
    """Every published source that a rule of an edition cites, in the order of its files."""
    cited: list[Cited | None] = [one.cited for clause in edition.clauses.values() for one in clause.statements]
    cited += [crown.cited for crown in edition.crowns.values()]
    cited += [one.cited for step in edition.procedure for one in step.criteria]
    cited += edition.work.cited if edition.work is not None else ()
    used = {citation.source.id for one in cited if one is not None for citation in one.citations}
    return tuple(source for source in edition.library.sources.values() if source.id in used)


def is_unread(kind: str, cited: Cited | None) -> bool:
    """Was this not read in the text of its source?"""
    return kind == MEMORY or (cited is not None and cited.is_unread)


def _clauses(edition: Edition) -> Iterator[Unread]:
    for clause in edition.clauses.values():
        for one in clause.statements:
            if is_unread(one.kind, one.cited):
                yield Unread("clause", clause.title, statement_text(clause, one, edition), one.source, clause.id)
    for casing, crown in edition.crowns.items():
        if is_unread(crown.kind, crown.cited):
            yield Unread("crown", capital(CASING_WORDS[casing].many), crown_text(crown), crown.source)


def _criteria(edition: Edition) -> Iterator[Unread]:
    for step in edition.procedure:
        for one in step.criteria:
            if is_unread(one.kind, one.cited):
                yield Unread("step", step.title, one.text, one.source)


def _tables() -> Iterator[Unread]:
    for one in values_from_memory():
        yield Unread("table", one.table, one.row, one.source)
