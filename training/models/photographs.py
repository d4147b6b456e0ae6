"""A shop's own photographs of conditions: kept by what they hold, taken back but never changed or deleted."""

import uuid
from typing import ClassVar

from django.db import models

from training.guards import NeverChanged, NeverDeleted
from training.models.people import User
from training.models.shops import Shop
from training.pictures import CONDITIONS, NAMED
from training.trade.words import CASINGS

KEPT = "kept: a photograph and what is said of it are never changed or deleted; it can be taken back"
_OF_TAKING_BACK = ("taken_back_by", "taken_back_at", "reason")
_IS_DRAFT = models.Q(kept_at=None)
_STANDS = models.Q(kept_at__isnull=False, taken_back_at=None)


class Photograph(models.Model):
    """What a trainer took and says it shows: a condition, or what is taken for it, on a casing.

    Until `kept_at` it is a draft, seen by the one who brought it alone. `content` is the picture as it was made anew,
    of one size and without what the camera wrote beside it; it stands in the database, so that a backup has it.
    """

    reference = models.UUIDField(default=uuid.uuid4, unique=True, editable=False)
    shop = models.ForeignKey(Shop, on_delete=models.PROTECT, related_name="photographs")
    condition = models.CharField(max_length=40)
    look_alike = models.BooleanField()
    casing = models.CharField(max_length=20)
    content = models.BinaryField()
    digest = models.CharField(max_length=64)  # SHA-256 of the content
    sent = models.CharField(max_length=64)  # SHA-256 of the file that was sent, which is not kept
    added_by = models.ForeignKey(User, on_delete=models.PROTECT, related_name="+")
    added_at = models.DateTimeField()
    kept_at = models.DateTimeField(null=True, blank=True)
    confirmed_by = models.ForeignKey(User, on_delete=models.PROTECT, null=True, blank=True, related_name="+")
    confirmed_at = models.DateTimeField(null=True, blank=True)
    taken_back_by = models.ForeignKey(User, on_delete=models.PROTECT, null=True, blank=True, related_name="+")
    taken_back_at = models.DateTimeField(null=True, blank=True)
    reason = models.CharField(max_length=300, blank=True)

    guards: ClassVar = [
        NeverDeleted(KEPT, when="OLD.kept_at IS NOT NULL"),
        NeverChanged(KEPT, when="OLD.kept_at IS NOT NULL", but=["confirmed_by", "confirmed_at", *_OF_TAKING_BACK]),
        NeverChanged(KEPT, when="OLD.confirmed_at IS NOT NULL", but=[*_OF_TAKING_BACK]),
        NeverChanged(KEPT, when="OLD.taken_back_at IS NOT NULL"),
    ]

    class Meta:
        constraints: ClassVar = [
            models.CheckConstraint(
                condition=models.Q(condition__in=list(CONDITIONS)), name="photograph_condition_known"
            ),
            models.CheckConstraint(condition=models.Q(casing__in=CASINGS), name="photograph_casing_known"),
            models.UniqueConstraint(fields=["shop", "added_by"], condition=_IS_DRAFT, name="photograph_draft_once"),
            models.UniqueConstraint(fields=["shop", "sent"], condition=_STANDS, name="photograph_file_once"),
            models.UniqueConstraint(fields=["shop", "digest"], condition=_STANDS, name="photograph_content_once"),
            models.CheckConstraint(
                condition=models.Q(confirmed_by=None, confirmed_at=None)
                | models.Q(confirmed_by__isnull=False, confirmed_at__isnull=False, kept_at__isnull=False)
                & ~models.Q(confirmed_by=models.F("added_by")),
                name="photograph_confirmed_by_a_second",
            ),
            models.CheckConstraint(
                condition=models.Q(taken_back_by=None, taken_back_at=None, reason="")
                | models.Q(taken_back_by__isnull=False, taken_back_at__isnull=False, kept_at__isnull=False)
                & ~models.Q(reason=""),
                name="photograph_taken_back_with_a_reason",
            ),
        ]
        indexes: ClassVar = [models.Index(fields=["shop", "-kept_at"])]

    def __str__(self) -> str:
        return f"{self.condition}{' taken for it' if self.look_alike else ''}, {self.casing}"

    @property
    def shows(self) -> str:
        """What it shows, by its name."""
        return str(NAMED[self.condition].words(self.look_alike))

    @property
    def surface(self) -> str:
        """Where on a tire it is seen: "sidewall", "bead", "tread" or "liner"."""
        return CONDITIONS[self.condition].surface

    @property
    def is_confirmed(self) -> bool:
        """Whether a second trainer says so too."""
        return self.confirmed_at is not None

    @property
    def stands(self) -> bool:
        """Whether it is kept and was not taken back."""
        return self.kept_at is not None and self.taken_back_at is None
