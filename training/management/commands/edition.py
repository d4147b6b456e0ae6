"""Rulebooks at the command line: which there are, what changed between two, and what nobody has read yet."""

import sys
from argparse import ArgumentParser

from django.core.management.base import BaseCommand

from training.rulebook import (
    Edition,
    RulebookError,
    compare_text,
    edition_names,
    edition_versions,
    from_memory,
    load_edition,
)

_NOT_AN_EDITION = 2


class Command(BaseCommand):
    """Print rulebooks, their versions and their differences."""

    help = "List the rulebooks, compare two, or list what is marked from memory. Exit 2 for one that does not exist."
    requires_system_checks: tuple[str, ...] = ()
    requires_migrations_checks = False

    def add_arguments(self, parser: ArgumentParser) -> None:
        tasks = parser.add_subparsers(dest="task", required=True)
        tasks.add_parser("list", help="every edition with its versions and the day each comes into force")
        difference = tasks.add_parser("diff", help="what changed from one to another, in words")
        for name in ("before", "after"):
            difference.add_argument(name, help="an edition, or one of its versions: NAME@VERSION")
        memory = tasks.add_parser("memory", help="every value that was not read in the text of its source")
        memory.add_argument("name", help="an edition, or one of its versions")

    def handle(self, *args: object, **options: object) -> None:
        if options["task"] == "list":
            for name in edition_names():
                try:
                    versions = edition_versions(name)
                except RulebookError as problem:
                    self.stderr.write(str(problem), self.style.ERROR)
                    continue
                for one in versions:
                    self.stdout.write(
                        f"{name}@{one.version}\t{one.title}\tin force from {one.in_force_from.isoformat()}"
                        f"\t{len(one.clauses)} clauses"
                    )
        elif options["task"] == "diff":
            self.stdout.write(compare_text(self._edition(options["before"]), self._edition(options["after"])))
        else:
            for value in from_memory(self._edition(options["name"])):
                self.stdout.write(f"{value.where}\t{value.title}\t{value.value}\t{value.source}")

    def _edition(self, given: object) -> Edition:
        name, _, version = str(given).partition("@")
        try:
            return load_edition(name, version=version or None)
        except RulebookError as refused:
            self.stderr.write(str(refused), self.style.ERROR)
            sys.exit(_NOT_AN_EDITION)
