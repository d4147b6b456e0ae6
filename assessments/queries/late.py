"""What arrived after the end of an attempt and was not counted."""

from dataclasses import dataclass
from datetime import datetime

from django.db.models import Count, OuterRef, Subquery
from django.utils.timezone import localtime

from assessments.models import Attempt, LateAnswer, Outcome
from assessments.queries.theory import State, Theory
from training.trade.days import written_instant
from training.trade.lists import all_of
from training.trade.speech import say_many


@dataclass(frozen=True, slots=True)
class Late:
    """The questions to which answers arrived after the end, and when the first and the last of them did."""

    positions: tuple[int, ...]
    first_at: datetime
    last_at: datetime

    def words(self) -> str:
        """All of it in a sentence, in the time zone that is set."""
        return say_many(
            "An answer to question {positions} arrived after the end, at {instant}, and does not count.",
            "Answers to questions {positions} arrived after the end, the last at {instant}, and do not count.",
            len(self.positions),
            positions=all_of(str(one) for one in self.positions),
            instant=written_instant(localtime(self.last_at)),
        )


def late_in(attempt: Attempt) -> Late | None:
    """What arrived after the end of this attempt; None for nothing, one query."""
    rows = list(LateAnswer.objects.filter(attempt_id=attempt.pk).values_list("position", "arrived_at"))
    if not rows:
        return None
    return Late(tuple(sorted({position for position, _ in rows})), rows[0][1], rows[-1][1])


def late_of(theory: Theory, at: datetime) -> Late | None:
    """What arrived late for the last attempt of this round, where that was not passed and none is open: what a trainer
    may give a new round for, though attempts are left. None for nothing; at most one query."""
    latest = theory.latest
    if latest is None or not theory.used or latest.outcome != Outcome.NOT_PASSED:
        return None
    return late_in(latest) if theory.state(at) in (State.READY, State.WAIT, State.BUSY, State.USED_UP) else None


def late_count() -> Subquery:
    """To how many questions of an attempt answers arrived late, None for none, to annotate attempts with."""
    late = LateAnswer.objects.filter(attempt=OuterRef("pk")).order_by()
    return Subquery(late.values("attempt").annotate(count=Count("position", distinct=True)).values("count"))
