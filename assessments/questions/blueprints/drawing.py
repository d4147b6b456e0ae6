"""Drawing a form from its blueprint: different questions in a mixed order, brought to what the blueprint promises."""

from __future__ import annotations

import hashlib
import hmac
from collections import Counter
from collections.abc import Callable, Collection, Mapping, Sequence, Set
from dataclasses import dataclass
from random import Random
from typing import Any

from assessments.questions.blueprints.blueprint import CATCHES, Blueprint, Cell
from assessments.questions.drafts.foretelling import Foretold
from assessments.questions.drafts.rules import NoSuchLimit
from assessments.questions.draws.critical import caught_by
from assessments.questions.draws.fairness import COUNTED, Band, KeyPlaces, counted_as_critical
from assessments.questions.draws.registry import family
from assessments.questions.draws.sampling import CannotDraw, draw, draw_different, foretold
from assessments.questions.items.digest import digest
from assessments.questions.items.item import Item
from training.rulebook import Edition, OnShelf

_ADJUSTMENTS = 300  # questions drawn again at most to bring a form to what its blueprint promises
_GRAVE = 6  # how many questions too many of a band weigh as much as one that catches a grave misconception
_LESS = 0.5  # how much less is hoped of a question each time it was drawn again
_OF_NEEDED = 0.15  # and of one that may only change as long as it catches what it does
_UNTOLD = 0.1  # and of one that does not foretell how critical it will be
_SEEDS = 12  # looked at for one by which the key comes to stand where there is room
_NOTHING = 1e-9  # what adding shares leaves behind


def draw_form(
    plan: Blueprint,
    *,
    secret: bytes,
    form_id: str,
    edition: Edition,
    prefer: str = "in",
    units: Sequence[OnShelf] | None = None,
    shown: Collection[str] = (),
    off: Collection[str] = (),
) -> list[Item]:
    """The questions of one form, no two alike, in an order mixed over the skills; the parts of a case stay together.

    Seeds are keyed by `secret`, so that nobody who knows the form's id can draw it beforehand. The places of the keys
    are balanced, the bands of the plan kept, and its grave misconceptions caught CATCHES times each, as far as the
    rulebook and the families that are on allow; `short_of` says where they do not. `shown` holds the digests of what
    the person was asked before: none of it comes again while the family has something else. `off`: the families that
    stand in for none.
    """

    def keyed(*parts: object) -> str:
        return hmac.new(secret, repr((form_id, *parts)).encode(), hashlib.sha256).hexdigest()

    blocks = _blocks(plan.cells)
    Random(keyed("order")).shuffle(blocks)  # noqa: S311 - the seed is keyed
    items = draw_different(
        [name for block in blocks for name in block],
        seeds=[keyed("item", place) for place, block in enumerate(blocks) for _ in block],
        edition=edition,
        prefer=prefer,
        units=units,
        casings=plan.casings,
        shown=shown,
        off=off,
        balanced=True,
        assessed=True,
    )

    def again(before: Item, turn: int, room: KeyPlaces, helps: Callable[[Foretold], bool]) -> Item | None:
        name = before.family
        given: dict[str, Any] = {"edition": edition, "prefer": prefer, "units": units, "casings": plan.casings}
        for number in range(_SEEDS):
            seed = keyed("band", turn, number)
            if before.format == "one" and not room.may_take(name, seed, len(before.options)):
                continue
            told = foretold(name, seed=seed, **given)
            if told is None or helps(told):
                return draw(name, seed=seed, **given, assessed=True)
        return None

    return _adjusted(items, plan, Random(keyed("bands")), again, shown)  # noqa: S311 - the seed is keyed


def short_of(items: Sequence[Item], plan: Blueprint) -> dict[str, int]:
    """The grave misconceptions that a form catches less often than its plan promises, with how often it does."""
    caught = Counter(name for item in items for name in caught_by(item))
    return {name: caught[name] for name in plan.grave if caught[name] < CATCHES}


@dataclass(frozen=True, slots=True)
class _Worth:
    """What one question adds to a form: the grave misconceptions it catches, and how much it is counted as what."""

    caught: frozenset[str]
    counted: Mapping[str, float]

    @classmethod
    def of(cls, item: Item, graves: Set[str]) -> _Worth:
        return cls(caught_by(item) & graves, {what: float(count(item)) for what, count in COUNTED.items()})

    def as_foretold(self, told: Foretold, graves: Set[str]) -> _Worth:
        """What another draw of the question will add, as far as it is foretold."""
        return _Worth(told.catches & graves, {**self.counted, "critical": counted_as_critical(told.critical)})


