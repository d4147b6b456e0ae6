"""What a shop adds to the rulebook: its own stricter limits, and the repair units on its shelf."""

import uuid
from typing import ClassVar

from django.db import models
from django.db.models.functions import Lower

from training.guards import NeverChanged, NeverDeleted
from training.models.documents import DocumentField
from training.models.people import User
from training.models.shops import Shop
from training.trade.speech import saying

KEPT = "kept: house rules and repair units are never deleted, and a set of house rules is never changed"


class HouseRuleSet(models.Model):
    """All house rules of a shop from a moment on. The latest counts; none is changed or deleted."""

    shop = models.ForeignKey(Shop, on_delete=models.PROTECT, related_name="house_rule_sets")
    number = models.PositiveIntegerField()
    edition = models.CharField(max_length=40)
    edition_version = models.CharField(max_length=20)  # with the rules' digest, as forms and certificates name it
    rules = DocumentField(blank=True)  # HouseRules.to_json(); empty: none any more
    reason = models.CharField(max_length=300, blank=True)
    set_by = models.ForeignKey(User, on_delete=models.PROTECT, related_name="+")
    set_at = models.DateTimeField()

    guards: ClassVar = [NeverDeleted(KEPT), NeverChanged(KEPT)]

    class Meta:
        ordering: ClassVar = ["shop", "number"]
        constraints: ClassVar = [
            models.UniqueConstraint(fields=["shop", "number"], name="house_rule_set_number_once"),
            models.CheckConstraint(condition=models.Q(number__gte=1), name="house_rule_set_number_from_1"),
        ]

    def __str__(self) -> str:
        return f"house rules {self.number} of {self.shop}"


class UnitKind(models.TextChoices):
    """What lies on a shelf: the two kinds of repair unit, and what goes under a patch."""

    PATCH = "patch", saying("Patch, for a two-piece repair")
    STEM = "stem", saying("Stem, for a two-piece repair")
    ONE_PIECE = "one-piece", saying("One-piece unit, stem and patch in one")


class RepairUnit(models.Model):
    """One size of repair unit or stem on a shop's shelf; taken off, never deleted. Lengths are text with their unit.

    A stem has no sides, but a smallest hole that it fills.
    """

    reference = models.UUIDField(default=uuid.uuid4, unique=True, editable=False)
    shop = models.ForeignKey(Shop, on_delete=models.PROTECT, related_name="repair_units")
    name = models.CharField(max_length=60)
    kind = models.CharField(max_length=12, choices=UnitKind)
    length = models.CharField(max_length=20, blank=True)  # toward the beads
    width = models.CharField(max_length=20, blank=True)  # around the tire
    stem_diameter = models.CharField(max_length=20, blank=True)
    injury_min = models.CharField(max_length=20, blank=True)
    injury_max = models.CharField(max_length=20)
    casings = DocumentField()
    added_by = models.ForeignKey(User, on_delete=models.PROTECT, related_name="+")
    added_at = models.DateTimeField()
    ended_by = models.ForeignKey(User, on_delete=models.PROTECT, null=True, blank=True, related_name="+")
    ended_at = models.DateTimeField(null=True, blank=True)

    guards: ClassVar = [NeverDeleted(KEPT)]

    class Meta:
        constraints: ClassVar = [
            models.UniqueConstraint(
                Lower("name"), "shop", condition=models.Q(ended_at=None), name="repair_unit_name_once_on_the_shelf"
            ),
            models.CheckConstraint(condition=models.Q(kind__in=UnitKind.values), name="repair_unit_kind_known"),
            models.CheckConstraint(
                condition=models.Q(kind="one-piece") & ~models.Q(stem_diameter="")
                | models.Q(kind__in=["patch", "stem"], stem_diameter=""),
                name="repair_unit_stem_with_one_piece_only",
            ),
            models.CheckConstraint(
                condition=models.Q(kind="stem", length="", width="") & ~models.Q(injury_min="")
                | models.Q(kind__in=["patch", "one-piece"], injury_min="") & ~models.Q(length="") & ~models.Q(width=""),
                name="repair_unit_sides_or_smallest_hole",
            ),
            models.CheckConstraint(
                condition=models.Q(ended_at=None, ended_by=None)
                | models.Q(ended_at__isnull=False, ended_by__isnull=False),
                name="repair_unit_ended_by_someone",
            ),
        ]

    def __str__(self) -> str:
        return f"{self.name} of {self.shop}"
