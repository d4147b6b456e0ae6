"""`manage.py migrate` as Django has it, of every database, and without a look at the guards it makes itself at last."""

from typing import Any

from django.core.management.base import BaseCommand, CommandError, CommandParser
from django.core.management.commands import migrate
from django.db import connections

from training.config.known_migrations import UnknownMigrations, refuse_unknown_migrations


class Command(migrate.Command):
    """Migrates the store of visitors too, unless one database is named.

    Django's check of the database before a migration would ask for the guards of the code that is coming.
    """

    def get_check_kwargs(self, options: dict[str, Any]) -> Any:
        return BaseCommand.get_check_kwargs(self, options)

    def add_arguments(self, parser: CommandParser) -> None:
        super().add_arguments(parser)
        parser.set_defaults(database="")

    def handle(self, *args: Any, **options: Any) -> None:
        for alias in [options["database"]] if options["database"] else connections:
            try:
                refuse_unknown_migrations(alias)
            except UnknownMigrations as refusal:
                raise CommandError(str(refusal)) from None
            super().handle(*args, **{**options, "database": alias})
