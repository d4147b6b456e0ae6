"""Migrates every database of the site, or the one that is named."""

from typing import Any

from django.core.management.base import CommandParser
from django.core.management.commands import migrate
from django.db import connections


class Command(migrate.Command):
    """Django's own command, for the store of visitors too."""

    def add_arguments(self, parser: CommandParser) -> None:
        super().add_arguments(parser)
        parser.set_defaults(database="")  # both

    def handle(self, *args: Any, **options: Any) -> None:
        for alias in [options["database"]] if options["database"] else connections:
            super().handle(*args, **{**options, "database": alias})
