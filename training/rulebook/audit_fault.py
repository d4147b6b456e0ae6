"""What an audit answers: the faults of a job, as values."""

from dataclasses import dataclass

from training.rulebook.audit_critical import Plausible
from training.rulebook.audit_rules import Reason
from training.rulebook.clauses import Clause, Statement
from training.rulebook.decision import Ruling
from training.trade.speech import say

FAULTS = ("not-repairable", "method", "missing", "order", "limit")


@dataclass(frozen=True, slots=True)
class Fault:
    """One thing that is wrong with a job.

    `step` counts the log's lines from 1, None where no line stands for it; `name` is the step it is about.
    `fault` is one of FAULTS; `clause` a clause of the edition, or one of its rules of the work.
    """

    step: int | None
    name: str
    clause: str
    fault: str
    found: str
    limit: str
    because: str
    kind: str
    source: str

    def to_json(self) -> dict[str, object]:
        """The fault as JSON data."""
        return {
            "step": self.step,
            "name": self.name,
            "clause": self.clause,
            "fault": self.fault,
            "found": str(self.found),
            "limit": str(self.limit),
            "because": str(self.because),
            "source": str(self.source),
        }


def by_rule(step: int | None, name: str, fault: str, reason: Reason, *, found: str, limit: str) -> Fault:
    """A fault against a rule of the work."""
    return Fault(step, name, reason.id, fault, found, limit, reason.because, reason.kind, reason.source)


def by_sense(step: int, name: str, plausible: Plausible, *, found: str) -> Fault:
    """A fault of a value that cannot be."""
    return Fault(
        step, name, plausible.id, "limit", found, plausible.text, plausible.because, plausible.kind, plausible.source
    )


def by_clause(step: int, name: str, fault: str, clause: Clause, statement: Statement, *, found: str,
              place: str | None) -> Fault:  # fmt: skip
    """A fault against a clause that the log breaks, in a country or state where one is named."""
    limit = statement.signed
    if clause.usually and not statement.is_house:
        limit = say("{limit} (usually {usually})", limit=limit, usually=clause.usually)
    said = statement.said_in(place)
    return Fault(step, name, clause.id, fault, found, limit, clause.because, said.kind, said.source)


def by_ruling(step: int | None, name: str, fault: str, ruling: Ruling) -> Fault:
    """A fault that a ruling on the tire names."""
    found = ruling.found if ruling.subject in ("tire", "proposal") else f"{ruling.subject}: {ruling.found}"
    return Fault(step, name, ruling.clause, fault, found, ruling.limit, ruling.because, ruling.kind, ruling.source)
