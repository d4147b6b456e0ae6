"""Audit the log of a repair at the command line."""

import json
import sys
from argparse import ArgumentParser
from collections.abc import Iterable
from pathlib import Path
from typing import NoReturn

from django.core.management.base import BaseCommand
from django.utils import timezone

from training.rulebook import (
    JobError,
    RulebookError,
    UnitsError,
    audit,
    audit_text,
    default_edition,
    edition_names,
    job_vocabulary,
    load_edition,
    parse_job,
    read_units,
)  # fmt: skip
from training.trade.json_text import NotJson, read_json
from training.trade.speech import LANGUAGES, in_language

_NOT_A_JOB = 2


class Command(BaseCommand):
    """Print whether a job is sound, and every fault."""

    help = "Audit a job: read JSON, print the faults. Exit 2, with one line a problem, for input that is not a job."
    requires_system_checks: tuple[str, ...] = ()
    requires_migrations_checks = False

    def add_arguments(self, parser: ArgumentParser) -> None:
        parser.add_argument("job", nargs="?", help="a JSON file, or - for standard input")
        parser.add_argument("--text", action="store_true", help="print the audit for people")
        parser.add_argument("--units", metavar="FILE", help="repair units and stems on the shelf, TOML or JSON")
        parser.add_argument("--language", choices=LANGUAGES, help="of the answer, else that of the rulebook")
        parser.add_argument("--vocabulary", action="store_true", help="print every step, parameter and word of a log")
        parser.add_argument("--edition", choices=edition_names(), help="with --vocabulary: whose steps")

    def handle(self, *args: object, **options: object) -> None:
        if options["vocabulary"]:
            try:
                vocabulary = job_vocabulary(load_edition(str(options["edition"] or default_edition())))
            except RulebookError as refused:
                self._stop([str(refused)])
            for field, word, meaning in vocabulary:
                self.stdout.write(f"{field}\t{word}\t{meaning}")
            return
        name = options["job"]
        if not isinstance(name, str):
            self._stop(["job: missing; give a JSON file, or - for standard input"])
        try:
            units = read_units(Path(str(options["units"]))) if options["units"] else None
            job = parse_job(self._read(name))
        except JobError as refused:
            self._stop(refused.problems)
        except (NotJson, RulebookError, UnitsError) as refused:
            self._stop([str(refused)])
        with in_language(str(options["language"] or job.edition.language)):
            answer = audit(job, units=units)
            self.stdout.write(audit_text(answer, job) if options["text"] else json.dumps(answer.to_json(), indent=1))

    def _read(self, name: str) -> object:
        try:
            text = sys.stdin.buffer.read() if name == "-" else Path(name).read_bytes()
        except (OSError, ValueError) as problem:
            what = problem.strerror if isinstance(problem, OSError) else "not a file name"
            self._stop([f"job: {json.dumps(name)} cannot be read: {what}"])
        data = read_json(text, "job")
        case = data.get("case") if isinstance(data, dict) else None
        if isinstance(case, dict) and case.get("on") is None:
            case["on"] = timezone.localdate().isoformat()
        return data

    def _stop(self, problems: Iterable[str]) -> NoReturn:
        for problem in problems:
            self.stderr.write(problem, self.style.ERROR)
        sys.exit(_NOT_A_JOB)
