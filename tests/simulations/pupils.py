"""Pupils who learn from keyed answer sheets without knowing tires: one for each way to answer.

A pupil sees open questions and, while it learns, their keys. Those here choose: they score rows (`reading.py`), each
an option or a line, by a linear model or by trees.
"""

import warnings
from collections import Counter, defaultdict
from collections.abc import Callable, Sequence
from itertools import accumulate, pairwise
from typing import Any, Protocol, cast

import numpy as np
from scipy.sparse import hstack
from sklearn.ensemble import ExtraTreesClassifier, HistGradientBoostingClassifier
from sklearn.feature_extraction import DictVectorizer, FeatureHasher
from sklearn.linear_model import LogisticRegression
from sklearn.preprocessing import MaxAbsScaler

from assessments.questions.items.item import Item, OpenItem, Option
from assessments.questions.items.marking import Answer
from assessments.questions.items.shapes import Blame
from tests.simulations.reading import Row, crossed, grams, rows, stem_row, told, words

Scores = list[float]


class Pupil(Protocol):
    """Learns from questions with their keys and answers open ones."""

    def learn(self, items: Sequence[Item]) -> None: ...
    def answers(self, items: Sequence[OpenItem]) -> list[Answer]: ...


# -- what scores rows --------------------------------------------------------------------------------------------------


