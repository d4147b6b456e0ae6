"""Auditing a job: may this tire be repaired so, and was the work done as the rulebook says?"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from training.rulebook.audit_fault import FAULTS, Fault, by_rule, by_ruling
from training.rulebook.audit_job import Job, LoggedStep, parse_job
from training.rulebook.audit_limits import Work, limit_faults, method_faults
from training.rulebook.audit_order import NOT_LOGGED, order_faults
from training.rulebook.audit_return import not_to_go_back
from training.rulebook.audit_rules import WorkRules
from training.rulebook.audit_unstated import (
    Unstated,
    unstated_of_conditions,
    unstated_of_tire,
    unstated_of_work,
)
from training.rulebook.case import Case, Injury
from training.rulebook.case_words import severity
from training.rulebook.decision import Decision
from training.rulebook.edition import Edition
from training.rulebook.engine import decide
from training.rulebook.units import OnShelf
from training.rulebook.walking import NOT_COVERED
from training.trade.lists import either
from training.trade.speech import say

_HARDEST_TO_WORK_ON = "refer"
_NOT_REPAIRABLE = "not-repairable"
_PROPOSABLE = ("one-piece", "two-piece")
_SIZE, _ANGLE, _PREPARED = "job.size_found", "job.angle_found", "job.size_prepared"
_FILL = "surface-fill"
_PAIR = "+"  # between the names of two repairs, as the subject of a ruling


@dataclass(frozen=True, slots=True)
class Audit:
    """Faults of a job, in the order of the work, and what is critical and stands nowhere.

    `sound`: True only if nothing is wrong and nothing critical is unstated, False with a fault, None where nothing that
    is stated is wrong but something critical is unstated. `unexamined`: clauses on which case and log are silent.
    """

    sound: bool | None
    faults: tuple[Fault, ...]
    method: str
    unexamined: tuple[str, ...]
    unstated: tuple[Unstated, ...] = ()

    def to_json(self) -> dict[str, object]:
        """The answer as JSON data."""
        return {
            "sound": self.sound,
            "unstated": [one.text for one in self.unstated],
            "faults": [fault.to_json() for fault in self.faults],
        }


@dataclass(frozen=True, slots=True)
class _Audited:
    """One repair, audited."""

    faults: Sequence[Fault] = ()
    method: str = ""
    unexamined: Sequence[str] = ()
    unstated: Sequence[Unstated] = ()


def audit(
    job: Job | Mapping[str, object],
    *,
    edition: Edition | None = None,
    units: Sequence[OnShelf] | None = None,
    rest_in_order: bool = False,
) -> Audit:
    """Hold a job against its rulebook (or a shop's own edition), with its repair units, if it has any.

    `rest_in_order` takes the word of whoever tells the job that what is not said of tire and work is in order.
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
    audited = _audited(job, units)
    found = [fault for one in audited for fault in one.faults]
    if not any(fault.fault == _NOT_REPAIRABLE for fault in found):
        found += not_to_go_back(job.steps, job.case, job.edition)
    kept = _in_order_of_work(tuple(dict.fromkeys(found)), job)
    unstated = tuple(dict.fromkeys(thing for one in audited for thing in one.unstated)) if not rest_in_order else ()
    methods = dict.fromkeys(one.method for one in audited if one.method)
    unexamined = dict.fromkeys(id for one in audited for id in one.unexamined)
    return Audit(False if kept else None if unstated else True, kept, ", ".join(methods), tuple(unexamined), unstated)


def _audited(job: Job, units: Sequence[OnShelf] | None) -> list[_Audited]:
    """The repairs of a job: one, or one for each injury where the log's lines say which injury they were for."""
    edition, rules = job.edition, job.edition.work
    case = replace(job.case, purpose="repair")
    if rules is None or not edition.orders:
        return [_Audited(_not_covered(edition, case))]
    if any(step.name == "demount" for step in job.steps):
        case = replace(case, on_wheel=False)
    injuries = case.injuries or ()
    named = {step.injury for step in job.steps if step.injury is not None}
    if not named:
        one = _audit_repair(edition, rules, job.steps, case, units, repairs=max(1, len(injuries)))
        if len(injuries) > 1:
            ids = either(injury.id for injury in injuries)
            return [
                one,
                _Audited(
                    unstated=(
                        Unstated(
                            "", say("for each line of the work, which injury it was for: {injuries}", injuries=ids)
                        ),
                    )
                ),
            ]
        return [one]
    repaired: list[_Audited] = []
    measured: list[Injury] = []
    for injury in injuries:
        steps = tuple(step for step in job.steps if step.injury in (None, injury.id))
        alone = replace(case, injuries=(injury,))
        repaired.append(_audit_one_of_several(edition, rules, steps, alone, units))
        measured += _as_measured(alone, steps).injuries or ()
    return [*repaired, _side_by_side(edition, job.steps, replace(case, injuries=tuple(measured)), units)]


def _audit_one_of_several(
    edition: Edition, rules: WorkRules, steps: tuple[LoggedStep, ...], case: Case, units: Sequence[OnShelf] | None
) -> _Audited:
    """The repair of one injury among others; its name goes with what the log does not say of it."""
    (injury,) = case.injuries or (Injury(id=""),)
    closing = {name for method in edition.orders for name in _own_steps(edition, method)}
    if rules.unrepaired is None or any(step.name in closing for step in steps):
        one = _audit_repair(edition, rules, steps, case, units)
        unstated = [replace(thing, injury=injury.id) if thing.step else thing for thing in one.unstated]
        return replace(one, unstated=unstated)
    decision = decide(replace(case, proposed=None), edition=edition, units=units, rest_in_order=True)
    faults = _not_repairable(decision, edition, steps)
    if not faults:
        name = _own_steps(edition, "two-piece" if injury.kind == "puncture" else _FILL)[-1]
        limit = say("every injury repaired, or the tire out of service")
        faults = [by_rule(None, name, "missing", rules.unrepaired, found=f"{injury.id}: {NOT_LOGGED}", limit=limit)]
    return _Audited(faults)


def _side_by_side(
    edition: Edition, steps: tuple[LoggedStep, ...], case: Case, units: Sequence[OnShelf] | None
) -> _Audited:
    """What several repairs in one tire do to one another."""
    decision = decide(replace(case, proposed=None), edition=edition, units=units)
    between = replace(decision, rulings=tuple(one for one in decision.rulings if _PAIR in one.subject))
    return _Audited(_not_repairable(between, edition, steps), unstated=tuple(unstated_of_tire(decision, case, edition)))


def _audit_repair(
    edition: Edition,
    rules: WorkRules,
    steps: tuple[LoggedStep, ...],
    case: Case,
    units: Sequence[OnShelf] | None,
    *,
    repairs: int = 1,
) -> _Audited:
    """One repair: may this injury be repaired so, and was it done as the rulebook says?"""
    found = [case, _as_measured(case, steps)] if _measured(steps) else [case]
    decisions = [decide(replace(one, proposed=None), edition=edition, units=units) for one in found]
    decision = decisions[-1]
    faults = [fault for one in decisions for fault in _not_repairable(one, edition, steps)]
    kinds = frozenset(injury.kind for injury in case.injuries or ())
    method, of_order = _method(edition, rules, steps, case, repairs)
    work = Work(case, edition, rules, method, kinds)
    shown_at = _shows_method(steps, edition, method)
    if shown_at is not None:
        faults += method_faults(shown_at, work)
    faults += [fault for one in found for fault in _proposals(one, edition, method, shown_at)]
    if case.proposed is not None and case.proposed not in _PROPOSABLE:
        faults += _proposals(case, edition, case.proposed, shown_at)
    judged = limit_faults(steps, work)
    faults += [*of_order, *judged.faults, *_smaller_after_cutting(steps, case, rules)]
    unstated = [
        *unstated_of_tire(decision, replace(found[-1], injuries=case.injuries), edition),
        *unstated_of_conditions(judged.unsure, edition),
        *unstated_of_work(steps, work),
    ]
    return _Audited(faults, method, decision.unexamined + judged.silent, unstated)


def _smaller_after_cutting(steps: Sequence[LoggedStep], case: Case, rules: WorkRules) -> list[Fault]:
    """The cutter takes rubber and cord away: no hole is smaller after it than before, nor when measured again."""
    after = next((step for step in reversed(steps) if _PREPARED in step.stated), None)
    if rules.smaller is None or after is None:
        return []
    sizes = [step.stated[name].measured for step in steps for name in (_SIZE, _PREPARED) if name in step.stated]
    sizes += [injury.before_removal for injury in case.injuries or () if len(case.injuries or ()) == 1]
    prepared = after.stated[_PREPARED].measured
    before = max((size for size in sizes if size is not None), key=lambda size: size.value, default=None)
    if before is None or prepared is None:
        return []
    # sizes taken in two units differ by the marks of two scales
    slack = Fraction(0) if before.unit == prepared.unit else rules.exactly_within.value
    if prepared.value >= before.value - slack:
        return []
    found = say("{prepared} after the cutter, {before} before it", prepared=prepared, before=before)
    limit = say("at least as large after the cutter as before it")
    return [by_rule(after.number, after.name, "limit", rules.smaller, found=found, limit=limit)]


def _not_covered(edition: Edition, case: Case) -> list[Fault]:
    """An edition without rules of the work releases no work."""
    decision = decide(replace(case, proposed=None), edition=edition, rest_in_order=True)
    failing = [one for one in decision.rulings if one.clause == NOT_COVERED]
    faults = [by_ruling(None, "inspect", _NOT_REPAIRABLE, ruling) for ruling in failing]
    if faults:
        return faults
    return [
        Fault(None, "inspect", NOT_COVERED, _NOT_REPAIRABLE, f"{edition.name} {edition.version}",
              say("rules of the work in this rulebook"),
              say("This rulebook has no rules for the work, and nothing is released that no rule covers."),
              "common-practice", say("{rulebook}: nothing is released without a clause", rulebook=edition.title))
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
            faults.append(by_ruling(at.get(name), name, _NOT_REPAIRABLE, ruling))
    return faults


def _method(
    edition: Edition, rules: WorkRules, steps: tuple[LoggedStep, ...], case: Case, repairs: int
) -> tuple[str, list[Fault]]:
    """The method the log shows: of those whose own steps are in it, the one it departs from least."""
    said = {name: found.word for step in steps for name, found in step.stated.items() if found.word is not None}
    shown = [method for method in edition.orders if _shows_method(steps, edition, method) is not None]
    if not shown and {injury.kind for injury in case.injuries or ()} in (set(), {"puncture"}):
        shown = [method for method in edition.orders if method in _PROPOSABLE]
    tried = {
        method: order_faults(steps, edition=edition, rules=rules, method=method, said=said, repairs=repairs)
        for method in shown or edition.orders
    }
    likely = case.proposed if case.proposed in tried else "two-piece"
    method = min(tried, key=lambda name: (len(tried[name]), name != likely))
    return method, tried[method]


def _shows_method(steps: Sequence[LoggedStep], edition: Edition, method: str) -> LoggedStep | None:
    """The first step that belongs to this method alone."""
    own = _own_steps(edition, method)
    return next((step for step in steps if step.name in own), None)


def _own_steps(edition: Edition, method: str) -> tuple[str, ...]:
    """The steps of a method that no other has, in their order."""
    elsewhere = {name for other, names in edition.orders.items() if other != method for name in names}
    return tuple(name for name in edition.orders.get(method, ()) if name not in elsewhere)


def _proposals(case: Case, edition: Edition, proposed: str, shown_at: LoggedStep | None) -> list[Fault]:
    """The method as a proposal: what the rulebook's clauses on proposed repairs say of it."""
    if proposed == "surface-fill":
        return []
    decision = decide(replace(case, proposed=proposed), edition=edition, rest_in_order=True)
    step, name = (None, proposed) if shown_at is None else (shown_at.number, shown_at.name)
    return [
        by_ruling(step, name, "method", ruling)
        for ruling in decision.rulings
        if ruling.subject == "proposal" and not ruling.holds and ruling.clause != NOT_COVERED
    ]


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
