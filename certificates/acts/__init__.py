"""Everything that writes a hands-on record, a certificate or one of its events."""

from certificates.acts.certificates import CertificateRefused, issue_certificate
from certificates.acts.events import REASON_LENGTH, EventRefused, restore, revoke, suspend
from certificates.acts.hands_on import MET, NOT_MET, HandsOnRefused, criterion_keys, record_hands_on

__all__ = [
    "MET",
    "NOT_MET",
    "REASON_LENGTH",
    "CertificateRefused",
    "EventRefused",
    "HandsOnRefused",
    "criterion_keys",
    "issue_certificate",
    "record_hands_on",
    "restore",
    "revoke",
    "suspend",
]