class Steps:
    """Numbers of rows cut at the values seen while learning, so that a linear model finds limits."""

    def __init__(self, cuts: int = 8) -> None:
        self.cuts = cuts
        self.at: dict[str, list[float]] = {}

    def learn(self, seen: Sequence[Row]) -> None:
        values: dict[str, list[float]] = defaultdict(list)
        for row in seen:
            for name, value in row.items():
                if name.startswith(("opening ", "number ", "length", "stem ")) and value not in (0, 1):
                    values[name].append(value)
        for name, some in values.items():
            different = sorted(set(some))
            if len(some) >= 6 and len(different) > 1:
                between = [(a + b) / 2 for a, b in pairwise(different)]
                picked = between[:: max(1, len(between) // self.cuts)]
                self.at[name] = picked

    def cut(self, row: Row) -> Row:
        more = dict(row)
        for name, value in row.items():
            for cut in self.at.get(name, ()):
                if value >= cut:
                    more[f"{name} from {cut:.6g}"] = 1
        return more


class Linear:
    """Words, n-grams of characters and numbers cut into steps, weighed in one sum."""

    def __init__(self, strength: float = 1.0, *, characters: bool = True) -> None:
        self.strength, self.characters = strength, characters

    def learn(self, seen: Sequence[Row], texts: Sequence[str], right: Sequence[bool]) -> None:
        self.constant = None if any(right) and not all(right) else float(any(right))
        if self.constant is not None:
            return
        self.steps, self.names, self.scale = Steps(), DictVectorizer(), MaxAbsScaler()
        self.steps.learn(seen)
        self.hasher = FeatureHasher(2**14, input_type="string", alternate_sign=False)
        table = self.scale.fit_transform(self.names.fit_transform([self.steps.cut(row) for row in seen]))
        self.model = LogisticRegression(C=self.strength, max_iter=400, solver="liblinear")
        self.model.fit(self._with_characters(table, texts), np.array(right))

    def scores(self, seen: Sequence[Row], texts: Sequence[str]) -> Scores:
        if self.constant is not None:
            return [self.constant] * len(seen)
        table = self.scale.transform(self.names.transform([self.steps.cut(row) for row in seen]))
        return list(self.model.predict_proba(self._with_characters(table, texts))[:, 1])

    def _with_characters(self, table: Any, texts: Sequence[str]) -> Any:
        if not self.characters:
            return table
        hashed = self.hasher.transform([list(grams(text)) for text in texts])
        hashed.data = np.minimum(hashed.data, 1) * 0.2
        return hstack([table, hashed]).tocsr()


class Trees:
    """Many trees, or trees each of which mends those before it, over the same rows."""

    def __init__(self, *, boosted: bool = False, most: int = 500) -> None:
        self.boosted, self.most = boosted, most

    def learn(self, seen: Sequence[Row], texts: Sequence[str], right: Sequence[bool]) -> None:
        self.constant = None if any(right) and not all(right) else float(any(right))
        if self.constant is not None:
            return
        self.names = DictVectorizer(sparse=True, dtype=np.float32)
        table = self.names.fit_transform(seen).tocsc()
        wanted = np.array(right, dtype=np.float32)
        filled = np.diff(table.indptr)
        usable = np.flatnonzero(filled >= 4)
        if len(usable) > self.most:
            dense = table[:, usable].toarray()
            centered = dense - dense.mean(axis=0)
            spread = np.sqrt((centered**2).sum(axis=0)) + 1e-9
            related = np.abs(centered.T @ (wanted - wanted.mean())) / spread
            usable = usable[np.argsort(-related, kind="stable")[: self.most]]
        self.columns = np.sort(usable)
        if self.boosted:
            self.model: Any = HistGradientBoostingClassifier(
                max_iter=120, learning_rate=0.08, max_leaf_nodes=12, min_samples_leaf=5, random_state=1
            )
        else:
            self.model = ExtraTreesClassifier(
                100, max_features=0.25, min_samples_leaf=2, class_weight="balanced", random_state=1
            )
        self.model.fit(table[:, self.columns].toarray(), wanted)

    def scores(self, seen: Sequence[Row], texts: Sequence[str]) -> Scores:
        if self.constant is not None:
            return [self.constant] * len(seen)
        table = self.names.transform(seen).tocsc()[:, self.columns].toarray()
        return list(self.model.predict_proba(table)[:, 1])


class Together:
    """Trees that are told beforehand what the linear model made of rows it had not learned from."""

    def __init__(self, *, boosted: bool = False, folds: int = 3) -> None:
        self.folds, self.trees = folds, Trees(boosted=boosted)

    def learn(self, seen: Sequence[Row], texts: Sequence[str], right: Sequence[bool]) -> None:
        guessed = [0.0] * len(seen)
        size = -(-len(seen) // self.folds)
        for start in range(0, len(seen), size):  # rows of one question follow one another, and mostly fall together
            held = range(start, min(start + size, len(seen)))
            others = [at for at in range(len(seen)) if not held.start <= at < held.stop]
            line = Linear()
            line.learn([seen[at] for at in others], [texts[at] for at in others], [right[at] for at in others])
            for at, score in zip(held, line.scores([seen[at] for at in held], [texts[at] for at in held]), strict=True):
                guessed[at] = score
        self.line = Linear()
        self.line.learn(seen, texts, right)
        told_so = [row | {"linear": score} for row, score in zip(seen, guessed, strict=True)]
        self.trees.learn(told_so, texts, right)

    def scores(self, seen: Sequence[Row], texts: Sequence[str]) -> Scores:
        line = self.line.scores(seen, texts)
        return self.trees.scores([row | {"linear": score} for row, score in zip(seen, line, strict=True)], texts)


class Usual:
    """How often this very text, or this text with its numbers left out, was right before."""

    def __init__(self, feature: str = "text ") -> None:
        self.feature = feature

    def learn(self, seen: Sequence[Row], texts: Sequence[str], right: Sequence[bool]) -> None:
        self.offered: Counter[str] = Counter()
        self.right: Counter[str] = Counter()
        self.base = (sum(right) + 1) / (len(right) + 2)
        for row, is_right in zip(seen, right, strict=True):
            name = self._name(row)
            self.offered[name] += 1
            self.right[name] += is_right

    def scores(self, seen: Sequence[Row], texts: Sequence[str]) -> Scores:
        names = [self._name(row) for row in seen]
        return [(self.right[name] + self.base) / (self.offered[name] + 1) for name in names]

    def _name(self, row: Row) -> str:
        return next(name for name in row if name.startswith(self.feature))


# -- who chooses -------------------------------------------------------------------------------------------------------

_rows: dict[tuple[int, bool], tuple[OpenItem, list[Row], list[str]]] = {}


def rows_of(item: OpenItem, stems: bool) -> tuple[list[Row], list[str]]:
    """The rows of the options of a question, and what is written there; kept while learning goes on."""
    kept = _rows.get((id(item), stems))
    if kept is None or kept[0] is not item:
        texts = [option.text for option in item.options]
        found = rows(texts)
        if stems:
            text = told(item)
            above = stem_row(text)
            found = [row | above | crossed(row, text, said) for row, said in zip(found, texts, strict=True)]
        kept = _rows[id(item), stems] = (item, found, texts)
    return kept[1], kept[2]


class Chooser:
    """Chooses the option, or all options, that score well."""

    def __init__(self, scorer: Callable[[], Any], *, stems: bool) -> None:
        self.scorer, self.stems = scorer, stems
        self.least = 0.5

    def learn(self, items: Sequence[Item]) -> None:
        opened = [opened_once(item) for item in items]
        self.model = self.scorer()
        self.model.learn(*self._rows(opened), [option.id in item.key_ids for item in items for option in item.options])
        if items[0].format == "several":
            self.least = self._best_least(items, opened)

    def _rows(self, opened: Sequence[OpenItem]) -> tuple[list[Row], list[str]]:
        both = [rows_of(item, self.stems) for item in opened]
        return [row for rows, _ in both for row in rows], [text for _, texts in both for text in texts]

    def _best_least(self, items: Sequence[Item], opened: Sequence[OpenItem]) -> float:
        """The score from which options are chosen, by questions that were not learned from."""
        half = max(1, len(items) * 2 // 3)
        if len(items) - half < 4:
            return 0.5
        model = self.scorer()
        model.learn(*self._rows(opened[:half]), [o.id in item.key_ids for item in items[:half] for o in item.options])
        tried = [
            (scores, [option.id in item.key_ids for option in item.options])
            for item, scores in zip(items[half:], self._scores(model, opened[half:]), strict=True)
        ]

        def right(least: float) -> tuple[int, float]:
            hits = sum([score > least for score in scores] == wanted for scores, wanted in tried)
            return hits, -abs(least - 0.5)

        return max((at / 20 for at in range(4, 17)), key=right)

    def answers(self, items: Sequence[OpenItem]) -> list[Answer]:
        return [self._answer(item, scores) for item, scores in zip(items, self._scores(self.model, items), strict=True)]

    def _scores(self, model: Any, items: Sequence[OpenItem]) -> list[Scores]:
        return dealt(model.scores(*self._rows(items)), [len(item.options) for item in items])

    def _answer(self, item: OpenItem, scores: Scores) -> Answer:
        best = scores.index(max(scores))
        if item.format == "one":
            return item.options[best].id
        chosen = [option.id for option, score in zip(item.options, scores, strict=True) if score > self.least]
        return chosen or [item.options[best].id]


def dealt(scores: Scores, counts: Sequence[int]) -> list[Scores]:
    """The scores of all rows, question by question."""
    ends = list(accumulate(counts))
    return [scores[end - count : end] for end, count in zip(ends, counts, strict=True)]


_opened: dict[int, tuple[Item, OpenItem]] = {}


def opened_once(item: Item) -> OpenItem:
    """The open question, the same object each time, so that its rows are made once."""
    kept = _opened.get(id(item))
    if kept is None or kept[0] is not item:
        kept = _opened[id(item)] = (item, item.open())
    return kept[1]


class Blamer:
    """Names the line and the reason that go best together, or no fault."""

    def __init__(self, scorer: Callable[[], Any], *, stems: bool) -> None:
        self.scorer, self.stems = scorer, stems

    def learn(self, items: Sequence[Item]) -> None:
        seen, texts, right = [], [], []
        for item in items:
            key = cast("Blame", item.key)
            for step, reason, row, text in self._pairs(opened_once(item)):
                seen.append(row)
                texts.append(text)
                right.append(step in key.steps and reason == key.reason)
        self.model = self.scorer()
        self.model.learn(seen, texts, right)

    def answers(self, items: Sequence[OpenItem]) -> list[Answer]:
        pairs = [self._pairs(item) for item in items]
        rows = [row for some in pairs for *_, row, _ in some]
        texts = [text for some in pairs for *_, text in some]
        found: list[Answer] = []
        for some, scores in zip(pairs, dealt(self.model.scores(rows, texts), list(map(len, pairs))), strict=True):
            step, reason, *_ = some[scores.index(max(scores))]
            found.append({"step": step, "reason": reason})
        return found

    def _pairs(self, item: OpenItem) -> list[tuple[str, str, Row, str]]:
        lines, texts = rows_of(item, self.stems)
        steps = [" ".join(words(text)[:2]) for text in texts]
        above = {f"log {step}": 1.0 for step in steps}
        after = {f"follows {a} {b}": 1.0 for a, b in pairwise(steps)}
        reasons: list[Option] = list(item.reasons)
        around = {f"offered {reason.text}": 1.0 for reason in reasons}
        nothing = len(texts) - 1
        found = []
        for at, (line, text) in enumerate(zip(lines, texts, strict=True)):
            for reason in reasons if at != nothing else [Option("", "")]:
                why = reason.text
                row: Row = {"nothing": at == nothing, "missing": at == nothing - 1, f"why {why}": 1}
                for name, value in line.items():
                    if name.startswith(("text ", "frame ", "part ", "value ", "word ", "opening ")):
                        row[name] = value
                        row[f"{name} | {why}"] = value
                row[f"{steps[at]} | {why}"] = 1
                if at >= nothing - 1:
                    row |= above | around | after
                    row |= {f"{name} | {why}": 1 for name in (*above, *after)}
                if self.stems:
                    row |= {
                        name: value for name, value in line.items() if name.startswith(("stem ", "with ", "number "))
                    }
                found.append((item.options[at].id, reason.id, row, f"{text} {why}"))
        return found


class Orderer:
    """Orders steps by how often each stood before the others; steps never seen before stay where they are."""

    def learn(self, items: Sequence[Item]) -> None:
        self.ahead: Counter[tuple[str, str]] = Counter()
        for item in items:
            texts = {option.id: _plain(option.text) for option in item.options}
            order = [texts[one] for one in item.key_ids]
            for at, first in enumerate(order):
                self.ahead.update((first, then) for then in order[at + 1 :])
        self.steps = {step for pair in self.ahead for step in pair}
        self.reach = {step: {then for first, then in self.ahead if first == step} for step in self.steps}
        for _ in range(3):  # what comes before what comes before
            for step in self.steps:
                self.reach[step] |= {far for near in self.reach[step] for far in self.reach.get(near, ())}

    def answers(self, items: Sequence[OpenItem]) -> list[Answer]:
        return [self._answer(item) for item in items]

    def _answer(self, item: OpenItem) -> Answer:
        texts = {option.id: _plain(option.text) for option in item.options}

        def before(one: str, other: str) -> float:
            direct = self.ahead[texts[one], texts[other]] - self.ahead[texts[other], texts[one]]
            if direct:
                return 1.0 if direct > 0 else -1.0
            far = texts[other] in self.reach.get(texts[one], ())
            near = texts[one] in self.reach.get(texts[other], ())
            return 0.5 * (far - near)

        ids = [option.id for option in item.options]
        return sorted(ids, key=lambda one: -sum(before(one, other) for other in ids if other != one))


def _plain(text: str) -> str:
    return " ".join(words(text))


def in_silence(act: Callable[[], Any]) -> Any:
    """Without what a library says of classes that have few members."""
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        return act()
