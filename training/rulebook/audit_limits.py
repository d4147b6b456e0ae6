"""What a log states of the work, held against the limits of the edition."""

from collections.abc import Iterator, Mapping, Sequence, Set
from dataclasses import dataclass
from fractions import Fraction

from training.rulebook.audit_critical import Plausible
from training.rulebook.audit_fault import Fault, by_clause, by_sense
from training.rulebook.audit_job import LoggedStep
from training.rulebook.audit_rules import WorkRules
from training.rulebook.audit_words import ALL_COUNT, FIRST_COUNTS, LAST_COUNTS, STEP_PARAMETERS
from training.rulebook.case import Case
from training.rulebook.clauses import Clause, Condition, Statement
from training.rulebook.edition import Edition
from training.rulebook.measures import MEASURES, Facts, Found
from training.rulebook.quantities import UNITS, Quantity, quantity
from training.trade.speech import say

_SIDE = "job.cutter_start"
_SET, _SEATED, _SIDEWALL = "job.pressure_set", "job.seating_pressure", "job.sidewall_max"
_TORQUE, _SPECIFIED, _TORQUE_KNOWN = "job.torque", "job.torque_specified", "job.torque_known"
# What is computed of a value that the log states beside another: the share by the value.
_SHARE = "job.inflation"
_OF = {_SHARE: _SET, "job.sidewall_share": _SET, "job.seating_share": _SEATED, "job.torque_share": _TORQUE}
_METHOD = "job.method"
_PUNCTURE = "puncture"


@dataclass(frozen=True, slots=True)
class Work:
    """One repair as it is judged: its tire, its method and the words that hold for all of it."""

    case: Case
    edition: Edition
    rules: WorkRules
    method: str
    injury_kinds: frozenset[str]


@dataclass(frozen=True, slots=True)
class _Stated:
    """What the log states of one quantity, after repeated entries were put together."""

    step: LoggedStep
    name: str
    found: Found
    beside: Mapping[str, Found]


@dataclass(frozen=True, slots=True)
class Judged:
    """What comes of holding a log against the limits.

    `silent`: clauses on which the log says nothing; `unsure`: quantities of the tire and the vehicle that say whether a
    limit is one for this work, where what the log states would break it.
    """

    faults: tuple[Fault, ...]
    silent: tuple[str, ...]
    unsure: tuple[str, ...]


def limit_faults(steps: Sequence[LoggedStep], work: Work) -> Judged:
    """Hold what a log states against every limit of the work."""
    clauses = [one for one in work.edition.of_work if _covers(one, work)]
    faults: list[Fault] = []
    silent: list[str] = []
    unsure: list[str] = []
    judged: set[str] = set()
    for stated in _put_together(steps, work):
        failed: list[tuple[Clause, Statement]] = []
        for clause in clauses:
            if clause.quantity != stated.name:
                continue
            judged.add(clause.id)
            broken = _broken(clause, stated.found, work)
            applies = _applies(clause.when, stated.beside, work)
            if applies is None and broken is not None:
                silent.append(clause.id)
                unsure += [one.quantity for one in clause.when if _applies((one,), stated.beside, work) is None]
            elif applies and broken is not None:
                failed.append((clause, broken))
        if failed:
            # Of several limits on one value the one that asks most of this tire or weather says it all.
            clause, statement = max(failed, key=lambda pair: len(pair[0].when))
            kind = "method" if clause.quantity == _METHOD else "limit"
            faults.append(
                by_clause(
                    stated.step.number,
                    stated.step.name,
                    kind,
                    clause,
                    statement,
                    found=stated.found.text,
                    place=work.case.jurisdiction,
                )
            )
        elif (absurd := _implausible(stated.name, stated.found, stated.beside, work)) is not None:
            faults.append(by_sense(stated.step.number, stated.step.name, absurd, found=stated.found.text))
    could = {name for step in steps for name in STEP_PARAMETERS.get(step.name, {}).values()}
    silent += [one.id for one in clauses if one.id not in judged and _was_asked(one, could, work)]
    return Judged(tuple(faults), tuple(dict.fromkeys(silent)), tuple(dict.fromkeys(unsure)))


def _implausible(name: str, found: Found, beside: Mapping[str, Found], work: Work) -> Plausible | None:
    """The rule by which a value cannot be true; None where it can."""
    measured = found.measured
    if measured is None:
        return None
    for one in work.rules.plausible:
        if one.quantity == name and work.case.tire.casing in one.casings and not one.holds(measured):
            return None if one.unless in beside else one
    return None


def _covers(clause: Clause, work: Work) -> bool:
    return work.case.tire.casing in clause.casings and work.case.purpose in clause.purposes


def _was_asked(clause: Clause, could: Set[str], work: Work) -> bool:
    """Is the quantity of the clause among those that the steps of a log could state, and is it about this work?"""
    if clause.quantity in _OF and clause.quantity != _SHARE:
        return False  # the figure beside it is one that a log may leave out
    wanted = _OF.get(clause.quantity, clause.quantity)
    return wanted in could and _applies(clause.when, {}, work) is not False


