"""What is critical and stands nowhere: in the log of the work, or in what was said of the tire."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from training.rulebook.audit_critical import Critical
from training.rulebook.audit_job import LoggedStep
from training.rulebook.audit_limits import Work
from training.rulebook.audit_words import FIRST_COUNTS, LAST_COUNTS
from training.rulebook.case import Case
from training.rulebook.decision import Decision
from training.rulebook.edition import Edition
from training.rulebook.essentials import Fact, looks
from training.rulebook.measures import MEASURES
from training.trade.lists import one_of
from training.trade.speech import say, saying
from training.trade.words import LOOK_WORDS

_TIRE = saying("the tire")
_LOOK_FIRST = "inspect"


@dataclass(frozen=True, slots=True)
class Unstated:
    """One thing that is critical and that nobody wrote down.

    `step` is a step of the work, or "" for what is to be looked at on the tire; `words` say what it is. `injury` is the
    injury it was for, where there are several.
    """

    step: str
    words: str
    injury: str = ""

    @property
    def text(self) -> str:
        """In one line: "remove-damage: speed of the drill with the carbide cutter"."""
        place = self.step or _TIRE
        if self.injury:
            place = say("{step}, injury {injury}", step=place, injury=self.injury)
        return f"{place}: {self.words}"


def unstated_of_work(steps: Sequence[LoggedStep], work: Work) -> Iterator[Unstated]:
    """What the log's lines do not say though it is critical; a line that is missing is a fault, and not asked for."""
    for one in work.rules.critical:
        if work.method not in one.methods or work.case.tire.casing not in one.casings:
            continue
        logged = [step for step in steps if step.name == one.step]
        if not logged:
            continue
        unsaid = [name for name in one.quantities if not _says(logged, name, one.empty)]
        if one.any_one:
            if len(unsaid) == len(one.quantities):
                yield Unstated(one.step, one_of(tuple(map(_words, unsaid))))
        else:
            yield from (Unstated(one.step, _words(name)) for name in unsaid)
        if len(unsaid) < len(one.quantities):
            yield from _beside(one, work)


def _says(logged: Sequence[LoggedStep], name: str, empty: Sequence[str]) -> bool:
    """Does the entry that counts say it? Of a result that is the last one, of the side to begin with the first."""
    if name in FIRST_COUNTS:
        logged = logged[:1]
    elif name in LAST_COUNTS:
        logged = logged[-1:]
    return any(name in step.stated and step.stated[name].word not in empty for step in logged)


def _words(name: str) -> str:
    meaning = MEASURES[name].meaning.rstrip(".")
    return meaning[:1].lower() + meaning[1:]


def _beside(one: Critical, work: Work) -> Iterator[Unstated]:
    facts = work.edition.essentials.facts
    unknown = [facts[id] for id in one.beside if id in facts and not facts[id].is_stated(work.case, None)]
    yield from _to_look_at(unknown)


def unstated_of_tire(decision: Decision, case: Case, edition: Edition) -> Iterator[Unstated]:
    """What nobody looked at on the tire, and what was found and says nothing certain."""
    missing = dict.fromkeys(decision.missing)
    if case.injuries is None:  # the log measures the hole it is about, and says nothing of others
        missing["injuries"] = None
    facts = edition.essentials.facts
    yield from _to_look_at([facts[id] for id in missing if id in facts])
    for id in missing:
        if id not in facts and id in edition.clauses:
            yield Unstated("", _words(edition.clauses[id].quantity))
    for ruling in decision.rulings:
        if not ruling.holds and ruling.consequence == _LOOK_FIRST:
            found = {"found": ruling.found, "limit": ruling.limit}
            if ruling.subject == "tire":
                yield Unstated("", say("look again, found {found}; accepted: {limit}", **found))
            else:
                told = say("look again, {injury}, found {found}; accepted: {limit}", injury=ruling.subject, **found)
                yield Unstated("", told)
    if case.injuries == ():
        yield Unstated("", say("{place}: the injury that was repaired", place=LOOK_WORDS["injury"]))


def unstated_of_conditions(quantities: Sequence[str], edition: Edition) -> Iterator[Unstated]:
    """The facts of the tire and vehicle that say whether a limit is one for this work."""
    yield from _to_look_at([fact for name in quantities for fact in edition.essentials.feeding(name)])


def _to_look_at(facts: Sequence[Fact]) -> Iterator[Unstated]:
    for look in looks(facts):
        yield from (Unstated("", f"{LOOK_WORDS[look.where]}: {words}") for words in look.words)
