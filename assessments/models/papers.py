"""An assessment on paper: who printed it, who typed its answers in, or who withdrew it."""

from typing import ClassVar

from django.db import models

from assessments.models.bench import SETTLED
from assessments.models.forms import Form, handed_in
from training.guards import NeverChanged, NeverDeleted
from training.models import User


class Paper(models.Model):
    """The paper side of a form. Its attempt is open from the making until the answers are typed in and handed in."""

    form = models.OneToOneField(Form, on_delete=models.PROTECT, related_name="paper")
    made_by = models.ForeignKey(User, on_delete=models.PROTECT, related_name="+")
    made_at = models.DateTimeField()
    typed_by = models.ForeignKey(User, on_delete=models.PROTECT, null=True, blank=True, related_name="+")
    typed_at = models.DateTimeField(null=True, blank=True)
    withdrawn_by = models.ForeignKey(User, on_delete=models.PROTECT, null=True, blank=True, related_name="+")
    withdrawn_at = models.DateTimeField(null=True, blank=True)
    withdrawn_because = models.CharField(max_length=300, blank=True)

    guards: ClassVar = [NeverDeleted(SETTLED), NeverChanged(SETTLED, when=handed_in("a.form_id = OLD.form_id"))]

    class Meta:
        constraints: ClassVar = [
            models.CheckConstraint(
                condition=models.Q(typed_at=None, typed_by=None)
                | models.Q(typed_at__isnull=False, typed_by__isnull=False),
                name="paper_typed_by_someone",
            ),
            models.CheckConstraint(
                condition=models.Q(withdrawn_at=None, withdrawn_by=None, withdrawn_because="")
                | models.Q(withdrawn_at__isnull=False, withdrawn_by__isnull=False) & ~models.Q(withdrawn_because=""),
                name="paper_withdrawn_by_someone_for_a_reason",
            ),
        ]

    def __str__(self) -> str:
        return f"paper {self.number}"

    @property
    def number(self) -> str:
        """What people call the paper by: the first eight digits of its form's reference, "4F2A-91C7"."""
        digits = self.form.reference.hex[:8].upper()
        return f"{digits[:4]}-{digits[4:]}"
