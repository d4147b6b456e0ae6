"""Prove families of questions over many draws; needs no database. Exit 1 where something does not hold."""

import sys
from argparse import ArgumentParser
from typing import Any

from assessments.management.families import FamilyCommand
from assessments.questions.draws.draft import NoSuchLimit
from assessments.questions.proof.proof import Proof, prove, table


class Command(FamilyCommand):
    """Prove one family or all."""

    help = (
        "Draw a family, or all, many times and check each draw: one right answer by the rulebook, no two options "
        "alike, drawings true to scale; and all together: place and length of the key even, how many questions exist."
    )

    def add_arguments(self, parser: ArgumentParser) -> None:
        parser.add_argument("family", nargs="?", default="all", help="the name of a family, or all (all)")
        parser.add_argument("--draws", default="2000", metavar="N", help="how many draws of each family (2000)")
        parser.add_argument("--seed", default="1", metavar="S", help="any text; the same text, the same draws (1)")
        parser.add_argument("--edition", default="north-america", metavar="E", help="the rulebook (north-america)")

    def handle(self, *args: object, **options: Any) -> None:
        draws, edition = self.number_of("--draws", options["draws"]), self.edition_of(options["edition"])
        names = self.names_of(options["family"])
        proofs: list[Proof] = []
        for name in names:
            try:
                proofs.append(prove(name, draws=draws, seed=options["seed"], edition=edition))
            except NoSuchLimit as problem:
                # With "all", a family that this edition says nothing on is left out, and said so.
                if len(names) == 1:
                    self.stop(str(problem))
                self.stderr.write(f"left out: {problem}")
        if not proofs:
            self.stop(f"nothing could be drawn under edition {edition.name}")
        for line in table(proofs):
            self.stdout.write(line)
        failing = [one.family for one in proofs if not one.holds]
        self.stdout.write(f"{len(proofs) - len(failing)} of {len(proofs)} families hold over {draws:,} draws each")
        if failing:
            sys.exit(1)
