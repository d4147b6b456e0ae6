"""Auditing a job: may this tire be repaired so, and was the work done as the rulebook says?"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from training.rulebook.audit_fault import FAULTS, Fault, by_ruling
from training.rulebook.audit_job import Job, LoggedStep, parse_job
from training.rulebook.audit_limits import Work, limit_faults, method_faults
from training.rulebook.audit_order import order_faults
from training.rulebook.audit_rules import WorkRules
from training.rulebook.case import Case, Injury
from training.rulebook.case_words import severity
from training.rulebook.decision import CAUTION, Decision
from training.rulebook.edition import Edition
from training.rulebook.engine import NOT_COVERED, decide
from training.rulebook.measures import MEASURES
from training.rulebook.units import RepairUnit

_HARDEST_TO_WORK_ON = "refer"
_PROPOSABLE = ("one-piece", "two-piece")
_SIZE, _ANGLE, _PREPARED = "job.size_found", "job.angle_found", "job.size_prepared"


@dataclass(frozen=True, slots=True)
class Audit:
    """The faults of a job, in the order of the work. `unexamined`: clauses on which case and log are silent."""

    sound: bool
    faults: tuple[Fault, ...]
    method: str
    unexamined: tuple[str, ...]

    def to_json(self) -> dict[str, object]:
        """The answer as JSON data."""
        return {"sound": self.sound, "faults": [fault.to_json() for fault in self.faults]}


def audit(
    job: Job | Mapping[str, object], *, edition: Edition | None = None, units: Sequence[RepairUnit] | None = None
) -> Audit:
    """Hold a job against its rulebook (or a shop's own edition), with these repair units (or the ordinary ones).

    Raises JobError for input that is not a job.

    >>> log = [{"step": "remove-damage", "speed": "1500 rpm"}]
    >>> job = {"case": {"tire": {"casing": "passenger"}}, "steps": log}
    >>> [fault.found for fault in audit(job).faults if fault.clause == "cutter-speed"]
    ['1500 rpm']
    """
    if not isinstance(job, Job):
        job = parse_job(job, edition=edition)
    elif edition is not None:
        job = replace(job, edition=edition)
    faults: list[Fault] = []
    unexamined: list[str] = []
    methods: list[str] = []
    for steps, case in _repairs(job):
        found, method, silent = _audit_repair(job.edition, steps, case, units)
        faults += found
        methods.append(method)
        unexamined += silent
    kept = _in_order_of_work(tuple(dict.fromkeys(faults)), job)
    return Audit(not kept, kept, ", ".join(dict.fromkeys(methods)), tuple(dict.fromkeys(unexamined)))


def _repairs(job: Job) -> list[tuple[tuple[LoggedStep, ...], Case]]:
    """The log once; or once for each injury where its steps say which injury they were for."""
    case = replace(job.case, purpose="repair")
    named = {step.injury for step in job.steps if step.injury is not None}
    if not named:
        return [(job.steps, case)]
    return [
        (tuple(step for step in job.steps if step.injury in (None, injury.id)), replace(case, injuries=(injury,)))
        for injury in case.injuries or ()
    ]


def _audit_repair(
    edition: Edition, steps: tuple[LoggedStep, ...], case: Case, units: Sequence[RepairUnit] | None
) -> tuple[list[Fault], str, tuple[str, ...]]:
    """Faults of one repair, its method, and what case and log are silent on."""
    rules = edition.work
    if rules is None or not edition.orders:
        return _not_covered(edition, case), "", ()
    if any(step.name == "demount" for step in steps):
        case = replace(case, on_wheel=False)
    found = [case, _as_measured(case, steps)] if _measured(steps) else [case]
    faults: list[Fault] = []
    silent: tuple[str, ...] = ()
    for one in found:
        decision = decide(replace(one, proposed=None), edition=edition, units=units, rest_in_order=True)
        faults += _not_repairable(decision, edition, steps)
        silent = decision.unexamined
    kinds = frozenset(injury.kind for injury in case.injuries or ())
    method, faults_of_order = _method(edition, rules, steps, case)
    work = Work(case, edition, rules, method, kinds)
    shown_at = _shows_method(steps, edition, method)
    if shown_at is not None:
        faults += method_faults(shown_at, work)
    faults += _proposals(found[-1], edition, method, shown_at)
    if case.proposed is not None and case.proposed not in _PROPOSABLE:
        faults += _proposals(case, edition, case.proposed, shown_at)
    faults_of_limit, not_stated = limit_faults(steps, work)
    return [*faults, *faults_of_order, *faults_of_limit], method, silent + not_stated


def _not_covered(edition: Edition, case: Case) -> list[Fault]:
    """An edition without rules of the work releases no work."""
    decision = decide(replace(case, proposed=None), edition=edition, rest_in_order=True)
    failing = [one for one in decision.rulings if one.clause == NOT_COVERED]
    faults = [by_ruling(None, "inspect", "not-repairable", ruling) for ruling in failing]
    if faults:
        return faults
    return [
        Fault(None, "inspect", NOT_COVERED, "not-repairable", f"{edition.name} {edition.version}",
              "rules of the work in this rulebook",
              "This rulebook has no rules for the work, and nothing is released that no rule covers.",
              "common-practice", f"{edition.title}: nothing is released without a clause")
    ]  # fmt: skip


def _measured(steps: Sequence[LoggedStep]) -> bool:
    return any(name in step.stated for step in steps for name in (_SIZE, _ANGLE, _PREPARED))


def _as_measured(case: Case, steps: Sequence[LoggedStep]) -> Case:
    """The case with what the log measured: the prepared size decides, the probed angle counts."""
    last = {name: found for step in steps for name, found in step.stated.items()}
    size, angle, prepared = (last[name].measured if name in last else None for name in (_SIZE, _ANGLE, _PREPARED))
    injuries = case.injuries if case.injuries is not None else (Injury(id="A"),)
    return replace(
        case,
        injuries=tuple(
            replace(
                injury,
                before_removal=size or injury.before_removal,
                diameter=prepared or injury.diameter,
                angle=angle or injury.angle,
            )
            if injury.kind == "puncture"
            else injury
            for injury in injuries
        ),
    )


def _not_repairable(decision: Decision, edition: Edition, steps: Sequence[LoggedStep]) -> list[Fault]:
    """One fault for each ruling that takes the tire away from this bench, at the step that should have stopped it."""
    at = {step.name: step.number for step in steps}
    carries = {clause: step.id for step in edition.procedure for clause in step.clauses}
    faults = []
    for ruling in decision.rulings:
        if not ruling.holds and severity(ruling.consequence) >= severity(_HARDEST_TO_WORK_ON):
            name = carries.get(ruling.clause, "inspect")
            faults.append(by_ruling(at.get(name), name, "not-repairable", ruling))
    return faults


def _method(edition: Edition, rules: WorkRules, steps: tuple[LoggedStep, ...], case: Case) -> tuple[str, list[Fault]]:
    """The method the log shows: of those whose own steps are in it, the one it departs from least."""
    said = {name: found.word for step in steps for name, found in step.stated.items() if found.word is not None}
    shown = [method for method in edition.orders if _shows_method(steps, edition, method) is not None]
    tried = {
        method: order_faults(steps, edition=edition, rules=rules, method=method, said=said)
        for method in shown or edition.orders
    }
    likely = case.proposed if case.proposed in tried else "two-piece"
    method = min(tried, key=lambda name: (len(tried[name]), name != likely))
    return method, tried[method]


def _shows_method(steps: Sequence[LoggedStep], edition: Edition, method: str) -> LoggedStep | None:
    """The first step that belongs to this method alone."""
    elsewhere = {name for other, names in edition.orders.items() if other != method for name in names}
    own = set(edition.orders[method]) - elsewhere
    return next((step for step in steps if step.name in own), None)


def _proposals(case: Case, edition: Edition, proposed: str, shown_at: LoggedStep | None) -> list[Fault]:
    """The method as a proposal: what the rulebook's clauses on proposed repairs say of it."""
    if proposed == "surface-fill":
        return []
    decision = decide(replace(case, proposed=proposed), edition=edition, rest_in_order=True)
    step, name = (None, proposed) if shown_at is None else (shown_at.number, shown_at.name)
    faults = [
        by_ruling(step, name, "method", ruling)
        for ruling in decision.rulings
        if ruling.subject == "proposal" and not ruling.holds and ruling.clause != NOT_COVERED
    ]
    for id in decision.unexamined:
        clause = edition.clauses.get(id)
        if clause is not None and MEASURES[clause.quantity].about == "proposal":
            stated = clause.strictest
            faults.append(Fault(step, name, id, "method", "not measured", stated.text, clause.because, stated.kind,
                                stated.source))  # fmt: skip
    return faults


def _in_order_of_work(faults: tuple[Fault, ...], job: Job) -> tuple[Fault, ...]:
    """What ends the work first; the rest where it stands, or should stand, in the log."""
    last = {step.name: step.number for step in job.steps}
    place = {step.id: number for number, step in enumerate(job.edition.procedure)}

    def key(fault: Fault) -> tuple[int, float, int]:
        rank = FAULTS.index(fault.fault)
        if rank < FAULTS.index("missing"):
            return (rank, fault.step or 0, 0)
        if fault.step is not None:
            return (len(FAULTS), fault.step, rank)
        here = place.get(fault.name, 0)
        earlier = [number for name, number in last.items() if place.get(name, here) < here]
        return (len(FAULTS), max(earlier, default=0) + 0.5, here)

    return tuple(sorted(faults, key=key))


_WORDS = {"not-repairable": "NOT REPAIRABLE", "method": "WRONG METHOD", "missing": "MISSING", "order": "OUT OF ORDER",
          "limit": "OFF LIMIT"}  # fmt: skip


def audit_text(answer: Audit, job: Job) -> str:
    """The audit for a person to read."""
    edition = job.edition
    lines = [f"{job.case.tire.casing}: {answer.method or 'repair'}; rulebook {edition.name} {edition.version}"]
    of_work = [id for id in answer.unexamined if id in edition.clauses and edition.clauses[id].is_for_job()]
    of_tire = [id for id in answer.unexamined if id not in of_work]
    for what, silent in (("was not examined on the tire", of_tire), ("the log does not state", of_work)):
        if silent:
            lines.append(f"Provided that what {what} is in order: {', '.join(id.replace('-', ' ') for id in silent)}.")
    count = len(answer.faults)
    lines.append("SOUND: no fault found" if answer.sound else f"NOT SOUND: {count} fault{'s' if count > 1 else ''}")
    for fault in answer.faults:
        where = f"line {fault.step}, {fault.name}" if fault.step else fault.name
        lines.append(f"  - {_WORDS[fault.fault]}, {where}: found {fault.found}; accepted: {fault.limit}")
        lines.append(f"    {fault.because} [{fault.clause}; {fault.kind}: {fault.source}]")
    if not answer.sound:
        lines.append("A tire repaired like this does not go back on the road until the fault is put right.")
    lines.append(CAUTION)
    return "\n".join(lines)
