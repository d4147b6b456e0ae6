"""The training app."""

from typing import Any

from django.apps import AppConfig
from django.core.checks import CheckMessage, Tags, register
from django.core.management import call_command
from django.db.models.signals import post_migrate, pre_migrate

from training import guards


class TrainingConfig(AppConfig):
    name = "training"

    def ready(self) -> None:
        register(_lessons_fit_the_rulebook, "training")
        register(guards.check_guards, Tags.database)
        # with this app as the sender they run once, before the first and after the last migration of all apps
        pre_migrate.connect(guards.drop_guards, sender=self)
        post_migrate.connect(guards.make_guards, sender=self)
        post_migrate.connect(_make_the_cache_table, sender=self)


def _lessons_fit_the_rulebook(**kwargs: object) -> list[CheckMessage]:
    from training.config.system_checks import (
        lessons_fit_the_rulebook,  # the course is read when the check runs, not at every start
    )

    return lessons_fit_the_rulebook()


def _make_the_cache_table(*, using: str, **kwargs: Any) -> None:
    # login limits hold across processes without another service because the cache is a table
    call_command("createcachetable", database=using, verbosity=0)
