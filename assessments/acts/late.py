"""Answers that arrive after the end: kept, counted nowhere, shown to whoever gave them and to their trainer."""

from datetime import datetime

from django.db import transaction

from assessments.models import Attempt, LateAnswer, Response

MOST_LATE = 5  # answers to one question; who had no connection sends one, or the few it was changed to


@transaction.atomic
def keep_late_answer(*, attempt: Attempt, position: int, answer: str, at: datetime) -> LateAnswer | None:
    """Keep an answer that arrived after the deadline or the hand-in; None where it says nothing new.

    That is so for none at all, for the one that stands and counts, for the same one again, which changes nothing, and
    after five to one question. The mark of the attempt does not change. Raises ValueError while answers still count.
    """
    attempt = Attempt.objects.select_for_update(no_key=True).only("handed_in_at", "closes_at").get(pk=attempt.pk)
    if attempt.is_open(at):
        raise ValueError(f"attempt: {attempt.pk} is still open; record the answer instead")
    if not answer or Response.objects.filter(attempt_id=attempt.pk, position=position, answer=answer).exists():
        return None
    known = list(LateAnswer.objects.filter(attempt_id=attempt.pk, position=position))
    if len(known) >= MOST_LATE or any(one.answer == answer for one in known):
        return None
    return LateAnswer.objects.create(attempt=attempt, position=position, answer=answer, arrived_at=at)
