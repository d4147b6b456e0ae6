"""What keeps two forms of one blueprint alike: the places of their keys, and bands for what makes questions hard."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction

from assessments.questions.drafts.seeding import key_place
from assessments.questions.items.item import Item
from training.trade.speech import saying

_APART = 2  # how many more keys may stand at one place than at another
_USUAL = 4  # options of a question
_NEAR_MM, _NEAR_DEG = 1.0, 5.0
_OF_A_QUESTION = 3  # as of the wrong options of most questions
_OF_NUMBERS, _OF_PLACES = 1 / 2, 1 / 3  # a number is too high or too low; a place may be missed to any side


def _is_near(item: Item) -> bool:
    near = ((item.features.get("distance_mm"), _NEAR_MM), (item.features.get("distance_deg"), _NEAR_DEG))
    return any(isinstance(distance, int | float) and distance <= limit for distance, limit in near)


def critical_share(item: Item) -> float:
    """How much of what may be answered wrongly is critical, 0 to 1: of `one` the wrong options, of `several` each
    option taken or left by mistake; of the others a round figure, since they can be answered in so many ways."""
    match item.format:
        case "one":
            return len(item.unsafe) / max(1, len(item.options) - 1)
        case "several":
            return len(item.unsafe) / max(1, len(item.options))
        case "number":
            return _OF_NUMBERS if item.unsafe else 0.0
        case "place":
            return _OF_PLACES if item.unsafe else 0.0
        case "order":
            return len(item.unsafe) / max(1, len(item.before))
    return len(item.unsafe) / max(1, len(item.options) * len(item.reasons))


def counted_as_critical(share: Fraction | float) -> float:
    """What a question with this share of critical answers adds to a form."""
    return float(_OF_A_QUESTION * share)


# What can be counted over a form; each makes questions harder or the form riskier to pass.
COUNTED: Mapping[str, Callable[[Item], float]] = {
    "critical": lambda item: counted_as_critical(critical_share(item)),
    "near-limit": _is_near,
    "leaning": lambda item: bool(item.features.get("lean_deg")),
}
COUNTED_TITLES: Mapping[str, str] = {
    "critical": saying("wrong answers that would release a rejected tire, of three wrong answers to each question"),
    "near-limit": saying("questions close to a limit"),
    "leaning": saying("questions with a leaning channel"),
}


@dataclass(frozen=True, slots=True)
class Band:
    """What is counted as `what` comes to at least and at most so much over a form."""

    what: str
    least: int
    most: int

    def off_by(self, count: float) -> float:
        """How much too little (negative) or too much; 0 within the band."""
        return min(0, count - self.least) + max(0, count - self.most)


class KeyPlaces:
    """The places at which the keys of a form stand so far, apart for each number of options."""

    def __init__(self) -> None:
        self._counts: dict[int, Counter[str]] = {}

    def takes(self, item: Item) -> bool:
        """Would one more key at this place leave the places balanced?"""
        return item.format != "one" or self._has_room(str(item.key), [option.id for option in item.options])

    def may_take(self, name: str, seed: str, options: int = _USUAL) -> bool:
        """Would the key of the question that this family draws by this seed leave them balanced, as far as can be told
        before it is drawn: if it is one right option among so many?"""
        ids = [str(place) for place in range(1, options + 1)]
        return self._has_room(str(key_place(name, seed, options)), ids)

    def _has_room(self, place: str, ids: Sequence[str]) -> bool:
        counts = self._counts.get(len(ids), Counter())
        return counts[place] + 1 - min(counts[one] for one in ids) <= _APART

    def add(self, item: Item, times: int = 1) -> None:
        """Count the place of a key; -1 `times` count it no longer."""
        if item.format == "one":
            self._counts.setdefault(len(item.options), Counter())[str(item.key)] += times


def off_bands(items: Sequence[Item], bands: Sequence[Band]) -> float:
    """By how much a form misses its bands; 0 where it keeps them all."""
    return sum(abs(band.off_by(sum(map(COUNTED[band.what], items)))) for band in bands)


def counts_of(items: Sequence[Item]) -> dict[str, float]:
    """What is counted over a form, and how much it comes to."""
    return {what: sum(map(is_counted, items)) for what, is_counted in COUNTED.items()}
