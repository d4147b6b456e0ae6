"""A decision as a page shows it: what decided first, then the rest, the drawings, what is missing, the work to do."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field, replace

from training.drawings import Figure, cross_section, crown_plan
from training.pages.job_card import AFTER_REJECTION, CardsTogether, JobCard, job_card, together
from training.rulebook import (
    Case,
    Decision,
    Edition,
    OnShelf,
    Ruling,
    ToldRuling,
    besides,
    decide,
    in_order,
    is_tire_rejected,
    lacks_injury,
    not_needed,
    to_do,
    words_of,
)
from training.rulebook import told as tell
from training.trade.speech import say, say_many
from training.trade.words import (
    LOOK_FIRST_WORDS,
    LOOK_WORDS,
    VERDICT_WORDS,
    VerdictWords,
    capital,
    uncapital,
)

_LETS_GO = ("accept", "repair")
_OF_TIRE, _BETWEEN = "tire", "+"


@dataclass(frozen=True)
class Drawing:
    """A figure with its caption."""

    caption: str
    figure: Figure


@dataclass(frozen=True)
class Measure:
    """One line of what decided: what was found of it, and what is allowed; `because` where it does not hold."""

    about: str
    found: str
    allowed: str
    because: str
    holds: bool
    subject: str


@dataclass(frozen=True)
class DecidedOf:
    """What decided of one of several injuries, or between them, with its drawings. One of them is shown first."""

    title: str
    measured: tuple[Measure, ...]
    drawings: tuple[Drawing, ...]
    is_first: bool = False

    @property
    def holds(self) -> bool:
        """Whether none of its lines refuses anything."""
        return all(one.holds for one in self.measured)


@dataclass(frozen=True)
class StillOpen:
    """What is still to be looked at in one place, in words, each with the place in a case that states it."""

    where: str
    things: tuple[tuple[str, str], ...]


@dataclass(frozen=True)
class Told:
    """What the page prints of a decision. It is kept with a check as it was on the day."""

    words: VerdictWords
    lines: tuple[ToldRuling, ...]  # of all rulings, in their order
    to_look_at: tuple[StillOpen, ...]
    not_needed: tuple[str, ...]  # not looked at, and decided without
    drawings: tuple[Drawing, ...]
    cards: tuple[JobCard, ...]
    out_of_service: tuple[tuple[str, str], ...]  # (what becomes of a rejected tire, then of a refusal; who says so)
    lacks_injury: bool  # asked of a repair, nothing given to repair: the answer is of the tire around it
    # what to do with it besides looking; None in what was kept before it was told apart from all conditions
    work: tuple[str, ...] | None = field(default=None, kw_only=True)


@dataclass(frozen=True)
class Result(Told):
    """Everything the page prints. `deciding`, `failing` and `holding` together are all rulings worth telling, once."""

    decision: Decision
    deciding: tuple[ToldRuling, ...]
    failing: tuple[ToldRuling, ...]
    holding: tuple[ToldRuling, ...]

    @property
    def to_do(self) -> tuple[str, ...]:
        """What must be done with the tire, besides looking at what was not looked at."""
        return self.decision.other_conditions if self.work is None else self.work

    @property
    def measured(self) -> tuple[Measure, ...]:
        """What decided, each with what was found and its limit: what refuses, else what was measured and holds."""
        pairs = [*zip(self.decision.rulings, self.lines, strict=True)]
        if self.decision.is_open:
            return self._known(pairs)
        if self.decision.verdict in _LETS_GO:
            return self._known(pairs)
        return _measures((one for one in pairs if one[1] in self.deciding), pairs)

    def _known(self, pairs: Sequence[tuple[Ruling, ToldRuling]]) -> tuple[Measure, ...]:
        lines = self._measured_lines()
        return _measures((one for one in pairs if one[1] in lines), pairs)

    def _measured_lines(self) -> tuple[ToldRuling, ...]:
        """What was measured and holds: of injuries and repairs, or of the tire where it has none."""
        pairs = [*zip(self.decision.rulings, self.lines, strict=True)]
        held = [one for one in pairs if one[1] in self.holding and not one[1].is_finding]
        of_injuries = [line for ruling, line in held if ruling.subject != _OF_TIRE]
        return tuple(of_injuries or [line for _, line in held if _has_digit(line.allowed)])

    @property
    def by_injury(self) -> tuple[DecidedOf, ...]:
        """What decided, injury by injury and then between them; empty where there is no more than one."""
        subjects = sorted({one.subject for one in self.decision.rulings} - {_OF_TIRE})
        injuries = [one for one in subjects if _BETWEEN not in one]
        if len(injuries) <= 1:
            return ()
        left = list(self.drawings)
        parts = []
        for injury in injuries:
            drawn = tuple(one for one in left if one.caption == _caption(injury))
            left = [one for one in left if one not in drawn]
            title = say("Injury {subject}", subject=injury)
            lines = (one for one in self.measured if one.subject == injury)
            told = tuple(replace(one, about=capital(one.about.removeprefix(f"{title}, "))) for one in lines)
            parts.append(DecidedOf(title, told, drawn))
        between = tuple(one for one in self.measured if _BETWEEN in one.subject)
        parts.append(DecidedOf(say("Between them"), between, tuple(left)))
        parts = [one for one in parts if one.measured or one.drawings]
        first = next((one for one in parts if not one.holds), parts[0] if parts else None)
        return tuple(replace(one, is_first=one is first) for one in parts)

    @property
    def measured_of_tire(self) -> tuple[Measure, ...]:
        """What decided of the tire itself."""
        return tuple(one for one in self.measured if one.subject == _OF_TIRE)

    @property
    def cards_on_screen(self) -> tuple[CardsTogether, ...]:
        """The job cards, those of the same work together."""
        return together(self.cards)

    @property
    def cards_apart(self) -> tuple[CardsTogether, ...]:
        """Each job card alone, as it is printed."""
        return tuple(CardsTogether((card,)) for card in self.cards)

    @property
    def names_in_order(self) -> tuple[str, ...]:
        """What was checked and is in order, by name."""
        pairs = [*zip(self.decision.rulings, self.lines, strict=True)]
        return tuple(line.about for line in _measures((one for one in pairs if one[1] in self.holding), pairs))

    @property
    def in_order_by_source(self) -> tuple[tuple[str, tuple[ToldRuling, ...]], ...]:
        """What was measured and is in order, under who says so."""
        by_source: dict[str, tuple[ToldRuling, ...]] = {}
        for line in self._measured_lines():
            by_source[line.source] = (*by_source.get(line.source, ()), line)
        return tuple(by_source.items())

    @property
    def is_refused(self) -> bool:
        """Whether a tire or a way is refused, so that the number that fails is told from those that hold."""
        return not self.decision.is_open and self.decision.verdict not in _LETS_GO

    @property
    def look_first(self) -> str:
        """Where to look first, as the head of a page on which nothing is decided yet."""
        return str(LOOK_FIRST_WORDS[self.decision.to_look_at[0].where]) if self.decision.to_look_at else self.words.name

    @property
    def open_paths(self) -> tuple[str, ...]:
        """The places in a case that state what is still to be looked at."""
        return tuple(path for look in self.to_look_at for _, path in look.things if path)

    @property
    def open_without_field(self) -> tuple[str, ...]:
        """What is still to be looked at and stands in no case of a tire: what is on the shop's shelf."""
        return tuple(words for look in self.to_look_at for words, path in look.things if path in ("", "shelf"))

    @property
    def if_in_order(self) -> str:
        """How much is still open, and what follows if it is in order."""
        count = sum(len(look.things) for look in self.to_look_at)
        verdict = uncapital(str(VERDICT_WORDS[self.decision.if_nothing_else].name))
        return say_many(
            "One thing is still to be looked at. If it is in order: {verdict}.",
            "{count} things are still to be looked at. If they are in order: {verdict}.",
            count,
            verdict=verdict,
        )

    @property
    def has_house_rules(self) -> bool:
        """Whether the rulebook was a shop's own, stricter one."""
        return "+h" in self.decision.version


