"""Hands-on records, certificates and their events are never changed and never deleted; only a holder's name can go."""

from django.db import migrations

from training.keeping import Refuse

MESSAGE = "kept: a record, a certificate and its events are never changed or deleted"
# all columns but the holder's name, which is removed when the person asks for it
CERTIFICATE_COLUMNS = [
    "id",
    "number",
    "shop_id",
    "holder_id",
    "shop_name",
    "scope",
    "scope_title",
    "casings",
    "edition",
    "edition_version",
    "attempt_id",
    "hands_on_id",
    "pass_mark",
    "issued_date",
    "expires_date",
]


class Migration(migrations.Migration):
    dependencies = [("certificates", "0001_initial"), ("assessments", "0002_keep_what_was_handed_in")]

    operations = [
        Refuse("DELETE", "certificates_handson", message=MESSAGE),
        Refuse("UPDATE", "certificates_handson", message=MESSAGE),
        Refuse("DELETE", "certificates_event", message=MESSAGE),
        Refuse("UPDATE", "certificates_event", message=MESSAGE),
        Refuse("DELETE", "certificates_certificate", message=MESSAGE),
        Refuse("UPDATE", "certificates_certificate", columns=CERTIFICATE_COLUMNS, message=MESSAGE),
    ]
