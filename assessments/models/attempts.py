"""Attempts at a form, the responses in them, and extra rounds that a trainer gives."""

from datetime import datetime
from typing import ClassVar

from django.db import models

from assessments.measurement.passing import PassRule
from assessments.models.forms import Blueprint, Form, handed_in, kept_once
from training.guards import NeverChanged, NeverDeleted
from training.models import DocumentField, Shop, User
from training.trade.speech import saying

SEEN = "kept: what was seen of a question is never changed or deleted"


class Outcome(models.TextChoices):
    """How an assessment ended. Practice ends without one."""

    PASSED = "passed", saying("Passed")
    NOT_PASSED = "not-passed", saying("Not passed")


_WITHDRAWN = (
    "EXISTS (SELECT 1 FROM assessments_withdrawal w JOIN assessments_formitem i ON i.id = w.item_id "
    "WHERE i.form_id = OLD.form_id)"
)


class Attempt(models.Model):
    """A person works through a form. The clock is the server's: `closes_at` is fixed when the attempt starts.

    The counts and the outcome are those of the questions that count today; `first_outcome` is the one at hand-in. They
    differ where a question was withdrawn since, and only then can the database let them change.
    """

    form = models.OneToOneField(Form, on_delete=models.PROTECT, related_name="attempt")
    started_at = models.DateTimeField()
    closes_at = models.DateTimeField(null=True, blank=True)  # none for practice
    handed_in_at = models.DateTimeField(null=True, blank=True)
    right_count = models.PositiveSmallIntegerField(null=True, blank=True)
    unsafe_count = models.PositiveSmallIntegerField(null=True, blank=True)
    by_skill = DocumentField(default=dict, blank=True)  # skill -> [right, asked]
    outcome = models.CharField(max_length=12, choices=Outcome, blank=True)
    first_outcome = models.CharField(max_length=12, choices=Outcome, blank=True)
    open_for = models.CharField(max_length=60, blank=True)  # `seat` while an assessment is open, else empty

    guards: ClassVar = [
        *kept_once("OLD.handed_in_at IS NOT NULL", but=["right_count", "unsafe_count", "by_skill", "outcome"]),
        *kept_once(f"OLD.handed_in_at IS NOT NULL AND NOT ({_WITHDRAWN})")[:1],
    ]

    class Meta:
        constraints: ClassVar = [
            models.UniqueConstraint(
                fields=["open_for"], condition=~models.Q(open_for=""), name="attempt_open_once_per_person"
            ),
            models.CheckConstraint(
                condition=models.Q(open_for="") | models.Q(handed_in_at=None, closes_at__isnull=False),
                name="attempt_open_for_only_while_open",
            ),
            models.CheckConstraint(
                condition=models.Q(closes_at=None) | models.Q(closes_at__gt=models.F("started_at")),
                name="attempt_closes_later",
            ),
            models.CheckConstraint(
                condition=models.Q(handed_in_at=None, outcome="", right_count=None)
                | models.Q(handed_in_at__isnull=False),
                name="attempt_marked_only_when_handed_in",
            ),
            models.CheckConstraint(condition=models.Q(outcome__in=["", *Outcome.values]), name="attempt_outcome_known"),
            models.CheckConstraint(
                condition=models.Q(outcome="", first_outcome="")
                | models.Q(outcome__in=Outcome.values, first_outcome__in=Outcome.values),
                name="attempt_outcome_has_a_first",
            ),
        ]

    def __str__(self) -> str:
        return f"attempt at {self.form}"

    @staticmethod
    def seat(shop: Shop, learner: User) -> str:
        """What `open_for` says of one person in one shop; unique, so they have one assessment open at a time."""
        return f"{shop.pk}/{learner.pk}"

    @property
    def asked_count(self) -> int:
        """How many questions count: of an assessment all but those withdrawn, of a practice those answered so far."""
        return sum(asked for _, asked in self.by_skill.values())

    @property
    def has_fallen(self) -> bool:
        """Was it a pass when it was handed in, and is none any more?"""
        return self.first_outcome == Outcome.PASSED and self.outcome == Outcome.NOT_PASSED

    @property
    def has_risen(self) -> bool:
        """Is it a pass only since a question was withdrawn?"""
        return self.first_outcome == Outcome.NOT_PASSED and self.outcome == Outcome.PASSED

    @property
    def rule(self) -> PassRule:
        """The rule of the blueprint its form was drawn by, whatever holds today. Raises ValueError for practice."""
        blueprint = self.form.blueprint
        if blueprint is None:
            raise ValueError(f"attempt: {self} is not accepted; give an assessment")
        return blueprint.rule

    def is_open(self, at: datetime) -> bool:
        """Whether answers are still taken at this instant."""
        return self.handed_in_at is None and (self.closes_at is None or at <= self.closes_at)


