"""What a log of the work is held to besides its limits: the steps it needs, and which come before which."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from fractions import Fraction
from functools import lru_cache

from training.rulebook.audit_critical import Critical, Plausible, read_critical, read_plausible
from training.rulebook.audit_words import STEP_PARAMETERS
from training.rulebook.citations import Cited, Library
from training.rulebook.clauses import KINDS
from training.rulebook.loader import Place, quantity_of
from training.rulebook.measures import MEASURES
from training.rulebook.quantities import Quantity
from training.trade.speech import saying
from training.trade.words import METHODS

_TOP = frozenset({
    "checked_on", "about_within", "exactly_within", "mixed", "once", "cured", "need", "before", "gravest", "critical",
    "plausible", "smaller", "unrepaired",
})  # fmt: skip
_REASON = frozenset({"because", "kind", "cites"})
_NEED = _REASON | {"step", "unless"}
_ONCE = _REASON | {"id", "step", "after"}
_CURED = _REASON | {"id", "step", "found", "by"}
_BEFORE = _REASON | {"id", "first", "then", "methods", "again", "unless"}
_GRAVEST = _REASON | {"id", "first", "then", "methods"}
_MIXED = _REASON | {"methods"}
_NO_LIBRARY = Library()


@dataclass(frozen=True, slots=True)
class Reason:
    """Why a rule of the work stands, and what stands behind it."""

    id: str
    because: str
    kind: str
    source: str
    cited: Cited


@dataclass(frozen=True, slots=True)
class Need:
    """A step that must be there, unless the log states one of these words for a quantity."""

    step: str
    unless: tuple[tuple[str, tuple[str, ...]], ...]
    reason: Reason


@dataclass(frozen=True, slots=True)
class Before:
    """Every step of `first` comes before every step of `then`.

    `again`: once `first` is repeated, `then` must follow it again. It does not hold where the log states one of these
    words for a quantity of `unless`.
    """

    first: tuple[str, ...]
    then: tuple[str, ...]
    methods: tuple[str, ...]
    again: bool
    reason: Reason
    unless: tuple[tuple[str, tuple[str, ...]], ...] = ()


@dataclass(frozen=True, slots=True)
class Gravest:
    """What is the worst of a step that came only after another one, wherever else it stands wrong too."""

    first: tuple[str, ...]
    then: tuple[str, ...]
    methods: tuple[str, ...]
    reason: Reason


@dataclass(frozen=True, slots=True)
class Once:
    """A step that may be repeated only when another one has been done in between."""

    step: str
    after: str
    reason: Reason


@dataclass(frozen=True, slots=True)
class Cured:
    """A result of a step, one of these words for a quantity; no later entry makes it good without the work of `by`."""

    step: str
    quantity: str
    words: tuple[str, ...]
    by: tuple[str, ...]
    reason: Reason


@dataclass(frozen=True, slots=True)
class Mixed:
    """Methods whose steps do not go into one repair."""

    methods: tuple[str, ...]
    reason: Reason


@dataclass(frozen=True, slots=True, eq=False)
class WorkRules:
    """All rules of the work of one edition; read once, so two are the same only where they are one object.

    `about_share` is how far from "about" a value may lie, as a share of it; `exactly_within` the same in a length.
    """

    checked_on: date
    about_share: Fraction
    exactly_within: Quantity
    mixed: Mixed
    once: tuple[Once, ...]
    cured: tuple[Cured, ...]
    needs: Mapping[str, Need]
    before: tuple[Before, ...]
    gravest: tuple[Gravest, ...] = ()
    critical: tuple[Critical, ...] = ()
    plausible: tuple[Plausible, ...] = ()
    smaller: Reason | None = None
    unrepaired: Reason | None = None

    @property
    def cited(self) -> Iterator[Cited]:
        """What stands behind each of them."""
        yield self.mixed.reason.cited
        for rules in (self.once, self.cured, self.needs.values(), self.before, self.gravest):
            yield from (rule.reason.cited for rule in rules)
        yield from (reason.cited for reason in (self.smaller, self.unrepaired) if reason is not None)
        yield from (one.cited for one in self.plausible)

    def order(self, method: str, steps: Sequence[str], said: Mapping[str, str] | None = None) -> "Order":
        """What must precede what among the steps of a method, directly and through other steps.

        `said` are the words a log states for quantities, some of which leave an order free.
        """
        free = frozenset(rule.reason.id for rule in self.before if said and waives(rule.unless, said))
        return _order(self, method, tuple(steps), free)

    def worst_of(self, first: str, then: str, method: str) -> Reason | None:
        """Why it is grave that `first` came only after `then`; None where another reason is graver."""
        return next(
            (one.reason for one in self.gravest if first in one.first and then in one.then and method in one.methods),
            None,
        )


def waives(unless: tuple[tuple[str, tuple[str, ...]], ...], said: Mapping[str, str]) -> bool:
    """Does a log that says this make a rule needless?"""
    return any(said.get(quantity) in words for quantity, words in unless)


@lru_cache(maxsize=64)  # putting it together costs as much as the rest of an audit's look at the order
def _order(rules: WorkRules, method: str, steps: tuple[str, ...], free: frozenset[str]) -> "Order":
    return Order((rule for rule in rules.before if method in rule.methods and rule.reason.id not in free), steps)


class Order:
    """The steps of one method, partly ordered: a step may have several before it, and some are free."""

    def __init__(self, rules: Iterable[Before], steps: tuple[str, ...]) -> None:
        self.steps = steps
        self.direct: dict[tuple[str, str], Before] = {
            (first, then): rule
            for rule in rules
            for first in rule.first
            for then in rule.then
            if first in steps and then in steps
        }
        self.rules: dict[tuple[str, str], Before] = dict(self.direct)
        for middle in steps:
            into = [(first, rule) for (first, then), rule in self.rules.items() if then == middle]
            out = [then for first, then in self.rules if first == middle]
            for first, rule in into:
                for then in out:
                    self.rules.setdefault((first, then), rule)

    def must_precede(self, first: str, then: str) -> bool:
        """Must `first` come before `then`?"""
        return (first, then) in self.rules


def read_work(
    data: Mapping[str, object], orders: Mapping[str, Sequence[str]], file: str, library: Library = _NO_LIBRARY
) -> WorkRules:
    """The rules of the work from an edition's file.

    Raises RulebookError: also for a step without its need, and for an order that the procedure itself breaks.
    """
    place = Place(file)
    place.keys(data, _TOP)
    known = tuple(dict.fromkeys(step for steps in orders.values() for step in steps))
    needs = {need.step: need for need in (_need(table, known, file, library) for table in place.tables(data, "need"))}
    for step in known:
        if step not in needs:
            place.refuse("need", f'step "{step}" of the procedure has none; say why it must be there')
    rules = WorkRules(
        checked_on=place.day(data, "checked_on"),
        about_share=quantity_of(place, "about_within", data.get("about_within"), "percent").value / 100,
        exactly_within=quantity_of(place, "exactly_within", data.get("exactly_within"), "length"),
        mixed=_mixed(data.get("mixed"), file, library),
        once=tuple(_once(table, known, file, library) for table in place.tables(data, "once")),
        cured=tuple(_cured(table, known, file, library) for table in place.tables(data, "cured")),
        needs=needs,
        before=tuple(_before(table, known, file, library) for table in place.tables(data, "before")),
        gravest=tuple(_gravest(table, known, file, library) for table in place.tables(data, "gravest")),
        critical=tuple(read_critical(table, known, file) for table in place.tables(data, "critical")),
        plausible=tuple(read_plausible(table, file, library) for table in place.tables(data, "plausible")),
        smaller=_of_its_own(data, "smaller", "smaller-after-cutting", file, library),
        unrepaired=_of_its_own(data, "unrepaired", "injury-unrepaired", file, library),
    )
    for method, steps in orders.items():
        _agrees(rules.order(method, steps), method, place)
    return rules


def _agrees(order: Order, method: str, place: Place) -> None:
    """The procedure's own order must keep every rule; so the rules hold no circle either."""
    for first, then in order.rules:
        if order.steps.index(first) >= order.steps.index(then):
            rule = order.rules[first, then].reason.id
            place.refuse(
                "before",
                f'"{rule}" puts {first} before {then}; the {method} procedure does not',
            )


