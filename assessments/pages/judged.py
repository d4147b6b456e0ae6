"""The lines of a list of tires, each asked whether it may be repaired: what an explanation lines up at one ruler."""

from collections.abc import Callable, Collection, Mapping, Sequence
from dataclasses import dataclass

from assessments.pages.worked import case_of
from assessments.questions import Decided, Item, Line, Option
from training.drawings import Strips
from training.rulebook import Case, Edition

_LEAST = 2  # lines; one alone is compared with nothing
_RELEASED = ("repair",)


@dataclass(frozen=True)
class Judged:
    """One line: what the rulebook says of it, whether it is past the limit of the ruler, and at the place that a ring
    goes round; one reason with its number."""

    option: Option
    line: Line
    is_past: bool
    is_past_in_ring: bool
    reason: str


@dataclass(frozen=True)
class Lineup:
    """The lines in their order. `draw` makes their strips, given the places that get the crayon ring; `told` says on
    which side lines lie, given the letters of those past the limit and of those within it."""

    lines: tuple[Judged, ...]
    draw: Callable[[Collection[int]], Strips]
    told: Callable[[Sequence[str], Sequence[str]], str]


def tires_of(item: Item, edition: Edition, lines: Mapping[str, Line]) -> list[tuple[Option, Case, Line]] | None:
    """Each line with its tire, which apart from its injuries is the same for all; None for a list of anything else.

    `lines`: what the rulebook says of each option.
    """
    if item.format != "several" or len(item.options) < _LEAST:
        return None
    found: list[tuple[Option, Case, Line]] = []
    for option in item.options:
        claim, line = option.claim, lines.get(option.id)
        if not isinstance(claim, Decided) or not claim.case or line is None or claim.verdicts != _RELEASED:
            return None
        case = case_of(item, claim.case, edition)
        if case is None or (found and case.tire != found[0][1].tire):
            return None
        found.append((option, case, line))
    return found
