"""Checks of a tire that the shop keeps are never changed and never deleted; and whether its check asks for a login."""

import uuid

import django.db.models.deletion
from django.conf import settings
from django.db import migrations, models

from training.keeping import Refuse

MESSAGE = "kept: a check of a tire is never changed or deleted; a correction is a new entry"


class Migration(migrations.Migration):
    dependencies = [
        ("training", "0003_house_rules_and_units"),
    ]

    operations = [
        migrations.AddField(
            model_name="shop",
            name="public_check",
            field=models.BooleanField(default=False),
        ),
        migrations.CreateModel(
            name="TireCheck",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("reference", models.UUIDField(default=uuid.uuid4, editable=False, unique=True)),
                ("press", models.UUIDField(unique=True)),
                ("kept_at", models.DateTimeField()),
                ("looked_on", models.DateField()),
                ("tin", models.CharField(blank=True, max_length=40)),
                ("tin_key", models.CharField(blank=True, max_length=40)),
                ("ticket", models.CharField(blank=True, max_length=80)),
                ("casing", models.CharField(max_length=20)),
                ("designation", models.CharField(blank=True, max_length=40)),
                ("verdict", models.CharField(max_length=10)),
                ("edition", models.CharField(max_length=40)),
                ("edition_version", models.CharField(max_length=60)),
                ("case", models.JSONField()),
                ("decision", models.JSONField()),
                ("printed", models.JSONField()),
                ("found", models.JSONField()),
                ("note", models.TextField(blank=True, max_length=1000)),
                ("taken_along", models.BooleanField(default=False)),
                (
                    "corrects",
                    models.OneToOneField(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="corrected_by",
                        to="training.tirecheck",
                    ),
                ),
                (
                    "looked_by",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="tire_checks",
                        to=settings.AUTH_USER_MODEL,
                    ),
                ),
                (
                    "shop",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT, related_name="tire_checks", to="training.shop"
                    ),
                ),
            ],
            options={
                "indexes": [
                    models.Index(fields=["shop", "-kept_at"], name="training_ti_shop_id_39580f_idx"),
                    models.Index(fields=["shop", "tin_key"], name="training_ti_shop_id_7762e8_idx"),
                    models.Index(fields=["shop", "looked_by", "-kept_at"], name="training_ti_shop_id_5138b7_idx"),
                ],
                "constraints": [
                    models.CheckConstraint(
                        condition=models.Q(
                            ("verdict__in", ("accept", "advise", "repair", "inspect", "refer", "reject"))
                        ),
                        name="tire_check_verdict_known",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            models.Q(("tin", ""), _negated=True),
                            models.Q(("ticket", ""), _negated=True),
                            _connector="OR",
                        ),
                        name="tire_check_can_be_found_again",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(("corrects", None), models.Q(("note", ""), _negated=True), _connector="OR"),
                        name="tire_check_correction_says_why",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            ("taken_along", False),
                            models.Q(("verdict__in", ("accept", "advise")), _negated=True),
                            _connector="OR",
                        ),
                        name="tire_check_taken_along_against_advice",
                    ),
                ],
            },
        ),
        Refuse("UPDATE", "training_tirecheck", message=MESSAGE),
        Refuse("DELETE", "training_tirecheck", message=MESSAGE),
    ]
