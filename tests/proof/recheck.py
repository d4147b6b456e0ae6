"""Puts each option of a question back to the rulebook, by another way than the question was made.

A question is checked by what it says: its case is decided anew, its options are read as claims and each claim is held
against the decision or the clause. How a family's options are read stands in `recheck_log`, `recheck_place`,
`recheck_work` and below.
"""

from __future__ import annotations

import importlib
import pkgutil
from collections.abc import Callable
from functools import lru_cache
from pathlib import Path
from typing import Any

from assessments.questions.cases.casebook import hole
from assessments.questions.cases.phrases import SEEN
from assessments.questions.items.item import Item
from assessments.questions.items.numbers import parse_measure
from tests.proof.bench import Bench, Recheck, unit_of
from tests.proof.holding import claimed
from training.rulebook import Clause, Edition, parse_quantity

LENGTH = r"((?:\d+ )?\d+(?:/\d+|\.\d+)? (?:in|mm))"


Judge = Callable[[Bench], Recheck]
_judges: dict[str, Judge] = {}


def judge(*families: str) -> Callable[[Judge], Judge]:
    """Register the decorated function as what rechecks these families."""

    def register(function: Judge) -> Judge:
        _judges.update(dict.fromkeys(families, function))
        return function

    return register


@lru_cache(maxsize=1)
def _known() -> dict[str, Judge]:
    """The judges by family, with those of the modules named after this one, found without a list to keep."""
    for module in pkgutil.iter_modules([str(Path(__file__).parent)]):
        if module.name.startswith("recheck_"):
            importlib.import_module(f"{__package__}.{module.name}")
    return _judges


def recheck(item: Item, edition: Edition) -> Recheck | None:
    """What the rulebook says of this question; None where no way to read its options is known."""
    if item.is_claimed:
        return claimed(Bench(item, edition))
    found = _known().get(item.family)
    return None if found is None else found(Bench(item, edition))


# -- verdicts ----------------------------------------------------------------------------------------------------------


@judge("first-thing")
def _first_thing(bench: Bench) -> Recheck:
    opening = {"inspect": "Take the tire off the wheel", "repair": "Prepare and repair", "reject": "Take it out"}
    verdict = bench.decide().verdict
    return bench.which(lambda text: text.startswith(opening[verdict]))


# -- each option a case of its own ------------------------------------------------------------------------------------


_NOTED: dict[str, dict[str, Any]] = {
    "4 mm of tread": {"tread_depths": ["4 mm"]},
    "5.5 mm of tread": {"tread_depths": ["5.5 mm"]},
    "5/32 in of tread": {"tread_depths": ["5/32 in"]},
    "7/32 in of tread": {"tread_depths": ["7/32 in"]},
    "A nick in a tread block": {"injuries": [{"id": "S", "kind": "surface"}]},
    "A sound earlier stem and patch": {
        "earlier_repairs": [{"id": "R1", "kind": "two-piece", "zone": "crown", "injury": "4 mm", "sound": True}]
    },
    "An earlier stem and patch": {
        "earlier_repairs": [{"id": "R1", "kind": "two-piece", "zone": "crown", "injury": "4 mm", "sound": True}]
    },
    "A nail hole in mid-crown": {"injuries": [hole(diameter="4 mm")]},
}


@judge("whole-case-inspection")
def _inspection(bench: Bench) -> Recheck:
    findings = {words.lower(): slug for slug, (words, _) in SEEN.items()}

    def holds(text: str) -> bool:
        slug = findings.get(text.lower())
        more = {} if slug else next(more for opening, more in _NOTED.items() if text.startswith(opening))
        seen = {**bench.data["findings"], **({slug: True} if slug else {})}
        return bench.decide({**bench.data, "injuries": [], "findings": seen, **more}).verdict == "reject"

    return bench.which(holds)


# -- geometry ----------------------------------------------------------------------------------------------------------


def limit_of(bench: Bench, quantity: str, casing: str = "passenger") -> Clause:
    """The clause that limits a quantity. ValueError where the edition has none."""
    clause = bench.edition.limit(quantity, casing)
    if clause is None:
        raise ValueError(f"{bench.edition.name} has no limit for {quantity} ({casing})")
    return clause


@judge("outline-to-buff", "whole-case-outline")
def _outline(bench: Bench) -> Recheck:
    long, wide = (
        float(parse_measure(bench.found(pattern))[1]) for pattern in (LENGTH + " long", "and " + LENGTH + " wide")
    )
    plan = bench.decide(units=unit_of(long, wide)).plan
    buff = plan[0].buff if plan else None
    if buff is None:
        raise ValueError("the rulebook plans no outline for this case")
    return bench.number(parse_quantity(buff[bench.found(r"What is the (length|width)")], "length").value)
