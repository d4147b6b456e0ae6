"""Questions that were asked and do not count: withdrawn with a reason, and perhaps taken back with another."""

from typing import ClassVar

from django.db import models

from assessments.models.bench import SETTLED
from assessments.models.forms import FormItem
from training.guards import NeverChanged, NeverDeleted
from training.models import User


class Withdrawal(models.Model):
    """One question of one person's form does not count, from a moment on until it is taken back; never deleted."""

    item = models.ForeignKey(FormItem, on_delete=models.PROTECT, related_name="withdrawals")
    by = models.ForeignKey(User, on_delete=models.PROTECT, related_name="+")
    at = models.DateTimeField()
    reason = models.CharField(max_length=300)
    taken_back_by = models.ForeignKey(User, on_delete=models.PROTECT, null=True, blank=True, related_name="+")
    taken_back_at = models.DateTimeField(null=True, blank=True)
    taken_back_because = models.CharField(max_length=300, blank=True)

    guards: ClassVar = [
        NeverDeleted(SETTLED),
        NeverChanged(SETTLED, but=["taken_back_by", "taken_back_at", "taken_back_because"]),
        NeverChanged(SETTLED, when="OLD.taken_back_at IS NOT NULL"),
    ]

    class Meta:
        ordering: ClassVar = ["at", "pk"]
        constraints: ClassVar = [
            models.CheckConstraint(condition=~models.Q(reason=""), name="withdrawal_has_a_reason"),
            models.CheckConstraint(
                condition=models.Q(taken_back_at=None, taken_back_by=None, taken_back_because="")
                | models.Q(taken_back_at__isnull=False, taken_back_by__isnull=False) & ~models.Q(taken_back_because=""),
                name="withdrawal_taken_back_by_someone_for_a_reason",
            ),
            models.UniqueConstraint(
                fields=["item"], condition=models.Q(taken_back_at=None), name="withdrawal_once_at_a_time"
            ),
        ]

    def __str__(self) -> str:
        return f"{self.item} withdrawn by {self.by}"
