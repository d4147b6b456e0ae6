"""Whether a person sits an assessment on the screen, in any shop they belong to."""

from datetime import datetime

from django.db.models import Exists, F, OuterRef, QuerySet
from django.urls import reverse

from assessments.models import Attempt, Purpose
from training.models import User
from training.sittings import Sitting


def _open_at(at: datetime, **whose: object) -> QuerySet[Attempt]:
    """Assessments whose clock runs, of shops their person still belongs to: who has left cannot hand in there."""
    return Attempt.objects.filter(
        form__purpose=Purpose.ASSESSMENT,
        handed_in_at=None,
        closes_at__gte=at,
        form__shop__memberships__user=F("form__learner"),
        form__shop__memberships__ended_at=None,
        **whose,
    )


def sits(column: str, at: datetime) -> Exists:
    """Whether the person in a column of the outer query has an assessment open at this instant."""
    return Exists(_open_at(at, form__learner=OuterRef(column)))


def sitting_of(person: User, at: datetime) -> Sitting | None:
    """The assessment that the person has open at this instant, the one that closes last; one query."""
    columns = ("form__blueprint__title", "closes_at", "form__shop__slug", "form__reference")
    found = _open_at(at, form__learner=person).order_by("-closes_at").values_list(*columns).first()
    if found is None:
        return None
    title, closes_at, shop, reference = found
    return Sitting(title=title, closes_at=closes_at, address=reverse("assessments:review", args=[shop, reference]))
