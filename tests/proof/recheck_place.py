"""Puts places on drawings, orders of steps and the families about trucks and shelves back to the rulebook."""

from __future__ import annotations

import re
from collections.abc import Sequence
from itertools import pairwise

from assessments.questions.items.numbers import parse_measure
from assessments.questions.work.facts import permits
from tests.proof.bench import Bench, Recheck
from tests.proof.recheck import LENGTH, judge, limit_of
from training.rulebook import RepairUnit, audit, parse_quantity, procedure

_TIMES = {"not yet": 0, "once": 1, "twice": 2}


@judge("order-of-inspection", "order-of-preparation", "order-of-installation", "order-of-return", "whole-case-work")
def _order(bench: Bench) -> Recheck:
    """A log of all steps in their order has no fault of order; with two neighbors of the key turned around it has one,
    where the key says that they may not be."""
    item, edition = bench.item, bench.edition
    method = "one-piece" if "repair with a one-piece unit" in item.stem else "two-piece"
    ids = {step.title: step.id for step in procedure(edition, method=method)}
    key = item.key if isinstance(item.key, tuple) else ()
    names = [ids[item.option(one).text] for one in key]
    whole = list(edition.orders[method])
    complaints = [] if not _disordered(bench, whole) else ["the rulebook finds its own order wrong"]
    if sorted(names, key=whole.index) != names:
        complaints.append(f"the key {names} is not the order of the rulebook")
    for (first, then), (one, other) in zip(pairwise(names), pairwise(key), strict=True):
        turned = [name for name in whole if name != then]
        turned.insert(turned.index(first), then)
        if _disordered(bench, turned) != ((one, other) in item.before):
            complaints.append(f"{then} before {first}: the rulebook says otherwise than the key")
    return Recheck(complaints=tuple(complaints))


def _disordered(bench: Bench, names: Sequence[str]) -> bool:
    case = bench.item.case or {"edition": bench.edition.name, "tire": {"casing": "passenger"}}
    job = {"case": case, "steps": [{"step": name} for name in names]}
    return any(fault.fault == "order" for fault in audit(job, edition=bench.edition).faults)


@judge("passes-by-body")
def _passes(bench: Bench) -> Recheck:
    steel = bench.found(r"SIDEWALL PL(?:Y|IES) \d (\w+)") == "STEEL"
    clause = limit_of(bench, "job.passes_each_way", "truck" if steel else "passenger")
    each = next(count for count in range(1, 20) if permits(clause, f"{count} passes"))
    done = [
        _TIMES.get(text, 0) or int(re.sub(r"\D", "", text) or 0)
        for text in re.findall(r"(not yet|once|twice|\d+ times) from (?:in|out)side", bench.item.stem)
    ]
    return bench.number(sum(each - count for count in done))


@judge("unit-from-shelf")
def _shelf(bench: Bench) -> Recheck:
    """The shelf is read back from the stem; the plan picks from it."""
    units = []
    for name, kind, most, body in re.findall(
        r"(\w \d+): (patch|one-piece unit) for holes up to " + LENGTH + ", (fabric|steel) body", bench.item.stem
    ):
        casings = ("passenger", "light-truck-fabric") if body == "fabric" else ("light-truck-steel", "truck")
        upto = parse_quantity(most, "length")
        # The order of their sizes is that of the holes they are for.
        side = parse_quantity(f"{40 + 10 * float(parse_measure(most)[1]):g} mm", "length")
        units.append(RepairUnit(name, kind.removesuffix(" unit"), side, side, None, casings, upto))
    plan = bench.decide(units=units).plan
    unit = plan[0].unit if plan else None
    return bench.which(lambda text: unit is not None and text == unit["name"])
