"""What a decision is: the verdict with every ruling it rests on."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from training.trade.records import RECORDS
from training.trade.speech import once_a_language, say, saying
from training.trade.words import LOOK_WORDS

CAUTION = saying("Local law, the tire maker's instructions and the rules of the trade where you work come first.")


@dataclass(frozen=True, slots=True)
class Ruling:
    """One clause applied to one subject. `consequence` is "accept" where the clause holds: nothing follows from it."""

    clause: str
    subject: str
    holds: bool
    found: str
    limit: str
    consequence: str
    because: str
    kind: str
    source: str
    between_statements: bool


@dataclass(frozen=True, slots=True)
class PlanEntry:
    """The plan of work for one injury; texts carry their units."""

    injury: str
    methods_allowed: tuple[str, ...]
    method: str
    unit: dict[str, object] | None
    buff: dict[str, str] | None
    passes_each_way: str | None
    cutter_speed: str | None
    buffer_speed: str | None
    buff_texture: str | None
    stem_stands: str | None
    drying: str | None
    steps: tuple[str, ...]
    stem: dict[str, object] | None = None


@dataclass(frozen=True, slots=True)
class Look:
    """What is still to be looked at in one place, one of PLACES_TO_LOOK, in the trade's words."""

    where: str
    words: tuple[str, ...]


@once_a_language(4096)  # every decision comes by here
def still_to_look_at(where: str, words: tuple[str, ...]) -> str:
    """A look as one sentence."""
    things = "; ".join(map(str, words))
    return say("Still to look at, {place}: {things}.", place=LOOK_WORDS[where], things=things)


@dataclass(frozen=True, slots=True)
class Decision:
    """Verdict, rulings, what was not examined, and the plan where the verdict is to repair.

    `if_nothing_else` is the verdict if all that is unexamined proves in order. `missing` are the facts, by id, without
    which nothing is released; while there are any, the verdict is at least to inspect, and `to_look_at` has them in
    words, the place that costs the least first.
    """

    verdict: str
    edition: str
    version: str
    rulings: tuple[Ruling, ...]
    unexamined: tuple[str, ...]
    provisional: bool
    conditions: tuple[str, ...]
    plan: tuple[PlanEntry, ...] | None
    if_nothing_else: str
    missing: tuple[str, ...] = ()
    to_look_at: tuple[Look, ...] = ()

    @property
    def is_open(self) -> bool:
        """Was nothing decided yet, since something essential was not looked at and nothing found says no already?"""
        return bool(self.missing) and self.verdict != self.if_nothing_else

    @property
    def other_conditions(self) -> tuple[str, ...]:
        """What must be done with it, besides looking at what was not looked at."""
        return self.conditions[: len(self.conditions) - len(self.to_look_at)]  # what is to be looked at comes last

    @property
    def deciding(self) -> tuple[Ruling, ...]:
        """The failing rulings whose consequence is the verdict."""
        return tuple(ruling for ruling in self.rulings if not ruling.holds and ruling.consequence == self.verdict)

    def to_json(self) -> dict[str, Any]:
        """The decision as JSON data."""
        return dict(RECORDS.unstructure(self))

    @classmethod
    def from_json(cls, data: Mapping[str, Any]) -> "Decision":
        """Read back what `to_json` wrote."""
        return RECORDS.structure(data, cls)
