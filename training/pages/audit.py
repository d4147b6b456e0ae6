"""The audit of a job as a page shows it: faults in the order of the work, in words."""

from collections.abc import Sequence
from dataclasses import dataclass

from training.rulebook import Fault, Job, OnShelf, Unstated, audit

_KINDS = {
    "not-repairable": "Not to be repaired here",
    "method": "Wrong method",
    "missing": "Left out",
    "order": "Out of order",
    "limit": "Off its limit",
}


@dataclass(frozen=True)
class FaultLine:
    """One fault: where in the work, what kind of fault, and the fault itself."""

    where: str
    what: str
    fault: Fault


@dataclass(frozen=True)
class Audited:
    """What the page prints. `is_sound` is None where it is not decided; `to_write_down` says, step by step, why not.

    `lacks_the_tire`: some of it was to be looked at on the tire before the work.
    """

    is_sound: bool | None
    method: str
    faults: tuple[FaultLine, ...]
    to_write_down: tuple[tuple[str, tuple[str, ...]], ...]
    lacks_the_tire: bool
    not_stated: tuple[str, ...]
    not_examined: tuple[str, ...]
    version: str


def audited(job: Job, *, units: Sequence[OnShelf] | None) -> Audited:
    """Audit a job with a shop's repair units, if it has any, and put the answer in words."""
    answer = audit(job, units=units)
    clauses = job.edition.clauses
    titles = {step.id: step.title for step in job.edition.procedure}
    silent = [name for name in answer.unexamined if name in clauses]
    return Audited(
        is_sound=answer.sound,
        method=answer.method,
        faults=tuple(FaultLine(_where(fault, titles), _KINDS[fault.fault], fault) for fault in answer.faults),
        to_write_down=_by_step(answer.unstated, titles),
        lacks_the_tire=any(not one.step for one in answer.unstated),
        not_stated=tuple(name.replace("-", " ") for name in silent if clauses[name].is_for_job()),
        not_examined=tuple(name.replace("-", " ") for name in silent if not clauses[name].is_for_job()),
        version=job.edition.version,
    )


def _where(fault: Fault, titles: dict[str, str]) -> str:
    title = titles.get(fault.name, fault.name.replace("-", " "))
    return f"Step {fault.step}, {title}" if fault.step else title


def _by_step(unstated: Sequence[Unstated], titles: dict[str, str]) -> tuple[tuple[str, tuple[str, ...]], ...]:
    """What is not written down, gathered under the step it belongs to; what belongs to the tire comes first."""
    gathered: dict[str, list[str]] = {}
    for one in unstated:
        place = titles.get(one.step, one.step) or "The tire"
        injury = f", injury {one.injury}" if one.injury else ""
        gathered.setdefault(f"{place}{injury}", []).append(one.words)
    return tuple((place, tuple(words)) for place, words in gathered.items())