def _reason(table: Mapping[str, object], id: str, place: Place, library: Library) -> Reason:
    cited = library.cited(table, place, KINDS)
    return Reason(id, saying(place.text(table, "because")), cited.generally.kind, cited.generally.source, cited)


def _need(table: Mapping[str, object], known: Sequence[str], file: str, library: Library) -> Need:
    step = Place(file, "need").word(table, "step", known)
    place = Place(file, f'need "{step}"')
    place.keys(table, _NEED)
    return Need(step, _said(table, "unless", place, tuple(MEASURES)), _reason(table, f"step-{step}", place, library))


def _said(
    table: Mapping[str, object], field: str, place: Place, known: Sequence[str]
) -> tuple[tuple[str, tuple[str, ...]], ...]:
    """What a log states: quantities, each with some of its words."""
    said = table.get(field, {})
    if not isinstance(said, Mapping):
        place.refuse(field, 'is not accepted; give a table such as {"job.object" = ["gone"]}')
    return tuple(
        (name, place.words(said, place.word({field: name}, field, known), MEASURES[name].words)) for name in said
    )


def _once(table: Mapping[str, object], known: Sequence[str], file: str, library: Library) -> Once:
    id = Place(file, "once").text(table, "id")
    place = Place(file, f'once "{id}"')
    place.keys(table, _ONCE)
    return Once(place.word(table, "step", known), place.word(table, "after", known), _reason(table, id, place, library))


