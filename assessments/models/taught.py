"""What practice stopped to teach: after which answer, and whether it was read."""

from typing import ClassVar

from django.db import models

from assessments.models.attempts import Attempt
from training.guards import NeverChanged, NeverDeleted

TAUGHT = "kept: what practice taught is read once, never rewritten or deleted"


class Taught(models.Model):
    """After the answer at `position` practice showed what clears up a misconception; no question before it is read."""

    attempt = models.ForeignKey(Attempt, on_delete=models.PROTECT, related_name="taught")
    position = models.PositiveSmallIntegerField()
    misconception = models.CharField(max_length=60)
    at = models.DateTimeField()
    read_at = models.DateTimeField(null=True, blank=True)

    guards: ClassVar = [
        NeverDeleted(TAUGHT),
        NeverChanged(TAUGHT, but=["read_at"]),
        NeverChanged(TAUGHT, when="OLD.read_at IS NOT NULL"),
    ]

    class Meta:
        ordering: ClassVar = ["attempt", "position"]
        constraints: ClassVar = [
            models.UniqueConstraint(fields=["attempt", "position"], name="taught_once_after_an_answer"),
        ]

    def __str__(self) -> str:
        return f"taught after question {self.position} in {self.attempt}"
