"""The scopes a shop works in, with who turned them on and off; once chosen, one of them always stays on."""

import django.db.models.deletion
from django.conf import settings
from django.db import migrations, models

from training.keeping import Refuse

MESSAGE = "kept: a scope is turned off once, never deleted, and the last one stays on"
_IS_LAST = (
    "NOT EXISTS (SELECT 1 FROM training_shopscope o"
    " WHERE o.shop_id = OLD.shop_id AND o.id <> OLD.id AND o.ended_at IS NULL)"
)


class Migration(migrations.Migration):
    dependencies = [
        ("training", "0004_keep_checks"),
    ]

    operations = [
        migrations.AddField(
            model_name="shop",
            name="scopes",
            field=models.JSONField(blank=True, default=list),
        ),
        migrations.CreateModel(
            name="ShopScope",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("scope", models.SlugField(max_length=60)),
                ("since_at", models.DateTimeField()),
                ("ended_at", models.DateTimeField(blank=True, null=True)),
                (
                    "by",
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
                        on_delete=django.db.models.deletion.PROTECT, related_name="scope_choices", to="training.shop"
                    ),
                ),
            ],
            options={
                "constraints": [
                    models.UniqueConstraint(
                        condition=models.Q(("ended_at", None)), fields=("shop", "scope"), name="shop_scope_on_once"
                    ),
                    models.CheckConstraint(
                        condition=models.Q(("scope", ""), _negated=True), name="shop_scope_is_named"
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            models.Q(("ended_at", None), ("ended_by", None)),
                            models.Q(("ended_at__gte", models.F("since_at")), ("ended_by__isnull", False)),
                            _connector="OR",
                        ),
                        name="shop_scope_ended_later_by_someone",
                    ),
                ],
            },
        ),
        Refuse("UPDATE", "training_shopscope", when=f"OLD.ended_at IS NOT NULL OR {_IS_LAST}", message=MESSAGE),
        Refuse("DELETE", "training_shopscope", message=MESSAGE),
    ]
