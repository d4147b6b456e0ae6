"""A job card: what to take to the machine, the steps in order, the limits beside them."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from training.rulebook import Edition, PlanEntry, Step, as_drawn, in_unit, parse_quantity, procedure, read_off
from training.trade.lists import all_of, one_of
from training.trade.speech import say
from training.trade.words import METHOD_WORDS

LINES_IN_VIEW = 14  # of a job card on a screen, before the rest is asked for
_BRIEF = 24  # characters of a limit that can stand beside its step
AFTER_REJECTION = ("job.rejected_tire", "job.refusal")  # the customer's statement prints the first alone


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
class CardsTogether:
    """Job cards whose lines are the same, as one card on a screen; on paper each injury has its own."""

    cards: tuple[JobCard, ...]

    @property
    def first(self) -> JobCard:
        """The card whose lines stand for all."""
        return self.cards[0]

    @property
    def title(self) -> str:
        """Whose cards they are, and the work."""
        injuries, method = [card.injury for card in self.cards], self.first.method
        if len(injuries) == 1:
            return say("Job card: injury {injury}, {method}", injury=injuries[0], method=method)
        return say("Job cards: injuries {injuries}, {method}", injuries=all_of(injuries), method=method)


def together(cards: Sequence[JobCard]) -> tuple[CardsTogether, ...]:
    """The cards of the same work together, in the order in which the first of each stands."""
    groups: dict[object, list[JobCard]] = {}
    for card in cards:
        groups.setdefault((card.method, card.lines), []).append(card)
    return tuple(CardsTogether(tuple(group)) for group in groups.values())


def _has_digit(text: str) -> bool:
    return any(sign.isdigit() for sign in text)


def job_card(entry: PlanEntry, edition: Edition, casing: str, prefer: str) -> JobCard:
    """The card of one entry of a plan, lengths in the unit that the shop prefers first."""
    steps = {step.id: step for step in procedure(edition)}
    lines = tuple(_job_line(steps[name], edition, casing) for name in entry.steps)
    return JobCard(entry.injury, METHOD_WORDS[entry.method], tuple(_work_facts(entry, edition, prefer)), lines)


def _job_line(step: Step, edition: Edition, casing: str) -> JobLine:
    clauses = [edition.clause(name) for name in step.clauses]
    # what was judged by eye stands among the rulings; a card for work carries what one holds a gauge or a tool to
    kept = [one for one in clauses if casing in one.casings and (one.is_for_job() or one.strictest.quantity)]
    kept = [one for one in kept if one.quantity not in AFTER_REJECTION]
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
