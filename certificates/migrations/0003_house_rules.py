"""A certificate names the house rules that its assessment was drawn by; they are guarded like the rest of it."""

from importlib import import_module

from django.db import migrations, models

from training.keeping import Allow, Refuse

before = import_module("certificates.migrations.0002_keep_records")
GUARDED = "certificates_certificate"


class Migration(migrations.Migration):
    dependencies = [("certificates", "0002_keep_records")]

    operations = [
        Allow("DELETE", GUARDED, message=before.MESSAGE),
        Allow("UPDATE", GUARDED, columns=before.CERTIFICATE_COLUMNS, message=before.MESSAGE),
        migrations.AddField("certificate", "house_rules", models.JSONField(blank=True, default=list)),
        Refuse("DELETE", GUARDED, message=before.MESSAGE),
        Refuse("UPDATE", GUARDED, columns=[*before.CERTIFICATE_COLUMNS, "house_rules"], message=before.MESSAGE),
    ]
