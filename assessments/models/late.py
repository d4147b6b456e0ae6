"""Answers that arrived after the end: they do not count, and are kept."""

from typing import ClassVar

from django.db import models

from assessments.models.attempts import Attempt
from training.guards import NeverChanged, NeverDeleted

LATE = "kept: an answer that arrived after the end is kept as it arrived"


class LateAnswer(models.Model):
    """An answer to one position that reached the server after the hand-in or the deadline, as one without a connection
    does; `answer` is canonical JSON text. It changes no mark. Append-only."""

    attempt = models.ForeignKey(Attempt, on_delete=models.PROTECT, related_name="late_answers")
    position = models.PositiveSmallIntegerField()
    answer = models.TextField()
    arrived_at = models.DateTimeField()

    guards: ClassVar = [NeverDeleted(LATE), NeverChanged(LATE)]

    class Meta:
        ordering: ClassVar = ["arrived_at", "pk"]
        constraints: ClassVar = [
            models.UniqueConstraint(fields=["attempt", "position", "answer"], name="late_answer_kept_once"),
            models.CheckConstraint(condition=~models.Q(answer=""), name="late_answer_is_an_answer"),
        ]

    def __str__(self) -> str:
        return f"late answer {self.position} in {self.attempt}"
