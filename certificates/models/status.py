"""What a certificate is on a day: the one place that reads it from its events and its dates. Pure."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, tzinfo
from enum import StrEnum

from certificates.models.records import Certificate, Event, EventKind
from training.trade.speech import saying


class Status(StrEnum):
    """What a certificate can be; only VALID says yes."""

    VALID = "valid"
    EXPIRED = "expired"
    SUSPENDED = "suspended"
    REVOKED = "revoked"
    NOT_ISSUED = "not issued"  # on a day before the certificate began

    @property
    def words(self) -> str:
        """It as pages say it, in the language spoken."""
        return str(_WORDS[self])


_WORDS = {
    Status.VALID: saying("valid"),
    Status.EXPIRED: saying("expired"),
    Status.SUSPENDED: saying("suspended"),
    Status.REVOKED: saying("revoked"),
    Status.NOT_ISSUED: saying("not issued"),
}


@dataclass(frozen=True)
class Standing:
    """A certificate's status, since when, and whether its time has run out besides."""

    status: Status
    since: date
    has_run_out: bool

    @property
    def is_valid(self) -> bool:
        """Whether the holder may point to it."""
        return self.status is Status.VALID


_STOPPED = {EventKind.SUSPENDED: Status.SUSPENDED, EventKind.REVOKED: Status.REVOKED}


def status_on(certificate: Certificate, events: Iterable[Event], day: date, zone: tzinfo) -> Standing:
    """The standing at the end of a day in the shop's time zone: the last event until then, and the dates.

    The day of expiry is the last valid one. Revoked and suspended are said before expired: they are the graver news.
    A certificate without any event by that day was not issued.
    """
    until = [
        event for event in sorted(events, key=lambda event: event.order) if event.at.astimezone(zone).date() <= day
    ]
    if not until:
        return Standing(Status.NOT_ISSUED, certificate.issued_date, has_run_out=False)
    return status_by(certificate, until[-1].kind, until[-1].at.astimezone(zone).date(), day)


def status_by(certificate: Certificate, last_kind: str, last_date: date, day: date) -> Standing:
    """The same from the last event alone, its kind and its day."""
    has_run_out = day > certificate.expires_date
    if day < certificate.issued_date:
        return Standing(Status.NOT_ISSUED, certificate.issued_date, has_run_out)
    if stopped := _STOPPED.get(EventKind(last_kind)):
        return Standing(stopped, last_date, has_run_out)
    if has_run_out:
        return Standing(Status.EXPIRED, certificate.expires_date, has_run_out)
    return Standing(Status.VALID, last_date, has_run_out)
