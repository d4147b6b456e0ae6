"""What a log must say before it is called sound, and the values that no log can truly say, as an edition lists them."""

from collections.abc import Mapping
from dataclasses import dataclass

from training.rulebook.audit_words import STEP_PARAMETERS
from training.rulebook.citations import Cited, Library
from training.rulebook.clauses import KINDS
from training.rulebook.loader import Place, quantity_of
from training.rulebook.measures import MEASURES
from training.rulebook.quantities import Quantity
from training.trade.speech import say, saying
from training.trade.words import CASINGS, METHODS

_CRITICAL = frozenset({"step", "says", "says_nothing", "any_one", "beside", "methods", "casings", "because"})
_PLAUSIBLE = frozenset({"quantity", "least", "most", "unless", "casings", "because", "kind", "cites"})


@dataclass(frozen=True, slots=True)
class Critical:
    """What one step must state: all of these quantities, or with `any_one` one of them.

    `beside` are facts of the tire without which what is stated says nothing; `empty` are words that say nothing.
    """

    step: str
    quantities: tuple[str, ...]
    empty: tuple[str, ...]
    any_one: bool
    beside: tuple[str, ...]
    methods: tuple[str, ...]
    casings: tuple[str, ...]
    because: str


@dataclass(frozen=True, slots=True)
class Plausible:
    """Between which ends a value of the work can lie at all; `unless` the log states this quantity beside it."""

    id: str
    quantity: str
    least: Quantity
    most: Quantity
    unless: str
    casings: tuple[str, ...]
    because: str
    kind: str
    source: str
    cited: Cited

    def holds(self, measured: Quantity) -> bool:
        """Can the value be true?"""
        if self.least.number < measured.number < self.most.number:
            return True
        return self.least.value <= measured.value <= self.most.value

    @property
    def text(self) -> str:
        """The two ends in words."""
        return say("{least} to {most}", least=self.least, most=self.most)


def read_critical(table: Mapping[str, object], known: tuple[str, ...], file: str) -> Critical:
    """One [[critical]] table. Raises RulebookError."""
    step = Place(file, "critical").word(table, "step", [name for name in known if name in STEP_PARAMETERS])
    place = Place(file, f'critical "{step}"')
    place.keys(table, _CRITICAL)
    keys = STEP_PARAMETERS[step]
    quantities = tuple(keys[name] for name in place.words(table, "says", tuple(keys)))
    words = tuple(word for name in quantities for word in MEASURES[name].words)
    return Critical(
        step,
        quantities,
        place.words(table, "says_nothing", words, default=()),
        place.flag(table, "any_one"),
        place.words(table, "beside", None, default=()),
        place.words(table, "methods", METHODS, default=METHODS),
        place.words(table, "casings", CASINGS, default=CASINGS),
        saying(place.text(table, "because")),
    )


def read_plausible(table: Mapping[str, object], file: str, library: Library) -> Plausible:
    """One [[plausible]] table. Raises RulebookError."""
    stated = tuple(name for parameters in STEP_PARAMETERS.values() for name in parameters.values())
    measured = tuple(name for name in stated if MEASURES[name].dimension)
    quantity = Place(file, "plausible").word(table, "quantity", measured)
    place = Place(file, f'plausible "{quantity}"')
    place.keys(table, _PLAUSIBLE)
    dimension = MEASURES[quantity].dimension
    least, most = (quantity_of(place, name, table.get(name), dimension) for name in ("least", "most"))
    cited = library.cited(table, place, KINDS)
    if least.value >= most.value:
        place.refuse("most", f'"{most}" is not above least, "{least}"')
    return Plausible(
        f"plausible-{quantity.partition('.')[2].replace('_', '-')}",
        quantity,
        least,
        most,
        place.word(table, "unless", stated, default=""),
        place.words(table, "casings", CASINGS, default=CASINGS),
        saying(place.text(table, "because")),
        cited.generally.kind,
        cited.generally.source,
        cited,
    )
