"""Writes a verified copy of the database and the secret into a new folder."""

from pathlib import Path
from typing import Any

from django.conf import settings
from django.core.management.base import BaseCommand, CommandError, CommandParser
from django.utils import timezone

from training.management.backup import BackupRefused, back_up


class Command(BaseCommand):
    help = "Writes a copy of the database and the installation's secret into DIR, opens the copy and checks it."
    requires_system_checks = []  # a copy must be possible whatever is wrong with lessons

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("dir", metavar="DIR", type=Path, help="a new or empty folder that only you can read")

    def handle(self, *args: Any, **options: Any) -> None:
        try:
            manifest = back_up(
                database=settings.DATABASES["default"],
                visitors=settings.DATABASES.get("visitors"),
                secret_key=settings.SECRET_KEY,
                target=options["dir"],
                at=timezone.now(),
            )
        except BackupRefused as refusal:
            raise CommandError(str(refusal), returncode=2) from None
        except OSError as problem:
            raise CommandError(f"{options['dir']}: {problem.strerror}", returncode=2) from None
        for name, digest in manifest["files"].items():
            self.stdout.write(f"{digest}  {name}")
        rows = sum(manifest["rows"].values())
        self.stdout.write(f"Copied to {options['dir']}, opened and checked{f': {rows} rows' if rows else ''}.")
