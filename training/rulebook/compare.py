"""What changed from one rulebook to another, in words."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace

from training.rulebook.clauses import Clause, Condition, Statement
from training.rulebook.edition import Edition
from training.rulebook.geometry import CrownRule
from training.rulebook.measures import MEASURES
from training.trade.lists import all_of, one_of
from training.trade.quantity_words import CONDITION_WORDS
from training.trade.speech import say
from training.trade.words import (
    CASING_WORDS,
    CASINGS,
    KIND_WORDS,
    METHOD_WORDS,
    PURPOSE_TITLES,
    PURPOSES,
    casings_in_words,
    tires_in_words,
    written,
)

_JURISDICTION = "jurisdiction"


@dataclass(frozen=True, slots=True)
class Change:
    """One thing that differs: what it is about (a clause, a crown, a step) with the id it has in the files, whether it
    came, went or changed, and a line for each difference."""

    about: str
    kind: str  # "new", "gone" or "changed"
    lines: tuple[str, ...]


def compare(before: Edition, after: Edition) -> tuple[Change, ...]:
    """Every difference between two rulebooks: title and units, crown, clauses, steps. Equal ones give none."""
    return (*_heads(before, after), *_crowns(before, after), *_clauses(before, after), *_steps(before, after))


def whose(clause: Clause, edition: Edition) -> str:
    """For which tires and purposes a clause of an edition is, and when, in words."""
    casings = say("All tires") if set(clause.casings) == set(CASINGS) else tires_in_words(clause.casings)
    purposes = () if clause.is_for_job() or set(clause.purposes) == set(PURPOSES) else clause.purposes
    asked = [PURPOSE_TITLES[one] for one in purposes]
    return "; ".join((casings, *asked, *(condition_text(one, edition) for one in clause.when)))


def condition_text(condition: Condition, edition: Edition) -> str:
    """What a condition asks, in words: "axle: front"."""
    name, stated = CONDITION_WORDS[condition.quantity], condition.statement
    wanted = one_of(map(written, condition.words)) if stated is None else stated.text
    if condition.quantity == _JURISDICTION:
        for code, place in sorted(edition.library.places.items(), reverse=True):  # a state's before its country's
            wanted = wanted.replace(code, place)
    return f"{name}: {wanted}{say(', or not stated') if condition.if_unknown == 'applies' else ''}"


def statement_text(clause: Clause, statement: Statement, edition: Edition) -> str:
    """A statement in words: the limit, whose it is, and what follows when it does not hold."""
    places = [edition.library.places.get(code, code) for code in statement.jurisdictions]
    own = f", in {all_of(places)}" if places else ""
    follows = "" if clause.is_for_job() else say("; otherwise {otherwise}", otherwise=statement.otherwise)
    return f"{statement.printed}{own}{follows}"


def _facts(clause: Clause, edition: Edition) -> dict[str, str]:
    """What is said of a clause, by name: two clauses are the same when all of it is."""
    facts = {"title": clause.title, "measures": MEASURES[clause.quantity].meaning}
    for number, one in enumerate(clause.statements, start=1):
        name = "limit" if len(clause.statements) == 1 else say("statement {number}", number=number)
        facts[name] = f"{statement_text(clause, one, edition)} ({KIND_WORDS[one.kind]}: {one.source})"
    facts["usually"] = clause.usually
    facts["for"] = whose(clause, edition)
    facts["where that is not stated"] = {"applies": say("it applies"), "skip": say("it does not apply")}.get(
        clause.if_unknown, ""
    )
    facts["from"] = clause.in_force_from.isoformat() if clause.in_force_from else ""
    facts["because"] = clause.because
    facts["to be done with it"] = clause.condition
    facts["checked on"] = clause.checked_on.isoformat()
    return facts


def _differences(before: Mapping[str, str], after: Mapping[str, str]) -> tuple[str, ...]:
    names = dict.fromkeys((*before, *after))
    return tuple(
        f"{name}: {before.get(name) or 'nothing'} -> {after.get(name) or 'nothing'}"
        for name in names
        if before.get(name, "") != after.get(name, "")
    )


def _changes(before: Mapping[str, Mapping[str, str]], after: Mapping[str, Mapping[str, str]]) -> Iterator[Change]:
    for about in dict.fromkeys((*before, *after)):
        old, new = before.get(about), after.get(about)
        if old is None and new is not None:
            yield Change(about, "new", tuple(f"{name}: {value}" for name, value in new.items() if value))
        elif new is None and old is not None:
            yield Change(about, "gone", tuple(f"{name}: {value}" for name, value in old.items() if value))
        elif old is not None and new is not None and old != new:
            yield Change(about, "changed", _differences(old, new))


def _heads(before: Edition, after: Edition) -> Iterator[Change]:
    def head(edition: Edition) -> dict[str, str]:
        facts = {"title": edition.title, "units": edition.units}
        for casing in CASINGS:
            covered = [PURPOSE_TITLES[word] for word in PURPOSES if (casing, word) in edition.covered]
            facts[f"covers {CASING_WORDS[casing].many}"] = ", ".join(covered)
        return facts

    yield from _changes({"rulebook": head(before)}, {"rulebook": head(after)})


def _crowns(before: Edition, after: Edition) -> Iterator[Change]:
    def crowns(edition: Edition) -> dict[str, dict[str, str]]:
        return {
            say("crown of {many}", many=CASING_WORDS[casing].many): {
                "measured": crown_text(rule),
                "source": f"{KIND_WORDS[rule.kind]}: {rule.source}",
            }
            for casing, rule in edition.crowns.items()
        }

    yield from _changes(crowns(before), crowns(after))


def crown_text(rule: CrownRule) -> str:
    """How the repairable crown is measured, in words.

    >>> crown_text(CrownRule("shoulder", inset_mm=25.4))
    'to 25.4 mm inside the shoulder on each side'
    """
    if rule.basis == "outer-groove":
        return say("to the inner edge of the outermost groove on each side")
    if rule.basis == "shoulder":
        return say("to {inset_mm:g} mm inside the shoulder on each side", inset_mm=rule.inset_mm)
    parts, above = [], 0.0
    for up_to, percent in rule.shares:
        last = (up_to, percent) == rule.shares[-1]
        parts.append(
            say("{percent:g} % over {above:g} mm", percent=percent, above=above)
            if last
            else say("{percent:g} % up to {up_to:g} mm", percent=percent, up_to=up_to)
        )
        above = up_to
    printed = ", ".join(say("{width}: {mark:g} mm", width=width, mark=mark) for width, mark in rule.printed_mm)
    return say("a share of the nominal section width: {parts}", parts=", ".join(parts)) + (
        say("; as printed {printed}", printed=printed) if printed else ""
    )


def _clauses(before: Edition, after: Edition) -> Iterator[Change]:
    def clauses(edition: Edition) -> dict[str, dict[str, str]]:
        return {id: _facts(clause, edition) for id, clause in edition.clauses.items()}

    named = {**before.clauses, **after.clauses}
    for change in _changes(clauses(before), clauses(after)):
        yield replace(change, about=f"{named[change.about].title} ({change.about})")


def _steps(before: Edition, after: Edition) -> Iterator[Change]:
    def steps(edition: Edition) -> dict[str, dict[str, str]]:
        facts = {}
        for step in edition.procedure:
            criteria = {
                say("criterion: {value}", value=one.text): f"{'critical' if one.critical else say('not critical')}"
                f"{say('; only for ') + casings_in_words(one.casings) if one.casings else ''}"
                f" ({KIND_WORDS[one.kind]}: {one.source})"
                for one in step.criteria
            }
            facts[step.id] = {
                "title": step.title,
                "instruction": step.instruction,
                "limits": ", ".join(edition.clauses[id].title for id in step.clauses),
                "tools": ", ".join(step.tools),
                **criteria,
            }
        return facts

    def orders(edition: Edition) -> dict[str, dict[str, str]]:
        titles = {step.id: step.title for step in edition.procedure}
        return {
            say("order of a {method_words}", method_words=METHOD_WORDS[method]): {
                "steps": ", ".join(titles[id] for id in order)
            }
            for method, order in edition.orders.items()
        }

    titles = {step.id: step.title for step in (*before.procedure, *after.procedure)}
    for change in _changes(steps(before), steps(after)):
        yield replace(change, about=f"step: {titles[change.about]} ({change.about})")
    yield from _changes(orders(before), orders(after))


def compare_text(before: Edition, after: Edition) -> str:
    """The differences for a person to read."""
    heads = [
        say(
            "{name} {version}, in force from {isoformat}",
            name=one.name,
            version=one.version,
            isoformat=one.in_force_from.isoformat(),
        )
        for one in (before, after)
    ]
    lines = [say("From {heads}", heads=heads[0]), say("to   {heads}", heads=heads[1])]
    changes = compare(before, after)
    for change in changes:
        lines += ["", f"{change.about}: {change.kind}", *(f"  {line}" for line in change.lines)]
    counts = {kind: sum(change.kind == kind for change in changes) for kind in ("new", "gone", "changed")}
    told = ", ".join(f"{count} {kind}" for kind, count in counts.items() if count)
    return "\n".join([*lines, "", f"{told}." if told else say("Nothing differs.")])
