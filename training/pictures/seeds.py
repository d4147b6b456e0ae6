"""Numbers made of a seed without numpy: one for each use, so that what one draws shifts nothing else."""

from __future__ import annotations

import hashlib
from random import Random


def number(name: str, seed: int | str, use: str) -> int:
    """A whole number of 64 bits, the same on every machine."""
    return int.from_bytes(hashlib.sha256(f"{name}\n{seed}\n{use}".encode()).digest()[:8], "big")


def draws(name: str, seed: int | str, use: str) -> Random:
    """A generator for this use alone."""
    return Random(number(name, seed, use))  # noqa: S311 -- the same again for the same seed
