"""Bring the catalogues of languages up to what the program says."""

import importlib
import pkgutil
from argparse import ArgumentParser
from typing import Any

from django.core.management.base import BaseCommand, CommandError

from assessments.questions import read_texts
from training.course import modules
from training.management.catalogue import APPS, as_files, catalogue_of, files_of, languages, said
from training.rulebook import edition_names, edition_versions


class Command(BaseCommand):
    """Write the catalogues, or say what they lack."""

    help = "Bring the catalogues of languages up to what the program says; list what has no translation yet."
    requires_migrations_checks = False

    def add_arguments(self, parser: ArgumentParser) -> None:
        parser.add_argument("--check", action="store_true", help="change nothing; exit 1 where a file is behind")

    def handle(self, *args: object, **options: Any) -> None:
        read_all()
        texts = said()
        behind = []
        for tag in languages():
            catalogue = catalogue_of(tag, texts)
            for path, data in zip(files_of(tag), as_files(catalogue), strict=True):
                if not path.exists() or path.read_bytes() != data:
                    behind.append(path.name)
                    if not options["check"]:
                        path.write_bytes(data)
            waiting = [str(one.id) for one in catalogue if one.id and not "".join(one.string or "")]
            self.stdout.write(f"{tag}: {len(catalogue)} of {len(texts)} texts read otherwise; {len(waiting)} wait")
            for text in waiting:
                self.stdout.write(f"  {text}")
        if behind and options["check"]:
            raise CommandError(f"{', '.join(behind)}: behind what the program says; run manage.py catalogue")


def read_all() -> None:
    """Read every data file, so that what they say is known."""
    for app in APPS:
        package = importlib.import_module(app)
        for module in pkgutil.walk_packages(package.__path__, f"{app}."):
            if ".migrations" not in module.name and ".settings" not in module.name and "wsgi" not in module.name:
                importlib.import_module(module.name)
    for name in edition_names():
        edition_versions(name)
    modules()
    read_texts()