def examine(case: Case, *, edition: Edition, prefer: str, units: Sequence[OnShelf] | None = None) -> Result:
    """Decide a case under an edition, with what is on the shop's shelf, and lay the decision out.

    The preferred unit stands first in drawings; what was computed is told in it.
    """
    decision = decide(case, edition=edition, units=units, prefer=prefer)
    told = Told(
        words=words_of(decision, case, edition=edition, units=units),
        lines=tell(decision.rulings, edition),
        to_look_at=tuple(_still_open(decision, edition)),
        not_needed=not_needed(decision, case, edition),
        drawings=tuple(_drawings(case, edition=edition, prefer=prefer, units=units, is_decided=not decision.is_open)),
        cards=tuple(job_card(entry, edition, case.tire.casing, prefer) for entry in decision.plan or ()),
        out_of_service=tuple(_after_rejection(edition)) if is_tire_rejected(decision, edition) else (),
        lacks_injury=lacks_injury(decision, case),
        work=to_do(decision, edition),
    )
    return layout(decision, told)


def layout(decision: Decision, told: Told) -> Result:
    """Sort the rulings of a decision: those that decided, the others that fail, those that hold."""
    pairs = [*zip(decision.rulings, told.lines, strict=True)]
    deciding = decision.deciding
    return Result(
        **vars(told),
        decision=decision,
        deciding=tuple(line for ruling, line in pairs if ruling in deciding),
        failing=besides(decision, told.lines),
        holding=in_order(told.lines),
    )


