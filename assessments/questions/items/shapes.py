"""What an answer can be besides an option or a number: a place on a drawing, a line of a log with its reason.

Lengths in mm on the rulers of a drawing: across from their zero to the right, up from it.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

from training.trade.records import RECORDS
from training.trade.speech import say

_REGION = re.compile(r"across (\S+) to (\S+) mm, up (\S+) to (\S+) mm")
_NEAR = 1e-9  # what adding decimals leaves behind


@dataclass(frozen=True, slots=True)
class Frame:
    """The rulers of a drawing: `left` and `low` are where their zeros lie in the drawing's own units, `width` and
    `height` how far they run."""

    left: float
    low: float
    width: float
    height: float


@dataclass(frozen=True, slots=True)
class Region:
    """A rectangle on a drawing, its edges included."""

    left: float
    right: float
    low: float
    high: float

    def holds(self, across: float, up: float) -> bool:
        """Does a place lie in it?"""
        return self.left - _NEAR <= across <= self.right + _NEAR and self.low - _NEAR <= up <= self.high + _NEAR

    def meets(self, other: Region) -> bool:
        """Do two regions share a place?"""
        return (
            self.left <= other.right and other.left <= self.right and self.low <= other.high and other.low <= self.high
        )

    @property
    def middle(self) -> tuple[float, float]:
        """The place in the middle, to a tenth of a millimeter."""
        return round((self.left + self.right) / 2, 1), round((self.low + self.high) / 2, 1)

    @property
    def text(self) -> str:
        """As data names it and `from_text` reads it, in no language: "across 59 to 65 mm, up 4 to 12 mm"."""
        left, right, low, high = self.edges
        return f"across {left} to {right} mm, up {low} to {high} mm"

    @property
    def words(self) -> str:
        """The same for people."""
        left, right, low, high = self.edges
        return say("across {left} to {right} mm, up {low} to {high} mm", left=left, right=right, low=low, high=high)

    @property
    def edges(self) -> tuple[str, str, str, str]:
        """Its edges as they are read off the rulers: left, right, low, high."""
        return f"{self.left:g}", f"{self.right:g}", f"{self.low:g}", f"{self.high:g}"

    @classmethod
    def from_text(cls, text: str) -> Region:
        """The region that `text` wrote. Raises ValueError."""
        found = _REGION.fullmatch(text)
        if found is None:
            raise ValueError(f'region: "{text}" is not accepted; write "across 59 to 65 mm, up 4 to 12 mm"')
        return cls(*map(float, found.groups()))


RECORDS.register_unstructure_hook(Region, lambda one: {"across": [one.left, one.right], "up": [one.low, one.high]})
RECORDS.register_structure_hook(Region, lambda data, _: Region(*data["across"], *data["up"]))


def region(across: tuple[float, float], up: tuple[float, float]) -> Region:
    """A region with its edges to a tenth of a millimeter."""
    return Region(*(round(float(edge), 1) for edge in (*across, *up)))


@dataclass(frozen=True, slots=True)
class Blame:
    """What is wrong in a log: the ids of the lines one may name for it, and the id of the reason ("" for no fault)."""

    steps: tuple[str, ...]
    reason: str


RECORDS.register_unstructure_hook(Blame, lambda one: {"step": list(one.steps), "reason": one.reason})
RECORDS.register_structure_hook(Blame, lambda data, _: Blame(tuple(data["step"]), data["reason"]))


def blame_text(step: str, reason: str) -> str:
    """A line and a reason as one text, to name an answer by: "4, 2"; "9" where there is no reason."""
    return f"{step}, {reason}" if reason else step


def pair_text(first: str, then: str) -> str:
    """Two steps in an order, to name a mistake by: "3 before 1"."""
    return f"{first} before {then}"
