"""An invented certificate to print."""

from datetime import date
from typing import Any

from certificates.documents.certificate import CertificateRecord

FACTS: dict[str, Any] = {
    "number": "K7QD-2M9X-4T",
    "holder_name": "Dana Okafor",
    "scope_title": "Puncture repair, passenger and light truck",
    "casings": ("passenger tires", "light truck tires with a fabric body"),
    "shop_name": "Quarry Road Tire",
    "issued_date": date(2026, 11, 25),
    "expires_date": date(2028, 11, 25),
    "edition_title": "North America",
    "edition_version": "2026.1",
    "assessed_date": date(2026, 11, 20),
    "right_count": 36,
    "asked_count": 40,
    "unsafe_count": 1,
    "pass_mark": "80 % right and at most 1 unsafe release. Provisional until measured.",
    "hands_on_date": date(2026, 11, 22),
    "trainer_name": "Lena Marsh",
    "issuer_name": "Max Lind",
    "site": "https://training.example.org",
    "path": "/c/K7QD-2M9X-4T/",
}


def a_record(**changes: Any) -> CertificateRecord:
    """The certificate of FACTS, but for what a test changes."""
    return CertificateRecord(**(FACTS | changes))
