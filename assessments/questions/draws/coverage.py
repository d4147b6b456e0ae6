"""What the families ask under an edition: which casings and formats come up, found by drawing them.

Draws for looking at are seeded in a namespace of their own, so that no form can ever hold one of them.
"""

from __future__ import annotations

from collections import Counter, OrderedDict
from collections.abc import Collection, Mapping
from dataclasses import dataclass

from assessments.questions.drafts.rules import NoSuchLimit
from assessments.questions.draws.registry import family, family_names, parts_of
from assessments.questions.draws.sampling import CannotDraw, draw
from assessments.questions.items.item import SERIES
from training.rulebook import Edition
from training.trade.speech import in_language

DRAWS_TO_COVER = 4  # draws of each family and casing to see what it asks; no more once all of its formats were seen
PUBLIC = "bench:"
_KEPT = 16

# What was found for the editions used last; an edition is known by being the same object.
_kept: OrderedDict[int, tuple[Edition, tuple[Covered, ...]]] = OrderedDict()


@dataclass(frozen=True, slots=True)
class Covered:
    """What one family asked in up to DRAWS_TO_COVER draws a casing: how often by (casing, format); the casing is ""
    where it tells no tire. Empty where the edition says nothing on what the family asks.
    """

    family: str
    counts: Mapping[tuple[str, str], int]

    def asks(self, casings: Collection[str] | None = None) -> bool:
        """Did anything come up that may be asked about these casings? None stands for all."""
        return any(casings is None or casing in ("", *casings) for casing, _ in self.counts)


def public_seed(text: str) -> str:
    """The seed of a draw that is looked at, not asked: "1/3" is "bench:1/3"."""
    return f"{PUBLIC}{text}"


def coverage(edition: Edition) -> tuple[Covered, ...]:
    """Every family in turn; kept, since it costs a draw and more of each."""
    kept = _kept.get(id(edition))
    if kept is None or kept[0] is not edition:
        with in_language(edition.language):  # whoever asks first
            kept = _kept[id(edition)] = (edition, tuple(_covered(name, edition) for name in family_names()))
        if len(_kept) > _KEPT:
            _kept.popitem(last=False)
    return kept[1]


def families_of(edition: Edition, casings: Collection[str] | None = None) -> tuple[str, ...]:
    """The families that have something to ask under an edition, of these casings if any are given."""
    return tuple(one.family for one in coverage(edition) if one.asks(casings))


def series_in(edition: Edition, casings: Collection[str] | None = None) -> tuple[str, ...]:
    """The cases in several parts of which the edition leaves every part something to ask, of these casings."""
    able = set(families_of(edition, casings))
    return tuple(series for series in SERIES if able.issuperset(parts_of(series)))


def _covered(name: str, edition: Edition) -> Covered:
    counts: Counter[tuple[str, str]] = Counter()
    formats = family(name).formats
    for casing in family(name).casings or ("",):
        for number in range(DRAWS_TO_COVER):
            if all(counts[casing, form] for form in formats):
                break
            try:
                seed = public_seed(f"coverage/{number}")
                item = draw(name, seed=seed, edition=edition, casings=(casing,) if casing else None)
            except NoSuchLimit:
                break
            except CannotDraw:  # after very many tries: another draw would come to nothing too
                break
            counts[casing, item.format] += 1
    return Covered(name, +counts)
