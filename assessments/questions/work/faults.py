"""Find the fault in the log of a repair: the key is what the rulebook's audit finds."""

from __future__ import annotations

from collections import Counter
from collections.abc import Collection, Sequence

from assessments.questions.cases.bodies import BODY_TOLD, repaired
from assessments.questions.cases.casebook import looked_at
from assessments.questions.drafts.draft import Draft
from assessments.questions.drafts.formats import in_log
from assessments.questions.drafts.seeding import Redraw
from assessments.questions.items.item import Item
from assessments.questions.work.job_log import PARTS, Spoil, recommended, spoils, tell, write_log
from assessments.questions.work.sequence import METHODS
from training.rulebook import NOT_LOGGED, Audit, Case, Edition, Fault, audit, fault_title, told_fault
from training.trade.speech import say
from training.trade.words import LIGHT, STEEL, written

_RIGHT = 1 / 9  # so often nothing is wrong: as often as any line is
_MISSING = 0.5  # a line left out is asked for half as often as one that is wrong, since its place is always the same
_REASONS = 5
_LINES = 7


def find_fault(draft: Draft, part: str, *, situation: str = "", method: str = "", case: Case | None = None) -> Item:
    """An item `fault` on some lines of a log, one after the other, from within `part`; the rest of the log is right."""
    rng = draft.rng
    method = method or rng.choice(sorted(METHODS))
    # Work on light tires is one for all; what a steel body changes is told, so that body is chosen first.
    model = None if case is not None or set(repaired(draft)) <= set(LIGHT) else draft.model_of(*repaired(draft))
    casing = case.tire.casing if case is not None else model.casing if model is not None else "passenger"
    known = [
        spoil
        for spoil in spoils()
        if spoil.part == part
        and spoil.step in draft.edition.orders.get(method, ())
        and casing in (spoil.casings or (casing,))
    ]
    # The lines that are shown are chosen first, so that none of them is wrong oftener for standing at an end.
    first, within = _window(draft, PARTS[part], method)
    able = [one for one in known if _is_shown(one, within)]
    spoil = None
    if able and rng.random() >= _RIGHT:
        (spoil,) = rng.choices(able, _weights(able))
    job, lines = write_log(draft, method, spoil, case, model)
    names = [str(entry["step"]) for entry in lines]
    is_missing = spoil is not None and spoil.is_missing
    first = min(first, len(names) - len(within) + 1)  # as many lines where one is left out
    shown = list(range(first, first + len(within)))
    found = audit(job, edition=draft.edition, units=draft.units, rest_in_order=True)  # the stem says so
    fault = _only(found, spoil)
    steps = {step.id: step for step in draft.edition.procedure}
    reasons = _reasons(draft, able, spoil)
    others = {one.reason for one in reasons} - {"" if spoil is None else spoil.reason}
    if casing in STEEL and model is not None:
        situation = str(BODY_TOLD[casing])
        case = draft.case(looked_at(model, draft.edition, pressure={"recommended": recommended(casing, draft.prefer)}))
    start = [situation] if situation else []
    return in_log(
        draft,
        stem=[
            *start,
            say(
                "These lines come one after another on the job card of a repair with {method}. The "
                "lines before and after them are correct.",
                method=METHODS[method],
            ),
            rng.choice(
                [
                    say("Is there a mistake? If so, which line, and why?"),
                    say("Is there a fault in these lines? Name the line and the reason."),
                    say("Is one of these lines wrong? Name it, and what is wrong with it."),
                ]
            ),
        ],
        lines=[tell(lines[number - 1], steps[lines[number - 1]["step"]], method, draft.prefer) for number in shown],
        reasons=[one.fault for one in reasons],
        wrong_lines=[] if spoil is None or is_missing else _blamed(spoil, names, shown),
        reason=spoil.fault.text if spoil is not None else "",
        is_missing=is_missing,
        why=(spoil.wrong,) if spoil is not None else (),
        blamed=_blamed_though_right(known, names, shown, others),
        unsafe=spoil is not None and spoil.unsafe,
        case=case,
        explanation=[_line(fault, draft.edition)] if fault is not None else [],
        clauses=() if fault is not None else _clauses(draft, shown, lines, casing),
        features={"method": method, "lines": len(shown), "missing": is_missing, "sound": fault is None},
    )


