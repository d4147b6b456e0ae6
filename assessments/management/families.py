"""What the commands that draw questions have in common: families, counts and editions named on the command line."""

import sys
from typing import NoReturn

from django.core.management.base import BaseCommand

from assessments.questions import UnknownFamily, family, family_names
from training.rulebook import Edition, RulebookError, default_edition, load_edition

_MOST = 1_000_000


class FamilyCommand(BaseCommand):
    """A command over one family or all; it needs no database. What is refused ends it with 2 and one line why."""

    requires_system_checks: tuple[str, ...] = ()
    requires_migrations_checks = False

    def names_of(self, name: str) -> tuple[str, ...]:
        """The families meant by a name or by "all"."""
        if name == "all":
            return family_names()
        try:
            return (family(name).name,)
        except UnknownFamily as problem:
            self.stop(f"{problem}, or all")

    def number_of(self, option: str, text: str) -> int:
        """The whole number given to an option."""
        if not (text.isascii() and text.isdigit() and len(text) < 9 and 1 <= int(text) <= _MOST):
            self.stop(f'{option}: "{text}" is not accepted; give a whole number from 1 to {_MOST}')
        return int(text)

    def edition_of(self, name: str) -> Edition:
        """The edition of this name, the default one without."""
        try:
            return load_edition(name or default_edition())
        except RulebookError as problem:
            self.stop(f"--edition: {problem}")

    def stop(self, problem: str) -> NoReturn:
        """Say what is wrong and end."""
        self.stderr.write(problem, self.style.ERROR)
        sys.exit(2)