class Reach(models.TextChoices):
    """How far somebody came with a question. Nothing is known of what was skipped on paper."""

    ANSWERED = "answered", saying("Answered")
    SKIPPED = "skipped", saying("Shown, not answered")
    NOT_REACHED = "not-reached", saying("Never shown")


class Response(models.Model):
    """The latest answer to one position; `answer` is canonical JSON text, empty while the item is only flagged.

    `reach`, `first_shown_at` and `seconds`, pauses cut off (`assessments.measurement.timing`), are set when the answer
    is marked; an assessment has a row for every question from then on. On paper nobody sees when a question is looked
    at.
    """

    attempt = models.ForeignKey(Attempt, on_delete=models.PROTECT, related_name="responses")
    position = models.PositiveSmallIntegerField()
    answer = models.TextField(blank=True)
    is_flagged = models.BooleanField(default=False)
    revision = models.PositiveIntegerField(default=1)
    saved_at = models.DateTimeField()
    is_right = models.BooleanField(null=True, blank=True)
    is_unsafe = models.BooleanField(null=True, blank=True)
    misconceptions = DocumentField(default=list, blank=True)
    reach = models.CharField(max_length=12, choices=Reach, blank=True)
    first_shown_at = models.DateTimeField(null=True, blank=True)
    seconds = models.PositiveIntegerField(null=True, blank=True)

    guards: ClassVar = kept_once(handed_in("a.id = OLD.attempt_id"))

    class Meta:
        constraints: ClassVar = [
            models.UniqueConstraint(fields=["attempt", "position"], name="response_position_once"),
            models.CheckConstraint(
                condition=models.Q(reach="")
                | (models.Q(reach="answered") & ~models.Q(answer=""))
                | models.Q(reach__in=["skipped", "not-reached"], answer=""),
                name="response_reach_fits_its_answer",
            ),
        ]

    def __str__(self) -> str:
        return f"response {self.position} in {self.attempt}"


class Moment(models.Model):
    """What the server saw of one question: it was shown, or its answer changed to this one. Append-only.

    `position` 0 is no question, as the page before handing in. An answer's `revision` counts its changes from 1.
    """

    attempt = models.ForeignKey(Attempt, on_delete=models.PROTECT, related_name="moments")
    position = models.PositiveSmallIntegerField()
    at = models.DateTimeField()
    answer = models.TextField(blank=True)  # empty where one was taken away, and where the question was shown
    revision = models.PositiveIntegerField(default=0)  # 0: shown

    guards: ClassVar = [NeverDeleted(SEEN), NeverChanged(SEEN)]

    class Meta:
        constraints: ClassVar = [
            models.UniqueConstraint(
                fields=["attempt", "position", "revision"],
                condition=~models.Q(revision=0),
                name="moment_answer_changed_once",
            ),
            models.UniqueConstraint(
                fields=["attempt", "position", "at"], condition=models.Q(revision=0), name="moment_shown_once_at_a_time"
            ),
            models.CheckConstraint(
                condition=models.Q(answer="") | ~models.Q(revision=0), name="moment_answer_has_a_revision"
            ),
        ]

    def __str__(self) -> str:
        return f"question {self.position} at {self.at}"


class ExtraRound(models.Model):
    """A trainer gives a learner a new round of attempts after the allowed ones were used up."""

    shop = models.ForeignKey(Shop, on_delete=models.PROTECT, related_name="+")
    learner = models.ForeignKey(User, on_delete=models.PROTECT, related_name="extra_rounds")
    blueprint = models.ForeignKey(Blueprint, on_delete=models.PROTECT, related_name="+")
    given_by = models.ForeignKey(User, on_delete=models.PROTECT, related_name="+")
    given_at = models.DateTimeField()
    reason = models.CharField(max_length=300)

    class Meta:
        constraints: ClassVar = [
            models.CheckConstraint(condition=~models.Q(reason=""), name="extra_round_has_a_reason"),
            models.CheckConstraint(
                condition=~models.Q(learner=models.F("given_by")), name="extra_round_not_given_to_oneself"
            ),
        ]

    def __str__(self) -> str:
        return f"extra round for {self.learner}"
