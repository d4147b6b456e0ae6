"""`manage.py migrate`, as Django has it, without a look at the guards that it makes itself in the end."""

from typing import Any

from django.core.management.base import BaseCommand
from django.core.management.commands import migrate


class Command(migrate.Command):
    """Django's check of the database before a migration would ask for the guards of the code that is coming."""

    def get_check_kwargs(self, options: dict[str, Any]) -> Any:
        return BaseCommand.get_check_kwargs(self, options)
