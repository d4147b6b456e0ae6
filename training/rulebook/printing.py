"""A decision printed for people: the verdict first, then what decides it, what is still to be looked at, the plan."""

from collections.abc import Iterable, Iterator, Sequence

from training.rulebook.case import Case
from training.rulebook.case_words import UNREADABLE
from training.rulebook.decision import CAUTION, Decision, PlanEntry
from training.rulebook.edition import Edition
from training.rulebook.planning import as_drawn
from training.rulebook.registry import load_edition
from training.rulebook.telling import ToldRuling, in_order, told
from training.rulebook.units import OnShelf
from training.rulebook.verdict_telling import besides, not_needed, to_do, words_of
from training.trade.lists import one_of
from training.trade.measures import as_read
from training.trade.speech import say, saying
from training.trade.words import (
    A_METHOD,
    CASING_WORDS,
    LOOK_WORDS,
    PURPOSE_WORDS,
    VERDICT_WORDS,
    capital,
    uncapital,
)

NO_INJURY = saying("No injury was given, so this says nothing about a repair. It is about the tire itself.")


def decision_text(
    decision: Decision, case: Case, *, edition: Edition | None = None, units: Sequence[OnShelf] | None = None
) -> str:
    """The decision for a person to read, by the edition and the repair units that it was made with."""
    if edition is None:
        edition = load_edition(decision.edition, on=case.on)
    rulings = told(decision.rulings, edition)
    deciding = decision.deciding
    lines = [words_of(decision, case, edition=edition, units=units).opening, _tire(case, edition, decision.version)]
    if lacks_injury(decision, case):
        lines.append(NO_INJURY)
    decided = (line for ruling, line in zip(decision.rulings, rulings, strict=True) if ruling in deciding)
    lines += listed(say("What decides:"), map(_ruling, decided))
    lines += listed(say("What to do:"), ([condition] for condition in to_do(decision, edition)))
    lines += _still_to_look_at(decision)
    found_too = say("Also found:") if deciding else say("Found so far:")
    lines += listed(found_too, map(_ruling_with_verdict, besides(decision, rulings)))
    for entry in decision.plan or ():
        lines += _plan(entry, edition)
    held = in_order(rulings)
    lines += listed(say("Checked and in order:"), ([f"{one.about}: {one.found}"] for one in held if not one.is_finding))
    lines += _in_a_line(say("Looked for, and not there"), (one.about for one in held if one.is_finding))
    unseen = (
        say("Not looked at yet")
        if decision.verdict == "inspect"
        else say("Not looked at, and not needed for this answer")
    )
    lines += _in_a_line(unseen, not_needed(decision, case, edition))
    lines.append(CAUTION)
    return "\n".join(map(str, lines))


def _in_a_line(title: str, things: Iterable[str]) -> Iterator[str]:
    listed = "; ".join(map(uncapital, things))
    if listed:
        yield f"{title}: {listed}."


def lacks_injury(decision: Decision, case: Case) -> bool:
    """Was a repair asked for, and no injury given, so that the answer is only about the tire itself?"""
    return case.purpose == "repair" and case.injuries is None and decision.verdict != "reject"


def _tire(case: Case, edition: Edition, version: str) -> str:
    marked = case.tire.designation
    tire = capital(CASING_WORDS[case.tire.casing].one)
    if marked:
        tire = say("{tire}, size not readable", tire=tire) if marked == UNREADABLE else f"{tire}, {marked}"
    return say(
        "{tire}: {question}? Rulebook: {rulebook}, version {version}.",
        tire=tire,
        question=PURPOSE_WORDS[case.purpose],
        rulebook=edition.title,
        version=version,
    )


def _still_to_look_at(decision: Decision) -> Iterator[str]:
    looks = (f"{LOOK_WORDS[look.where]}: {'; '.join(map(str, look.words))}" for look in decision.to_look_at)
    yield from listed(say("Still to look at, the quickest first:"), ([line] for line in looks))
    if decision.is_open:
        yield say(
            "If the rest is in order: {verdict}. Not before.",
            verdict=VERDICT_WORDS[decision.if_nothing_else].name.lower(),
        )


def listed(title: str, entries: Iterable[Sequence[str]]) -> Iterator[str]:
    """A title and its entries, whose further lines stand under the first; nothing without entries."""
    for number, (first, *further) in enumerate(entries):
        if not number:
            yield title
        yield f"  - {first}"
        yield from (f"    {line}" for line in further)


def _ruling(line: ToldRuling) -> list[str]:
    told = [line.sentence, f"{line.because} ({line.source})"]
    disagree = [say("Sources disagree here; another one would decide otherwise.")] if line.between_statements else []
    return [*told, *disagree]


def _ruling_with_verdict(line: ToldRuling) -> list[str]:
    first, *further = _ruling(line)
    if line.consequence == "accept":
        return [first, *further]
    verdict = VERDICT_WORDS[line.consequence].name.lower()
    return [say("{sentence} This alone: {verdict}.", sentence=first, verdict=verdict), *further]


def _plan(entry: PlanEntry, edition: Edition) -> Iterator[str]:
    method, others = (
        A_METHOD[entry.method],
        one_of(A_METHOD[one] for one in entry.methods_allowed if one != entry.method),
    )
    if others:
        yield say("Plan for injury {injury}: {method} ({others} is allowed too)", injury=entry.injury, method=method,
                  others=others)  # fmt: skip
    else:
        yield say("Plan for injury {injury}: {method}", injury=entry.injury, method=method)
    unit, buff = entry.unit, entry.buff
    if unit and buff:
        told = say("Unit: {unit}, {length} toward the beads, {width} around the tire", unit=unit["name"],
                   length=unit["length"], width=unit["width"])  # fmt: skip
        yield f"  {told}"
        outline = say("Outline to buff: {length} by {width}", length=as_drawn(buff["length"]),
                      width=as_drawn(buff["width"]))  # fmt: skip
        yield f"  {outline}"
    if entry.stem:
        stem = say("Stem: {stem}, for holes of {sizes}", stem=entry.stem["name"], sizes=entry.stem["fills"])
        yield f"  {stem}"
    values = {
        say("Cut, each way"): entry.passes_each_way,
        say("Cutter"): entry.cutter_speed,
        say("Buffer"): entry.buffer_speed,
        say("Texture"): entry.buff_texture,
        say("Stem stands"): entry.stem_stands,
        say("Drying"): entry.drying,
    }
    yield from (f"  {name}: {as_read(value)}" for name, value in values.items() if value)
    titles = {step.id: step.title for step in edition.procedure}
    yield from (f"  {number}. {titles[name]}" for number, name in enumerate(entry.steps, start=1))
