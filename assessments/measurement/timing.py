"""How long somebody was at each question, from what the server saw. Pure.

The server sees when it shows a question and when an answer changes, and nothing between. So the time at a question runs
from one such moment to the next. Two minutes without any of them are a pause: what goes beyond is cut off, the first
two minutes count.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime, timedelta

PAUSE = timedelta(minutes=2)


@dataclass(frozen=True, slots=True)
class Seen:
    """The server saw a question at an instant: it was shown, or its answer changed. `position` 0 is no question, as
    the page before handing in."""

    position: int
    at: datetime
    is_answer: bool = False


@dataclass(frozen=True, slots=True)
class Time:
    """When a question was first shown, None for one that never was, and the seconds spent on it without pauses."""

    first_shown_at: datetime | None = None
    seconds: int = 0


def times_at(seen: Iterable[Seen], *, ended_at: datetime, stays: bool) -> dict[int, Time]:
    """The time at each question that was seen, by position; `seen` in the order it happened.

    `stays`: the question is still in front of the person when its answer is kept, as in an assessment; in practice the
    explanation takes its place. What happened after `ended_at` does not count.
    """
    moments = [one for one in seen if one.at <= ended_at]
    first: dict[int, datetime] = {}
    spent: dict[int, timedelta] = {}
    for place, one in enumerate(moments, 1):
        following = moments[place].at if place < len(moments) else ended_at
        if not one.position:
            continue
        spent.setdefault(one.position, timedelta())
        if not one.is_answer:
            first.setdefault(one.position, one.at)
        if stays or not one.is_answer:
            spent[one.position] += max(timedelta(), min(following - one.at, PAUSE))
    return {position: Time(first.get(position), round(time.total_seconds())) for position, time in spent.items()}
