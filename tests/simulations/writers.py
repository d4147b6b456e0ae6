"""Pupils who write a number or mark a place: by what was usual, and by what sums of a stem's numbers came to it."""

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any, cast

import numpy as np
from sklearn.ensemble import ExtraTreesClassifier, ExtraTreesRegressor
from sklearn.feature_extraction import DictVectorizer

from assessments.questions.items.item import Item, OpenItem
from assessments.questions.items.marking import Answer, mark
from assessments.questions.items.shapes import Region
from tests.simulations.pupils import opened_once
from tests.simulations.reading import Row, measures, numbers, stem_row, told

MOST_SUMS = 40


def written(value: float, unit: str) -> Answer:
    return {"value": f"{max(value, 0):.5f}".rstrip("0").rstrip(".") or "0", "unit": unit}


def of_key(item: Item) -> tuple[float, str]:
    text, _, unit = str(item.key).rpartition(" ")
    return numbers(text)[0], unit


class UsualNumber:
    """Writes the one number that was right most often."""

    def learn(self, items: Sequence[Item]) -> None:
        tried = {of_key(item) for item in items}
        ordered = sorted(tried)
        self.best = max(
            ordered, key=lambda key: sum(mark(item, written(*key)).right for item in items if key[1] in item.units)
        )

    def answers(self, items: Sequence[OpenItem]) -> list[Answer]:
        return [self.usual(item) for item in items]

    def usual(self, item: OpenItem) -> Answer:
        value, unit = self.best
        return written(value, unit if unit in item.units else item.units[0])


@dataclass(frozen=True)
class Way:
    """A way to come to a number: some numbers of a stem, by their places, weighed and added to a constant; or two of
    them multiplied or divided."""

    places: tuple[int, ...] = ()
    weights: tuple[float, ...] = ()
    constant: float = 0.0
    how: str = "sum"

    def value(self, some: Sequence[float]) -> float:
        """What it comes to; nan where the stem has too few numbers."""
        if any(place >= len(some) for place in self.places):
            return float("nan")
        picked = [some[place] for place in self.places]
        if self.how == "times":
            return picked[0] * picked[1]
        if self.how == "over":
            return picked[0] / (picked[1] or 1.0)
        return self.constant + sum(weight * one for weight, one in zip(self.weights, picked, strict=True))


def ways(count: int, constants: Sequence[float], factors: Sequence[float]) -> list[Way]:
    """What can be made of the first numbers of a stem: each alone, two or three together, with what is often added."""
    found = [Way(constant=constant) for constant in constants]
    for a in range(count):
        found += [Way((a,), (factor,)) for factor in factors]
        found += [Way((a,), (sign,), constant) for constant in constants for sign in (1.0, -1.0)]
        for b in range(count):
            if a == b:
                continue
            two = (a, b)
            pairs = ((1.0, -1.0), (1.0, -0.5), (0.5, -1.0), (0.5, 0.5), *((1.0, factor) for factor in factors))
            found += [Way(two, weights) for weights in pairs]
            found += [Way(two, how="over"), *([Way(two, how="times")] if a < b else [])]
            for c in range(count):
                if c not in two:
                    found += [Way((a, b, c), weights) for weights in ((1.0, -1.0, -1.0), (0.5, -1.0, -0.5))]
    return found


