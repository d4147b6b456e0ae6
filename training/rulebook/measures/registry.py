"""How a quantity is measured: what a reader gets, what it gives back, and the register of all quantities."""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import NamedTuple

from training.rulebook.case import Case, EarlierRepair, Injury
from training.rulebook.case_words import DOUBT
from training.rulebook.geometry import CrownRule, InjuryGeometry, place_injury
from training.rulebook.quantities import Quantity
from training.rulebook.spacing import Spot, injury_spot, repair_spot
from training.rulebook.units import RepairUnit


class Found(NamedTuple):
    """What a measure found. `sense`: "exact", or "at_least"/"at_most" where it is only known to be that much."""

    text: str
    measured: Quantity | None = None
    word: str | None = None
    value: Fraction | float | None = None
    sense: str = "exact"


class Apart(NamedTuple):
    """Two repairs on one liner, as the subject of a spacing rule."""

    first: Injury | EarlierRepair
    second: Injury | EarlierRepair


Reading = Found | None | str
"""None: not examined. NOT_HERE: the question does not arise for this subject."""
NOT_HERE = "not here"


class Facts:
    """A case with what is computed from it only once. `prefer`: computed lengths are told in "mm" or "in"."""

    __slots__ = ("_placed", "case", "crown", "margin_mm", "prefer", "units")

    def __init__(
        self, case: Case, crown: CrownRule | None, units: Sequence[RepairUnit], margin_mm: float, prefer: str = "mm"
    ) -> None:
        self.case, self.crown, self.units, self.margin_mm, self.prefer = case, crown, units, margin_mm, prefer
        self._placed: dict[str, InjuryGeometry] = {}

    def place(self, injury: Injury) -> InjuryGeometry:
        """Geometry of an injury, computed once."""
        placed = self._placed.get(injury.id)
        if placed is None:
            placed = self._placed[injury.id] = place_injury(self.case, injury, self.crown)
        return placed

    def spot(self, repair: Injury | EarlierRepair, basis: str) -> Spot | None:
        """Where the repair of an injury, or an earlier one, sits on the liner."""
        if isinstance(repair, EarlierRepair):
            return repair_spot(self.case, repair, basis, self.margin_mm)
        return injury_spot(self.case, repair, self.place(repair), self.units, basis, self.margin_mm)


Read = Callable[[Facts, object], Reading]


@dataclass(frozen=True, slots=True)
class Measure:
    """A quantity a clause may name. `about`: tire, injury, repair, pair, proposal, doubt or job.

    `misreads`: the quantity that people read wrongly like this; then no clause of an edition may name it. `is_rare`: it
    gives NOT_HERE for an ordinary tire, and then nothing is said of its clauses.
    """

    name: str
    about: str
    dimension: str
    words: tuple[str, ...]
    meaning: str
    read: Read | None
    misreads: str = ""
    is_rare: bool = False


MEASURES: dict[str, Measure] = {}


def measure(
    name: str, about: str, dimension: str = "", words: Iterable[str] = (), *, is_rare: bool = False
) -> Callable[[Callable[..., Reading]], Read]:
    def keep(read: Callable[..., Reading]) -> Read:
        meaning = (read.__doc__ or "").split("\n")[0]
        MEASURES[name] = Measure(name, about, dimension, tuple(words), meaning, read, is_rare=is_rare)
        return read

    return keep


def misreading(name: str, of: str) -> Callable[[Callable[..., Reading]], Read]:
    """A wrong way to read a quantity that is registered before."""

    def keep(read: Callable[..., Reading]) -> Read:
        meaning = (read.__doc__ or "").split("\n")[0]
        MEASURES[name] = replace(MEASURES[of], name=name, meaning=meaning, read=read, misreads=of)
        return read

    return keep


def stated(measured: Quantity | None) -> Found | None:
    return None if measured is None else Found(measured.printed, measured)


def a_word(word: str | None) -> Found | None:
    return None if word is None else Found(word, word=word)


def yes_no(answer: bool | str | None, yes: str, no: str) -> Found | None:
    if answer is None:
        return None
    return a_word("in doubt" if answer == DOUBT else yes if answer else no)
