"""What a decision says to a person: each ruling as a sentence, the verdict with what to do by it, and what can be done
where a way to repair was refused."""

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from training.rulebook.case import Case
from training.rulebook.decision import Decision, Ruling
from training.rulebook.edition import Edition
from training.rulebook.engine import decide
from training.rulebook.measures import MEASURES
from training.rulebook.spelling import spelled
from training.rulebook.units import OnShelf
from training.rulebook.walking import NOT_COVERED
from training.trade.lists import one_of
from training.trade.words import (
    CASING_WORDS,
    KIND_WORDS,
    METHOD_WORDS,
    QUANTITY_WORDS,
    VERDICT_WORDS,
    VerdictWords,
    capital,
)

_FINDING = "finding."
_DOUBT = "finding.doubt"
_NOT_BOTH_TRUE = ("contradiction.", "plausible.")


@dataclass(frozen=True, slots=True)
class ToldRuling:
    """One ruling for a person. `about` names what was looked at, `sentence` says what does not hold.

    `because` is empty where the rule holds: it explains a failure. `source` opens with what kind
    of rule it is. `is_plain`: it only says that a value can be true, of which nobody need be told.
    """

    about: str
    sentence: str
    found: str
    allowed: str
    because: str
    holds: bool
    consequence: str
    source: str
    between_statements: bool
    is_finding: bool
    is_plain: bool


def told(ruling: Ruling, edition: Edition) -> ToldRuling:
    """A ruling in words, as the country spells them."""
    clause = edition.clauses.get(ruling.clause)
    quantity = clause.quantity if clause is not None else ""
    about, found = _about(quantity, ruling, edition), _found(quantity, ruling, edition)
    return ToldRuling(
        about=about,
        sentence=_sentence(quantity, ruling, about, found, edition),
        found=found,
        allowed=ruling.limit,
        because="" if ruling.holds else ruling.because,
        holds=ruling.holds,
        consequence=ruling.consequence,
        source=_source(ruling),
        between_statements=ruling.between_statements,
        is_finding=quantity.startswith(_FINDING),
        is_plain=ruling.holds and quantity.startswith(_NOT_BOTH_TRUE),
    )


def in_order(lines: Iterable[ToldRuling]) -> tuple[ToldRuling, ...]:
    """What was checked and is in order, each thing once; not what another rule finds fault with."""
    lines = tuple(lines)
    at_fault = {line.about for line in lines if not line.holds}
    held = {line.about: line for line in reversed(lines) if line.holds and not line.is_plain}
    return tuple(line for line in reversed(held.values()) if line.about not in at_fault)


def not_looked_at(decision: Decision, case: Case, edition: Edition) -> tuple[str, ...]:
    """What nobody looked at, in words, each thing once: by the facts that are missing, else by what is measured."""
    words: dict[str, None] = {}
    for name in decision.unexamined:
        clause = edition.clauses.get(name)
        if clause is not None:
            facts = edition.essentials.feeding(clause.quantity)
            named = [capital(fact.words) for fact in facts if not fact.is_stated(case, None)]
            words |= dict.fromkeys(named or [meaning_of(clause.quantity, edition)])
    return tuple(words)


def meaning_of(quantity: str, edition: Edition) -> str:
    """What a quantity is, in words, without how it is computed: a finding as it is named on the tire."""
    fact = edition.essentials.facts.get(quantity)
    if fact is not None:
        return capital(fact.words)
    words = QUANTITY_WORDS.get(quantity) or re.split(r" \[|[;:]", MEASURES[quantity].meaning)[0].rstrip(".")
    return capital(spelled(words, edition.spelling))


