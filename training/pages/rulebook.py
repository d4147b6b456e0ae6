"""A whole rulebook as a page shows it: how the crown is measured, then clause by clause under what it is about."""

import re
from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass, replace
from datetime import date

from training.rulebook import (
    Clause,
    Edition,
    Source,
    Statement,
    Unread,
    cited_sources,
    crown_text,
    from_memory,
    is_unread,
    meaning_of,
    statement_text,
    to_rely_on,
    whose,
)
from training.trade.days import written_day
from training.trade.lists import all_of
from training.trade.speech import once_a_language, say, saying
from training.trade.words import CASING_WORDS

# What the first part of a quantity's name is about; all others are the tire itself.
_ABOUT = {
    "finding": "found",
    "tread": "tread",
    "injury": "injury",
    "repair": "repairs",
    "repairs": "repairs",
    "proposed": "repairs",
    "job": "work",
}
_TITLES = {
    "found": saying("What you find, outside and inside"),
    "injury": saying("The injury"),
    "repairs": saying("Repairs in the tire and repairs proposed"),
    "tread": saying("Tread depth"),
    "tire": saying("The tire, its markings, its place and its pressure"),
    "work": saying("The work"),
}
_TABLE = "table"
_THOUSAND = re.compile(r"(?<=\d),(?=\d{3}(?!\d))")
MEMORY = "from-memory"
_READ = {
    "whole text": saying("The whole text"),
    "paragraph": saying("Only {at}"),
    "summary": saying("Only a summary by {by}"),
}


@dataclass(frozen=True)
class Said:
    """One statement of a clause: the limit with what follows, its source, whether anyone has read it there."""

    limit: str
    source: str
    is_from_memory: bool
    is_unread: bool


@dataclass(frozen=True)
class Rule:
    """One clause to read aloud. `measures` is "" where the title says it.

    `limit` is what its strictest statement accepts; `shares_its_title`: another rule of its subject is called the same.
    """

    id: str
    title: str
    limit: str
    because: str
    measures: str
    whose: str
    said: tuple[Said, ...]
    checked_on: date
    in_force_from: date | None
    shares_its_title: bool = False

    def says(self, wanted: Iterable[str]) -> bool:
        """Does it say all these words, in small letters, anywhere? A thousand is found with its comma and without."""
        said = [text for one in self.said for text in (one.limit, one.source)]
        told = " ".join(map(str, (self.title, self.because, self.measures, self.whose, self.id, *said))).casefold()
        plain = _THOUSAND.sub("", told)
        return all(word in told or word in plain for word in wanted)


@dataclass(frozen=True)
class Group:
    """The clauses on one subject."""

    slug: str
    title: str
    rules: tuple[Rule, ...]


@dataclass(frozen=True)
class Crown:
    """How the repairable crown of some casings is measured."""

    casings: str
    measured: str
    source: str


@dataclass(frozen=True)
class Published:
    """One source to look up. `read` are what was read of it, in words; empty where nothing was."""

    publisher: str
    title: str
    year: str
    place: str
    address: str
    read: tuple[str, ...]


@dataclass(frozen=True)
class RulebookPage:
    """Everything the page prints of an edition.

    `unread` and `unread_tables`: what a trainer is to check; `sources`: what its rules are taken from.
    """

    crowns: tuple[Crown, ...]
    groups: tuple[Group, ...]
    unread: tuple[Unread, ...]
    unread_tables: tuple[Unread, ...]
    sources: tuple[Published, ...]


@once_a_language(32)
def rulebook_page(edition: Edition) -> RulebookPage:
    """Lay an edition out, house rules included where they are laid over it."""
    unread = from_memory(edition)
    grouped: dict[str, list[Rule]] = {slug: [] for slug in _TITLES}
    for clause in edition.clauses.values():
        grouped[_ABOUT.get(clause.quantity.partition(".")[0], "tire")].append(_rule(clause, edition))
    return RulebookPage(
        crowns=_crowns(edition),
        groups=tuple(Group(slug, _TITLES[slug], _told_apart(rules)) for slug, rules in grouped.items() if rules),
        unread=tuple(one for one in unread if one.where != _TABLE),
        unread_tables=tuple(one for one in unread if one.where == _TABLE),
        sources=tuple(map(_published, cited_sources(edition))),
    )


def rules_that_say(book: RulebookPage, wanted: str) -> tuple[Group, ...]:
    """The rules with all the words a reader typed, by subject; of two words each may stand elsewhere in the rule."""
    words = wanted.casefold().split()
    groups = (replace(group, rules=tuple(rule for rule in group.rules if rule.says(words))) for group in book.groups)
    return tuple(group for group in groups if group.rules)


def _told_apart(rules: list[Rule]) -> tuple[Rule, ...]:
    titles = Counter(str(rule.title) for rule in rules)
    return tuple(replace(rule, shares_its_title=titles[str(rule.title)] > 1) for rule in rules)


def _published(source: Source) -> Published:
    read = tuple(
        say(
            "{what}, read on {day}",
            what=_READ[one.what].format(at=all_of(one.at), by=one.by),
            day=written_day(one.on),
        )
        for one in source.read
    )
    return Published(source.publisher, source.title, source.year, source.place, source.address, read)


def _rule(clause: Clause, edition: Edition) -> Rule:
    return Rule(
        id=clause.id,
        title=clause.title,
        limit=statement_text(clause, clause.strictest, edition),
        because=clause.because,
        measures="" if clause.quantity.startswith("finding.") else meaning_of(clause.quantity, edition),
        whose=whose(clause, edition),
        said=tuple(_said(clause, one, edition) for one in clause.statements),
        checked_on=clause.checked_on,
        in_force_from=clause.in_force_from,
    )


def _said(clause: Clause, statement: Statement, edition: Edition) -> Said:
    limit = statement_text(clause, statement, edition)
    if clause.usually and statement is clause.strictest:
        limit = say("{limit} (usually {usually})", limit=limit, usually=clause.usually)
    return Said(limit, to_rely_on(statement.kind, statement.source), statement.kind == MEMORY,
                is_unread(statement.kind, statement.cited))  # fmt: skip


def _crowns(edition: Edition) -> tuple[Crown, ...]:
    casings: dict[tuple[str, str, str], list[str]] = {}
    for casing, rule in edition.crowns.items():
        casings.setdefault((crown_text(rule), rule.kind, rule.source), []).append(str(CASING_WORDS[casing].short))
    return tuple(
        Crown(", ".join(names), measured, to_rely_on(kind, source))
        for (measured, kind, source), names in casings.items()
    )
