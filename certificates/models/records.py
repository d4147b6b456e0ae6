"""Hands-on records, certificates and their events: written once, never changed, never deleted."""

import uuid
from typing import ClassVar

from django.db import models

from assessments.models import Attempt
from training.guards import NeverChanged, NeverDeleted
from training.models import DocumentField, Shop, User
from training.trade.speech import saying

KEPT = "kept: a record, a certificate and its events are never changed or deleted"


class HandsOn(models.Model):
    """A trainer watched a learner do the work and marked each criterion. A correction is a new record."""

    reference = models.UUIDField(default=uuid.uuid4, unique=True, editable=False)
    press = models.UUIDField(unique=True)  # the form's own token: the same press twice is one record
    shop = models.ForeignKey(Shop, on_delete=models.PROTECT, related_name="hands_on")
    learner = models.ForeignKey(User, on_delete=models.PROTECT, related_name="hands_on")
    trainer = models.ForeignKey(User, on_delete=models.PROTECT, related_name="+")
    scope = models.SlugField(max_length=60)
    edition = models.CharField(max_length=40)
    edition_version = models.CharField(max_length=20)
    criteria = DocumentField()  # [{"id", "step", "text", "critical", "mark": "met" | "not-met"}, ...]
    remarks = models.TextField(blank=True, max_length=2000)
    has_passed = models.BooleanField()
    recorded_at = models.DateTimeField()

    guards: ClassVar = [NeverDeleted(KEPT), NeverChanged(KEPT)]

    class Meta:
        constraints: ClassVar = [
            models.CheckConstraint(condition=~models.Q(learner=models.F("trainer")), name="hands_on_not_by_oneself")
        ]

    def __str__(self) -> str:
        return f"hands-on of {self.learner}"


# a person's name goes when they ask for it, and no other takes its place
_NAMES = ["holder_name", "trainer_name", "issuer_name"]
_RENAMED = " OR ".join(f"NEW.{name} NOT IN (OLD.{name}, '')" for name in _NAMES)


class Certificate(models.Model):
    """A person may do the work of one scope, from a day until a day, on the strength of what is named here.

    What it prints stands in it as it was on the day: no new name of a person, a shop or an edition changes it.
    """

    number = models.CharField(max_length=10, unique=True)  # without hyphens
    shop = models.ForeignKey(Shop, on_delete=models.PROTECT, related_name="certificates")
    holder = models.ForeignKey(User, on_delete=models.PROTECT, related_name="certificates")
    holder_name = models.CharField(max_length=120)
    trainer_name = models.CharField(max_length=120)  # who saw the work done
    issuer_name = models.CharField(max_length=120)
    shop_name = models.CharField(max_length=120)
    scope = models.SlugField(max_length=60)
    scope_title = models.CharField(max_length=160)
    casings = DocumentField()
    tires = DocumentField()  # the casings in words
    edition = models.CharField(max_length=40)
    edition_title = models.CharField(max_length=120)
    edition_version = models.CharField(max_length=20)
    house_rules = DocumentField(default=list, blank=True)  # in words: those the assessment was drawn by
    attempt = models.ForeignKey(Attempt, on_delete=models.PROTECT, related_name="certificates")
    hands_on = models.ForeignKey(HandsOn, on_delete=models.PROTECT, related_name="certificates")
    assessed_date = models.DateField()
    right_count = models.PositiveSmallIntegerField()
    asked_count = models.PositiveSmallIntegerField()
    unsafe_count = models.PositiveSmallIntegerField()
    hands_on_date = models.DateField()
    pass_mark = models.CharField(max_length=400)  # the pass mark and its standing, in words, as printed
    curve = DocumentField(default=dict, blank=True)  # who passes that mark, by simulation; empty where it was not made
    issued_date = models.DateField()
    expires_date = models.DateField()

    guards: ClassVar = [NeverDeleted(KEPT), NeverChanged(KEPT, but=_NAMES), NeverChanged(KEPT, when=_RENAMED)]

    class Meta:
        constraints: ClassVar = [
            models.UniqueConstraint(fields=["attempt"], name="certificate_attempt_used_once"),
            models.UniqueConstraint(fields=["hands_on"], name="certificate_hands_on_used_once"),
            models.CheckConstraint(
                condition=models.Q(expires_date__gt=models.F("issued_date")), name="certificate_expires_later"
            ),
        ]
        indexes: ClassVar = [models.Index(fields=["shop", "expires_date"])]

    def __str__(self) -> str:
        return f"{self.number} of {self.holder_name}"


class EventKind(models.TextChoices):
    """What happened to a certificate."""

    ISSUED = "issued", saying("Issued")
    SUSPENDED = "suspended", saying("Suspended")
    RESTORED = "restored", saying("Restored")
    REVOKED = "revoked", saying("Revoked")
    RENEWED = "renewed", saying("Renewed")


class Event(models.Model):
    """One thing that happened to a certificate: who, when, why. Append-only."""

    certificate = models.ForeignKey(Certificate, on_delete=models.PROTECT, related_name="events")
    order = models.PositiveSmallIntegerField()
    kind = models.CharField(max_length=12, choices=EventKind)
    at = models.DateTimeField()
    by = models.ForeignKey(User, on_delete=models.PROTECT, related_name="+")
    reason = models.CharField(max_length=300, blank=True)

    guards: ClassVar = [NeverDeleted(KEPT), NeverChanged(KEPT)]

    class Meta:
        ordering: ClassVar = ["certificate", "order"]
        constraints: ClassVar = [
            models.UniqueConstraint(fields=["certificate", "order"], name="event_order_once"),
            models.CheckConstraint(condition=models.Q(kind__in=EventKind.values), name="event_kind_known"),
            models.CheckConstraint(
                condition=models.Q(kind__in=["issued", "renewed"]) | ~models.Q(reason=""), name="event_gives_its_reason"
            ),
        ]

    def __str__(self) -> str:
        return f"{self.kind} at {self.at}"
