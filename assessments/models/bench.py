"""What trainers find at the draw bench: draws they doubt, and families their shop does not ask."""

import uuid
from typing import ClassVar

from django.db import models

from assessments.models.forms import FormItem
from training.guards import NeverChanged, NeverDeleted
from training.models import Shop, User

SETTLED = "kept: a flag, a family switched off, a paper and a withdrawal are settled, never rewritten or deleted"


class DrawFlag(models.Model):
    """Somebody doubts one draw; it is settled, never deleted.

    A trainer doubts one of the bench, which its seed, edition version and units draw again. Whoever was asked, or their
    trainer, doubts an `item` of a form, that very question; then there is no seed.
    """

    reference = models.UUIDField(default=uuid.uuid4, unique=True, editable=False)
    shop = models.ForeignKey(Shop, on_delete=models.PROTECT, related_name="draw_flags")
    family = models.SlugField(max_length=60)
    item = models.ForeignKey(FormItem, on_delete=models.PROTECT, null=True, blank=True, related_name="flags")
    seed = models.CharField(max_length=80, blank=True)
    edition = models.CharField(max_length=40)
    edition_version = models.CharField(max_length=60)
    units = models.CharField(max_length=2)
    stem = models.TextField()  # as it was drawn: a later version may draw another question from the seed
    comment = models.CharField(max_length=500)
    by = models.ForeignKey(User, on_delete=models.PROTECT, related_name="+")
    at = models.DateTimeField()
    resolved_by = models.ForeignKey(User, on_delete=models.PROTECT, null=True, blank=True, related_name="+")
    resolved_at = models.DateTimeField(null=True, blank=True)

    guards: ClassVar = [NeverDeleted(SETTLED), NeverChanged(SETTLED, but=["resolved_by", "resolved_at"])]

    class Meta:
        ordering: ClassVar = ["-at", "-pk"]
        constraints: ClassVar = [
            models.CheckConstraint(condition=~models.Q(comment=""), name="draw_flag_has_a_comment"),
            models.CheckConstraint(
                condition=models.Q(resolved_at=None, resolved_by=None)
                | models.Q(resolved_at__isnull=False, resolved_by__isnull=False),
                name="draw_flag_resolved_by_someone",
            ),
            models.CheckConstraint(
                condition=models.Q(item=None) & ~models.Q(seed="") | models.Q(item__isnull=False, seed=""),
                name="draw_flag_on_a_draw_or_an_item",
            ),
            models.UniqueConstraint(
                fields=["shop", "family", "seed", "by"],
                condition=models.Q(resolved_at=None, item=None),
                name="draw_flag_open_once_per_person",
            ),
            models.UniqueConstraint(
                fields=["item", "by"],
                condition=models.Q(resolved_at=None, item__isnull=False),
                name="draw_flag_on_an_item_open_once_per_person",
            ),
        ]

    def __str__(self) -> str:
        return f"flag on {self.family} by {self.by}"


class FamilyOff(models.Model):
    """A shop does not ask a family from a moment on; ended, never deleted."""

    shop = models.ForeignKey(Shop, on_delete=models.PROTECT, related_name="families_off")
    family = models.SlugField(max_length=60)
    reason = models.CharField(max_length=300)
    since_at = models.DateTimeField()
    by = models.ForeignKey(User, on_delete=models.PROTECT, related_name="+")
    ended_at = models.DateTimeField(null=True, blank=True)
    ended_by = models.ForeignKey(User, on_delete=models.PROTECT, null=True, blank=True, related_name="+")

    guards: ClassVar = [NeverDeleted(SETTLED), NeverChanged(SETTLED, but=["ended_at", "ended_by"])]

    class Meta:
        ordering: ClassVar = ["-since_at", "-pk"]
        constraints: ClassVar = [
            models.CheckConstraint(condition=~models.Q(reason=""), name="family_off_has_a_reason"),
            models.CheckConstraint(
                condition=models.Q(ended_at=None, ended_by=None)
                | models.Q(ended_at__isnull=False, ended_by__isnull=False),
                name="family_off_ended_by_someone",
            ),
            models.UniqueConstraint(
                fields=["shop", "family"], condition=models.Q(ended_at=None), name="family_off_once_at_a_time"
            ),
        ]

    def __str__(self) -> str:
        return f"{self.family} off in {self.shop}"
