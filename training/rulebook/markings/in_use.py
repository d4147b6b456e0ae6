"""Sizes in use: what is molded on tires that exist, with the load index and the speed symbols of each. Pure.

The table stands in data/sizes_in_use.csv. A row is published where a register or a maker's table that was read prints
size and load index with at least one of its symbols; its further symbols are from memory.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache

from training.rulebook.markings.designation import Designation, read_designation
from training.rulebook.markings.tables import rows


@dataclass(frozen=True, slots=True)
class SizeInUse:
    """A size as it is molded, with one load index, "91" or "121/118" for single and dual fitting, and its symbols."""

    size: str
    load_index: str
    speed_symbols: tuple[str, ...]
    status: str
    source: str

    @property
    def is_for_duals(self) -> bool:
        """Does it carry a load index for a tire in a dual pair?"""
        return "/" in self.load_index

    def with_symbol(self, symbol: str) -> Designation:
        """The size with its whole service description.

        >>> SizeInUse("205/55R16", "91", ("H", "V"), "", "").with_symbol("V").text
        '205/55R16 91V'
        """
        return read_designation(f"{self.size} {self.load_index}{symbol}")


@cache
def sizes_in_use() -> Mapping[str, tuple[SizeInUse, ...]]:
    """The sizes by kind, as `Designation.kind` names them; "flotation" and "code" are those written in inches."""
    found: dict[str, list[SizeInUse]] = {}
    for row in rows("sizes_in_use"):
        size = SizeInUse(row["size"], row["load_index"], tuple(row["speed_symbols"]), row["status"], row["source"])
        found.setdefault(row["kind"], []).append(size)
    return {kind: tuple(sizes) for kind, sizes in found.items()}
