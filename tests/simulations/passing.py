"""Who passes? People of a known share right, and people who firmly hold one misconception, sit forms that are drawn.

What is assumed of people: families differ in difficulty with a spread of SPREAD logit, other for each person; who does
not know guesses right GUESSING of the time; a hand slips SLIPS of the time. A wrong answer of somebody without a firm
misconception is any wrong answer of the question; who holds one answers what it computes wherever it touches.
Common practice of the three-parameter model (guessing as lower asymptote), here with an upper one; the figures are
from memory and no measurement.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import sqrt
from random import Random

import numpy as np

from assessments.measurement.passing import Answered, PassRule, judge
from assessments.questions import Blueprint, Curve, Item, draw_form, mark
from assessments.questions.items.marking import Answer
from tests.simulations.learners import intended, slipped, the_key
from training.rulebook import Edition

SPREAD, GUESSING, SLIPS = 0.8, 0.15, 0.03
SHARES = tuple(percent / 100 for percent in range(50, 101, 5))
GOOD = 0.9  # the share right of a good technician, and of who holds a misconception where that does not touch
_WRONG = 12  # wrong answers kept of each question to choose from
_AS_BELIEVED = 4


@dataclass(frozen=True)
class Question:
    """A drawn question as simulated people need it: marks of the key, of wrong answers, and of those of a belief."""

    family: str
    right: Answered
    wrong: tuple[Answered, ...]
    believed: Mapping[str, tuple[Answered, ...]]


def question(item: Item, beliefs: Sequence[str], rng: Random) -> Question:
    """The question with answers that people could give it."""
    key = the_key(item)

    def marked(answer: Answer) -> Answered:
        done = mark(item, answer)
        return Answered(item.skill, done.right, done.unsafe, done.misconceptions)

    wrong: list[Answered] = []
    for _ in range(10 * _WRONG):
        one = marked(slipped(item, key, rng))
        if not one.right:
            wrong.append(one)
        if len(wrong) == _WRONG:
            break
    believed = {}
    for name in beliefs:
        meant = [marked(intended(item, {name}, rng)) for _ in range(_AS_BELIEVED)]
        if not all(one.right for one in meant):
            believed[name] = tuple(meant)
    return Question(item.family, marked(key), tuple(wrong), believed)


def drawn_forms(plan: Blueprint, edition: Edition, count: int, seed: str = "1") -> list[list[Question]]:
    """So many forms as the product draws them."""
    drawn = (draw_form(plan, secret=b"passing", form_id=f"{seed}/{n}", edition=edition) for n in range(count))
    return [as_questions(form, plan.grave, seed=f"{seed}/{n}") for n, form in enumerate(drawn)]


def as_questions(form: Sequence[Item], beliefs: Sequence[str], *, seed: str) -> list[Question]:
    """A drawn form as simulated people need it."""
    rng = Random(f"passing {seed}")
    return [question(item, beliefs, rng) for item in form]


def chances(share: float, difficulties: "np.ndarray") -> "np.ndarray":
    """How likely somebody is right in families of these difficulties (logit), whose mean chance is `share`."""
    slips = min(SLIPS, 1 - share)
    low, high = -40.0, 40.0
    found = np.zeros_like(difficulties)
    for _ in range(60):
        middle = (low + high) / 2
        found = GUESSING + (1 - slips - GUESSING) / (1 + np.exp(difficulties - middle))
        low, high = (middle, high) if found.mean() < share else (low, middle)
    return found


def sat(
    form: Sequence[Question], chance: Mapping[str, float], rng: Random, belief: str | None = None
) -> list[Answered]:
    """What somebody answers who is right in each family by this chance, and firmly holds this belief if any."""
    answers = []
    for one in form:
        as_believed = one.believed.get(belief or "")
        if as_believed is not None and rng.random() >= SLIPS:
            answers.append(rng.choice(as_believed))
        elif as_believed is None and rng.random() < chance[one.family]:
            answers.append(one.right)
        else:
            answers.append(rng.choice(one.wrong))
    return answers


def people(
    forms: Sequence[Sequence[Question]],
    share: float,
    *,
    count: int,
    sittings: int = 1,
    belief: str | None = None,
    seed: str = "1",
) -> list[list[list[Answered]]]:
    """The answers of so many people to so many forms each; whoever sits several stays the same person."""
    rng = Random(f"people {seed} {share} {belief}")
    spread = np.random.default_rng(rng.getrandbits(64))
    families = sorted({one.family for form in forms for one in form})
    asked = [one.family for one in forms[0]]
    found = []
    for n in range(count):
        by_family = dict(zip(families, spread.normal(0, SPREAD, len(families)), strict=True))
        levels = np.array([by_family[name] for name in asked])
        known = dict(zip(asked, map(float, chances(share, levels)), strict=True))
        for name in families:  # a stand-in of a family asked on other forms alone
            known.setdefault(name, share)
        found.append([sat(forms[(n + turn) % len(forms)], known, rng, belief) for turn in range(sittings)])
    return found


@dataclass(frozen=True)
class Rate:
    """A share of people by simulation, with the standard error that comes from their number."""

    passed: int
    of: int

    @property
    def share(self) -> float:
        return self.passed / self.of

    @property
    def error(self) -> float:
        share = (self.passed + 1) / (self.of + 2)
        return sqrt(share * (1 - share) / self.of)


def passing(rule: PassRule, sittings: Sequence[Sequence[Sequence[Answered]]]) -> Rate:
    """How many people pass at one of their sittings."""
    passed = sum(any(judge(rule, answers).passed for answers in turns) for turns in sittings)
    return Rate(passed, len(sittings))


def curve_by_simulation(plan: Blueprint, edition: Edition, *, forms: int, people_each: int, seed: str = "1") -> Curve:
    """Who passes in one sitting, by true share right and by each grave misconception of the blueprint."""
    drawn = drawn_forms(plan, edition, forms, seed)

    def tenths(share: float, belief: str | None = None) -> int:
        sat_by = people(drawn, share, count=people_each, belief=belief, seed=seed)
        return round(1000 * passing(plan.rule, sat_by).share)

    return Curve(
        version=plan.version,
        forms=forms,
        people=people_each,
        ability=tuple((round(100 * share), tenths(share)) for share in SHARES),
        held=tuple((name, tenths(GOOD, name)) for name in plan.grave),
    )
