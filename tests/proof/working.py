"""Puts orders of steps, and lines of a log, back to the rules of the work and the audit."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations, permutations

from assessments.questions.cases.casebook import hole
from assessments.questions.items.claims import Claim, Done, Faulty
from assessments.questions.items.item import Option
from assessments.questions.items.shapes import Blame, blame_text, pair_text
from assessments.questions.work.sequence import precedences
from tests.proof.bench import Bench
from training.rulebook import Fault, audit
from training.trade.words import LIGHT

# What is measured of the prepared hole decides on the injury.
_DECIDES = {"injury.diameter": "job.size_prepared"}


def misordered(bench: Bench) -> Iterator[str]:
    """What is wrong with the key of an order: a pair it turns around, or one it says too much or too little of."""
    item = bench.item
    for first, then in combinations(item.key if isinstance(item.key, tuple) else (), 2):
        if _must_precede(bench, then, first):
            yield f"the key is not the order of the rulebook: {then} comes before {first}"
        if _must_precede(bench, first, then) != ((first, then) in item.before):
            yield f"{then} before {first}: the rulebook says otherwise than the key"


def misblamed(bench: Bench) -> Iterator[str]:
    """What is wrong with the key of a log, or with its lines."""
    item, key = bench.item, bench.item.key
    if not isinstance(key, Blame):
        raise ValueError("the key names no line")
    audits = _audits(bench)
    found, others = audits[0], audits[1:]
    if any(_kept(other) != _kept(found) for other in others):
        yield "whether the lines are right depends on a tire that is not told"
    faults = {(fault.name, fault.step): fault for fault in found}
    if len(faults) > 1:
        yield f"more is wrong than one thing: {sorted(_kept(found))}"
    if not found and key != Blame((_none(bench),), ""):
        yield f"nothing is wrong in these lines, the key is {item.key_text!r}"
    for fault in faults.values():
        least, most = _lines(bench, fault)
        holding = {one.id for one in item.reasons if _says(bench, one.claim, fault)}
        if key.reason not in holding:
            yield f"{fault.fault} at {fault.name} is wrong, and the key {item.key_text!r} does not say so"
        elif not least <= set(key.steps) <= most:
            yield f"{fault.name} lies in other lines than those of the key {item.key_text!r}"
        yield from (f"{one.text!r} holds too" for one in item.reasons if one.id in holding - {key.reason})


def answered(bench: Bench) -> set[str]:
    """Every answer of an order or a log that the rulebook takes, as `distractors` names them."""
    item = bench.item
    if item.format == "order":
        pairs = permutations((one.id for one in item.options), 2)
        return {pair_text(first, then) for first, then in pairs if not _must_precede(bench, then, first)}
    faults = _audits(bench)[0]
    return {
        blame_text(line, one.id)
        for fault in faults
        for line in _lines(bench, fault)[1]
        for one in item.reasons
        if _says(bench, one.claim, fault)
    } or {_none(bench)}


def _step(option: Option) -> Done:
    if not isinstance(option.claim, Done):
        raise ValueError(f"{option.text!r} is no step of the work")
    return option.claim


def _must_precede(bench: Bench, first: str, then: str) -> bool:
    """Do the rules of the work have one step, or part of a step, done before another?"""
    one, other = (_step(bench.item.option(place)) for place in (first, then))
    if one.step == other.step:
        return one.part < other.part
    return (one.step, other.step) in precedences(bench.edition, one.method)


def _shown(bench: Bench) -> list[Option]:
    return [one for one in bench.item.options if isinstance(one.claim, Done)]


def _none(bench: Bench) -> str:
    """The last option of a log: nothing is wrong."""
    return bench.item.options[-1].id


def _before(bench: Bench) -> tuple[list[str], list[str]]:
    """The steps of the work that stand before and after the lines that are shown."""
    steps = [_step(one) for one in _shown(bench)]
    order = list(bench.edition.orders[steps[0].method])
    places = [order.index(step.step) for step in steps]
    return order[: min(places)], order[max(places) + 1 :]


def _audits(bench: Bench) -> list[tuple[Fault, ...]]:
    """The faults of the log as its lines tell it, with all other lines as they should be; of every tire it may be."""
    before, after = _before(bench)
    lines = [{"step": step.step, **(step.said or {})} for step in map(_step, _shown(bench))]
    log = [*({"step": name} for name in before), *lines, *({"step": name} for name in after)]
    # A tire that is told without its hole has one that decides nothing, but for what the log measures of it.
    told = bench.data
    known = {"injuries": told.get("injuries") or [hole(diameter="1 mm")]}
    tires = [told] if told else [{"tire": {"casing": casing}} for casing in LIGHT]
    cases = [tire | known for tire in tires]
    jobs = [{"case": case, "steps": log} for case in cases]
    return [audit(job, edition=bench.edition, rest_in_order=True).faults for job in jobs]


def _kept(faults: tuple[Fault, ...]) -> set[tuple[str, str]]:
    return {(fault.fault, fault.name) for fault in faults}


def _lines(bench: Bench, fault: Fault) -> tuple[set[str], set[str]]:
    """The options one has to name for a fault, and all that one may name for it."""
    lines = _shown(bench)
    if fault.step is None:
        missing = {one.id for one in bench.item.options if isinstance(one.claim, Faulty)}
        return missing, missing
    place = fault.step - 1 - len(_before(bench)[0])
    if not 0 <= place < len(lines):
        return set(), set()
    own = lines[place]
    if fault.fault != "order":
        return {own.id}, {own.id}
    turned = [(one.id, other.id) for one, other in combinations(lines, 2) if _must_precede(bench, other.id, one.id)]
    return {own.id}, {name for pair in turned if own.id in pair for name in pair}


def _says(bench: Bench, claim: Claim | None, fault: Fault) -> bool:
    """Is this what a reason claims to be wrong?"""
    if not isinstance(claim, Faulty):
        raise ValueError("a reason names no fault")
    clause = bench.edition.clauses.get(fault.clause)
    quantity = "" if clause is None else _DECIDES.get(clause.quantity, clause.quantity)
    return claim.kind in ("", fault.fault) and claim.step in ("", fault.name) and claim.quantity in ("", quantity)
