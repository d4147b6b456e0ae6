"""What answers say about the person: which misconceptions explain them, how surely, and what to ask next.

A person is seen as holding a set of misconceptions (none, one or two), or as guessing. Who holds a set answers what the
set computes, and slips now and then; Bayes' rule weighs the sets by the answers given. Two rates of slips are tried, so
that someone who is merely unsure is not taken for a believer.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from itertools import combinations

from assessments.questions.items.item import Item
from assessments.questions.items.marking import Answer, mark
from assessments.questions.items.numbers import parse_measure
from assessments.questions.items.shapes import Blame, blame_text, pair_text
from assessments.questions.mistakes.misconceptions import misconceptions
from training.trade.speech import say

PROBABLE, CERTAIN = 0.8, 0.97  # below the first nobody is said to hold anything
_GUESSES = 0.06  # how many people guess throughout
_HELD = 0.01  # the odds of holding a misconception, before anything was asked
_SLIPS = ((0.05, 0.7), (0.3, 0.3))  # a rate of slips, and how many people have it
_RIVALS = 10  # so many of the likeliest misconceptions are also tried in pairs
_LEAST_EXPLAINED = 3  # one in so many wrong answers has to fit what is said of somebody
_MOSTLY_WRONG = 2  # and one in so many of somebody who is mostly wrong, as guessers are
_HARDLY = 1e-3
_KEY = ("key",)

Held = frozenset[str]
Outcome = tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Belief:
    """A misconception someone may hold, and the probability that they do."""

    misconception: str
    probability: float

    @property
    def is_probable(self) -> bool:
        """Is it likely enough to be said?"""
        return self.probability >= PROBABLE

    @property
    def words(self) -> str:
        """The probability in words; only of a belief that may be said."""
        return say("almost certainly") if self.probability >= CERTAIN else say("probably")


@dataclass(frozen=True, slots=True)
class Diagnosis:
    """All misconceptions that the answers speak of, likeliest first; how likely guessing is; how many answers counted.

    `is_scattered`: too few of the wrong answers fit the likely misconceptions, as when someone guesses.
    A misconception that no question could show has the probability it had at the start, `unseen`.
    """

    beliefs: tuple[Belief, ...] = ()
    guessing: float = _GUESSES
    answers: int = 0
    unseen: float = 0.0
    by_name: Mapping[str, float] = field(default_factory=dict)
    is_scattered: bool = False

    @property
    def probable(self) -> tuple[Belief, ...]:
        """The misconceptions that are likely enough to be said; none while most wrong answers fit none of them."""
        return () if self.is_scattered else tuple(belief for belief in self.beliefs if belief.is_probable)

    def probability(self, misconception: str) -> float:
        """How likely it is that the person holds this misconception."""
        return self.by_name.get(misconception, self.unseen)

    def asked_about(self, names: Iterable[str]) -> Diagnosis:
        """As if half of what a question could show of these were known: for choosing what to ask beside it."""
        return replace(self, by_name={**self.by_name, **{name: self.probability(name) / 2 for name in names}})


# -- one question ------------------------------------------------------------------------------------------------------


class Outlook:
    """What the answers to one question would say: the outcome of an answer, and what who holds a set would answer."""

    def __init__(self, item: Item) -> None:
        self.item = item
        routes = {answer: item.routes_to(answer) for answer in item.distractors}
        self.routes = {answer: tuple(map(frozenset, ways)) for answer, ways in routes.items() if ways}
        self.omitted = {option: frozenset(names) for option, names in item.omissions.items() if names}
        named = [name for ways in self.routes.values() for way in ways for name in way]
        self.names: Held = frozenset([*named, *(name for names in self.omitted.values() for name in names)])
        self.alone = {name: self.predicted(frozenset([name])) for name in self.names}
        self.count = self._count()
        self._kept: dict[Held, tuple[Outcome, ...]] = {}

    def _count(self) -> int:
        """How many outcomes a slip may lead to, beside the one meant."""
        match self.item.format:
            case "one":
                return max(1, len(self.item.options) - 1)
            case "several":
                return 2 * len(self.item.options)  # someone who slips slips on one option or two
            case "fault":
                return max(2, len(self.item.options) + len(self.item.reasons))
        return max(2, len(self.item.distractors) + 1)

    def outcome(self, answer: Answer) -> Outcome:
        """What an answer amounts to, comparable with what was predicted."""
        item = self.item
        marked = mark(item, answer)
        if marked.right:
            return _KEY
        if item.format == "one":
            return (str(answer),)
        if item.format == "several" and isinstance(answer, list):
            return tuple(sorted(answer))
        if item.format == "number" and isinstance(answer, dict):
            return self._wrong_number(answer)
        if item.format == "fault" and isinstance(answer, dict):
            given = blame_text(answer["step"], answer["reason"])
            return (given,) if given in self.routes else ("other",)
        return tuple(sorted(marked.misconceptions)) or ("other",)

    def _wrong_number(self, answer: Mapping[str, str]) -> Outcome:
        given = parse_measure(f"{answer['value']} {answer['unit']}")[1]
        margin = parse_measure(self.item.tolerance)[1] if self.item.tolerance else 0
        for wrong in self.item.distractors:
            if abs(given - parse_measure(wrong)[1]) <= margin:
                return (wrong,)
        return ("other",)

    def predicted(self, held: Held) -> tuple[Outcome, ...]:
        """What who holds these misconceptions answers; several outcomes where they leave it open."""
        held &= self.names
        if not held:
            return (_KEY,)
        if self.item.format == "several":
            return (self._chosen(held),)
        best, longest = [], 0
        for answer, ways in self.routes.items():
            reach = max((len(way) for way in ways if way <= held), default=0)
            if reach > longest:
                best, longest = [answer], reach
            elif reach == longest and reach:
                best.append(answer)
        if not best:
            return (_KEY,)
        if self.item.format in ("one", "number"):
            return tuple((answer,) for answer in best)
        if self.item.format == "fault":
            return self._blamed(best)
        return tuple((name,) for name in sorted(held))

    def _blamed(self, believed: Sequence[str]) -> tuple[Outcome, ...]:
        """What someone names in a log: a right line that is wrong to them, or the fault unless they see none in it."""
        nothing = self.item.options[-1].id
        lines = tuple((answer,) for answer in believed if answer != nothing)
        if nothing in believed:
            return lines or ((nothing,),)
        sees_fault = isinstance(self.item.key, Blame) and nothing not in self.item.key.steps
        return (_KEY, *lines) if sees_fault else lines

    def _chosen(self, held: Held) -> Outcome:
        key = set(self.item.key) if isinstance(self.item.key, tuple) else set()
        left_out = {option for option, names in self.omitted.items() if names & held}
        added = {option for option, ways in self.routes.items() if any(way <= held for way in ways)}
        chosen = (key - left_out) | added
        return _KEY if chosen == key else tuple(sorted(chosen)) or ("nothing",)

    def likelihood(self, outcome: Outcome, held: Held, slips: float) -> float:
        """The chance of an outcome for who holds these misconceptions and slips at this rate."""
        held &= self.names
        meant = self._kept.get(held)
        if meant is None:
            meant = self._kept[held] = self.predicted(held)
        if self.item.format in ("one", "several", "number", "fault"):
            hit = 1 / len(meant) if outcome in meant else 0.0
        else:  # an order or a place: it shows which misconceptions an answer has, not which it lacks
            hit = 1.0 if outcome in meant or (meant != (_KEY,) and not held.isdisjoint(outcome)) else 0.0
        missed = slips / self.count
        return (1 - slips) * hit + (missed if hit < 1 else 0.0) + (0.0 if hit else 1e-6)

    def guessed(self, outcome: Outcome) -> float:
        """The chance of an outcome for who guesses."""
        if self.item.format == "several":
            return 0.5 ** len(self.item.options)
        return 1 / (self.count + 1)

    def information(self, diagnosis: Diagnosis) -> float:
        """How many bits the answer is expected to tell about the person, given what is known."""
        slips, spread = 0.1, self.count + 1
        shares: dict[Outcome, float] = {_KEY: 1.0}
        for name, outcomes in self.alone.items():
            share = diagnosis.probability(name)
            shares[_KEY] -= share
            for outcome in outcomes:
                shares[outcome] = shares.get(outcome, 0.0) + share / len(outcomes)
        shares[_KEY] = max(shares[_KEY], 0.02)
        whole = sum(shares.values())
        background = slips / spread
        chances = [(1 - slips) * share / whole + background for share in shares.values()]
        rest = max(0, spread - len(shares))
        own = -(1 - slips + background) * math.log2(1 - slips + background)
        own -= (spread - 1) * background * math.log2(background)
        mixed = -sum(chance * math.log2(chance) for chance in chances) - rest * background * math.log2(background)
        return max(0.0, mixed - own)


def thoughts(item: Item, answer: Answer) -> tuple[str, ...]:
    """The misconceptions each of which, held alone, gives exactly this answer, all of its lines together."""
    if answer is None or mark(item, answer).right:
        return ()
    if item.format == "order" and isinstance(answer, list):
        return _thoughts_of_order(item, answer)
    outlook = Outlook(item)
    outcome = outlook.outcome(answer)
    if item.format == "place":
        return tuple(name for name in outlook.alone if name in outcome)
    return tuple(name for name, meant in outlook.alone.items() if meant == (outcome,))


def _thoughts_of_order(item: Item, answer: Sequence[str]) -> tuple[str, ...]:
    places = {given: place for place, given in enumerate(answer)}
    broken = {pair_text(then, first) for first, then in item.before if places[first] > places[then]}
    breaks: dict[str, set[str]] = {}
    for pair, names in item.distractors.items():
        for name in names:
            breaks.setdefault(name, set()).add(pair)
    return tuple(name for name, pairs in breaks.items() if pairs == broken)


# -- all answers -------------------------------------------------------------------------------------------------------


def diagnose(responses: Iterable[tuple[Item | Outlook, Answer]]) -> Diagnosis:
    """What these answers, in any order, say about the person who gave them. Questions left open say nothing.

    Example: two answers that are what `lean-ignored` computes, and nothing else speaks against it, make it probable.
    """
    seen = [
        (outlook, outlook.outcome(answer))
        for item, answer in responses
        if answer is not None
        for outlook in (item if isinstance(item, Outlook) else Outlook(item),)
    ]
    told = _Told(seen)
    weights: dict[Held, float] = {frozenset(): told.weight(frozenset())}
    for name in told.about:
        weights[frozenset([name])] = told.weight(frozenset([name])) + math.log(_HELD)
    likely = sorted(told.about, key=lambda name: -weights[frozenset([name])])[:_RIVALS]
    for one, other in combinations(likely, 2):
        pair = frozenset([one, other])
        weights[pair] = told.weight(pair) + 2 * math.log(_HELD)
    guess = sum(math.log(outlook.guessed(outcome)) for outlook, outcome in seen) + math.log(_GUESSES)
    # What no question could show is as likely as before beside anything else.
    hidden = (len(misconceptions()) - len(told.about)) * _HELD
    top = max(guess, *weights.values())
    total = math.exp(guess - top) + sum(math.exp(weight - top) for weight in weights.values())
    found: dict[str, float] = dict.fromkeys(told.about, 0.0)
    for held, weight in weights.items():
        for name in held:
            found[name] += math.exp(weight - top) / total
    beliefs = sorted((Belief(name, chance) for name, chance in found.items()), key=lambda one: -one.probability)
    return Diagnosis(
        beliefs=tuple(beliefs),
        guessing=math.exp(guess - top) / total,
        answers=len(seen),
        unseen=_HELD / (1 + _HELD + hidden),
        by_name=found,
        is_scattered=_is_scattered(seen, frozenset(one.misconception for one in beliefs if one.is_probable)),
    )


def _is_scattered(seen: Sequence[tuple[Outlook, Outcome]], held: Held) -> bool:
    wrong = [(outlook, outcome) for outlook, outcome in seen if outcome != _KEY]
    explained = sum(outlook.likelihood(outcome, held, 0.0) > _HARDLY for outlook, outcome in wrong)
    least = _MOSTLY_WRONG if 2 * len(wrong) > len(seen) else _LEAST_EXPLAINED
    return least * explained < len(wrong)


class _Told:
    """All outcomes of a person. A set changes the chance only of questions that speak of it."""

    def __init__(self, seen: Sequence[tuple[Outlook, Outcome]]) -> None:
        self.seen = seen
        self.about: dict[str, list[int]] = {}
        for place, (outlook, _) in enumerate(seen):
            for name in sorted(outlook.names):
                self.about.setdefault(name, []).append(place)
        self.plain = [
            [math.log(outlook.likelihood(outcome, frozenset(), slips)) for outlook, outcome in seen]
            for slips, _ in _SLIPS
        ]
        self.sums = [sum(chances) for chances in self.plain]

    def weight(self, held: Held) -> float:
        """The logarithm of the chance of all answers for a set, averaged over the rates of slips."""
        places = {place for name in held for place in self.about.get(name, ())}
        terms = []
        for (slips, share), plain, whole in zip(_SLIPS, self.plain, self.sums, strict=True):
            term = whole + math.log(share)
            for place in places:
                outlook, outcome = self.seen[place]
                term += math.log(outlook.likelihood(outcome, held, slips)) - plain[place]
            terms.append(term)
        top = max(terms)
        return top + math.log(sum(math.exp(term - top) for term in terms))


def most_telling(candidates: Sequence[Item], diagnosis: Diagnosis) -> Item:
    """The question whose answer is expected to tell most about the person; the first among equals. Not for none."""
    return max(candidates, key=lambda item: Outlook(item).information(diagnosis))


def tells_apart(item: Item, one: str, other: str) -> bool:
    """Would who holds the one answer this question otherwise than who holds the other?"""
    outlook = Outlook(item)
    return outlook.predicted(frozenset([one])) != outlook.predicted(frozenset([other]))