def _put_together(steps: Sequence[LoggedStep], work: Work) -> Iterator[_Stated]:
    """One value for each quantity: counts and unbroken waits added up, results from the entry that counts."""
    groups: dict[tuple[str, ...], list[LoggedStep]] = {}
    first_at: dict[str, int] = {}
    run = 0
    before = ""
    for step in steps:
        first_at.setdefault(step.name, step.number)
        run += step.name != before
        before = step.name
        for name in step.stated:
            groups.setdefault(_group(step, name, run), []).append(step)
    for (name, *_), entries in groups.items():
        if name in FIRST_COUNTS:
            entries = entries[:1]
            if entries[0].number != first_at[entries[0].name]:
                continue  # the first entry does not say
        last = entries[-1]
        found = _sum([step.stated[name] for step in entries])
        beside = _believed(last.stated, work)
        if name == _TORQUE:
            known = "stated" if _SPECIFIED in last.stated else "not stated"
            beside[_TORQUE_KNOWN] = Found(known, word=known)  # nobody reads it
        yield _Stated(last, name, found, beside)
        for derived, of in _OF.items():
            whole = _whole(derived, steps, work.case, beside) if of == name else None
            if whole is not None and found.measured is not None:
                yield _Stated(last, derived, _share(found.text, found.measured, whole), beside)


def _believed(stated: Mapping[str, Found], work: Work) -> dict[str, Found]:
    """What stands beside a value, without what cannot be true: no limit is chosen by that."""
    return {name: found for name, found in stated.items() if _implausible(name, found, stated, work) is None}


def _whole(derived: str, steps: Sequence[LoggedStep], case: Case, beside: Mapping[str, Found]) -> Quantity | None:
    """What a value is a share of; None where neither case nor log states it."""
    if derived == _SHARE:
        return case.pressure.recommended
    if derived == "job.torque_share":
        return beside[_SPECIFIED].measured if _SPECIFIED in beside else None
    molded = [step.stated[_SIDEWALL].measured for step in steps if _SIDEWALL in step.stated]
    stated = [one for one in (*molded, case.pressure.sidewall_max) if one is not None]
    return min(stated, key=lambda one: one.value, default=None)


def _group(step: LoggedStep, name: str, run: int) -> tuple[str, ...]:
    dimension = MEASURES[name].dimension
    if name in FIRST_COUNTS or name in LAST_COUNTS:
        return (name, step.name)
    if name in ALL_COUNT:
        side = step.stated.get(_SIDE)
        return (name, step.name, side.text if side else "")
    if dimension in ("count", "time"):
        return (name, step.name, str(run))
    return (name, step.name, str(step.number))


def _sum(found: Sequence[Found]) -> Found:
    measured = [one.measured for one in found if one.measured is not None]
    if len(measured) < 2 or measured[0].dimension not in ("count", "time"):
        return found[-1]
    unit = measured[0].unit
    total = sum((one.value for one in measured), Fraction(0)) / UNITS[measured[0].dimension][unit]
    added = quantity(total, unit)
    return Found(added.text, added)


def _share(text: str, measured: Quantity, whole: Quantity) -> Found:
    """A value over another one [%]."""
    percent = measured.value * 100 / whole.value
    share = quantity(percent, "%", places=1)
    # Held exactly; the text is rounded for reading.
    return Found(
        say("{stated} ({share} of {whole})", stated=text, share=share, whole=whole),
        Quantity(share.text, percent, "%", "percent"),
    )


def _applies(conditions: Sequence[Condition], beside: Mapping[str, Found], work: Work) -> bool | None:
    """True, False, or None where what a condition asks was not stated."""
    sure: bool | None = True
    for condition in conditions:
        words = _words(condition.quantity, work)
        if words is not None:
            if not words:
                sure = None
            elif not words & set(condition.words):
                return False
            continue
        found = beside.get(condition.quantity) or _of_the_tire(condition.quantity, work)
        if found is None:
            sure = None
        elif condition.statement is not None:
            if found.measured is None or not condition.statement.permits(found.measured):
                return False
        elif found.word not in condition.words:
            return False
    return sure


def _words(name: str, work: Work) -> frozenset[str] | None:
    if name == _METHOD:
        return frozenset({work.method})
    if name != "job.injury_kind":
        return None
    # where lines may be for several injuries, the one that goes through says how the work is done
    return frozenset({_PUNCTURE}) if _PUNCTURE in work.injury_kinds else work.injury_kinds


def _of_the_tire(name: str, work: Work) -> Found | None:
    read = MEASURES[name].read
    if read is None:
        return None
    found = read(Facts(work.case, work.edition.crowns.get(work.case.tire.casing), (), 0.0), None)
    return found if isinstance(found, Found) else None


def method_faults(step: LoggedStep, work: Work) -> list[Fault]:
    """Clauses on the method that the work breaks, at the step that shows the method."""
    faults = []
    found = Found(work.method, word=work.method)
    for clause in work.edition.clauses.values():
        if clause.quantity == _METHOD and _covers(clause, work) and _applies(clause.when, {}, work):
            broken = _broken(clause, found, work)
            if broken is not None:
                faults.append(
                    by_clause(
                        step.number,
                        step.name,
                        "method",
                        clause,
                        broken,
                        found=work.method,
                        place=work.case.jurisdiction,
                    )
                )
    return faults


def _broken(clause: Clause, found: Found, work: Work) -> Statement | None:
    """The statement that a value breaks, or None: the jurisdiction's own where it has one, else the strictest."""
    failing = [one for one in clause.deciding(work.case.jurisdiction) if not _keeps(one, found, work.rules)]
    return clause.strictest if clause.strictest in failing else next(iter(failing), None)


def _keeps(statement: Statement, found: Found, rules: WorkRules) -> bool:
    if found.word is not None:
        return (found.word in statement.words) == (statement.bound == "must_be")
    measured, stated = found.measured, statement.quantity
    if measured is None or stated is None:
        raise TypeError(f"{found.text}: neither a word nor a value")
    if statement.bound == "about":
        return abs(measured.value - stated.value) <= rules.about_share * stated.value
    if statement.bound == "exactly" and stated.dimension == "length":
        return abs(measured.value - stated.value) <= rules.exactly_within.value
    return statement.permits(measured)
