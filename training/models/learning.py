"""What a learner was asked to do, has read, and has been told."""

import uuid
from typing import ClassVar

from django.db import models

from training.models.people import User
from training.models.shops import Shop


class Assignment(models.Model):
    """A module a trainer asked a learner to finish by a day. Withdrawn, never deleted."""

    reference = models.UUIDField(default=uuid.uuid4, unique=True, editable=False)
    shop = models.ForeignKey(Shop, on_delete=models.PROTECT, related_name="assignments")
    learner = models.ForeignKey(User, on_delete=models.PROTECT, related_name="assignments")
    module = models.CharField(max_length=60)
    due_date = models.DateField()
    assigned_by = models.ForeignKey(User, on_delete=models.PROTECT, related_name="+")
    assigned_at = models.DateTimeField()
    withdrawn_at = models.DateTimeField(null=True, blank=True)

    class Meta:
        constraints: ClassVar = [
            models.UniqueConstraint(
                fields=["shop", "learner", "module"],
                condition=models.Q(withdrawn_at=None),
                name="assignment_module_once",
            ),
        ]

    def __str__(self) -> str:
        return f"{self.module} for {self.learner} by {self.due_date}"


class Progress(models.Model):
    """A learner read a lesson, in the version of text and limits that `content_version` names."""

    shop = models.ForeignKey(Shop, on_delete=models.PROTECT, related_name="progress")
    learner = models.ForeignKey(User, on_delete=models.PROTECT, related_name="progress")
    module = models.CharField(max_length=60)
    lesson = models.CharField(max_length=60)
    content_version = models.CharField(max_length=32)
    read_at = models.DateTimeField()

    class Meta:
        constraints: ClassVar = [
            models.UniqueConstraint(
                fields=["shop", "learner", "module", "lesson", "content_version"], name="progress_lesson_version_once"
            ),
        ]

    def __str__(self) -> str:
        return f"{self.learner} read {self.module}/{self.lesson}"


class Notice(models.Model):
    """A line for one person's start page, until they put it away."""

    reference = models.UUIDField(default=uuid.uuid4, unique=True, editable=False)
    shop = models.ForeignKey(Shop, on_delete=models.PROTECT, related_name="notices")
    person = models.ForeignKey(User, on_delete=models.PROTECT, related_name="notices")
    text = models.CharField(max_length=300)
    written_at = models.DateTimeField()
    put_away_at = models.DateTimeField(null=True, blank=True)

    class Meta:
        indexes: ClassVar = [models.Index(fields=["shop", "person", "put_away_at"])]

    def __str__(self) -> str:
        return self.text
