"""The audit of a job as a page shows it: faults in the order of the work, in words."""

from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass

from training.rulebook import Job, OnShelf, ToldFault, audit, step_titles, to_write_down, told_fault
from training.trade.speech import say
from training.trade.words import METHOD_WORDS

_MISSING, _METHOD = "missing", "method"


@dataclass(frozen=True)
class Audited:
    """What the page prints. `is_sound` is None where it is not decided; `to_write_down` says, step by step, why not.

    `is_no_repair`: the tire was not to be repaired here, however well it was done. `lacks_the_tire`: some of what is to
    be written down was to be looked at on the tire before the work.
    """

    is_sound: bool | None
    method: str
    faults: tuple[ToldFault, ...]
    is_no_repair: bool
    to_write_down: tuple[tuple[str, tuple[str, ...]], ...]
    lacks_the_tire: bool
    not_stated: tuple[str, ...]
    not_examined: tuple[str, ...]
    version: str


def audited(
    job: Job, *, units: Sequence[OnShelf] | None, untouched: Collection[str] = (), not_done: Collection[str] = ()
) -> Audited:
    """Audit a job with a shop's repair units, if it has any, and put the answer in words.

    Of `untouched` steps nobody said whether they were done: they are no fault, and nothing is sound before they are;
    while there are any, only what is said not to be done is missing, and the method is not told from the steps.
    """
    answer = audit(job, units=units)
    faults = [
        fault
        for fault in answer.faults
        if not untouched or (fault.name in not_done if fault.fault == _MISSING else fault.fault != _METHOD)
    ]
    clauses = job.edition.clauses
    titles = step_titles(job.edition)
    silent = [name for name in answer.unexamined if name in clauses]
    return Audited(
        is_sound=False if faults else None if untouched else answer.sound,
        method="" if untouched else METHOD_WORDS.get(answer.method, ""),
        faults=tuple(told_fault(fault, job.edition) for fault in faults),
        is_no_repair=any(fault.fault == "not-repairable" for fault in answer.faults),
        to_write_down=(*to_write_down(answer.unstated, titles), *_whether_done(untouched, titles)),
        lacks_the_tire=any(not one.step for one in answer.unstated),
        not_stated=tuple(clauses[name].title for name in silent if clauses[name].is_for_job()),
        not_examined=tuple(clauses[name].title for name in silent if not clauses[name].is_for_job()),
        version=job.edition.version,
    )


def _whether_done(steps: Collection[str], titles: Mapping[str, str]) -> Iterator[tuple[str, tuple[str, ...]]]:
    if steps:
        yield say("Not said whether it was done"), tuple(str(titles[step]) for step in steps)