class _Standing:
    """How a form stands to its plan: what it is short of, and which questions to draw again for it."""

    def __init__(self, plan: Blueprint, worths: Sequence[_Worth], names: Sequence[str], alone: Sequence[int]) -> None:
        self.plan, self.worths, self.names, self.alone = plan, list(worths), names, alone
        self.told = {place for place in alone if family(names[place]).foretells}
        self.caught = Counter(name for worth in worths for name in worth.caught)
        self.counted = {band.what: sum(worth.counted[band.what] for worth in worths) for band in plan.bands}

    @property
    def missed(self) -> float:
        """By how much the plan is missed; a grave misconception weighs more than a band."""
        return self._missed(self.caught, self.counted)

    def missed_with(self, place: int, worth: _Worth) -> float:
        """By how much it would be missed with another question at this place."""
        before = self.worths[place]
        caught = self.caught
        if worth.caught != before.caught:
            caught = caught.copy()
            caught.subtract(before.caught)
            caught.update(worth.caught)
        counted = {what: count + worth.counted[what] - before.counted[what] for what, count in self.counted.items()}
        return self._missed(caught, counted)

    def take(self, place: int, worth: _Worth) -> None:
        """Put another question at this place."""
        before, self.worths[place] = self.worths[place], worth
        self.caught.subtract(before.caught)
        self.caught.update(worth.caught)
        for what in self.counted:
            self.counted[what] += worth.counted[what] - before.counted[what]

    def _missed(self, caught: Mapping[str, int], counted: Mapping[str, float]) -> float:
        missing = sum(max(0, CATCHES - caught[name]) for name in self.plan.grave)
        return _GRAVE * missing + sum(abs(_off(band, counted[band.what])) for band in self.plan.bands)

    def promising(self) -> Mapping[int, float]:
        """The questions of which another draw may help, and how much of that may be hoped of each."""
        for one in self.plan.graves:
            if self.caught[one.misconception] >= CATCHES:
                continue
            asked = [place for place in self.alone if self.names[place] in one.asked_by]
            without = [place for place in asked if one.misconception not in self.worths[place].caught]
            if without:
                free = [place for place in without if not self._is_needed(place)]
                return dict.fromkeys(free or without, 1.0)
        for band in self.plan.bands:
            off = _off(band, self.counted[band.what])
            counts = {place: self.worths[place].counted[band.what] for place in self.alone}
            if off > 0:
                hopes = {
                    place: count * (_OF_NEEDED if self._is_needed(place) else 1) for place, count in counts.items()
                }
            else:
                hopes = {place: 1.0 for place, count in counts.items() if count < 1}
            if band.what == "critical":
                hopes = {place: hope * (1 if place in self.told else _UNTOLD) for place, hope in hopes.items()}
            if off and any(hopes.values()):
                return hopes
        return dict.fromkeys(self.alone, 1.0)

    def _is_needed(self, place: int) -> bool:
        return any(self.caught[name] <= CATCHES for name in self.worths[place].caught)


def _off(band: Band, count: float) -> float:
    off = band.off_by(count)
    return off if abs(off) > _NOTHING else 0


def _adjusted(
    items: list[Item],
    plan: Blueprint,
    rng: Random,
    again: Callable[[Item, int, KeyPlaces, Callable[[Foretold], bool]], Item | None],
    shown: Collection[str],
) -> list[Item]:
    """The form with single questions drawn again until it holds what its plan promises, as far as some tries go."""
    alone = [place for place, item in enumerate(items) if not family(item.family).series]
    if not alone or not (plan.bands or plan.graves):
        return items
    graves = frozenset(plan.grave)
    items = list(items)
    standing = _Standing(plan, [_Worth.of(item, graves) for item in items], [item.family for item in items], alone)
    seen = {*shown, *map(digest, items)}
    spent = dict.fromkeys(alone, 1.0)  # how far a question is used up: some families always draw alike
    room = KeyPlaces()
    for item in items:
        room.add(item)
    for turn in range(_ADJUSTMENTS):
        missed = standing.missed
        if missed == 0:
            break
        hopes = standing.promising()
        [place] = rng.choices(list(hopes), [hope * spent[place] for place, hope in hopes.items()])
        spent[place] *= _LESS

        def helps(told: Foretold, place: int = place, missed: float = missed) -> bool:
            return standing.missed_with(place, standing.worths[place].as_foretold(told, graves)) < missed

        room.add(items[place], -1)
        try:
            other = again(items[place], turn, room, helps)
        except (CannotDraw, NoSuchLimit):
            other = None
        if other is not None:
            worth = _Worth.of(other, graves)
            if standing.missed_with(place, worth) < missed and digest(other) not in seen and room.takes(other):
                seen.add(digest(other))
                items[place] = other
                standing.take(place, worth)
        room.add(items[place])
    return items


def _blocks(cells: Sequence[Cell]) -> list[list[str]]:
    """What stands together on a form: each question alone, the parts of one case in their order."""
    names = [cell.family for cell in cells for _ in range(cell.count)]
    alone = [[name] for name in names if not family(name).series]
    cases: dict[tuple[str, int], list[str]] = {}
    counted: Counter[str] = Counter()
    for name in names:
        if series := family(name).series:
            cases.setdefault((series, counted[name]), []).append(name)
            counted[name] += 1
    return alone + [sorted(parts, key=lambda name: family(name).part) for parts in cases.values()]
