"""Computing first, then writing: nothing is computed while a writer's lock is held, of which SQLite has one for all."""

from collections.abc import Callable
from typing import TypeVar

from django.db import transaction

TRIES = 4

Basis = TypeVar("Basis")
Work = TypeVar("Work")
Made = TypeVar("Made")


def compute_then_keep(
    *,
    found: Callable[[], Made | None],
    rests_on: Callable[[], Basis],
    compute: Callable[[Basis], Work],
    lock: Callable[[], object],
    keep: Callable[[Work], Made],
    refusal: Exception | None = None,
) -> Made:
    """What is `found` already, else what `keep` stores of what `compute` made, in one short transaction.

    What the computing `rests_on` is read before it and again under the lock; where it has changed, all begins again.
    After TRIES the work is kept as if it had come a moment earlier, or the `refusal` raised if one is given. `found`
    may raise what refuses the act; it is asked before the computing and under the lock.
    """
    for left in reversed(range(TRIES)):
        standing = found()
        if standing is not None:
            return standing
        basis = rests_on()
        work = compute(basis)
        with transaction.atomic():
            lock()
            standing = found()
            if standing is not None:
                return standing
            if rests_on() == basis or (not left and refusal is None):
                return keep(work)
    raise refusal or AssertionError("the last try keeps")
