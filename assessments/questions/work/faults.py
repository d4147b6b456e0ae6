"""Find the fault in the log of a repair: the key is what the rulebook's audit finds."""

from __future__ import annotations

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

_RIGHT = 0.2  # so often nothing is wrong
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
    spoil = None if rng.random() < _RIGHT or not known else rng.choice(known)
    job, lines = write_log(draft, method, spoil, case, model)
    names = [str(entry["step"]) for entry in lines]
    shown = _window(draft, names, PARTS[part], spoil, method)
    found = audit(job, edition=draft.edition, units=draft.units, rest_in_order=True)  # the stem says so
    fault = _only(found, spoil)
    steps = {step.id: step for step in draft.edition.procedure}
    seen = {names[number - 1] for number in shown}
    reasons = _reasons(draft, [one for one in known if one.step in seen], spoil)
    others = {one.reason for one in reasons} - {"" if spoil is None else spoil.reason}
    is_missing = spoil is not None and spoil.is_missing
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


def _window(draft: Draft, names: list[str], part: tuple[str, str], spoil: Spoil | None, method: str) -> list[int]:
    """The numbers of the lines that are shown, from within `part`: the spoiled one among them; of a line that is left
    out its neighbors, and of one ahead of its time the line it was put before."""
    if not set(part) <= set(names):
        raise Redraw("the part begins or ends with what is missing")
    needed: list[int] = []
    if spoil is not None and spoil.is_missing:
        place = draft.edition.orders[method].index(spoil.step)
        needed = [place, place + 1]
    elif spoil is not None:
        needed = [names.index(step) + 1 for step in (spoil.step, spoil.ahead_of) if step]
    first, last = names.index(part[0]) + 1, max([names.index(part[1]) + 1, *needed])
    start = draft.rng.randint(
        max([first, *(number - _LINES + 1 for number in needed)]), min([max(first, last - _LINES + 1), *needed])
    )
    return list(range(start, min(start + _LINES - 1, last) + 1))


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
