"""A decision as a page shows it: what decided first, then the rest, the drawings, what is missing, the work to do."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field

from training.drawings import Figure, cross_section, crown_plan
from training.rulebook import (
    Case,
    Decision,
    Edition,
    OnShelf,
    PlanEntry,
    Step,
    ToldRuling,
    as_drawn,
    besides,
    decide,
    in_order,
    is_tire_rejected,
    lacks_injury,
    not_needed,
    procedure,
    to_do,
    words_of,
)
from training.rulebook import told as tell
from training.trade.lists import one_of
from training.trade.speech import say
from training.trade.words import LOOK_WORDS, METHOD_WORDS, VerdictWords


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


@dataclass(frozen=True)
class JobCard:
    """The work on one injury: what to take, then the lines in order."""

    injury: str
    method: str
    facts: tuple[tuple[str, str], ...]
    lines: tuple[JobLine, ...]


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
        cards=tuple(_job_card(entry, edition, case.tire.casing) for entry in decision.plan or ()),
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


def _job_card(entry: PlanEntry, edition: Edition, casing: str) -> JobCard:
    steps = {step.id: step for step in procedure(edition)}
    lines = tuple(_job_line(steps[name], edition, casing) for name in entry.steps)
    return JobCard(entry.injury, METHOD_WORDS[entry.method], tuple(_work_facts(entry, edition)), lines)


def _job_line(step: Step, edition: Edition, casing: str) -> JobLine:
    clauses = [edition.clause(name) for name in step.clauses]
    # what was judged by eye stands among the rulings; a card for work carries what one holds a gauge or a tool to
    kept = [one for one in clauses if casing in one.casings and (one.is_for_job() or one.strictest.quantity)]
    kept = [one for one in kept if one.quantity not in _AFTER_REJECTION]
    return JobLine(step.title, step.instruction, tuple((one.title, one.printed_limit()) for one in kept))


def _work_facts(entry: PlanEntry, edition: Edition) -> Iterator[tuple[str, str]]:
    others = [name for name in entry.methods_allowed if name != entry.method]
    if others:
        yield say("Also allowed"), one_of(METHOD_WORDS[name] for name in others)
    if entry.unit and entry.buff:
        unit, outline = entry.unit, {side: as_drawn(length) for side, length in entry.buff.items()}
        for label, sides in ((say("Unit, arrows to the beads"), unit), (say("Outline to buff"), outline)):
            value = say(
                "{sides} toward the beads, {sides2} around the tire", sides=sides["length"], sides2=sides["width"]
            )
            yield label, value
    if entry.stem:
        yield "Stem", say("{stem}, for holes of {stem2}", stem=entry.stem["name"], stem2=entry.stem["fills"])