def words_of(decision: Decision, case: Case, *, edition: Edition, units: Sequence[OnShelf] | None) -> VerdictWords:
    """The verdict as a person is told it: its name, what to do by it, and how a printed decision opens."""
    plain = VERDICT_WORDS[decision.verdict]
    words = VerdictWords(plain.name, *(spelled(text, edition.spelling) for text in (plain.todo, plain.opening)))
    if decision.is_open:
        return VerdictWords("Not decided yet", "Look at what is missing first.", "NOT DECIDED YET")
    if is_way_refused(decision):
        way = _other_way(case, edition=edition, units=units)
        return VerdictWords("Not this way", way, f"NOT THIS WAY: {way[:1].lower()}{way[1:].rstrip('.')}")
    quantities = [edition.clauses[one.clause].quantity for one in decision.deciding if one.clause in edition.clauses]
    if decision.verdict == "inspect" and any(name.startswith(_NOT_BOTH_TRUE) for name in quantities):
        again = "Look again: what was given cannot all be true."
        return replace(words, todo=again, opening=f"INSPECT: {again[:1].lower()}{again[1:].rstrip('.')}")
    if decision.verdict == "repair" and not decision.plan:
        return replace(words, todo="Repair it.", opening="REPAIR")
    return words


def is_way_refused(decision: Decision) -> bool:
    """Was a way to repair refused, and nothing else?"""
    subjects = {ruling.subject for ruling in decision.deciding}
    return decision.verdict == "reject" and subjects == {"proposal"}


def _other_way(case: Case, *, edition: Edition, units: Sequence[OnShelf] | None) -> str:
    """What can be done instead of what was proposed; only with a condition before all else was looked at."""
    case = replace(case, proposed=None)
    other = decide(case, edition=edition, units=units, rest_in_order=True)
    is_open = decide(case, edition=edition, units=units).is_open
    if other.verdict == "repair":
        entries = other.plan or ()
        ways = [way for way in METHOD_WORDS if entries and all(way in entry.methods_allowed for entry in entries)]
        can = one_of(f"a {METHOD_WORDS[way]}" for way in ways)
        if not can:
            return "Each injury needs a way of its own."
        return f"{capital(can)} can{', if what was not looked at is in order' if is_open else ''}."
    if other.verdict in ("inspect", "refer", "reject"):
        return spelled(VERDICT_WORDS[other.verdict].todo, edition.spelling)
    return "No injury was given, so there is nothing to repair."


def _about(quantity: str, ruling: Ruling, edition: Edition) -> str:
    if not quantity:
        return "What this rulebook covers"
    if quantity == _DOUBT:
        return meaning_of(_FINDING + ruling.subject, edition)
    about, kind = meaning_of(quantity, edition), MEASURES[quantity].about
    whose = {"injury": f"Injury {ruling.subject}", "repair": f"Earlier repair {ruling.subject}",
             "pair": ruling.subject.replace("+", " and ")}.get(kind)  # fmt: skip
    return about if whose is None else f"{whose}, {about[:1].lower()}{about[1:]}"


def _found(quantity: str, ruling: Ruling, edition: Edition) -> str:
    if quantity.startswith(_FINDING) and ruling.holds:
        return "none"
    if quantity == "tire.casing":
        return spelled(CASING_WORDS[ruling.found].one, edition.spelling)
    found = ruling.found.replace("-", " ") if quantity == "position.vehicle" else ruling.found
    return spelled(found, edition.spelling)


def _sentence(quantity: str, ruling: Ruling, about: str, found: str, edition: Edition) -> str:
    if ruling.clause == NOT_COVERED:
        return f"No rule here for this: {found}."
    if quantity == _DOUBT:
        return f"{capital(found)}. Allowed: {ruling.limit}."
    if quantity.startswith(_FINDING):
        return f"{spelled('On this tire', edition.spelling)}: {found}. Allowed: {ruling.limit}."
    if quantity.startswith("contradiction."):
        return f"These cannot both be true: {found}."
    return f"{about}: {found}. Allowed: {ruling.limit}."


def _source(ruling: Ruling) -> str:
    kind = KIND_WORDS[ruling.kind]
    return capital(ruling.source) if kind.lower() in ruling.source.lower() else f"{kind}: {ruling.source}"
