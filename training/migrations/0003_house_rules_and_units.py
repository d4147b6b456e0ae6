"""House rules in versions that are never changed, the rules in force on the shop, and its repair units."""

import uuid

import django.db.models.deletion
import django.db.models.functions.text
from django.conf import settings
from django.db import migrations, models

from training.keeping import Refuse

MESSAGE = "kept: house rules and repair units are never deleted, and a set of house rules is never changed"


class Migration(migrations.Migration):
    dependencies = [
        ("training", "0002_cache_table"),
    ]

    operations = [
        migrations.AddField(
            model_name="shop",
            name="house_rules",
            field=models.JSONField(blank=True, default=list),
        ),
        migrations.CreateModel(
            name="HouseRuleSet",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("number", models.PositiveIntegerField()),
                ("edition", models.CharField(max_length=40)),
                ("edition_version", models.CharField(max_length=20)),
                ("rules", models.JSONField(blank=True)),
                ("reason", models.CharField(blank=True, max_length=300)),
                ("set_at", models.DateTimeField()),
                (
                    "set_by",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT, related_name="+", to=settings.AUTH_USER_MODEL
                    ),
                ),
                (
                    "shop",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT, related_name="house_rule_sets", to="training.shop"
                    ),
                ),
            ],
            options={
                "ordering": ["shop", "number"],
                "constraints": [
                    models.UniqueConstraint(fields=("shop", "number"), name="house_rule_set_number_once"),
                    models.CheckConstraint(condition=models.Q(("number__gte", 1)), name="house_rule_set_number_from_1"),
                ],
            },
        ),
        migrations.CreateModel(
            name="RepairUnit",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("reference", models.UUIDField(default=uuid.uuid4, editable=False, unique=True)),
                ("name", models.CharField(max_length=60)),
                (
                    "kind",
                    models.CharField(
                        choices=[
                            ("patch", "Patch, for a two-piece repair"),
                            ("one-piece", "One-piece unit, stem and patch in one"),
                        ],
                        max_length=12,
                    ),
                ),
                ("length", models.CharField(max_length=20)),
                ("width", models.CharField(max_length=20)),
                ("stem_diameter", models.CharField(blank=True, max_length=20)),
                ("injury_max", models.CharField(max_length=20)),
                ("casings", models.JSONField()),
                ("added_at", models.DateTimeField()),
                ("ended_at", models.DateTimeField(blank=True, null=True)),
                (
                    "added_by",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT, related_name="+", to=settings.AUTH_USER_MODEL
                    ),
                ),
                (
                    "ended_by",
                    models.ForeignKey(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="+",
                        to=settings.AUTH_USER_MODEL,
                    ),
                ),
                (
                    "shop",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT, related_name="repair_units", to="training.shop"
                    ),
                ),
            ],
            options={
                "constraints": [
                    models.UniqueConstraint(
                        django.db.models.functions.text.Lower("name"),
                        models.F("shop"),
                        condition=models.Q(("ended_at", None)),
                        name="repair_unit_name_once_on_the_shelf",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(("kind__in", ["patch", "one-piece"])), name="repair_unit_kind_known"
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            models.Q(("kind", "one-piece"), models.Q(("stem_diameter", ""), _negated=True)),
                            models.Q(("kind", "patch"), ("stem_diameter", "")),
                            _connector="OR",
                        ),
                        name="repair_unit_stem_with_one_piece_only",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            models.Q(("ended_at", None), ("ended_by", None)),
                            models.Q(("ended_at__isnull", False), ("ended_by__isnull", False)),
                            _connector="OR",
                        ),
                        name="repair_unit_ended_by_someone",
                    ),
                ],
            },
        ),
        Refuse("UPDATE", "training_houseruleset", message=MESSAGE),
        Refuse("DELETE", "training_houseruleset", message=MESSAGE),
        Refuse("DELETE", "training_repairunit", message=MESSAGE),
    ]
