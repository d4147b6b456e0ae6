"""A decision as a page shows it: what decided first, then the rest, the drawings, what is missing, the work to do."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field

from training.drawings import Figure, cross_section, crown_plan
from training.rulebook import (
    Case,
    Decision,
    Edition,
    OnShelf,
    PlanEntry,
    Ruling,
    Step,
    ToldRuling,
    as_drawn,
    besides,
    decide,
    in_order,
    in_unit,
    is_tire_rejected,
    lacks_injury,
    not_needed,
    parse_quantity,
    procedure,
    read_off,
    to_do,
    words_of,
)
from training.rulebook import told as tell
from training.trade.lists import one_of
from training.trade.speech import say, say_many
from training.trade.words import (
    LOOK_FIRST_WORDS,
    LOOK_WORDS,
    METHOD_WORDS,
    VERDICT_WORDS,
    VerdictWords,
    capital,
    uncapital,
)

LINES_IN_VIEW = 14  # of a job card on a screen, before the rest is asked for
_BRIEF = 24  # characters of a limit that can stand beside its step
_LETS_GO = ("accept", "repair")
_OF_TIRE = "tire"


@dataclass(frozen=True)
class Drawing:
    """A figure with its caption."""

    caption: str
    figure: Figure


@dataclass(frozen=True)
class JobLine:
    """One numbered line of a job card, with the limits it carries."""

    title: str
    instruction: str
    limits: tuple[tuple[str, str], ...]  # (what is limited; the limit)

    @property
    def in_short(self) -> str:
        """The first sentence of the instruction."""
        first, end, _ = self.instruction.partition(". ")
        return first + end.strip()

    @property
    def at_margin(self) -> tuple[tuple[str, str], ...]:
        """The limits that stand beside the step on a screen: what is held to a gauge first, the rest is on the card."""
        brief = [one for one in self.limits if len(one[1]) <= _BRIEF and _has_digit(one[1])]
        return tuple(brief[:2] or self.limits[:1])


@dataclass(frozen=True)
class JobCard:
    """The work on one injury: what to take, then the lines in order."""

    injury: str
    method: str
    facts: tuple[tuple[str, str], ...]
    lines: tuple[JobLine, ...]

    @property
    def in_view(self) -> int:
        """How many lines a screen shows before the rest is asked for."""
        return LINES_IN_VIEW

    @property
    def first_folded(self) -> int:
        """The number of the first line that a screen folds; 0 where none is."""
        return LINES_IN_VIEW + 1 if len(self.lines) > LINES_IN_VIEW else 0


@dataclass(frozen=True)
class Measure:
    """One line of what decided: what was found of it, and what is allowed; `because` where it does not hold."""

    about: str
    found: str
    allowed: str
    because: str
    holds: bool


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
        cards=tuple(_job_card(entry, edition, case.tire.casing, prefer) for entry in decision.plan or ()),
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
        lines.append(Measure(about, line.found, allowed, line.because, line.holds))
    return tuple(lines)


def _has_digit(text: str) -> bool:
    return any(sign.isdigit() for sign in text)


_AFTER_REJECTION = ("job.rejected_tire", "job.refusal")  # the customer's statement prints the first alone


def _after_rejection(edition: Edition) -> Iterator[tuple[str, str]]:
    for quantity in _AFTER_REJECTION:
        for clause in edition.clauses.values():
            if clause.quantity == quantity:
                yield clause.because, clause.source


def _still_open(decision: Decision, edition: Edition) -> Iterator[StillOpen]:
    fields = {fact.words: next(iter(fact.fields), "") for fact in edition.essentials.facts.values()}
    for look in decision.to_look_at:
        yield StillOpen(LOOK_WORDS[look.where], tuple((words, fields.get(words, "")) for words in look.words))


def _drawings(
    case: Case, *, edition: Edition, prefer: str, units: Sequence[OnShelf] | None, is_decided: bool
) -> Iterator[Drawing]:
    placed = [injury for injury in case.injuries or () if injury.lateral is not None]
    for injury in placed:
        figure = cross_section(case, injury=injury.id, prefer=prefer, show_liner_exit=True)
        yield Drawing(say("Injury {id}, the crown in cross-section", id=injury.id), figure)
    repairs = [repair for repair in case.earlier_repairs or () if repair.lateral is not None]
    if len(placed) + len(repairs) > 1 and any(one.station is not None for one in placed):
        plan = crown_plan(
            case, prefer=prefer, show_units=is_decided, show_outline=is_decided, edition=edition, units=units
        )
        yield Drawing(say("The liner, unrolled"), plan)


def _job_card(entry: PlanEntry, edition: Edition, casing: str, prefer: str) -> JobCard:
    steps = {step.id: step for step in procedure(edition)}
    lines = tuple(_job_line(steps[name], edition, casing) for name in entry.steps)
    return JobCard(entry.injury, METHOD_WORDS[entry.method], tuple(_work_facts(entry, edition, prefer)), lines)


def _job_line(step: Step, edition: Edition, casing: str) -> JobLine:
    clauses = [edition.clause(name) for name in step.clauses]
    # what was judged by eye stands among the rulings; a card for work carries what one holds a gauge or a tool to
    kept = [one for one in clauses if casing in one.casings and (one.is_for_job() or one.strictest.quantity)]
    kept = [one for one in kept if one.quantity not in _AFTER_REJECTION]
    return JobLine(step.title, step.instruction, tuple((one.title, one.printed_limit()) for one in kept))


def _sides(sides: Mapping[str, object]) -> str:
    """Both sides, that toward the beads first."""
    return say("{toward_the_beads} by {around_the_tire}", toward_the_beads=sides["length"],
               around_the_tire=sides["width"])  # fmt: skip


def _in_unit(length: str, prefer: str) -> str:
    given = parse_quantity(length, "length")
    return length if given.unit == prefer else read_off(in_unit(given, "mm"), prefer).text


def _work_facts(entry: PlanEntry, edition: Edition, prefer: str) -> Iterator[tuple[str, str]]:
    others = [name for name in entry.methods_allowed if name != entry.method]
    if others:
        yield say("Also allowed"), one_of(METHOD_WORDS[name] for name in others)
    if entry.unit and entry.buff:
        unit, outline = entry.unit, {side: as_drawn(length, prefer=prefer) for side, length in entry.buff.items()}
        own = _sides(unit)
        read = _sides({side: _in_unit(str(unit[side]), prefer) for side in ("length", "width")})
        both = own if own == read else say("{in_shop} ({as_named})", in_shop=read, as_named=own)
        yield say("Unit, to the beads"), both
        yield say("Outline to buff"), _sides(outline)
    if entry.stem:
        yield say("Stem"), say("{stem}, for holes of {sizes}", stem=entry.stem["name"], sizes=entry.stem["fills"])
