"""What changed from one rulebook to another, in words."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from training.rulebook.clauses import Clause, Condition, Statement
from training.rulebook.edition import Edition
from training.rulebook.geometry import CrownRule
from training.trade.words import CASINGS, PURPOSES


@dataclass(frozen=True, slots=True)
class Change:
    """One thing that differs: what it is about (a clause's id, a crown, a step), whether it came, went or changed,
    and a line for each difference."""

    about: str
    kind: str  # "new", "gone" or "changed"
    lines: tuple[str, ...]


def compare(before: Edition, after: Edition) -> tuple[Change, ...]:
    """Every difference between two rulebooks: title and units, crown, clauses, steps. Equal ones give none."""
    return (*_heads(before, after), *_crowns(before, after), *_clauses(before, after), *_steps(before, after))


def clause_lines(clause: Clause) -> tuple[str, ...]:
    """A clause as lines to read: limit with source, what follows, for which tires, and the reason."""
    return tuple(f"{name}: {value}" for name, value in _facts(clause).items() if value)


def whose(clause: Clause) -> str:
    """For which tires and purposes a clause is, and when, in words."""
    casings = "every casing" if set(clause.casings) == set(CASINGS) else ", ".join(clause.casings)
    purposes = "" if clause.is_for_job() else f"; {_purposes(clause)}"
    when = "".join(f"; where {condition_text(one)}" for one in clause.when)
    return f"{casings}{purposes}{when}"


def condition_text(condition: Condition) -> str:
    """What a condition asks, in words: "position axle is front"."""
    name = condition.quantity.replace(".", " ").replace("_", " ")
    stated = condition.statement
    wanted = " or ".join(condition.words) if stated is None else stated.text
    unknown = {"applies": ", or is not stated", "skip": ""}.get(condition.if_unknown, "")
    return f"{name} is {wanted}{unknown}"


def statement_text(clause: Clause, statement: Statement) -> str:
    """A statement in words: the limit, whose it is, and what follows when it does not hold."""
    own = f" in {statement.jurisdiction}" if statement.jurisdiction else ""
    follows = "" if clause.is_for_job() else f"; otherwise {statement.otherwise}"
    return f"{statement.text}{own}{follows}"


def _purposes(clause: Clause) -> str:
    return "every purpose" if set(clause.purposes) == set(PURPOSES) else ", ".join(clause.purposes)


def _facts(clause: Clause) -> dict[str, str]:
    """What is said of a clause, by name: two clauses are the same when all of it is."""
    facts = {"measures": clause.quantity}
    for number, one in enumerate(clause.statements, start=1):
        name = "limit" if len(clause.statements) == 1 else f"statement {number}"
        facts[name] = f"{statement_text(clause, one)} ({one.kind}: {one.source})"
    facts["usually"] = clause.usually
    facts["for"] = whose(clause)
    facts["where that is not stated"] = {"applies": "it applies", "skip": "it does not apply"}.get(
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
        covered = {casing: [word for word in PURPOSES if (casing, word) in edition.covered] for casing in CASINGS}
        facts = {"title": edition.title, "units": edition.units}
        return facts | {f"covers {casing}": ", ".join(words) for casing, words in covered.items()}

    yield from _changes({"rulebook": head(before)}, {"rulebook": head(after)})


def _crowns(before: Edition, after: Edition) -> Iterator[Change]:
    def crowns(edition: Edition) -> dict[str, dict[str, str]]:
        return {
            f"crown of {casing}": {"measured": crown_text(rule), "source": f"{rule.kind}: {rule.source}"}
            for casing, rule in edition.crowns.items()
        }

    yield from _changes(crowns(before), crowns(after))


def crown_text(rule: CrownRule) -> str:
    """How the repairable crown is measured, in words.

    >>> crown_text(CrownRule("shoulder", inset_mm=25.4))
    'to 25.4 mm inside the shoulder on each side'
    """
    if rule.basis == "outer-groove":
        return "to the inner edge of the outermost groove on each side"
    if rule.basis == "shoulder":
        return f"to {rule.inset_mm:g} mm inside the shoulder on each side"
    parts, above = [], 0.0
    for up_to, percent in rule.shares:
        last = (up_to, percent) == rule.shares[-1]
        parts.append(f"{percent:g} % over {above:g} mm" if last else f"{percent:g} % up to {up_to:g} mm")
        above = up_to
    printed = ", ".join(f"{width}: {mark:g} mm" for width, mark in rule.printed_mm)
    return f"a share of the nominal section width: {', '.join(parts)}" + (f"; as printed {printed}" if printed else "")


def _clauses(before: Edition, after: Edition) -> Iterator[Change]:
    def clauses(edition: Edition) -> dict[str, dict[str, str]]:
        return {id: _facts(clause) for id, clause in edition.clauses.items()}

    yield from _changes(clauses(before), clauses(after))


def _steps(before: Edition, after: Edition) -> Iterator[Change]:
    def steps(edition: Edition) -> dict[str, dict[str, str]]:
        facts = {}
        for step in edition.procedure:
            criteria = {
                f"criterion {one.id}": f"{one.text}{' (critical)' if one.critical else ''}"
                f"{' (only ' + ', '.join(one.casings) + ')' if one.casings else ''} ({one.kind}: {one.source})"
                for one in step.criteria
            }
            facts[f"step {step.id}"] = {
                "title": step.title,
                "instruction": step.instruction,
                "limits": ", ".join(step.clauses),
                "tools": ", ".join(step.tools),
                **criteria,
            }
        orders = {f"order of {method}": {"steps": ", ".join(order)} for method, order in edition.orders.items()}
        return facts | orders

    yield from _changes(steps(before), steps(after))


def compare_text(before: Edition, after: Edition) -> str:
    """The differences for a person to read."""
    heads = [f"{one.name} {one.version}, in force from {one.in_force_from.isoformat()}" for one in (before, after)]
    lines = [f"From {heads[0]}", f"to   {heads[1]}"]
    changes = compare(before, after)
    for change in changes:
        lines += ["", f"{change.about}: {change.kind}", *(f"  {line}" for line in change.lines)]
    counts = {kind: sum(change.kind == kind for change in changes) for kind in ("new", "gone", "changed")}
    told = ", ".join(f"{count} {kind}" for kind, count in counts.items() if count)
    return "\n".join([*lines, "", f"{told}." if told else "Nothing differs."])
