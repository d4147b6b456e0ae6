"""SQLite, with its one lock of writers taken in turn.

SQLite lets whoever waits for the lock try again after pauses that grow, so that in a crowd some wait very long. Here
the threads of a process queue, and among processes whoever waits goes before the one that has just written: it holds
the turnstile while it waits. A program that does not know of this, or a statement outside a transaction, still waits as
SQLite has it.
"""

from __future__ import annotations

import fcntl
import os
import threading
import time
from collections import deque
from contextlib import suppress

from django.db.backends.sqlite3 import base
from django.db.utils import OperationalError

POLL_S = 0.0005  # how long the one that is next sleeps before it looks again


class Turn:
    """The turn to write to one database file, among all threads of all processes. Raises OperationalError when late."""

    def __init__(self, path: str, timeout_s: float) -> None:
        self.path, self.timeout_s = path, timeout_s
        self.process = os.getpid()
        self.waiting: deque[threading.Lock] = deque()
        self.guard, self.is_taken = threading.Lock(), False
        self.turnstile, self.turn = _opened(f"{path}-next"), _opened(f"{path}-now")

    def take(self) -> None:
        """Wait for the turn."""
        deadline = time.monotonic() + self.timeout_s
        self._queue(deadline)
        try:
            self._lock(self.turnstile, deadline)
            try:
                self._lock(self.turn, deadline)
            finally:
                fcntl.flock(self.turnstile, fcntl.LOCK_UN)
        except BaseException:
            self._next()
            raise

    def give(self) -> None:
        """Let the next one write."""
        fcntl.flock(self.turn, fcntl.LOCK_UN)
        self._next()

    def _queue(self, deadline: float) -> None:
        with self.guard:
            if not self.is_taken:
                self.is_taken = True
                return
            mine = threading.Lock()
            mine.acquire()
            self.waiting.append(mine)
        if mine.acquire(timeout=max(0.0, deadline - time.monotonic())):
            return
        with self.guard:
            if mine in self.waiting:
                self.waiting.remove(mine)
                raise OperationalError("database is locked")
        # the turn came just now

    def _next(self) -> None:
        with self.guard:
            if self.waiting:
                self.waiting.popleft().release()
            else:
                self.is_taken = False

    @staticmethod
    def _lock(file: int, deadline: float) -> None:
        while True:
            with suppress(BlockingIOError):
                fcntl.flock(file, fcntl.LOCK_EX | fcntl.LOCK_NB)
                return
            if time.monotonic() > deadline:
                raise OperationalError("database is locked")
            time.sleep(POLL_S)


def _opened(path: str) -> int:
    return os.open(path, os.O_CREAT | os.O_RDWR, 0o600)


_turns: dict[str, Turn] = {}
_making = threading.Lock()


def turn_for(path: str, timeout_s: float) -> Turn:
    """The one turn of this process for a database; a process that was forked has its own."""
    with _making:
        known = _turns.get(path)
        if known is None or known.process != os.getpid():
            known = _turns[path] = Turn(path, timeout_s)
        return known


class DatabaseWrapper(base.DatabaseWrapper):
    """Django's own, but that a transaction waits for its turn before it begins, and gives it on when it ends."""

    _turn: Turn | None = None

    def set_autocommit(self, autocommit: bool, force_begin_transaction_with_broken_autocommit: bool = False) -> None:
        if force_begin_transaction_with_broken_autocommit and not autocommit and not self.is_in_memory_db():
            turn = turn_for(str(self.settings_dict["NAME"]), float(self.settings_dict["OPTIONS"].get("timeout", 5)))
            turn.take()
            self._turn = turn
        try:
            super().set_autocommit(autocommit, force_begin_transaction_with_broken_autocommit)
        except BaseException:
            self._give()
            raise

    def commit(self) -> None:
        super().commit()  # where it fails, a rollback follows
        self._give()

    def rollback(self) -> None:
        try:
            super().rollback()
        finally:
            self._give()

    def close(self) -> None:
        try:
            super().close()
        finally:
            self._give()

    def _give(self) -> None:
        if self._turn is not None:
            turn, self._turn = self._turn, None
            turn.give()
