"""Decide cases at the command line: one, or a stream of one a line."""

import json
import sys
from argparse import ArgumentParser
from collections.abc import Callable, Iterable
from io import TextIOWrapper
from pathlib import Path
from typing import BinaryIO, NoReturn

from django.core.management.base import BaseCommand
from django.utils import timezone

from training.rulebook import (
    CaseError,
    OnShelf,
    RulebookError,
    UnitsError,
    decide,
    decision_text,
    edition_names,
    from_memory,
    load_edition,
    parse_case,
    read_units,
    vocabulary,
)  # fmt: skip
from training.trade.json_text import NotJson, read_json
from training.trade.speech import LANGUAGES, in_language

_NOT_A_CASE = 2


class Command(BaseCommand):
    """Print what the rulebook decides."""

    help = (
        "Decide a case: read JSON, print the decision. Exit 2, with one line a problem, for input that is not a case."
    )
    requires_system_checks: tuple[str, ...] = ()
    requires_migrations_checks = False

    def add_arguments(self, parser: ArgumentParser) -> None:
        parser.add_argument("case", nargs="?", help="a JSON file, or - for standard input")
        parser.add_argument("--lines", action="store_true", help="one case a line in, one decision a line out")
        parser.add_argument("--text", action="store_true", help="print the decision for people")
        parser.add_argument("--units", metavar="FILE", help="repair units and stems on the shelf, TOML or JSON")
        parser.add_argument("--language", choices=LANGUAGES, help="of the answer, else that of the rulebook")
        parser.add_argument("--vocabulary", action="store_true", help="print every accepted word with its meaning")
        parser.add_argument("--from-memory", action="store_true", help="print every value not yet read in its source")

    def handle(self, *args: object, **options: object) -> None:
        for stream in (sys.stdout, sys.stderr):
            if isinstance(stream, TextIOWrapper):
                stream.reconfigure(errors="backslashreplace")  # an id in another script must not stop the answer
        if options["vocabulary"]:
            self._print_words()
            return
        if options["from_memory"]:
            self._print_unread()
            return
        units = self._units(options["units"])
        name = options["case"]
        if not isinstance(name, str):
            self._stop(["case: missing; give a JSON file, or - for standard input"])
        day = timezone.localdate().isoformat()

        def answer(text: bytes) -> str:
            try:
                data = read_json(text, "case")
            except NotJson as problem:
                raise CaseError((str(problem),)) from None
            if isinstance(data, dict) and data.get("on") is None:
                data["on"] = day
            try:
                case = parse_case(data)
                edition = load_edition(case.edition, on=case.on)
            except RulebookError as problem:
                raise CaseError((str(problem),)) from None
            with in_language(str(options["language"] or edition.language)):
                decision = decide(case, edition=edition, units=units, prefer=edition.units)
                if options["text"]:
                    return decision_text(decision, case, edition=edition, units=units)
                return json.dumps(decision.to_json(), indent=None if options["lines"] else 1)

        if options["lines"]:
            self._stream(name, answer)
        else:
            self._one(name, answer)

    def _one(self, name: str, answer: Callable[[bytes], str]) -> None:
        try:
            source = self._open(name)
            with source:
                text = source.read()
        except OSError as problem:
            self._stop([f"case: {json.dumps(name)} cannot be read: {problem.strerror}"])
        try:
            self.stdout.write(answer(text))
        except CaseError as problem:
            self._stop(problem.problems)

    def _stream(self, name: str, answer: Callable[[bytes], str]) -> None:
        bad = False
        try:
            source = self._open(name)
        except OSError as problem:
            self._stop([f"case: {json.dumps(name)} cannot be read: {problem.strerror}"])
        with source:
            for line in source:
                if not line.strip():
                    continue
                try:
                    self.stdout.write(answer(line))
                except CaseError as problem:
                    bad = True
                    self.stdout.write(json.dumps({"error": list(problem.problems)}))
        if bad:
            sys.exit(_NOT_A_CASE)

    def _open(self, name: str) -> BinaryIO:
        return sys.stdin.buffer if name == "-" else Path(name).open("rb")

    def _units(self, name: object) -> tuple[OnShelf, ...] | None:
        if not isinstance(name, str):
            return None
        try:
            return read_units(Path(name))
        except UnitsError as problem:
            self._stop([str(problem)])

    def _print_words(self) -> None:
        for field, word, meaning in vocabulary():
            self.stdout.write(f"{field}\t{word}\t{meaning}")

    def _print_unread(self) -> None:
        for name in edition_names():
            try:
                unread = from_memory(load_edition(name))
            except RulebookError as problem:
                self.stderr.write(str(problem), self.style.ERROR)
                continue
            for one in unread:
                self.stdout.write(f"{name}\t{one.where}\t{one.title}\t{one.value}\t{one.source}")

    def _stop(self, problems: Iterable[str]) -> NoReturn:
        for problem in problems:
            self.stderr.write(problem, self.style.ERROR)
        sys.exit(_NOT_A_CASE)
