"""Blueprints, and the forms drawn from them: an attempt is marked by the snapshot of its items, years later too."""

import uuid
from collections.abc import Mapping, Sequence
from typing import Any, ClassVar

from django.db import models

from assessments.measurement.passing import PassRule
from training.guards import Guard, NeverChanged, NeverDeleted
from training.models import DocumentField, Shop, User
from training.stored import Upgrade
from training.trade.speech import saying

_HANDED_IN = "EXISTS (SELECT 1 FROM assessments_attempt a WHERE a.handed_in_at IS NOT NULL AND {its_attempt})"


def handed_in(its_attempt: str) -> str:
    """The SQL condition that the attempt `a` of a row was handed in; `its_attempt` finds it from the OLD row."""
    return _HANDED_IN.format(its_attempt=its_attempt)


def kept_once(condition: str, *, but: Sequence[str] = ()) -> list[Guard]:
    """Guards on what belongs to an attempt, all but some fields, from the moment the SQL condition holds."""
    message = "handed in: an attempt, its form and its answers are kept as they are"
    return [NeverChanged(message, when=condition, but=but), NeverDeleted(message, when=condition)]


def _as_it_was(content: Any) -> Any:
    return content


# in schema 1 a figure is a drawing; in 2 it can be pictures too, in 3 a photograph of the shop
DRAWN: Mapping[int, Upgrade] = {1: _as_it_was, 2: _as_it_was}
# in schema 3 an item says by which sentence it asks too
TOLD_BY: Mapping[int, Upgrade] = {1: _as_it_was, 2: _as_it_was}


class Blueprint(models.Model):
    """What a form is made of and what passes it. A changed one is a new version; without a shop it is built in."""

    shop = models.ForeignKey(Shop, on_delete=models.PROTECT, null=True, blank=True, related_name="blueprints")
    slug = models.SlugField(max_length=60)
    version = models.CharField(max_length=20)
    title = models.CharField(max_length=120)
    scope = models.SlugField(max_length=60)
    edition = models.CharField(max_length=40)
    cells = DocumentField()  # [{"family": ..., "count": ...}, ...]
    minutes = models.PositiveSmallIntegerField()
    pass_percent = models.PositiveSmallIntegerField()
    safety_percent = models.PositiveSmallIntegerField(default=0)  # of the questions of the skill safety; 0: no floor
    unsafe_allowed = models.PositiveSmallIntegerField()
    alike_allowed = models.PositiveSmallIntegerField(null=True, blank=True)  # None: kept before it was looked at
    graves = DocumentField(default=list, blank=True)  # the misconceptions that every form has to catch
    curve = DocumentField(default=dict, blank=True)  # Curve.to_json(); empty where none was made for this version
    attempts_allowed = models.PositiveSmallIntegerField()
    wait_hours = models.PositiveSmallIntegerField()
    standing = models.CharField(max_length=300)  # how the pass mark was set; printed with every pass

    class Meta:
        constraints: ClassVar = [
            models.UniqueConstraint(
                fields=["slug", "version"], condition=models.Q(shop=None), name="blueprint_built_in_version_once"
            ),
            models.UniqueConstraint(
                fields=["shop", "slug", "version"], condition=~models.Q(shop=None), name="blueprint_shop_version_once"
            ),
            models.CheckConstraint(
                condition=models.Q(pass_percent__gte=1, pass_percent__lte=100), name="blueprint_pass_percent_1_to_100"
            ),
            models.CheckConstraint(condition=models.Q(safety_percent__lte=100), name="blueprint_safety_percent_to_100"),
            models.CheckConstraint(condition=models.Q(minutes__gte=1), name="blueprint_has_time"),
        ]

    def __str__(self) -> str:
        return f"{self.title} {self.version}"

    @property
    def rule(self) -> PassRule:
        """What passes an attempt at a form of this row, today and years later."""
        return PassRule(self.pass_percent, self.unsafe_allowed, self.alike_allowed, self.safety_percent)

    def needed(self, asked: int) -> int:
        """How many right answers of `asked` meet the pass mark: the percentage, rounded up."""
        return self.rule.needed(asked)


class Purpose(models.TextChoices):
    """Why a form was drawn."""

    PRACTICE = "practice", saying("Practice")
    ASSESSMENT = "assessment", saying("Assessment")
    PAPER = "paper", saying("Assessment on paper")


COUNTED = (Purpose.ASSESSMENT, Purpose.PAPER)  # an attempt at one of these counts


class Form(models.Model):
    """Items drawn for one person. Practice has no blueprint: its items are of one skill."""

    reference = models.UUIDField(default=uuid.uuid4, unique=True, editable=False)
    shop = models.ForeignKey(Shop, on_delete=models.PROTECT, related_name="forms")
    learner = models.ForeignKey(User, on_delete=models.PROTECT, related_name="forms")
    purpose = models.CharField(max_length=12, choices=Purpose)
    blueprint = models.ForeignKey(Blueprint, on_delete=models.PROTECT, null=True, blank=True, related_name="forms")
    skill = models.SlugField(max_length=40, blank=True)
    scope = models.SlugField(max_length=60, blank=True)  # of practice: whose tires it asks about; empty: drawn of all
    edition = models.CharField(max_length=40)
    edition_version = models.CharField(max_length=20)
    units = models.CharField(max_length=2)
    size = models.PositiveSmallIntegerField()  # how many items
    short_of = DocumentField(default=dict, blank=True)  # grave misconception -> how often caught, where too seldom
    drawn_at = models.DateTimeField()

    guards: ClassVar = kept_once(handed_in("a.form_id = OLD.id"))

    class Meta:
        constraints: ClassVar = [
            models.CheckConstraint(
                condition=models.Q(purpose="practice", blueprint=None)
                | models.Q(purpose__in=["assessment", "paper"], blueprint__isnull=False),
                name="form_assessment_has_blueprint",
            ),
            models.CheckConstraint(condition=models.Q(size__gte=1), name="form_has_items"),
        ]

    def __str__(self) -> str:
        return f"{self.purpose} of {self.learner}"


class FormItem(models.Model):
    """One item of a form as it was drawn, key included: `open` is all a browser may see before hand-in."""

    form = models.ForeignKey(Form, on_delete=models.PROTECT, related_name="items")
    position = models.PositiveSmallIntegerField()
    family = models.SlugField(max_length=60)
    skill = models.SlugField(max_length=40)
    lesson = models.CharField(max_length=121)  # "module/lesson" to read again
    digest = models.CharField(max_length=24, blank=True, db_index=True)  # what determines its key; counts exposure
    family_version = models.CharField(max_length=12, blank=True)  # of the code and data it was drawn with
    template = models.CharField(max_length=12, blank=True)  # of the sentence that asks
    casing = models.CharField(max_length=24, blank=True)  # empty where it tells of no tire
    format = models.CharField(max_length=8, blank=True)
    traits = DocumentField(default=dict, blank=True)  # Traits.to_json(): what makes it hard
    open = DocumentField(schema=3, older=DRAWN)  # OpenItem.to_json(): what may be shown
    snapshot = DocumentField(schema=3, older=TOLD_BY)  # Item.to_json(): with key, distractors, explanation

    guards: ClassVar = kept_once(handed_in("a.form_id = OLD.form_id"))

    class Meta:
        ordering: ClassVar = ["form", "position"]
        constraints: ClassVar = [
            models.UniqueConstraint(fields=["form", "position"], name="form_item_position_once"),
            models.CheckConstraint(condition=models.Q(position__gte=1), name="form_item_position_from_1"),
        ]

    def __str__(self) -> str:
        return f"item {self.position} of {self.form}"
