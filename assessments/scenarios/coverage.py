"""What the families ask under an edition: which casings and formats come up, found by drawing them.

Draws for looking at are seeded in a namespace of their own, so that no form can ever hold one of them.
"""

from __future__ import annotations

from collections import Counter, OrderedDict
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from typing import Generic, TypeVar

from training.rulebook import Edition

from .draft import NoSuchLimit
from .drawing import CannotDraw, draw
from .model import Item
from .registry import family_names

ENOUGH = 16  # draws of each family to see what it asks
PUBLIC = "bench:"

T = TypeVar("T")


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


class _Kept(Generic[T]):
    """What was found for the editions used last; an edition is known by being the same object."""

    def __init__(self, find: Callable[[Edition], T]) -> None:
        self.find = find
        self.found: OrderedDict[int, tuple[Edition, T]] = OrderedDict()

    def __call__(self, edition: Edition) -> T:
        kept = self.found.get(id(edition))
        if kept is None or kept[0] is not edition:
            kept = self.found[id(edition)] = (edition, self.find(edition))
            if len(self.found) > 16:
                self.found.popitem(last=False)
        return kept[1]


def coverage(edition: Edition) -> tuple[Covered, ...]:
    """Every family in turn; kept, since it costs some thousand draws."""
    return _coverage(edition)


def families_of(edition: Edition) -> tuple[str, ...]:
    """The families that have something to ask under an edition: those of which one of a few draws succeeds."""
    return _families(edition)


_coverage = _Kept(lambda edition: tuple(_covered(name, edition) for name in family_names()))
_families = _Kept(lambda edition: tuple(name for name in family_names() if any(_draws(name, edition))))


def _draws(name: str, edition: Edition) -> Iterator[Item]:
    """ENOUGH draws one by one, without those for which the edition says nothing."""
    for number in range(ENOUGH):
        try:
            yield draw(name, seed=public_seed(f"coverage/{number}"), edition=edition)
        except (NoSuchLimit, CannotDraw):
            continue


def _covered(name: str, edition: Edition) -> Covered:
    counts: Counter[tuple[str, str]] = Counter()
    for item in _draws(name, edition):
        tire = item.case.get("tire") if item.case else None
        casing = str(tire.get("casing") or "") if isinstance(tire, Mapping) else ""
        counts[casing, item.format] += 1
    return Covered(name, counts)