def _weights(known: Sequence[Spoil]) -> list[float]:
    """How often each way to spoil a log is taken: of those that say some of the same, all together as often as any
    other, since only one of them is offered as a reason."""
    alike = Counter(one.alike for one in known if one.alike)
    same = Counter(one.reason for one in known)
    both = Counter((one.reason, one.alike) for one in known)
    return [
        (_MISSING if one.is_missing else 1)
        / (same[one.reason] + (alike[one.alike] - both[one.reason, one.alike] if one.alike else 0))
        for one in known
    ]


def _window(draft: Draft, part: tuple[str, str], method: str) -> tuple[int, list[str]]:
    """Some lines from within `part` of a right log: the number of the first, and their steps."""
    order = list(draft.edition.orders.get(method, ()))
    if not order:
        return 1, []  # nothing is known of this work, which writing its log will say
    if not set(part) <= set(order):
        raise Redraw("the part begins or ends with what is missing")
    first, last = (order.index(step) + 1 for step in part)
    start = draft.rng.randint(first, max(first, last - _LINES + 1))
    return start, order[start - 1 : min(start + _LINES - 1, last)]


def _is_shown(spoil: Spoil, within: Sequence[str]) -> bool:
    """Do these lines show what is wrong? Of a line that is left out, those before and behind it do."""
    if spoil.is_missing:
        return spoil.step in within[1:-1]
    return {spoil.step, spoil.ahead_of or spoil.step} <= set(within)


def _reasons(draft: Draft, near: list[Spoil], spoil: Spoil | None) -> list[Spoil]:
    """What may be wrong with the shown lines, what is wrong among it; no two that say some of the same."""
    chosen = [] if spoil is None else [spoil]
    for one in draft.rng.sample(near, len(near)):
        if len(chosen) < _REASONS and not any(one.says_some_of(other) for other in chosen):
            chosen.append(one)
    if len(chosen) < _REASONS:
        raise Redraw("too few reasons that these lines could give")
    return chosen


def _only(found: Audit, spoil: Spoil | None) -> Fault | None:
    """The one fault of the log, as it was meant; a log with another fault, or with two, is not asked."""
    if spoil is None:
        if found.faults:
            raise Redraw(f"the log is not right: {found.faults[0].clause}")
        return None
    at = {(fault.step, fault.name) for fault in found.faults}
    if len(at) != 1 or found.faults[0].name not in (spoil.step, spoil.ahead_of):
        raise Redraw(f"the log has other faults: {sorted(fault.clause for fault in found.faults)}")
    fault = found.faults[0]
    if (fault.step is None) != spoil.is_missing:
        raise Redraw("the fault lies elsewhere")
    return fault


def _blamed(spoil: Spoil, names: list[str], shown: list[int]) -> list[int]:
    """Which of the shown lines one may name: of two in the wrong order, either."""
    return [shown.index(names.index(step) + 1) for step in (spoil.step, spoil.ahead_of) if step]


def _blamed_though_right(
    known: Sequence[Spoil], names: Sequence[str], shown: Sequence[int], reasons: Collection[str]
) -> dict[tuple[int, str], tuple[str, ...]]:
    """The right lines, with a reason, that someone names who believes the contrary of what they say."""
    return {
        (shown.index(names.index(one.step) + 1), one.fault.text): (one.wrong,)
        for one in known
        if one.contrary and one.reason in reasons and one.step in names and names.index(one.step) + 1 in shown
    }


def _line(fault: Fault, edition: Edition) -> dict[str, object]:
    """A line of an explanation from a fault."""
    title, told = fault_title(fault, edition), told_fault(fault, edition)
    return {
        "clause": fault.clause,
        "title": str(title),
        "subject": str(title),
        "holds": False,
        "found": str(written(told.found or fault.found)),
        "limit": str(told.accepted),
        "because": str(fault.because),
        "kind": fault.kind,
        "source": fault.source,
    }


def _clauses(draft: Draft, shown: list[int], lines: list[dict[str, object]], casing: str) -> tuple[str, ...]:
    """The clauses that the shown lines keep: why a right log is right."""
    names = {lines[number - 1]["step"] for number in shown}
    clauses = draft.edition.clauses
    return tuple(
        dict.fromkeys(
            clause
            for step in draft.edition.procedure
            if step.id in names
            for clause in step.clauses
            if clause in clauses and clauses[clause].is_for_job() and casing in clauses[clause].casings
            if clauses[clause].quantity not in NOT_LOGGED
        )
    )
