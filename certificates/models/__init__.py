"""What was seen done by hand, and what was certified on it."""

from certificates.models.records import Certificate, Event, EventKind, HandsOn

__all__ = ["Certificate", "Event", "EventKind", "HandsOn"]