def _cured(table: Mapping[str, object], known: Sequence[str], file: str, library: Library) -> Cured:
    id = Place(file, "cured").text(table, "id")
    place = Place(file, f'cured "{id}"')
    place.keys(table, _CURED)
    step = place.word(table, "step", [name for name in known if name in STEP_PARAMETERS])
    found = _said(table, "found", place, tuple(STEP_PARAMETERS[step].values()))
    if len(found) != 1:
        place.refuse("found", 'is not accepted; give one quantity with its words, such as {"job.leak" = ["leak"]}')
    ((quantity, words),) = found
    return Cured(step, quantity, words, place.words(table, "by", known), _reason(table, id, place, library))


def _before(table: Mapping[str, object], known: Sequence[str], file: str, library: Library) -> Before:
    id = Place(file, "before").text(table, "id")
    place = Place(file, f'before "{id}"')
    place.keys(table, _BEFORE)
    return Before(
        first=place.words(table, "first", known),
        then=place.words(table, "then", known),
        methods=place.words(table, "methods", METHODS, default=METHODS),
        again=place.flag(table, "again"),
        reason=_reason(table, id, place, library),
        unless=_said(table, "unless", place, tuple(MEASURES)),
    )


def _gravest(table: Mapping[str, object], known: Sequence[str], file: str, library: Library) -> Gravest:
    id = Place(file, "gravest").text(table, "id")
    place = Place(file, f'gravest "{id}"')
    place.keys(table, _GRAVEST)
    return Gravest(
        first=place.words(table, "first", known),
        then=place.words(table, "then", known),
        methods=place.words(table, "methods", METHODS, default=METHODS),
        reason=_reason(table, id, place, library),
    )


def _of_its_own(data: Mapping[str, object], name: str, id: str, file: str, library: Library) -> Reason | None:
    """A rule that stands once, or not at all."""
    table = data.get(name)
    if table is None:
        return None
    place = Place(file, name)
    place.keys(place.table(table), _REASON)
    return _reason(place.table(table), id, place, library)


def _mixed(table: object, file: str, library: Library) -> Mixed:
    place = Place(file, "mixed")
    if not isinstance(table, Mapping):
        place.refuse("methods", "missing; give a [mixed] table")
    place.keys(table, _MIXED)
    return Mixed(place.words(table, "methods", METHODS), _reason(table, "one-method", place, library))
