"""Puts each line of a list back to the rulebook: holes by their place, earlier repairs, readings of sidewalls."""

from __future__ import annotations

import re

from tests.proof.bench import Bench, Recheck
from tests.proof.recheck import judge
from training.rulebook.dates import production_week
from training.trade.days import MONTHS

_PLACED = re.compile(r"(\d+) mm off center, (?:leaning (\d+) deg (outward|inward)|straight through)")
_REPAIR = re.compile(r"(.+) in the (crown|shoulder|sidewall), (.+)")
_KINDS = {
    "A stem under a patch": "two-piece",
    "A one-piece unit": "one-piece",
    "A string plug": "string",
    "A patch over an open channel": "patch-only",
    "A stem without a patch": "stem-only",
}
_DATED = re.compile(r"DOT .+ (\d{4}): (.+)")
_PLIES = re.compile(r"Range \w, TREAD PLIES .+, SIDEWALL PL(?:Y|IES) \d (\w+): (steel|fabric) body")


def _groups(pattern: re.Pattern[str], text: str) -> tuple[str, ...]:
    found = pattern.fullmatch(text)
    if found is None:
        raise ValueError(f"{text!r} is no line of this list")
    return tuple(group or "" for group in found.groups())


@judge("sidewalls-read")
def _sidewalls_read(bench: Bench) -> Recheck:
    def holds(text: str) -> bool:
        if text.startswith("Range"):
            material, body = _groups(_PLIES, text)
            return (material == "STEEL") == (body == "steel")
        code, said = _groups(_DATED, text)
        first, last = production_week(code)
        middle = first + (last - first) / 2
        if said.split()[0] in MONTHS:
            return said == f"{MONTHS[middle.month - 1]} {middle.year}"
        return said == f"week {int(code[:2])} of {middle.year}"

    return bench.which(holds)
