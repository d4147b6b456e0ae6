"""What keeps two forms of one blueprint alike: the places of their keys, and bands for what makes questions hard."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass

from assessments.questions.items.item import Item
from training.trade.speech import saying

_APART = 2  # how many more keys may stand at one place than at another
_NEAR_MM, _NEAR_DEG = 1.0, 5.0


def _is_near(item: Item) -> bool:
    near = ((item.features.get("distance_mm"), _NEAR_MM), (item.features.get("distance_deg"), _NEAR_DEG))
    return any(isinstance(distance, int | float) and distance <= limit for distance, limit in near)


# What can be counted over a form; each makes questions harder or the form riskier to pass.
COUNTED: Mapping[str, Callable[[Item], bool]] = {
    "unsafe": lambda item: bool(item.unsafe),
    "near-limit": _is_near,
    "leaning": lambda item: bool(item.features.get("lean_deg")),
}
COUNTED_TITLES: Mapping[str, str] = {
    "unsafe": saying("questions in which an answer could release a rejected tire"),
    "near-limit": saying("questions close to a limit"),
    "leaning": saying("questions with a leaning channel"),
}


@dataclass(frozen=True, slots=True)
class Band:
    """Of the questions counted as `what`, a form has at least and at most so many."""

    what: str
    least: int
    most: int

    def off_by(self, count: int) -> int:
        """How many too few (negative) or too many; 0 within the band."""
        return min(0, count - self.least) + max(0, count - self.most)


class KeyPlaces:
    """The places at which the keys of a form stand so far, apart for each number of options."""

    def __init__(self) -> None:
        self._counts: dict[int, Counter[str]] = {}

    def takes(self, item: Item) -> bool:
        """Would one more key at this place leave the places balanced?"""
        if item.format != "one":
            return True
        counts = self._counts.get(len(item.options), Counter())
        return counts[str(item.key)] + 1 - min(counts[option.id] for option in item.options) <= _APART

    def add(self, item: Item) -> None:
        """Count the place of a key."""
        if item.format == "one":
            self._counts.setdefault(len(item.options), Counter())[str(item.key)] += 1


def off_bands(items: Sequence[Item], bands: Sequence[Band]) -> int:
    """By how many questions a form misses its bands; 0 where it keeps them all."""
    return sum(abs(band.off_by(sum(map(COUNTED[band.what], items)))) for band in bands)


def places_without(items: Sequence[Item], left_out: int) -> KeyPlaces:
    """The places of the keys of a form but for one question."""
    places = KeyPlaces()
    for place, item in enumerate(items):
        if place != left_out:
            places.add(item)
    return places


def counts_of(items: Sequence[Item]) -> dict[str, int]:
    """How many questions of a form are counted as what."""
    return {what: sum(map(is_counted, items)) for what, is_counted in COUNTED.items()}
