"""What was seen done by hand, and what was certified on it."""

from certificates.models.records import Certificate, Event, EventKind, HandsOn
from certificates.models.status import Standing, Status, status_by, status_on
