"""Does the suite notice a wrong rulebook? `python -m tests.mutations [--only tests/published] [--edition NAME]
[--every N]`.

Every limit is shifted by one unit in both directions, every comparison is flipped, every clause is deleted: one at a
time, in the loaded edition, after the tests were collected. Each change runs in a process of its own that stops at the
first failure; a change that no test notices is listed. Not part of the tests: it takes minutes.
"""

import argparse
import contextlib
import os
import sys
import time
from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import partial

import pytest
from _pytest.main import pytest_runtestloop

from training.rulebook import Clause, Edition, edition_names, load_edition, parse_quantity
from training.rulebook.clauses import Statement
from training.rulebook.quantities import Quantity

FLIPPED = {
    "at_most": "at_least",
    "at_least": "at_most",
    "below": "above",
    "above": "below",
    "must_be": "must_not_be",
    "must_not_be": "must_be",
}
# the tests that speak of single clauses first: a change is noticed soonest there
ORDER = ("test_clauses", "published", "test_decide", "test_audit", "test_procedure")


@dataclass(frozen=True)
class Change:
    """One wrong rulebook: what is wrong with it, and how to make it so."""

    edition: str
    clause: str
    what: str
    make: Callable[[], None]

    def __str__(self) -> str:
        return f"{self.edition} {self.clause}: {self.what}"


def changes(names: list[str]) -> Iterator[Change]:
    for name in names:
        edition = load_edition(name)
        for clause in edition.clauses.values():
            yield Change(name, clause.id, "deleted", partial(_delete, edition, clause))
            for place, statement in enumerate(clause.statements):
                if statement.bound in FLIPPED:
                    flipped = replace(statement, bound=FLIPPED[statement.bound])
                    yield _restated(edition, clause, place, flipped, f"statement {place + 1} {flipped.bound}")
                for number, limit in enumerate(statement.quantities):
                    for sign in (1, -1):
                        moved = _moved(limit, sign)
                        if moved is None:
                            continue
                        quantities = (*statement.quantities[:number], moved, *statement.quantities[number + 1 :])
                        shifted = replace(statement, quantities=quantities)
                        what = f"statement {place + 1}, {limit.text} becomes {moved.text}"
                        yield _restated(edition, clause, place, shifted, what)
                for number, limit in enumerate(statement.upper):
                    for sign in (1, -1):
                        moved = _moved(limit, sign)
                        if moved is None:
                            continue
                        upper = (*statement.upper[:number], moved, *statement.upper[number + 1 :])
                        what = f"statement {place + 1}, upper end {limit.text} becomes {moved.text}"
                        yield _restated(edition, clause, place, replace(statement, upper=upper), what)


def _moved(limit: Quantity, sign: int) -> Quantity | None:
    """The limit one unit further: 1/32 in, a tenth where tenths are stated, else one whole unit."""
    number = limit.text.removesuffix(limit.unit).strip()
    step = Fraction(1, 32) if limit.unit == "in" else Fraction(1, 10) if "." in number else Fraction(1)
    whole, _, part = number.replace(",", "").rpartition(" ")
    value = (Fraction(whole) if whole else 0) + Fraction(part) + sign * step
    if value <= 0:
        return None
    text = str(value) if limit.unit == "in" or value.denominator == 1 else str(float(value))
    if limit.unit == "in" and value > 1 and value.denominator > 1:
        text = f"{int(value)} {value - int(value)}"
    return parse_quantity(f"{text} {limit.unit}".strip(), limit.dimension)


def _restated(edition: Edition, clause: Clause, place: int, statement: Statement, what: str) -> Change:
    statements = (*clause.statements[:place], statement, *clause.statements[place + 1 :])

    def make() -> None:
        object.__setattr__(clause, "statements", statements)
        for kept in ("strictest", "house", "of_edition"):
            clause.__dict__.pop(kept, None)
        _forget(edition)

    return Change(edition.name, clause.id, what, make)


def _delete(edition: Edition, clause: Clause) -> None:
    object.__setattr__(edition, "clauses", {key: one for key, one in edition.clauses.items() if key != clause.id})
    _forget(edition)


def _forget(edition: Edition) -> None:
    edition.prepared.clear()
    edition.__dict__.pop("_by_quantity", None)


class Mutations:
    """A pytest plugin: collect once, then run the collected tests against each change in a forked process."""

    def __init__(self, names: list[str], jobs: int, every: int) -> None:
        self.names, self.jobs, self.every = names, jobs, every
        self.missed: list[Change] = []
        self.total = 0

    def pytest_collection_modifyitems(self, items: list[pytest.Item]) -> None:
        def rank(item: pytest.Item) -> int:
            return next((place for place, part in enumerate(ORDER) if part in item.nodeid), len(ORDER))

        items.sort(key=rank)

    @pytest.hookimpl(tryfirst=True)
    def pytest_runtestloop(self, session: pytest.Session) -> bool:
        if not self._passes(session):
            sys.exit("the suite fails without any change; mend that first")
        running: dict[int, Change] = {}
        waiting = list(changes(self.names))[:: self.every]
        self.total = len(waiting)
        start = time.monotonic()
        while waiting or running:
            while waiting and len(running) < self.jobs:
                change = waiting.pop(0)
                running[self._start(session, change)] = change
            child, status = os.wait()
            change = running.pop(child)
            if os.waitstatus_to_exitcode(status) == 0:
                self.missed.append(change)
                print(f"missed: {change}", flush=True)
            done = self.total - len(waiting) - len(running)
            if done % 50 == 0:
                print(f"{done} of {self.total} tried, {time.monotonic() - start:.0f} s", flush=True)
        return True

    def _start(self, session: pytest.Session, change: Change | None) -> int:
        child = os.fork()
        if child:
            return child
        with open(os.devnull, "w", encoding="utf-8") as nowhere, contextlib.suppress(BaseException):
            os.dup2(nowhere.fileno(), 1)
            os.dup2(nowhere.fileno(), 2)
            if change is not None:
                change.make()
                session.items.sort(key=lambda item: change.clause not in item.nodeid)  # soonest where it is named
            pytest_runtestloop(session)
        os._exit(1 if session.testsfailed else 0)

    def _passes(self, session: pytest.Session) -> bool:
        _, status = os.waitpid(self._start(session, None), 0)
        return os.waitstatus_to_exitcode(status) == 0


def main() -> None:
    words = argparse.ArgumentParser(prog="python -m tests.mutations")
    words.add_argument("--only", nargs="+", default=["tests/rulebook", "tests/published"], help="the tests to run")
    words.add_argument("--edition", choices=edition_names(), help="one edition instead of all")
    words.add_argument("--jobs", type=int, default=2)
    words.add_argument("--every", type=int, default=1, metavar="N", help="only each Nth change (all of them)")
    given = words.parse_args()
    plugin = Mutations([given.edition] if given.edition else list(edition_names()), given.jobs, given.every)
    pytest.main([*given.only, "-q", "-x", "-p", "no:cacheprovider", "-p", "no:xdist"], plugins=[plugin])
    caught = plugin.total - len(plugin.missed)
    print(f"\n{caught} of {plugin.total} changes caught by {' '.join(given.only)}")


if __name__ == "__main__":
    main()
