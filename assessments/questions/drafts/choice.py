"""A candidate option: its words, what it claims, and which misconceptions compute it."""

from __future__ import annotations

from collections.abc import Hashable, Iterable, Sequence
from dataclasses import dataclass, field, replace
from fractions import Fraction
from string import ascii_uppercase

from assessments.questions.items.claims import Claim, essence, lets_go
from training.trade.measures import as_read
from training.trade.speech import say


@dataclass(frozen=True, slots=True)
class Choice:
    """A candidate option: its words, what it claims, and the misconceptions that compute it.

    `unsafe`: choosing it lets a tire go that the rulebook stops; by what it claims where it is None. `value` is the
    quantity it states, by which options are ranked. `together`: it takes all of `why` to compute it; else each does
    alone. `ways` says so where neither is true.
    """

    text: str
    why: tuple[str, ...] = ()
    unsafe: bool | None = None
    value: Fraction | None = None
    together: bool = False
    ways: tuple[tuple[str, ...], ...] = ()
    claim: Claim = field(kw_only=True)

    def __post_init__(self) -> None:
        # options are told apart by length as they are read, in the language they are read in
        object.__setattr__(self, "text", as_read(str(self.text)))

    @property
    def routes(self) -> tuple[tuple[str, ...], ...]:
        """The sets of misconceptions of which each computes it."""
        if self.ways or not self.why:
            return self.ways
        return (self.why,) if self.together else tuple((name,) for name in self.why)

    def lets_go(self, key: Choice | None = None) -> bool:
        """Is it unsafe to choose it where the key is another?"""
        return lets_go(self.claim, None if key is None else key.claim) if self.unsafe is None else self.unsafe


def merged(key: Choice, wrong: Iterable[Choice]) -> list[Choice]:
    """The rivals without doubles and without the key, misconceptions of doubles joined."""
    found: dict[Hashable, Choice] = {}
    own = essence(key.claim)
    for choice in wrong:
        same = essence(choice.claim)
        if same == own:
            continue
        seen = found.get(same)
        if seen is not None:
            names, ways = dict.fromkeys(seen.why + choice.why), dict.fromkeys(seen.routes + choice.routes)
            choice = replace(seen, why=tuple(names), ways=tuple(ways))
        found[same] = choice
    return list(found.values())


def lettered(choices: Sequence[Choice]) -> tuple[list[Choice], list[str]]:
    """The letters that stand for these in a list of the stem, and the lines of that list."""
    named = list(zip(ascii_uppercase, choices, strict=False))
    letters = [replace(one, text=name) for name, one in named]
    return letters, [say("{name}: {line}", name=name, line=one.text) for name, one in named]
