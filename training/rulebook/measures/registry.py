"""How a quantity is measured: what a reader gets, what it gives back, and the register of all quantities."""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import lru_cache
from typing import Any, NamedTuple

from training.rulebook.case import Case, EarlierRepair, Injury
from training.rulebook.case_words import DOUBT
from training.rulebook.geometry import CrownRule, InjuryGeometry, liner_circumference_mm, place_injury
from training.rulebook.quantities import Quantity
from training.rulebook.spacing import Spot, Taken, injury_spot, largest_unit_mm, repair_spot, units_taken
from training.rulebook.units import OnShelf, RepairUnit
from training.trade.composed import as_written
from training.trade.speech import Saying, saying
from training.trade.words import READ_AS_THEY_STAND


class Found(NamedTuple):
    """What a measure found. `sense`: "exact", or "at_least"/"at_most" where it is only known to be that much."""

    text: str
    measured: Quantity | None = None
    word: str | None = None
    value: Fraction | float | None = None
    sense: str = "exact"


class Apart(NamedTuple):
    """Two repairs on one liner, new or earlier, as the subject of a spacing rule."""

    first: Injury | EarlierRepair
    second: Injury | EarlierRepair


Reading = Found | None | str
"""None: not examined. NOT_HERE: the question does not arise for this subject."""
NOT_HERE = "not here"


class Facts:
    """A case with what is computed from it only once.

    `shelf` is what the shop has to repair with, empty where nobody said; `free_mm` the room that two repairs must leave
    between them, `margin_mm` how far the outline to buff lies beyond a unit. `prefer`: computed lengths are told in
    "mm" or "in". Where several rulebooks are asked about the case, `came_to` keeps what their clauses came to, and
    `read` what was read of the tire; else they are None.
    """

    __slots__ = (
        "_liner", "_placed", "_taken", "came_to", "case", "crown", "free_mm", "margin_mm", "prefer", "read", "shelf",
    )  # fmt: skip

    came_to: dict[tuple[int, object], tuple[object, Any]] | None
    read: dict[str, Any] | None

    def __init__(self, case: Case, crown: CrownRule | None, shelf: Sequence[OnShelf], margin_mm: float,
                 prefer: str = "mm", *, free_mm: float = 0.0) -> None:  # fmt: skip
        self.case, self.crown, self.shelf, self.prefer = case, crown, shelf, prefer
        self.margin_mm, self.free_mm = margin_mm, free_mm
        self._placed: dict[str, InjuryGeometry] = {}
        self._taken: dict[str, Taken] | None = None
        self._liner: tuple[float | None] | None = None
        self.came_to = self.read = None

    def place(self, injury: Injury) -> InjuryGeometry:
        """Geometry of an injury, computed once."""
        placed = self._placed.get(injury.id)
        if placed is None:
            placed = self._placed[injury.id] = place_injury(self.case, injury, self.crown)
        return placed

    @property
    def liner_mm(self) -> float | None:
        """Length of the unrolled liner [mm], computed once."""
        if self._liner is None:
            self._liner = (liner_circumference_mm(self.case),)
        return self._liner[0]

    def taken(self, injury: Injury) -> Taken | None:
        """The unit of the shelf that is taken for an injury, chosen once for all of them."""
        if self._taken is None:
            self._taken = units_taken(self.case, self.place, self.shelf, self.liner_mm, self.free_mm)
        return self._taken.get(injury.id)

    def unit(self, injury: Injury) -> RepairUnit | None:
        """The unit planned for an injury; None where none of the shelf fits."""
        taken = self.taken(injury)
        return None if taken is None or not taken.is_fitting else taken.unit

    def spot(self, repair: Injury | EarlierRepair, basis: str) -> Spot | None:
        """Where the repair of an injury, or an earlier one, sits on the liner."""
        if isinstance(repair, EarlierRepair):
            return repair_spot(self.case, repair, basis, self.margin_mm)
        taken = self.taken(repair) if basis != "holes" else None
        most_mm = largest_unit_mm(self.case) if basis == "most" else None
        return injury_spot(repair, self.place(repair), taken, basis, self.margin_mm, most_mm)


Read = Callable[[Facts, object], Reading]
TOLD_WORDS: dict[str, str] = dict(
    READ_AS_THEY_STAND
)  # by what is compared, what a person reads: those words that measures are given so


@dataclass(frozen=True, slots=True)
class Measure:
    """A quantity a clause may name. `about`: tire, injury, repair, pair, proposal, doubt or job.

    `misreads`: the quantity that people read wrongly like this; then no clause of an edition may name it. `needs`: the
    field of the case ("pressure.sidewall_max"; of an injury or earlier repair its own, "lateral") without which it
    gives NOT_HERE. Such a measure is rare: it has nothing to say of most tires, and then its clauses say nothing.
    """

    name: str
    about: str
    dimension: str
    words: tuple[str, ...]
    meaning: str
    read: Read | None
    misreads: str = ""
    needs: str = ""

    def __post_init__(self) -> None:
        for word in self.words:
            if isinstance(word, Saying):
                TOLD_WORDS[as_written(word)] = word
        object.__setattr__(self, "words", tuple(map(as_written, self.words)))

    @property
    def is_rare(self) -> bool:
        """Has it nothing to say of an ordinary tire?"""
        return bool(self.needs)


MEASURES: dict[str, Measure] = {}


def measure(
    name: str, about: str, dimension: str = "", words: Iterable[str] = (), *, needs: str = ""
) -> Callable[[Callable[..., Reading]], Read]:
    def keep(read: Callable[..., Reading]) -> Read:
        meaning = saying((read.__doc__ or "").split("\n")[0])
        MEASURES[name] = Measure(name, about, dimension, tuple(words), meaning, read, needs=needs)
        return read

    return keep


def misreading(name: str, of: str) -> Callable[[Callable[..., Reading]], Read]:
    """A wrong way to read a quantity that is registered before."""

    def keep(read: Callable[..., Reading]) -> Read:
        meaning = saying((read.__doc__ or "").split("\n")[0])
        MEASURES[name] = replace(MEASURES[of], name=name, meaning=meaning, read=read, misreads=of)
        return read

    return keep


def stated(measured: Quantity | None) -> Found | None:
    return None if measured is None else Found(measured.printed, measured)


@lru_cache(maxsize=1024)
def a_word(word: str | None) -> Found | None:
    return None if word is None else Found(TOLD_WORDS.get(word, word), word=word)


def yes_no(answer: bool | str | None, yes: str, no: str) -> Found | None:
    if answer is None:
        return None
    return a_word("in doubt" if answer == DOUBT else yes if answer else no)
