"""Load index and speed symbol: excerpts of the tables as a stem shows them, and services offered beside a placard's."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from random import Random
from typing import NamedTuple

from training.rulebook.markings import Designation, SpeedLimit, load_capacity_text, speed_limit
from training.trade.speech import say

# The symbols that stand on the tires of road vehicles; those of farm and yard tires are not asked.
SYMBOLS = tuple("FGJKLMNPQRSTUHVWY")
REGULATIONS = "UN Regulation No. 30 / No. 54"
_LINES = 3


class Service(NamedTuple):
    """A load index with a speed symbol, as molded: 91V."""

    load_index: int
    symbol: str

    @property
    def text(self) -> str:
        """As it is molded."""
        return f"{self.load_index}{self.symbol}"


def table_source() -> str:
    """Where the loads of the load indexes stand."""
    return say("{published}, load-capacity index table", published=REGULATIONS)


def speed_source() -> str:
    """Where the speeds of the speed symbols stand."""
    return say("{published}, speed category table", published=REGULATIONS)


def table(rng: Random, indexes: Sequence[int], prefer: str) -> str:
    """Lines of the load index table that hold these indexes and their neighbors: "90: ..., 91: ...", as a sentence."""
    first = min(indexes) - rng.randint(1, _LINES)
    last = max(indexes) + rng.randint(1, _LINES)
    lines = (
        say("{index} is {load}", index=index, load=load_capacity_text(index, prefer=prefer))
        for index in range(first, last + 1)
    )
    return say("From the table of load indexes: {lines}.", lines="; ".join(lines))


def speed_words(km_h: int, mph: int, prefer: str) -> str:
    """A speed someone believes in both units, the preferred one first: "130 mph (210 km/h)"."""
    return f"{mph} mph ({km_h} km/h)" if prefer == "in" else f"{km_h} km/h ({mph} mph)"


def speeds() -> dict[str, SpeedLimit]:
    """What each symbol allows, the slowest first."""
    found = {symbol: speed_limit(symbol) for symbol in SYMBOLS}
    return dict(sorted(found.items(), key=lambda one: one[1].km_h))


def by_alphabet() -> dict[str, SpeedLimit]:
    """What each symbol allows to someone who takes the letters in the order of the alphabet."""
    return dict(zip(sorted(SYMBOLS), speeds().values(), strict=True))


def carries(size: Designation, *, dual: bool) -> Fraction:
    """The greatest load [kg] of one tire, fitted singly or as one of a pair."""
    load = size.load_dual_kg if dual else size.load_single_kg
    if load is None:
        raise LookupError(f"{size.text} has no load index for {'dual' if dual else 'single'} fitting")
    return load
