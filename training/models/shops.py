"""Shops, who belongs to them in which role, and invitations to join."""

import hashlib
import uuid
from typing import ClassVar

from django.db import models
from django.db.models.functions import Lower

from training.guards import NeverChanged, NeverDeleted
from training.models.documents import DocumentField
from training.models.people import User
from training.rulebook import default_edition
from training.trade.speech import saying


class Role(models.TextChoices):
    """What a person does in a shop; one person can hold several."""

    APPRENTICE = "apprentice", saying("Apprentice")
    TRAINER = "trainer", saying("Trainer")
    OWNER = "owner", saying("Owner")

    @property
    def told(self) -> str:
        """The role as it stands within a sentence."""
        return str(_TOLD[self.value])


_TOLD = {"apprentice": saying("apprentice"), "trainer": saying("trainer"), "owner": saying("owner")}


class Units(models.TextChoices):
    """The unit printed first; the other follows in brackets."""

    INCH = "in", saying("Inches and pounds first")
    METRIC = "mm", saying("Millimeters and kilograms first")


class Shop(models.Model):
    """One tire shop: the border that no page crosses."""

    slug = models.SlugField(unique=True, max_length=60)
    name = models.CharField(max_length=120)
    edition = models.CharField(max_length=40, default=default_edition)
    units = models.CharField(max_length=2, choices=Units, default=Units.INCH)
    time_zone = models.CharField(max_length=60, default="UTC")
    certificate_months = models.PositiveSmallIntegerField(default=24)
    house_rules = DocumentField(default=list, blank=True)  # those of the latest HouseRuleSet: no page looks it up
    public_check = models.BooleanField(default=False)  # Check a tire without login
    scopes = DocumentField(default=list, blank=True)  # those on in ShopScope; empty: the first of the edition
    created_at = models.DateTimeField(auto_now_add=True)

    class Meta:
        constraints: ClassVar = [
            models.CheckConstraint(condition=models.Q(units__in=Units.values), name="shop_units_known"),
            models.CheckConstraint(
                condition=models.Q(certificate_months__gte=1, certificate_months__lte=60),
                name="shop_certificate_months_1_to_60",
            ),
        ]

    def __str__(self) -> str:
        return self.name


class Membership(models.Model):
    """A person's role in a shop, from a moment on; ended, never deleted."""

    user = models.ForeignKey(User, on_delete=models.PROTECT, related_name="memberships")
    shop = models.ForeignKey(Shop, on_delete=models.PROTECT, related_name="memberships")
    role = models.CharField(max_length=12, choices=Role)
    since_at = models.DateTimeField()
    ended_at = models.DateTimeField(null=True, blank=True)

    class Meta:
        constraints: ClassVar = [
            models.UniqueConstraint(
                fields=["user", "shop", "role"], condition=models.Q(ended_at=None), name="membership_role_held_once"
            ),
            models.CheckConstraint(condition=models.Q(role__in=Role.values), name="membership_role_known"),
        ]
        indexes: ClassVar = [models.Index(fields=["shop", "role"])]

    def __str__(self) -> str:
        return f"{self.user} as {self.role} of {self.shop}"

    @property
    def role_told(self) -> str:
        """The role as it stands within a sentence."""
        return Role(self.role).told


_SETTLED = "kept: a scope is turned off once, never deleted, and the last one stays on"
_IS_LAST = (
    "NOT EXISTS (SELECT 1 FROM training_shopscope o"
    " WHERE o.shop_id = OLD.shop_id AND o.id <> OLD.id AND o.ended_at IS NULL)"
)


class ShopScope(models.Model):
    """A scope the shop works in, from a moment on; turned off, never deleted. Before a first choice none stands."""

    shop = models.ForeignKey(Shop, on_delete=models.PROTECT, related_name="scope_choices")
    scope = models.SlugField(max_length=60)
    since_at = models.DateTimeField()
    by = models.ForeignKey(User, on_delete=models.PROTECT, related_name="+")
    ended_at = models.DateTimeField(null=True, blank=True)
    ended_by = models.ForeignKey(User, on_delete=models.PROTECT, null=True, blank=True, related_name="+")

    guards: ClassVar = [
        NeverDeleted(_SETTLED),
        NeverChanged(_SETTLED, when=f"OLD.ended_at IS NOT NULL OR {_IS_LAST}"),
    ]

    class Meta:
        constraints: ClassVar = [
            models.UniqueConstraint(
                fields=["shop", "scope"], condition=models.Q(ended_at=None), name="shop_scope_on_once"
            ),
            models.CheckConstraint(condition=~models.Q(scope=""), name="shop_scope_is_named"),
            models.CheckConstraint(
                condition=models.Q(ended_at=None, ended_by=None)
                | models.Q(ended_at__gte=models.F("since_at"), ended_by__isnull=False),
                name="shop_scope_ended_later_by_someone",
            ),
        ]

    def __str__(self) -> str:
        return f"{self.scope} in {self.shop}"


def digest_of(secret: str) -> str:
    """What is kept of a link's secret: SHA-256, since the secret itself is 256 random bits."""
    return hashlib.sha256(secret.encode()).hexdigest()


class Invitation(models.Model):
    """An address asked to join a shop in one role. Only a digest of the link's secret is kept."""

    reference = models.UUIDField(default=uuid.uuid4, unique=True, editable=False)
    shop = models.ForeignKey(Shop, on_delete=models.PROTECT, related_name="invitations")
    email = models.EmailField()
    name = models.CharField(max_length=120)
    role = models.CharField(max_length=12, choices=Role)
    secret_digest = models.CharField(max_length=64, unique=True)
    invited_by = models.ForeignKey(User, on_delete=models.PROTECT, null=True, related_name="+")
    sent_at = models.DateTimeField()
    expires_at = models.DateTimeField()
    accepted_at = models.DateTimeField(null=True, blank=True)
    withdrawn_at = models.DateTimeField(null=True, blank=True)

    class Meta:
        constraints: ClassVar = [
            models.UniqueConstraint(
                Lower("email"),
                "shop",
                "role",
                condition=models.Q(accepted_at=None, withdrawn_at=None),
                name="invitation_open_once_per_role",
            ),
            models.CheckConstraint(condition=models.Q(role__in=Role.values), name="invitation_role_known"),
            models.CheckConstraint(
                condition=models.Q(expires_at__gt=models.F("sent_at")), name="invitation_expires_later"
            ),
        ]

    def __str__(self) -> str:
        return f"{self.email} as {self.role} of {self.shop}"

    @property
    def role_told(self) -> str:
        """The role as it stands within a sentence."""
        return Role(self.role).told
