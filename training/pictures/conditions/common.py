"""What a condition in a picture is: where it is seen, which finding it is, and what is seen, without a name for it."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum


class Degree(StrEnum):
    """How much of a condition there is."""

    SLIGHT = "slight"
    PLAIN = "plain"
    GRAVE = "grave"


@dataclass(frozen=True)
class Condition:
    """A finding that ends the evaluation (as the vocabulary of cases has it, or none) and what is taken for it.

    Of both, sentences that say what is seen, without a name for it; a picture says one of them.
    """

    surface: str
    finding: str | None
    shown: tuple[str, ...]
    look_alike: tuple[str, ...]
    line: str = ""  # the line of the surface that both keep to, wherever it runs: "rib" or "heel"