class Reckoner:
    """Finds which sums of the stem's numbers were right, and by its words which of them is asked for."""

    def __init__(self, most_numbers: int = 8) -> None:
        self.most = most_numbers

    def learn(self, items: Sequence[Item]) -> None:
        opened = [opened_once(item) for item in items]
        stems = [self._numbers(item) for item in opened]
        keys = [of_key(item)[0] for item in items]
        self.unit = Counter(of_key(item)[1] for item in items).most_common(1)[0][0]
        count = max(map(len, stems), default=0)
        margins = [self._margin(item) for item in items]
        near = [
            round(how, 4)
            for some, key in zip(stems, keys, strict=True)
            for one in some
            for how in (key - one, key + one)
        ]
        by = [round(key / one, 4) for some, key in zip(stems, keys, strict=True) for one in some if one]
        plain = [round(key, 4) for key in keys]
        constants = [c for c, _ in Counter(near).most_common(6)] + [c for c, _ in Counter(plain).most_common(6)]
        factors = list(dict.fromkeys([1.0, 2.0, 0.5, *(f for f, _ in Counter(by).most_common(5))]))
        hits: dict[Way, Any] = {}
        for way in ways(count, list(dict.fromkeys(constants)), factors):
            got = np.array([way.value(some) for some in stems])
            hits[way] = np.abs(got - np.array(keys)) <= np.array(margins)
        # the best, then whatever is right where those before were not
        left = np.ones(len(items), dtype=bool)
        self.ways: list[Way] = []
        labels = np.full(len(items), -1)
        while left.any() and len(self.ways) < MOST_SUMS:
            best = max(hits, key=lambda way: (int((hits[way] & left).sum()), int(hits[way].sum())))
            gained = hits[best] & left
            if gained.sum() < 2:
                break
            labels[gained] = len(self.ways)
            self.ways.append(best)
            left &= ~gained
        self.fallback = UsualNumber()
        self.fallback.learn(items)
        self.model = None
        known = labels >= 0
        if len(self.ways) > 1:
            self.names = DictVectorizer(dtype=np.float32)
            table = self.names.fit_transform([self._row(item) for item in opened]).toarray()
            self.model = ExtraTreesClassifier(200, max_features=0.3, random_state=1).fit(table[known], labels[known])

    def answers(self, items: Sequence[OpenItem]) -> list[Answer]:
        order = [list(range(len(self.ways)))] * len(items)
        if self.model is not None and items:
            chances = self.model.predict_proba(self.names.transform([self._row(item) for item in items]).toarray())
            order = [[int(self.model.classes_[at]) for at in np.argsort(-row)] for row in chances]
        return [self._answer(item, ranked) for item, ranked in zip(items, order, strict=True)]

    def _answer(self, item: OpenItem, ranked: Sequence[int]) -> Answer:
        some = self._numbers(item)
        for place in ranked:
            value = self.ways[place].value(some)
            if np.isfinite(value) and value >= 0:
                return written(value, self.unit if self.unit in item.units else item.units[0])
        return self.fallback.usual(item)

    def _numbers(self, item: OpenItem) -> list[float]:
        return numbers(told(item))[: self.most]

    @staticmethod
    def _row(item: OpenItem) -> Row:
        return stem_row(told(item))

    @staticmethod
    def _margin(item: Item) -> float:
        if not item.tolerance:
            return 1e-9
        [(value, unit), *_] = measures(item.tolerance)
        own = of_key(item)[1]
        return (value * {("mm", "in"): 1 / 25.4, ("in", "mm"): 25.4}.get((unit, own), 1.0)) + 1e-9


class Marker:
    """Marks a place: the one in most of the right regions seen, or where trees over the stem's numbers point."""

    def __init__(self, *, stems: bool) -> None:
        self.stems = stems

    def learn(self, items: Sequence[Item]) -> None:
        regions = [cast("Region", item.key) for item in items]
        frames = [opened_once(item).frame for item in items]
        self.options = []
        for relative in (False, True):
            points = []
            for region, frame in zip(regions, frames, strict=True):
                x, y = region.middle
                points.append((x / frame.width, y / frame.height) if relative and frame else (x, y))
            best = max(points, key=lambda point: self._hits(point, items, relative))
            self.options.append((self._hits(best, items, relative), relative, best))
        _, self.relative, self.best = max(self.options)
        if self.stems:
            self.names = DictVectorizer(dtype=np.float32)
            table = self.names.fit_transform([self._row(opened_once(item)) for item in items]).toarray()
            wanted = np.array([region.middle for region in regions])
            self.model = ExtraTreesRegressor(200, max_features=0.4, random_state=1).fit(table, wanted)

    @staticmethod
    def _hits(point: tuple[float, float], items: Sequence[Item], relative: bool) -> int:
        hits = 0
        for item in items:
            frame, region = item.frame, cast("Region", item.key)
            wide, high = (frame.width, frame.height) if relative and frame else (1.0, 1.0)
            hits += region.holds(point[0] * wide, point[1] * high)
        return hits

    @staticmethod
    def _row(item: OpenItem) -> Row:
        row = stem_row(told(item))
        if item.frame is not None:
            row |= {"wide": item.frame.width, "high": item.frame.height}
        return row

    def answers(self, items: Sequence[OpenItem]) -> list[Answer]:
        points: list[tuple[float, float]] = []
        if self.stems and items:
            table = self.names.transform([self._row(item) for item in items]).toarray()
            points = [(x, y) for x, y in self.model.predict(table)]
        else:
            for item in items:
                frame = item.frame
                wide, high = (frame.width, frame.height) if self.relative and frame else (1.0, 1.0)
                points.append((self.best[0] * wide, self.best[1] * high))
        return [{"x": f"{x:.1f}", "y": f"{y:.1f}"} for x, y in points]
