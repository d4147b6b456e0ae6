"""Whether a person sits an assessment on the screen, in any shop they belong to."""

from datetime import datetime

from django.db import connection
from django.db.models import BooleanField, F
from django.db.models.expressions import RawSQL
from django.urls import reverse

from assessments.models import Attempt, Purpose
from training.models import User
from training.sittings import Sitting

# written out, since every page of a shop asks it: put together each time it cost a sixth of a page
_SITS = """EXISTS (
    SELECT 1 FROM assessments_attempt a
    JOIN assessments_form f ON f.id = a.form_id
    JOIN training_membership m ON m.shop_id = f.shop_id AND m.user_id = f.learner_id AND m.ended_at IS NULL
    WHERE f.learner_id = training_membership.user_id AND f.purpose = %s AND a.handed_in_at IS NULL AND a.closes_at >= %s
)"""


def sits(at: datetime) -> RawSQL:
    """Whether the person of a membership that is looked for has an assessment open at this instant."""
    bound = (Purpose.ASSESSMENT.value, connection.ops.adapt_datetimefield_value(at))
    return RawSQL(_SITS, bound, output_field=BooleanField())  # noqa: S611 - constant text, and what differs is bound


def sitting_of(person: User, at: datetime) -> Sitting | None:
    """The assessment that the person has open at this instant, the one that closes last; one query.

    One of a shop they have left does not count: nobody can hand in there.
    """
    open_now = Attempt.objects.filter(
        form__purpose=Purpose.ASSESSMENT,
        form__learner=person,
        handed_in_at=None,
        closes_at__gte=at,
        form__shop__memberships__user=F("form__learner"),
        form__shop__memberships__ended_at=None,
    )
    columns = ("form__blueprint__title", "closes_at", "form__shop__slug", "form__reference")
    found = open_now.order_by("-closes_at").values_list(*columns).first()
    if found is None:
        return None
    title, closes_at, shop, reference = found
    return Sitting(title=title, closes_at=closes_at, address=reverse("assessments:review", args=[shop, reference]))
