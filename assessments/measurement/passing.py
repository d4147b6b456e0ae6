"""What passes an assessment: a share of right answers, a floor for safety, and how few unsafe releases. Pure."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from enum import Enum

SAFETY = "safety"  # the skill with a floor of its own


class Condition(Enum):
    """What an attempt can fail by; one is enough."""

    SHARE = "share"  # too few right answers
    FLOOR = "floor"  # too few right answers in the skill safety
    UNSAFE = "unsafe"  # too many unsafe releases of any kind
    ALIKE = "alike"  # too many unsafe releases that share a misconception


@dataclass(frozen=True, slots=True)
class PassRule:
    """What passes. `percent` of all questions right, and `safety_percent` of those of the skill safety (0: no floor).

    At most `unsafe_allowed` unsafe releases, and at most `alike_allowed` of them that share a misconception; None where
    what they share is not looked at, as in rules of before.
    """

    percent: int
    unsafe_allowed: int
    alike_allowed: int | None = None
    safety_percent: int = 0

    def needed(self, asked: int) -> int:
        """How many of `asked` questions have to be right: the percentage, rounded up."""
        return -(-asked * self.percent // 100)

    def needed_of_safety(self, asked: int) -> int:
        """How many of `asked` questions of the skill safety have to be right, rounded up."""
        return -(-asked * self.safety_percent // 100)

    def is_at_least_as_strict_as(self, other: PassRule) -> bool:
        """Would whoever passes by this rule pass by the other too, whatever the answers?"""
        own, others = self._alike, other._alike
        return (
            self.percent >= other.percent
            and self.safety_percent >= other.safety_percent
            and self.unsafe_allowed <= other.unsafe_allowed
            and min(own, self.unsafe_allowed) <= others
        )

    @property
    def _alike(self) -> int:
        """How many that share a misconception this rule lets pass: as many as of any kind where it does not look."""
        return self.unsafe_allowed if self.alike_allowed is None else self.alike_allowed


@dataclass(frozen=True, slots=True)
class Answered:
    """One question after marking; `misconceptions` are all that the answer fits. A question left open is not right."""

    skill: str
    right: bool
    unsafe: bool = False
    misconceptions: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Judgment:
    """How answers stand against a rule: the conditions that failed, and what they were decided by.

    `alike` names the misconceptions that too many unsafe releases share, with how many; most shared first.
    """

    right: int
    asked: int
    safety_right: int
    safety_asked: int
    unsafe: int
    alike: Mapping[str, int]
    failed: tuple[Condition, ...]

    @property
    def passed(self) -> bool:
        """Did no condition fail?"""
        return not self.failed


def judge(rule: PassRule, answers: Iterable[Answered]) -> Judgment:
    """Hold marked answers, one for each question of a form, to a rule.

    An unsafe release that fits several misconceptions counts for each of them: two releases are alike if they share
    any. Of no questions nothing passes.
    """
    given = list(answers)
    safety = [one for one in given if one.skill == SAFETY]
    released = [one for one in given if one.unsafe]
    shared = Counter(name for one in released for name in dict.fromkeys(one.misconceptions))
    allowed = len(given) if rule.alike_allowed is None else rule.alike_allowed
    alike = {name: count for name, count in shared.most_common() if count > allowed}
    right, safety_right = sum(one.right for one in given), sum(one.right for one in safety)
    has_failed = {
        Condition.SHARE: right < rule.needed(len(given)) or not given,
        Condition.FLOOR: safety_right < rule.needed_of_safety(len(safety)),
        Condition.UNSAFE: len(released) > rule.unsafe_allowed,
        Condition.ALIKE: bool(alike),
    }
    return Judgment(
        right=right,
        asked=len(given),
        safety_right=safety_right,
        safety_asked=len(safety),
        unsafe=len(released),
        alike=alike,
        failed=tuple(condition for condition, failed in has_failed.items() if failed),
    )
