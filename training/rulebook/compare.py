"""What changed from one rulebook to another, in words."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace

from training.rulebook.clauses import Clause, Condition, Criterion, Statement
from training.rulebook.edition import Edition
from training.rulebook.geometry import CrownRule
from training.rulebook.measures import MEASURES
from training.trade.lists import all_of, either, one_of
from training.trade.quantity_words import CONDITION_WORDS
from training.trade.speech import say, saying
from training.trade.words import (
    A_METHOD,
    CASING_WORDS,
    CASINGS,
    KIND_WORDS,
    PURPOSE_TITLES,
    PURPOSES,
    VERDICT_WORDS,
    casings_in_words,
    tires_in_words,
    written,
)

_JURISDICTION = "jurisdiction"
_KINDS = {"new": saying("new"), "gone": saying("gone"), "changed": saying("changed")}
_COUNTS = {"new": saying("{count} new"), "gone": saying("{count} gone"), "changed": saying("{count} changed")}


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
    return "; ".join(map(str, (casings, *asked, *(condition_text(one, edition) for one in clause.when))))


def condition_text(condition: Condition, edition: Edition) -> str:
    """What a condition asks, in words: "axle: front"."""
    name, stated = CONDITION_WORDS[condition.quantity], condition.statement
    if condition.quantity == _JURISDICTION:
        codes = condition.words if stated is None else stated.words
        places = either(edition.library.places.get(code, code) for code in codes)
        wanted = places if stated is None or stated.bound == "must_be" else say("not {words}", words=places)
    else:
        wanted = one_of(map(written, condition.words)) if stated is None else stated.printed
    asked = f"{name}: {wanted}"
    return say("{condition}, or not stated", condition=asked) if condition.if_unknown == "applies" else asked


def statement_text(clause: Clause, statement: Statement, edition: Edition) -> str:
    """A statement in words: the limit, whose it is, and what follows when it does not hold."""
    places = [edition.library.places.get(code, code) for code in statement.jurisdictions]
    limit = str(statement.printed)
    if places:
        limit = say("{limit}, in {places}", limit=limit, places=all_of(places))
    if clause.is_for_job():
        return limit
    return say("{limit}; otherwise {verdict}", limit=limit, verdict=VERDICT_WORDS[statement.otherwise].name.lower())


def _facts(clause: Clause, edition: Edition) -> dict[str, str]:
    """What is said of a clause, by name: two clauses are the same when all of it is."""
    facts = {say("title"): clause.title, say("measures"): MEASURES[clause.quantity].meaning}
    for number, one in enumerate(clause.statements, start=1):
        name = say("limit") if len(clause.statements) == 1 else say("statement {number}", number=number)
        facts[name] = f"{statement_text(clause, one, edition)} ({KIND_WORDS[one.kind]}: {one.source})"
    facts[say("usually")] = clause.usually
    facts[say("for")] = whose(clause, edition)
    facts[say("where that is not stated")] = {"applies": say("it applies"), "skip": say("it does not apply")}.get(
        clause.if_unknown, ""
    )
    facts[say("from")] = clause.in_force_from.isoformat() if clause.in_force_from else ""
    facts[say("because")] = clause.because
    facts[say("to be done with it")] = clause.condition
    facts[say("checked on")] = clause.checked_on.isoformat()
    return facts


def _differences(before: Mapping[str, str], after: Mapping[str, str]) -> tuple[str, ...]:
    names, nothing = dict.fromkeys((*before, *after)), say("nothing")
    return tuple(
        f"{name}: {before.get(name) or nothing} -> {after.get(name) or nothing}"
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
        facts = {say("title"): edition.title, say("units"): edition.units}
        for casing in CASINGS:
            covered = [PURPOSE_TITLES[word] for word in PURPOSES if (casing, word) in edition.covered]
            facts[say("covers {casings}", casings=CASING_WORDS[casing].many)] = ", ".join(map(str, covered))
        return facts

    rulebook = say("rulebook")
    yield from _changes({rulebook: head(before)}, {rulebook: head(after)})


def _crowns(before: Edition, after: Edition) -> Iterator[Change]:
    def crowns(edition: Edition) -> dict[str, dict[str, str]]:
        return {
            say("crown of {casings}", casings=CASING_WORDS[casing].many): {
                say("measured"): crown_text(rule),
                say("source"): f"{KIND_WORDS[rule.kind]}: {rule.source}",
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
            say("{percent:g}% over {above:g} mm", percent=percent, above=above)
            if last
            else say("{percent:g}% up to {up_to:g} mm", percent=percent, up_to=up_to)
        )
        above = up_to
    printed = ", ".join(say("{width}: {mark:g} mm", width=width, mark=mark) for width, mark in rule.printed_mm)
    shares = ", ".join(parts)
    if printed:
        return say("a share of the nominal section width: {shares}; as printed {marks}", shares=shares, marks=printed)
    return say("a share of the nominal section width: {shares}", shares=shares)


def _weight(criterion: Criterion) -> str:
    weight = say("critical") if criterion.critical else say("not critical")
    if not criterion.casings:
        return weight
    return say("{weight}; only for {casings}", weight=weight, casings=casings_in_words(criterion.casings))


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
                say("criterion: {criterion}", criterion=one.text): (
                    f"{_weight(one)} ({KIND_WORDS[one.kind]}: {one.source})"
                )
                for one in step.criteria
            }
            facts[step.id] = {
                say("title"): step.title,
                say("instruction"): step.instruction,
                say("limits"): ", ".join(str(edition.clauses[id].title) for id in step.clauses),
                say("tools"): ", ".join(map(str, step.tools)),
                **criteria,
            }
        return facts

    def orders(edition: Edition) -> dict[str, dict[str, str]]:
        titles = {step.id: step.title for step in edition.procedure}
        return {
            say("order of {method}", method=A_METHOD[method]): {
                say("steps"): ", ".join(str(titles[id]) for id in order)
            }
            for method, order in edition.orders.items()
        }

    titles = {step.id: step.title for step in (*before.procedure, *after.procedure)}
    for change in _changes(steps(before), steps(after)):
        yield replace(change, about=say("step: {step} ({id})", step=titles[change.about], id=change.about))
    yield from _changes(orders(before), orders(after))


def compare_text(before: Edition, after: Edition) -> str:
    """The differences for a person to read."""
    heads = [
        say(
            "{rulebook} {version}, in force from {day}",
            rulebook=one.name,
            version=one.version,
            day=one.in_force_from.isoformat(),
        )
        for one in (before, after)
    ]
    lines = [say("From {rulebook}", rulebook=heads[0]), say("to   {rulebook}", rulebook=heads[1])]
    changes = compare(before, after)
    for change in changes:
        lines += ["", f"{change.about}: {_KINDS[change.kind]}", *(f"  {line}" for line in change.lines)]
    counts = {kind: sum(change.kind == kind for change in changes) for kind in ("new", "gone", "changed")}
    told = ", ".join(say(_COUNTS[kind], count=count) for kind, count in counts.items() if count)
    return "\n".join([*lines, "", f"{told}." if told else say("Nothing differs.")])
