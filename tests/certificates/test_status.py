"""What a certificate is on a day, from its events and dates."""

from datetime import UTC, date, datetime, timedelta
from zoneinfo import ZoneInfo

import pytest

from certificates.models import Certificate, Event
from certificates.models.status import status_on

DENVER = ZoneInfo("America/Denver")
CERTIFICATE = Certificate(issued_date=date(2026, 11, 25), expires_date=date(2028, 11, 25))
ISSUED = Event(order=1, kind="issued", at=datetime(2026, 11, 25, 15, tzinfo=UTC))
SUSPENDED = Event(order=2, kind="suspended", at=datetime(2027, 3, 1, 15, tzinfo=UTC))
RESTORED = Event(order=3, kind="restored", at=datetime(2027, 3, 8, 15, tzinfo=UTC))
REVOKED = Event(order=4, kind="revoked", at=datetime(2027, 6, 1, 15, tzinfo=UTC))


@pytest.mark.parametrize(
    ("events", "day", "status"),
    [
        ([ISSUED], date(2026, 11, 24), "not issued"),
        ([ISSUED], date(2026, 11, 25), "valid"),
        ([ISSUED], date(2028, 11, 25), "valid"),  # "valid through" counts the day itself
        ([ISSUED], date(2028, 11, 26), "expired"),
        ([ISSUED, SUSPENDED], date(2027, 2, 28), "valid"),
        ([ISSUED, SUSPENDED], date(2027, 3, 1), "suspended"),
        ([ISSUED, SUSPENDED], date(2028, 11, 26), "suspended"),
        ([ISSUED, SUSPENDED, RESTORED], date(2027, 3, 7), "suspended"),
        ([ISSUED, SUSPENDED, RESTORED], date(2027, 3, 8), "valid"),
        ([ISSUED, SUSPENDED, RESTORED], date(2028, 11, 26), "expired"),
        ([ISSUED, SUSPENDED, RESTORED, REVOKED], date(2027, 6, 1), "revoked"),
        ([ISSUED, SUSPENDED, RESTORED, REVOKED], date(2030, 1, 1), "revoked"),
        ([REVOKED, ISSUED, RESTORED, SUSPENDED], date(2027, 6, 1), "revoked"),  # in whatever order they come
        ([], date(2027, 1, 1), "not issued"),
    ],
)
def test_the_status_follows_the_last_event_and_the_dates(events: list[Event], day: date, status: str) -> None:
    standing = status_on(CERTIFICATE, events, day, DENVER)

    assert standing.status == status
    assert standing.is_valid == (status == "valid")


def test_the_day_is_the_shops_own() -> None:
    # Denver is seven hours behind UTC in winter: 3 March, 02:00 UTC is still 2 March there
    late = Event(order=2, kind="suspended", at=datetime(2027, 3, 3, 2, tzinfo=UTC))

    assert status_on(CERTIFICATE, [ISSUED, late], date(2027, 3, 2), DENVER).status == "suspended"
    assert status_on(CERTIFICATE, [ISSUED, late], date(2027, 3, 2), UTC).status == "valid"


def test_a_suspended_certificate_says_that_its_time_ran_out_besides() -> None:
    day = CERTIFICATE.expires_date

    assert not status_on(CERTIFICATE, [ISSUED, SUSPENDED], day, DENVER).has_run_out
    assert status_on(CERTIFICATE, [ISSUED, SUSPENDED], day + timedelta(days=1), DENVER).has_run_out
