"""When practice stops asking to teach: after how many like mistakes, and when somebody has got over one."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from assessments.questions.items.item import Item

LIKE_MISTAKES = 2  # answers that one misconception explains
MASTERED = 2  # right answers in a row to questions that whoever holds it answers otherwise


@dataclass(frozen=True, slots=True)
class Told:
    """One answer of a practice: whether it was right, the misconceptions that explain it where it was not, and those
    that the question asks about."""

    position: int
    is_right: bool
    explained_by: tuple[str, ...]
    asks_about: frozenset[str]


@dataclass(frozen=True, slots=True)
class Teaching:
    """`teach`: the misconception to teach about now. `asked_again`: the one that questions go on asking about, "" for
    none, and `left`, how many right answers in a row it still takes."""

    teach: str = ""
    asked_again: str = ""
    left: int = 0


def asks_about(item: Item) -> frozenset[str]:
    """The misconceptions that have an answer of their own among those the question knows."""
    by_answer = (*item.distractors.values(), *item.omissions.values())
    return frozenset(name for names in by_answer for name in names)


def teaching(told: Sequence[Told], taught: Mapping[int, str]) -> Teaching:
    """Where a practice stands after these answers, oldest first; `taught` are the misconceptions shown before, by the
    position of the answer after which each was.

    A mistake counts for every misconception that explains it, and for none twice: what was shown counts from nothing.
    """
    mistakes: Counter[str] = Counter()
    asked_again, in_a_row = "", 0
    for one in told:
        if asked_again and asked_again in one.asks_about:
            in_a_row = in_a_row + 1 if one.is_right else 0
            if in_a_row == MASTERED:
                asked_again, in_a_row = "", 0
        if not one.is_right:
            mistakes.update(one.explained_by)
        if one.position in taught:
            asked_again, in_a_row = taught[one.position], 0
            del mistakes[asked_again]
    latest = () if not told or told[-1].is_right else told[-1].explained_by
    again = [name for name in latest if mistakes[name] >= LIKE_MISTAKES]
    teach = max(again, key=mistakes.__getitem__, default="")
    if teach:
        return Teaching(teach, teach, MASTERED)
    return Teaching("", asked_again, MASTERED - in_a_row if asked_again else 0)
