"""Computing first, then writing: nothing is computed while a writer's lock is held, of which SQLite has one for all.

On PostgreSQL an act locks single rows, with `no_key=True`: whoever adds a row that refers to one need not wait for it.
Two acts that lock the same rows take them in the same order.
"""

from collections.abc import Callable
from typing import TypeVar

from django.db import transaction

TRIES = 4

Basis = TypeVar("Basis")
Work = TypeVar("Work")
Made = TypeVar("Made")


def compute_then_keep(
    *,
    found: Callable[[], Made | None] = lambda: None,
    rests_on: Callable[[], Basis],
    compute: Callable[[Basis], Work],
    lock: Callable[[], object],
    keep: Callable[[Work], Made],
    refusal: Exception,
) -> Made:
    """What is `found` already, else what `keep` stores of what `compute` made, in one short transaction.

    Whatever the finding and the computing `rests_on` is read before them and again under the lock; where it has
    changed, all begins again, and after TRIES the act is refused. `found` and `compute` may refuse too.
    """
    for _ in range(TRIES):
        basis = rests_on()
        standing = found()
        if standing is not None:
            return standing
        work = compute(basis)
        with transaction.atomic():
            lock()
            if rests_on() == basis:
                return keep(work)
    raise refusal
