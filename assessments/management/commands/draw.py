"""Print drawn items, one a line, as JSON. Needs no database."""

import json
from argparse import ArgumentParser
from collections.abc import Sequence
from pathlib import Path
from typing import Any

from assessments.management.families import FamilyCommand
from assessments.questions import CannotDraw, NoSuchLimit, draw
from training.rulebook import Edition, OnShelf, UnitsError, read_units
from training.trade.speech import LANGUAGES, in_language


class Command(FamilyCommand):
    """Draw items from one family or from all."""

    help = "Print items drawn from a family, or from all, one a line as JSON. The same seed prints the same items."

    def add_arguments(self, parser: ArgumentParser) -> None:
        parser.add_argument("family", help="the name of a family, or all")
        parser.add_argument("--count", default="1", metavar="N", help="how many items of each family (1)")
        parser.add_argument("--seed", default="1", metavar="S", help="any text; the same text, the same items (1)")
        parser.add_argument("--edition", default="", metavar="E", help="the rulebook, else the default one")
        parser.add_argument("--prefer", default="in", metavar="UNIT", help="in or mm: which unit comes first (in)")
        parser.add_argument("--language", choices=LANGUAGES, help="of the items, else that of the rulebook")
        parser.add_argument("--units", metavar="FILE", help="repair units and stems on the shelf, TOML or JSON")

    def handle(self, *args: object, **options: Any) -> None:
        count = self.number_of("--count", options["count"])
        names = self.names_of(options["family"])
        edition = self.edition_of(options["edition"])
        units = self._units(options["units"])
        with in_language(options["language"] or edition.language):
            self._draw(names, count, edition, units, options["seed"], options["prefer"])

    def _draw(
        self,
        names: Sequence[str],
        count: int,
        edition: Edition,
        units: tuple[OnShelf, ...] | None,
        seed: str,
        prefer: str,
    ) -> None:
        drawn = 0
        for name in names:
            try:
                for number in range(1, count + 1):
                    item = draw(name, seed=f"{seed}:{number}", edition=edition, prefer=prefer, units=units)
                    self.stdout.write(json.dumps(item.to_json(), ensure_ascii=False))
                    drawn += 1
            except (CannotDraw, NoSuchLimit) as problem:
                # With "all", a family that this edition says nothing on is left out, and said so.
                if len(names) == 1 or prefer not in ("in", "mm"):
                    self.stop(str(problem))
                self.stderr.write(f"left out: {problem}")
        if not drawn:
            self.stop(f"nothing could be drawn under edition {edition.name}")

    def _units(self, name: str | None) -> tuple[OnShelf, ...] | None:
        if name is None:
            return None
        try:
            return read_units(Path(name))
        except (UnitsError, OSError) as problem:
            self.stop(f"--units: {problem}")
