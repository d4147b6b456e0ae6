"""Everything that writes a hands-on record, a certificate or one of its events."""

from certificates.acts.certificates import CertificateRefused, issue_certificate
from certificates.acts.events import REASON_LENGTH, EventRefused, restore, revoke, suspend
from certificates.acts.hands_on import MET, HandsOnRefused, criterion_keys, record_hands_on