def _measures(
    chosen: Iterable[tuple[Ruling, ToldRuling]], pairs: Sequence[tuple[Ruling, ToldRuling]]
) -> tuple[Measure, ...]:
    """The lines of a table; whose they are is said where there is more than one."""
    whose = {ruling.subject for ruling, _ in pairs if ruling.subject != _OF_TIRE}
    lines = []
    for ruling, line in chosen:
        about = line.about
        if whose == {ruling.subject}:
            about = capital(about.removeprefix(say("Injury {subject}", subject=ruling.subject) + ", "))
        allowed = say("none allowed") if line.is_finding else line.allowed
        lines.append(Measure(about, line.found, allowed, line.because, line.holds, ruling.subject))
    return tuple(lines)


def _has_digit(text: str) -> bool:
    return any(sign.isdigit() for sign in text)


def _after_rejection(edition: Edition) -> Iterator[tuple[str, str]]:
    for quantity in AFTER_REJECTION:
        for clause in edition.clauses.values():
            if clause.quantity == quantity:
                yield clause.because, clause.source


def _still_open(decision: Decision, edition: Edition) -> Iterator[StillOpen]:
    fields = {fact.words: next(iter(fact.fields), "") for fact in edition.essentials.facts.values()}
    for look in decision.to_look_at:
        yield StillOpen(LOOK_WORDS[look.where], tuple((words, fields.get(words, "")) for words in look.words))


def _caption(injury: str) -> str:
    return say("Injury {id}, the crown in cross-section", id=injury)


def _drawings(
    case: Case, *, edition: Edition, prefer: str, units: Sequence[OnShelf] | None, is_decided: bool
) -> Iterator[Drawing]:
    placed = [injury for injury in case.injuries or () if injury.lateral is not None]
    for injury in placed:
        figure = cross_section(case, injury=injury.id, prefer=prefer, show_liner_exit=True, edition=edition)
        yield Drawing(_caption(injury.id), figure)
    repairs = [repair for repair in case.earlier_repairs or () if repair.lateral is not None]
    if len(placed) + len(repairs) > 1 and any(one.station is not None for one in placed):
        plan = crown_plan(
            case, prefer=prefer, show_units=is_decided, show_outline=is_decided, edition=edition, units=units
        )
        yield Drawing(say("The liner, unrolled"), plan)
