"""The lines that explain a key: which rulings are told, and what a line says of a ruling or a clause."""

from __future__ import annotations

from training.rulebook import Clause, Decision, Edition, Ruling, severity
from training.trade.measures import as_read
from training.trade.words import finding_in_words, written


def explaining(decision: Decision) -> tuple[Ruling, ...]:
    """The rulings that explain a verdict: what failed, or, where the tire may be repaired, all on its injuries."""
    if severity(decision.verdict) > severity("repair"):
        return decision.deciding
    return tuple(ruling for ruling in decision.rulings if ruling.subject != "tire")


def ruling_line(ruling: Ruling, edition: Edition) -> dict[str, object]:
    """A line of an explanation from a ruling: its title, what was found, the limit, why, and whose rule it is."""
    clause = edition.clauses.get(ruling.clause)
    return {
        "clause": ruling.clause,
        "title": "" if clause is None else clause.title,
        "subject": finding_in_words(ruling.subject),
        "holds": ruling.holds,
        "found": as_read(str(written(ruling.found))),
        "limit": as_read(ruling.limit),
        "because": ruling.because,
        "kind": ruling.kind,
        "source": ruling.source,
    }


def clause_line(clause: Clause) -> dict[str, object]:
    """A line of an explanation from a clause that was not applied to a case."""
    return {
        "clause": clause.id,
        "title": clause.title,
        "subject": "",
        "holds": None,
        "found": "",
        "limit": clause.printed_limit(),
        "because": clause.because,
        "kind": clause.kind,
        "source": clause.source,
    }
