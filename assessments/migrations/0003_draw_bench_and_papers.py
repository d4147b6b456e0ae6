"""Flags of the draw bench, families switched off, and assessments on paper; none of them is deleted."""

import uuid

import django.db.models.deletion
from django.conf import settings
from django.db import migrations, models

from assessments.keeping import BENCH_AND_PAPERS, HANDED_IN
from training.keeping import lifted


class Migration(migrations.Migration):
    dependencies = [
        ("assessments", "0002_keep_what_was_handed_in"),
        ("training", "0004_keep_checks"),
        migrations.swappable_dependency(settings.AUTH_USER_MODEL),
    ]

    operations = [
        migrations.CreateModel(
            name="DrawFlag",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("reference", models.UUIDField(default=uuid.uuid4, editable=False, unique=True)),
                ("family", models.SlugField(max_length=60)),
                ("seed", models.CharField(max_length=80)),
                ("edition", models.CharField(max_length=40)),
                ("edition_version", models.CharField(max_length=60)),
                ("units", models.CharField(max_length=2)),
                ("stem", models.TextField()),
                ("comment", models.CharField(max_length=500)),
                ("at", models.DateTimeField()),
                ("resolved_at", models.DateTimeField(blank=True, null=True)),
            ],
            options={
                "ordering": ["-at", "-pk"],
            },
        ),
        migrations.CreateModel(
            name="FamilyOff",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("family", models.SlugField(max_length=60)),
                ("reason", models.CharField(max_length=300)),
                ("since_at", models.DateTimeField()),
                ("ended_at", models.DateTimeField(blank=True, null=True)),
            ],
            options={
                "ordering": ["-since_at", "-pk"],
            },
        ),
        migrations.CreateModel(
            name="Paper",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("made_at", models.DateTimeField()),
                ("typed_at", models.DateTimeField(blank=True, null=True)),
                ("withdrawn_at", models.DateTimeField(blank=True, null=True)),
                ("withdrawn_because", models.CharField(blank=True, max_length=300)),
            ],
        ),
        migrations.AddField(
            model_name="drawflag",
            name="by",
            field=models.ForeignKey(
                on_delete=django.db.models.deletion.PROTECT, related_name="+", to=settings.AUTH_USER_MODEL
            ),
        ),
        migrations.AddField(
            model_name="drawflag",
            name="resolved_by",
            field=models.ForeignKey(
                blank=True,
                null=True,
                on_delete=django.db.models.deletion.PROTECT,
                related_name="+",
                to=settings.AUTH_USER_MODEL,
            ),
        ),
        migrations.AddField(
            model_name="drawflag",
            name="shop",
            field=models.ForeignKey(
                on_delete=django.db.models.deletion.PROTECT, related_name="draw_flags", to="training.shop"
            ),
        ),
        migrations.AddField(
            model_name="familyoff",
            name="by",
            field=models.ForeignKey(
                on_delete=django.db.models.deletion.PROTECT, related_name="+", to=settings.AUTH_USER_MODEL
            ),
        ),
        migrations.AddField(
            model_name="familyoff",
            name="ended_by",
            field=models.ForeignKey(
                blank=True,
                null=True,
                on_delete=django.db.models.deletion.PROTECT,
                related_name="+",
                to=settings.AUTH_USER_MODEL,
            ),
        ),
        migrations.AddField(
            model_name="familyoff",
            name="shop",
            field=models.ForeignKey(
                on_delete=django.db.models.deletion.PROTECT, related_name="families_off", to="training.shop"
            ),
        ),
        migrations.AddField(
            model_name="paper",
            name="form",
            field=models.OneToOneField(
                on_delete=django.db.models.deletion.PROTECT, related_name="paper", to="assessments.form"
            ),
        ),
        migrations.AddField(
            model_name="paper",
            name="made_by",
            field=models.ForeignKey(
                on_delete=django.db.models.deletion.PROTECT, related_name="+", to=settings.AUTH_USER_MODEL
            ),
        ),
        migrations.AddField(
            model_name="paper",
            name="typed_by",
            field=models.ForeignKey(
                blank=True,
                null=True,
                on_delete=django.db.models.deletion.PROTECT,
                related_name="+",
                to=settings.AUTH_USER_MODEL,
            ),
        ),
        migrations.AddField(
            model_name="paper",
            name="withdrawn_by",
            field=models.ForeignKey(
                blank=True,
                null=True,
                on_delete=django.db.models.deletion.PROTECT,
                related_name="+",
                to=settings.AUTH_USER_MODEL,
            ),
        ),
        migrations.AddConstraint(
            model_name="drawflag",
            constraint=models.CheckConstraint(
                condition=models.Q(("comment", ""), _negated=True), name="draw_flag_has_a_comment"
            ),
        ),
        migrations.AddConstraint(
            model_name="drawflag",
            constraint=models.CheckConstraint(
                condition=models.Q(
                    models.Q(("resolved_at", None), ("resolved_by", None)),
                    models.Q(("resolved_at__isnull", False), ("resolved_by__isnull", False)),
                    _connector="OR",
                ),
                name="draw_flag_resolved_by_someone",
            ),
        ),
        migrations.AddConstraint(
            model_name="drawflag",
            constraint=models.UniqueConstraint(
                condition=models.Q(("resolved_at", None)),
                fields=("shop", "family", "seed", "by"),
                name="draw_flag_open_once_per_person",
            ),
        ),
        migrations.AddConstraint(
            model_name="familyoff",
            constraint=models.CheckConstraint(
                condition=models.Q(("reason", ""), _negated=True), name="family_off_has_a_reason"
            ),
        ),
        migrations.AddConstraint(
            model_name="familyoff",
            constraint=models.CheckConstraint(
                condition=models.Q(
                    models.Q(("ended_at", None), ("ended_by", None)),
                    models.Q(("ended_at__isnull", False), ("ended_by__isnull", False)),
                    _connector="OR",
                ),
                name="family_off_ended_by_someone",
            ),
        ),
        migrations.AddConstraint(
            model_name="familyoff",
            constraint=models.UniqueConstraint(
                condition=models.Q(("ended_at", None)), fields=("shop", "family"), name="family_off_once_at_a_time"
            ),
        ),
        migrations.AddConstraint(
            model_name="paper",
            constraint=models.CheckConstraint(
                condition=models.Q(
                    models.Q(("typed_at", None), ("typed_by", None)),
                    models.Q(("typed_at__isnull", False), ("typed_by__isnull", False)),
                    _connector="OR",
                ),
                name="paper_typed_by_someone",
            ),
        ),
        migrations.AddConstraint(
            model_name="paper",
            constraint=models.CheckConstraint(
                condition=models.Q(
                    models.Q(("withdrawn_at", None), ("withdrawn_because", ""), ("withdrawn_by", None)),
                    models.Q(
                        ("withdrawn_at__isnull", False),
                        ("withdrawn_by__isnull", False),
                        models.Q(("withdrawn_because", ""), _negated=True),
                    ),
                    _connector="OR",
                ),
                name="paper_withdrawn_by_someone_for_a_reason",
            ),
        ),
        *lifted(
            HANDED_IN,
            [
                migrations.RemoveConstraint(
                    model_name="form",
                    name="form_assessment_has_blueprint",
                ),
                migrations.AlterField(
                    model_name="form",
                    name="purpose",
                    field=models.CharField(
                        choices=[
                            ("practice", "Practice"),
                            ("assessment", "Assessment"),
                            ("paper", "Assessment on paper"),
                        ],
                        max_length=12,
                    ),
                ),
                migrations.AddConstraint(
                    model_name="form",
                    constraint=models.CheckConstraint(
                        condition=models.Q(
                            models.Q(("blueprint", None), ("purpose", "practice")),
                            models.Q(("blueprint__isnull", False), ("purpose__in", ["assessment", "paper"])),
                            _connector="OR",
                        ),
                        name="form_assessment_has_blueprint",
                    ),
                ),
            ],
        ),
        *BENCH_AND_PAPERS,
    ]
