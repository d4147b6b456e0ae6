"""Puts what is asked about steel bodies and truck wheels back to the clauses, one claim after the other."""

from __future__ import annotations

import re
from itertools import combinations

from assessments.questions.work.facts import permits
from tests.proof.bench import Bench, Recheck
from tests.proof.recheck import judge, limit_of
from training.rulebook import parse_quantity

_TRUCK = "truck"


@judge("cage-setup")
def _cage(bench: Bench) -> Recheck:
    """Each part of a set-up against its own clause."""
    most = parse_quantity(bench.found(r"maximum pressure (\d+ \w+)"), "pressure").value
    limits = {name: limit_of(bench, f"job.{name}", _TRUCK) for name in ("restraint_capacity", "chuck", "gauge", "hose")}

    def holds(text: str) -> bool:
        rated, chuck, gauge, standing = text.removeprefix("Cage rated ").split(", ")
        share = parse_quantity(rated, "pressure").value * 100 / most
        claims = {
            "restraint_capacity": f"{float(share):.4f} %",
            "chuck": "clip-on" if chuck.startswith("clip-on") else "hand-held",
            "gauge": "in-line" if "in the line" in gauge else "hand-held",
            "hose": "outside the trajectory" if standing == "standing aside" else "within the trajectory",
        }
        return all(permits(limits[name], value) for name, value in claims.items())

    return bench.which(holds)


@judge("restraint-rating")
def _rating(bench: Bench) -> Recheck:
    """The least share that the clause takes, of the pressure on the sidewall."""
    most = parse_quantity(bench.found(r"filled to (\d+ \w+) at most"), "pressure").value
    clause = limit_of(bench, "job.restraint_capacity", _TRUCK)
    least = next(percent for percent in range(1000) if permits(clause, f"{percent} %"))
    return bench.number(most * least / 100)


@judge("after-the-cutter")
def _after_the_cutter(bench: Bench) -> Recheck:
    """Size first, then passes and channel; the size is read from the question, not from its case."""
    clauses = {name: limit_of(bench, name, bench.casing) for name in ("injury.diameter", "job.passes_each_way")}
    small = permits(clauses["injury.diameter"], bench.found(r"is now ([\d.]+ mm)"))
    enough = permits(clauses["job.passes_each_way"], f"{bench.found(r'through ([0-9]+) times')} passes")
    clean = re.search(r"slides in clean|finds nothing", bench.item.stem) is not None
    opening = "Stop" if not small else "Go on: work" if enough and clean else "Cut again"
    if (bench.decide().verdict == "repair") != small:
        raise ValueError("the case is another than the question")
    return bench.which(lambda text: text.startswith(opening))


# Words of a step with a soft tire, and the step of a repair it belongs to. Within one the order is common practice:
# nobody in the trajectory before anything, all air out before the wire proves it; device and chuck before any air.
_STAGES = (
    ("everybody", "deflate"),
    ("valve core", "deflate"),
    ("wire through", "deflate"),
    ("wheel nuts", "demount"),
    ("beads and take", "demount"),
    ("inside for", "inspect"),
    ("Mount", "mount"),
    ("chuck on", "seat-beads"),
    ("Seat the beads", "seat-beads"),
    ("Fill it", "inflate"),
)


@judge("soft-tire-in-order")
def _soft(bench: Bench) -> Recheck:
    """Every pair of the key against the places of its steps in the order of a repair."""
    order = bench.edition.orders["two-piece"]

    def place(text: str) -> tuple[int, int]:
        found = next(number for number, (words, _) in enumerate(_STAGES) if words in text)
        return order.index(_STAGES[found][1]), found

    key = [bench.item.option(one).text for one in bench.item.key] if isinstance(bench.item.key, tuple) else []
    complaints = [
        f"{then!r} is done before {first!r}" for first, then in combinations(key, 2) if place(first) >= place(then)
    ]
    complaints += (
        [] if len(bench.item.before) == len(key) * (len(key) - 1) // 2 else ["another order would be right too"]
    )
    return Recheck(complaints=tuple(complaints))
