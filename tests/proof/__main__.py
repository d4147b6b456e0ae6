"""Prove families of questions over many draws: `python -m tests.proof all --draws 2000`. Exit 1 where one fails.

`python -m tests.proof tags --draws 2000` holds what their options say of people to what these would answer.
"""

import argparse
import sys

from assessments.questions import UnknownFamily, family, family_names
from assessments.questions.drafts.rules import NoSuchLimit
from tests.proof import tags
from tests.proof.proof import Proof, prove, table
from training.rulebook import Edition, RulebookError, load_edition
from training.trade.speech import LANGUAGES, in_language


def families_of(text: str) -> tuple[str, ...]:
    """The families meant by a name or by "all"."""
    try:
        return family_names() if text == "all" else (family(text).name,)
    except UnknownFamily as problem:
        raise argparse.ArgumentTypeError(f"{problem}, or all") from None


def count_of(text: str) -> int:
    if not (text.isascii() and text.isdigit() and int(text) >= 1):
        raise argparse.ArgumentTypeError(f'"{text}" is not accepted; give a whole number from 1')
    return int(text)


def edition_of(text: str) -> Edition:
    try:
        return load_edition(text)
    except RulebookError as problem:
        raise argparse.ArgumentTypeError(str(problem)) from None


def main(arguments: list[str] | None = None) -> int:
    """Draw, check, print the table; 0 where every family holds."""
    given = list(sys.argv[1:] if arguments is None else arguments)
    wants_tags = given[:1] == ["tags"]
    reader = argparse.ArgumentParser(prog="python -m tests.proof", description=__doc__)
    reader.add_argument("families", nargs="?", type=families_of, default="all", help="a family, or all (all)")
    reader.add_argument("--draws", type=count_of, default="2000", metavar="N", help="draws of each family (2000)")
    reader.add_argument("--seed", default="1", metavar="S", help="any text; the same text, the same draws (1)")
    reader.add_argument("--edition", type=edition_of, default="north-america", metavar="E", help="(north-america)")
    reader.add_argument("--language", choices=LANGUAGES, help="of the questions, else that of the edition")
    asked = reader.parse_args(given[1:] if wants_tags else given)
    if wants_tags:
        return tags.main(asked)
    proofs: list[Proof] = []
    with in_language(asked.language or asked.edition.language):
        for name in asked.families:
            try:
                proofs.append(prove(name, draws=asked.draws, seed=asked.seed, edition=asked.edition))
            except NoSuchLimit as problem:  # the edition says nothing on what this family asks
                print(f"left out: {problem}", file=sys.stderr)
    for line in table(proofs):
        print(line)
    failing = [one.family for one in proofs if not one.holds]
    print(f"{len(proofs) - len(failing)} of {len(proofs)} families hold over {asked.draws:,} draws each")
    return 1 if failing or not proofs else 0


if __name__ == "__main__":
    sys.exit(main())
