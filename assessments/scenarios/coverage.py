"""What the families ask under an edition: which casings and formats come up, found by drawing them.

Draws for looking at are seeded in a namespace of their own, so that no form can ever hold one of them.
"""

from __future__ import annotations

from collections import Counter, OrderedDict
from collections.abc import Mapping
from dataclasses import dataclass

from training.rulebook import Edition

from .draft import NoSuchLimit
from .drawing import CannotDraw, draw
from .registry import family_names

ENOUGH = 24  # draws of each family to see what it asks
PUBLIC = "bench:"

_kept: OrderedDict[int, tuple[Edition, tuple[Covered, ...]]] = OrderedDict()


@dataclass(frozen=True, slots=True)
class Covered:
    """What one family asked in ENOUGH draws: how often by (casing, format); the casing is "" where no tire is told.

    Empty where the edition says nothing on what the family asks.
    """

    family: str
    counts: Mapping[tuple[str, str], int]


def public_seed(text: str) -> str:
    """The seed of a draw that is looked at, not asked: "1/3" is "bench:1/3"."""
    return f"{PUBLIC}{text}"


def coverage(edition: Edition) -> tuple[Covered, ...]:
    """Every family in turn. Kept for the editions used last, since it costs some hundred draws."""
    kept = _kept.get(id(edition))
    if kept is None or kept[0] is not edition:
        kept = _kept[id(edition)] = (edition, tuple(_covered(name, edition) for name in family_names()))
        if len(_kept) > 16:
            _kept.popitem(last=False)
    return kept[1]


def families_of(edition: Edition) -> tuple[str, ...]:
    """The families that have something to ask under an edition."""
    return tuple(one.family for one in coverage(edition) if one.counts)


def _covered(name: str, edition: Edition) -> Covered:
    counts: Counter[tuple[str, str]] = Counter()
    for number in range(ENOUGH):
        try:
            item = draw(name, seed=public_seed(f"coverage/{number}"), edition=edition)
        except (NoSuchLimit, CannotDraw):
            continue
        tire = item.case.get("tire") if item.case else None
        casing = str(tire.get("casing") or "") if isinstance(tire, Mapping) else ""
        counts[casing, item.format] += 1
    return Covered(name, counts)
