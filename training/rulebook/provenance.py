"""Where values come from: every value that somebody knew but has not read in its source, so that it can be checked."""

from collections.abc import Iterator
from dataclasses import dataclass

from training.rulebook.clauses import Clause, Statement
from training.rulebook.edition import Edition
from training.rulebook.markings import values_from_memory

FROM_MEMORY = "from-memory"
_WORDS = ("from memory", "from a summary")


@dataclass(frozen=True, slots=True)
class Unread:
    """One value to check: where it stands, what it is called there, the value as printed, and the text to read."""

    where: str
    name: str
    value: str
    source: str


def from_memory(edition: Edition) -> tuple[Unread, ...]:
    """Every value of an edition, and of the tables for markings, that was not read in the text of its source.

    A statement counts by its kind, or where its source says "from memory" or "from a summary".
    """
    return (*_clauses(edition), *_criteria(edition), *_tables())


def is_unread(kind: str, source: str) -> bool:
    """Was this not read in the text of its source?

    >>> is_unread("law", "49 CFR 570.9(a) (from memory)"), is_unread("law", "49 CFR 393.75(b)")
    (True, False)
    """
    return kind == FROM_MEMORY or any(words in source for words in _WORDS)


def _clauses(edition: Edition) -> Iterator[Unread]:
    for clause in edition.clauses.values():
        for one in clause.statements:
            if is_unread(one.kind, one.source):
                yield Unread("clause", clause.id, _value(clause, one), one.source)
    for casing, crown in edition.crowns.items():
        if is_unread(crown.kind, crown.source):
            yield Unread("crown", casing, crown.basis.replace("-", " "), crown.source)


def _value(clause: Clause, statement: Statement) -> str:
    whose = f" ({statement.jurisdiction})" if statement.jurisdiction else ""
    follows = "" if clause.is_for_job() else f", else {statement.otherwise}"
    return f"{statement.text}{follows}{whose}"


def _criteria(edition: Edition) -> Iterator[Unread]:
    for step in edition.procedure:
        for one in step.criteria:
            if is_unread(one.kind, one.source):
                yield Unread(f"step {step.id}", one.id, one.text, one.source)


def _tables() -> Iterator[Unread]:
    for one in values_from_memory():
        yield Unread("table", one.table, one.row, one.source)
