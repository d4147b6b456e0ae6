"""Print drawn items, one a line, as JSON. Needs no database."""

import json
import sys
from argparse import ArgumentParser
from pathlib import Path
from typing import Any, NoReturn

from django.core.management.base import BaseCommand

from assessments.scenarios import UnknownFamily, draw, family, family_names
from assessments.scenarios.draft import NoSuchLimit
from assessments.scenarios.drawing import CannotDraw
from training.rulebook import Edition, RepairUnit, RulebookError, UnitsError, load_edition, read_units

_MOST = 1_000_000


class Command(BaseCommand):
    """Draw items from one family or from all."""

    help = "Print items drawn from a family, or from all, one a line as JSON. The same seed prints the same items."
    requires_system_checks: tuple[str, ...] = ()
    requires_migrations_checks = False

    def add_arguments(self, parser: ArgumentParser) -> None:
        parser.add_argument("family", help="the name of a family, or all")
        parser.add_argument("--count", default="1", metavar="N", help="how many items of each family (1)")
        parser.add_argument("--seed", default="1", metavar="S", help="any text; the same text, the same items (1)")
        parser.add_argument("--edition", default="north-america", metavar="E", help="the rulebook (north-america)")
        parser.add_argument("--prefer", default="in", metavar="UNIT", help="in or mm: which unit comes first (in)")
        parser.add_argument("--units", metavar="FILE", help="repair units of the shop, TOML or JSON")

    def handle(self, *args: object, **options: Any) -> None:
        count = self._count(options["count"])
        names = self._names(options["family"])
        edition = self._edition(options["edition"])
        units = self._units(options["units"])
        drawn = 0
        for name in names:
            try:
                for number in range(1, count + 1):
                    item = draw(
                        name, seed=f"{options['seed']}:{number}", edition=edition, prefer=options["prefer"], units=units
                    )
                    self.stdout.write(json.dumps(item.to_json(), ensure_ascii=False))
                    drawn += 1
            except (CannotDraw, NoSuchLimit) as problem:
                # With "all", a family that this edition says nothing on is left out, and said so.
                if len(names) == 1 or options["prefer"] not in ("in", "mm"):
                    self._stop(str(problem))
                self.stderr.write(f"left out: {problem}")
        if not drawn:
            self._stop(f"nothing could be drawn under edition {edition.name}")

    def _names(self, name: str) -> tuple[str, ...]:
        if name == "all":
            return family_names()
        try:
            return (family(name).name,)
        except UnknownFamily as problem:
            self._stop(f"{problem}, or all")

    def _count(self, text: str) -> int:
        if not (text.isascii() and text.isdigit() and len(text) < 9 and 1 <= int(text) <= _MOST):
            self._stop(f'--count: "{text}" is not accepted; give a whole number from 1 to {_MOST}')
        return int(text)

    def _edition(self, name: str) -> Edition:
        try:
            return load_edition(name)
        except RulebookError as problem:
            self._stop(f"--edition: {problem}")

    def _units(self, name: str | None) -> tuple[RepairUnit, ...] | None:
        if name is None:
            return None
        try:
            return read_units(Path(name))
        except (UnitsError, OSError) as problem:
            self._stop(f"--units: {problem}")

    def _stop(self, problem: str) -> NoReturn:
        self.stderr.write(problem, self.style.ERROR)
        sys.exit(2)
