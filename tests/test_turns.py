"""SQLite's lock of writers is taken in turn: in the order of coming, and by another process before one writes again."""

import threading
import time
from collections.abc import Callable
from functools import partial
from pathlib import Path
from typing import Any

import pytest
from django.db import OperationalError, connection

from training.config.sqlite_in_turn.base import DatabaseWrapper, Turn


def waiting(act: Callable[[], object]) -> threading.Thread:
    """A thread that has come to where it waits."""
    thread = threading.Thread(target=act)
    thread.start()
    time.sleep(0.05)
    return thread


def test_threads_write_in_the_order_in_which_they_came(tmp_path: Path) -> None:
    turn = Turn(str(tmp_path / "db"), 10)
    order: list[int] = []

    def write(number: int) -> None:
        turn.take()
        order.append(number)
        turn.give()

    turn.take()
    threads = [waiting(partial(write, number)) for number in range(6)]
    turn.give()
    for thread in threads:
        thread.join()

    assert order == list(range(6))


def test_another_process_writes_before_the_same_one_again(tmp_path: Path) -> None:
    here, there = Turn(str(tmp_path / "db"), 10), Turn(str(tmp_path / "db"), 10)  # as two processes have them
    order: list[str] = []

    def write(turn: Turn, name: str) -> None:
        turn.take()
        order.append(name)
        turn.give()

    here.take()
    threads = [waiting(partial(write, here, "here")), waiting(partial(write, there, "there"))]
    here.give()
    for thread in threads:
        thread.join()

    assert order == ["there", "here"]


@pytest.mark.parametrize("is_another_process", [False, True])
def test_who_waits_too_long_is_told_what_sqlite_says_and_hinders_nobody(
    tmp_path: Path, is_another_process: bool
) -> None:
    holder = Turn(str(tmp_path / "db"), 0.05)
    late = Turn(str(tmp_path / "db"), 0.05) if is_another_process else holder

    holder.take()
    with pytest.raises(OperationalError, match="database is locked"):
        late.take()
    holder.give()

    late.take()
    late.give()


@pytest.mark.django_db
@pytest.mark.parametrize("end", ["commit", "rollback", "close"])
def test_a_transaction_gives_its_turn_on_however_it_ends(tmp_path: Path, end: str) -> None:
    told: dict[str, Any] = {**connection.settings_dict, "NAME": str(tmp_path / "db"), "OPTIONS": {"timeout": 0.2}}
    told["OPTIONS"]["transaction_mode"] = "IMMEDIATE"
    first, second = (DatabaseWrapper(told, alias) for alias in ("first", "second"))

    first.set_autocommit(False, force_begin_transaction_with_broken_autocommit=True)
    with pytest.raises(OperationalError, match="database is locked"):
        second.set_autocommit(False, force_begin_transaction_with_broken_autocommit=True)
    getattr(first, end)()
    second.set_autocommit(False, force_begin_transaction_with_broken_autocommit=True)

    second.rollback()
    first.close()
    second.close()
