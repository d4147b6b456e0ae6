"""What an owner does to a certificate after it was issued: suspend, restore, revoke. Each adds an event."""

from datetime import datetime

from django.db import transaction
from django.utils import timezone

from certificates.models import Certificate, Event, EventKind
from training.models import Membership, Role, User
from training.trade.days import written_day
from training.trade.speech import say, saying

# what may follow what; a revoked certificate stays revoked
AFTER = {
    EventKind.SUSPENDED: (EventKind.ISSUED, EventKind.RENEWED, EventKind.RESTORED),
    EventKind.RESTORED: (EventKind.SUSPENDED,),
    EventKind.REVOKED: (EventKind.ISSUED, EventKind.RENEWED, EventKind.RESTORED, EventKind.SUSPENDED),
}
# by what happened last, and what is refused
REFUSED = {
    (EventKind.SUSPENDED, EventKind.SUSPENDED): saying(
        "This certificate was suspended on {day}; it cannot be suspended now."
    ),
    (EventKind.REVOKED, EventKind.SUSPENDED): saying(
        "This certificate was revoked on {day}; it cannot be suspended now."
    ),
    (EventKind.ISSUED, EventKind.RESTORED): saying("This certificate was issued on {day}; it cannot be restored now."),
    (EventKind.RENEWED, EventKind.RESTORED): saying(
        "This certificate was renewed on {day}; it cannot be restored now."
    ),
    (EventKind.RESTORED, EventKind.RESTORED): saying(
        "This certificate was restored on {day}; it cannot be restored now."
    ),
    (EventKind.REVOKED, EventKind.RESTORED): saying(
        "This certificate was revoked on {day}; it cannot be restored now."
    ),
    (EventKind.REVOKED, EventKind.REVOKED): saying("This certificate was revoked on {day}; it cannot be revoked now."),
}
REASON_LENGTH = 300


class EventRefused(Exception):
    """The certificate stays as it is: the words say why."""


def suspend(*, certificate: Certificate, by: User, reason: str, at: datetime) -> Event:
    """Take a certificate out of force until it is restored."""
    return _add(certificate, EventKind.SUSPENDED, by=by, reason=reason, at=at)


def restore(*, certificate: Certificate, by: User, reason: str, at: datetime) -> Event:
    """Put a suspended certificate back in force; nobody restores their own."""
    if by == certificate.holder:
        raise EventRefused(say("{owner} cannot restore their own certificate: another owner must.", owner=by.name))
    return _add(certificate, EventKind.RESTORED, by=by, reason=reason, at=at)


def revoke(*, certificate: Certificate, by: User, reason: str, at: datetime) -> Event:
    """Take a certificate out of force for good."""
    return _add(certificate, EventKind.REVOKED, by=by, reason=reason, at=at)


@transaction.atomic
def _add(certificate: Certificate, kind: EventKind, *, by: User, reason: str, at: datetime) -> Event:
    """Add an event that may follow the last one. The same event by the same person for the same reason is one event."""
    reason = reason.strip()
    if not reason:
        raise EventRefused(say("reason: nothing was given; say why in a sentence, it is kept with the certificate."))
    if len(reason) > REASON_LENGTH:
        raise EventRefused(
            say(
                "reason: {count} characters are too many; at most {most} are kept.",
                count=len(reason),
                most=REASON_LENGTH,
            )
        )
    Certificate.objects.select_for_update(no_key=True).get(pk=certificate.pk)  # two owners at once wait in line
    if not Membership.objects.filter(shop=certificate.shop_id, user=by, role=Role.OWNER, ended_at=None).exists():
        raise EventRefused(say("{person} is no owner of the shop that issued this certificate.", person=by.name))
    last = Event.objects.filter(certificate=certificate).order_by("-order").select_related("by").first()
    if last is None:
        raise EventRefused(say("This certificate was never issued."))
    if last.kind == kind and last.by == by and last.reason == reason:
        return last
    if last.kind not in AFTER[kind]:
        told = REFUSED[EventKind(last.kind), kind]
        raise EventRefused(say(told, day=written_day(timezone.localtime(last.at))))
    event = Event(certificate=certificate, order=last.order + 1, kind=kind, at=at, by=by, reason=reason)
    event.clean_fields()  # the rest the database checks itself
    event.save()
    return event
