"""Checks of a tire that the shop keeps: written once, never changed, never deleted; a correction is a new entry."""

import uuid
from typing import Any, ClassVar

from django.db import models

from training.guards import NeverChanged, NeverDeleted
from training.models.documents import DocumentField
from training.models.people import User
from training.models.shops import Shop
from training.rulebook import VERDICTS
from training.trade.words import CASING_WORDS

MAY_RUN = ("accept", "advise")
KEPT = "kept: a check of a tire is never changed or deleted; a correction is a new entry"


def symbols_of(tin: str) -> str:
    """Letters and numerals of an identification number, without DOT before them: what a search compares."""
    return "".join(sign for sign in tin.upper().removeprefix("DOT") if sign.isalnum())


class TireCheck(models.Model):
    """One tire as it was found, the decision on it, and who looked.

    `case` and `decision` are the rulebook's own JSON; `printed` holds what a page says beside them in that day's words,
    so that the entry reads the same under a later rulebook; `found` is what was typed, to begin a correction.
    """

    reference = models.UUIDField(default=uuid.uuid4, unique=True, editable=False)
    press = models.UUIDField(unique=True)  # the form's own token: the same press twice is one entry
    shop = models.ForeignKey(Shop, on_delete=models.PROTECT, related_name="tire_checks")
    looked_by = models.ForeignKey(User, on_delete=models.PROTECT, related_name="tire_checks")
    kept_at = models.DateTimeField()
    looked_on = models.DateField()
    tin = models.CharField(max_length=40, blank=True)
    tin_key = models.CharField(max_length=40, blank=True)  # symbols only, to search by
    ticket = models.CharField(max_length=80, blank=True)
    casing = models.CharField(max_length=20)
    designation = models.CharField(max_length=40, blank=True)
    verdict = models.CharField(max_length=10)
    is_open = models.BooleanField(default=False)  # nothing was decided: something essential had not been looked at
    edition = models.CharField(max_length=40)
    edition_version = models.CharField(max_length=60)
    case = DocumentField()
    decision = DocumentField()
    printed = DocumentField()
    found = DocumentField()
    note = models.TextField(blank=True, max_length=1000)
    taken_along = models.BooleanField(default=False)
    corrects = models.OneToOneField(
        "self", on_delete=models.PROTECT, null=True, blank=True, related_name="corrected_by"
    )

    guards: ClassVar = [NeverDeleted(KEPT), NeverChanged(KEPT)]

    class Meta:
        constraints: ClassVar = [
            models.CheckConstraint(condition=models.Q(verdict__in=VERDICTS), name="tire_check_verdict_known"),
            models.CheckConstraint(
                condition=models.Q(is_open=False) | models.Q(verdict="inspect"), name="tire_check_open_is_to_inspect"
            ),
            models.CheckConstraint(
                condition=~models.Q(tin="") | ~models.Q(ticket=""), name="tire_check_can_be_found_again"
            ),
            models.CheckConstraint(
                condition=models.Q(corrects=None) | ~models.Q(note=""), name="tire_check_correction_says_why"
            ),
            models.CheckConstraint(
                condition=models.Q(taken_along=False) | ~models.Q(verdict__in=MAY_RUN),
                name="tire_check_taken_along_against_advice",
            ),
        ]
        indexes: ClassVar = [
            models.Index(fields=["shop", "-kept_at"]),
            models.Index(fields=["shop", "tin_key"]),
            models.Index(fields=["shop", "looked_by", "-kept_at"]),
        ]

    def __str__(self) -> str:
        return f"{self.verdict}: {self.ticket or self.tin}"

    @property
    def tire_words(self) -> str:
        """Casing and size, for example "passenger 205/55R16 91V"."""
        return " ".join(part for part in (str(CASING_WORDS[self.casing].short), self.designation) if part)

    @property
    def replacement(self) -> "TireCheck | None":
        """The entry that corrects this one; load it with `select_related("corrected_by")`."""
        found: Any = getattr(self, "corrected_by", None)
        return found if isinstance(found, TireCheck) else None
