"""Prove families of questions over many draws; needs no database. Exit 1 where something does not hold."""

import sys
from argparse import ArgumentParser
from typing import Any, NoReturn

from django.core.management.base import BaseCommand

from assessments.scenarios import UnknownFamily, family, family_names
from assessments.scenarios.draft import NoSuchLimit
from assessments.scenarios.proof import Proof, prove, table
from training.rulebook import Edition, RulebookError, load_edition

_MOST = 1_000_000


class Command(BaseCommand):
    """Prove one family or all."""

    help = (
        "Draw a family, or all, many times and check each draw: one right answer by the rulebook, no two options "
        "alike, drawings true to scale; and all together: place and length of the key even, how many questions exist."
    )
    requires_system_checks: tuple[str, ...] = ()
    requires_migrations_checks = False

    def add_arguments(self, parser: ArgumentParser) -> None:
        parser.add_argument("family", nargs="?", default="all", help="the name of a family, or all (all)")
        parser.add_argument("--draws", default="2000", metavar="N", help="how many draws of each family (2000)")
        parser.add_argument("--seed", default="1", metavar="S", help="any text; the same text, the same draws (1)")
        parser.add_argument("--edition", default="north-america", metavar="E", help="the rulebook (north-america)")

    def handle(self, *args: object, **options: Any) -> None:
        draws, edition = self._draws(options["draws"]), self._edition(options["edition"])
        names = self._names(options["family"])
        proofs: list[Proof] = []
        for name in names:
            try:
                proofs.append(prove(name, draws=draws, seed=options["seed"], edition=edition))
            except NoSuchLimit as problem:
                # With "all", a family that this edition says nothing on is left out, and said so.
                if len(names) == 1:
                    self._stop(str(problem))
                self.stderr.write(f"left out: {problem}")
        if not proofs:
            self._stop(f"nothing could be drawn under edition {edition.name}")
        for line in table(proofs):
            self.stdout.write(line)
        failing = [one.family for one in proofs if not one.holds]
        self.stdout.write(f"{len(proofs) - len(failing)} of {len(proofs)} families hold over {draws:,} draws each")
        if failing:
            sys.exit(1)

    def _names(self, name: str) -> tuple[str, ...]:
        if name == "all":
            return family_names()
        try:
            return (family(name).name,)
        except UnknownFamily as problem:
            self._stop(f"{problem}, or all")

    def _draws(self, text: str) -> int:
        if not (text.isascii() and text.isdigit() and len(text) < 9 and 1 <= int(text) <= _MOST):
            self._stop(f'--draws: "{text}" is not accepted; give a whole number from 1 to {_MOST}')
        return int(text)

    def _edition(self, name: str) -> Edition:
        try:
            return load_edition(name)
        except RulebookError as problem:
            self._stop(f"--edition: {problem}")

    def _stop(self, problem: str) -> NoReturn:
        self.stderr.write(problem, self.style.ERROR)
        sys.exit(2)
