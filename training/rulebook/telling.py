"""What a decision says to a person: each ruling as a sentence, the verdict with what to do by it, and what can be done
where a way to repair was refused."""

import re
from collections.abc import Sequence
from dataclasses import dataclass, replace

from training.rulebook.case import Case
from training.rulebook.decision import Decision, Ruling
from training.rulebook.edition import Edition
from training.rulebook.engine import NOT_COVERED, decide
from training.rulebook.measures import MEASURES
from training.rulebook.spelling import spelled
from training.rulebook.units import RepairUnit
from training.trade.lists import one_of
from training.trade.words import KIND_WORDS, METHOD_WORDS, VERDICT_WORDS, VerdictWords, capital

_FINDING = "finding."
_DOUBT = "finding.doubt"
_NOT_BOTH_TRUE = ("contradiction.", "plausible.")


@dataclass(frozen=True, slots=True)
class ToldRuling:
    """One ruling for a person. `about` names what was looked at, `sentence` says what does not hold.

    `because` is empty where the rule holds: it explains a failure. `kind` is in words.
    `is_plain`: it only says that a value can be true, of which nobody need be told.
    """

    about: str
    sentence: str
    found: str
    allowed: str
    because: str
    holds: bool
    consequence: str
    kind: str
    source: str
    between_statements: bool
    is_plain: bool


def told(ruling: Ruling, edition: Edition) -> ToldRuling:
    """A ruling in words, as the country spells them."""
    clause = edition.clauses.get(ruling.clause)
    quantity = clause.quantity if clause is not None else ""
    about = _about(quantity, ruling, edition)
    return ToldRuling(
        about=about,
        sentence=_sentence(quantity, ruling, about),
        found="none" if quantity.startswith(_FINDING) and ruling.holds else ruling.found,
        allowed=ruling.limit,
        because="" if ruling.holds else ruling.because,
        holds=ruling.holds,
        consequence=ruling.consequence,
        kind=KIND_WORDS[ruling.kind],
        source=ruling.source,
        between_statements=ruling.between_statements,
        is_plain=ruling.holds and quantity.startswith(_NOT_BOTH_TRUE),
    )


def about_clause(clause_id: str, edition: Edition) -> str:
    """What a clause looks at, in words: a finding as it is named on the tire, else the meaning of what is measured."""
    clause = edition.clauses.get(clause_id)
    return meaning_of(clause.quantity, edition) if clause is not None else "This tire, and what it is wanted for"


def meaning_of(quantity: str, edition: Edition) -> str:
    """What a quantity is, in words, without how it is computed."""
    fact = edition.essentials.facts.get(quantity)
    if fact is not None:
        return capital(fact.words)
    return capital(spelled(re.split(r" \[|[;:]", MEASURES[quantity].meaning)[0].rstrip("."), edition.spelling))


def words_of(decision: Decision, case: Case, *, edition: Edition, units: Sequence[RepairUnit] | None) -> VerdictWords:
    """The verdict as a person is told it: its name, what to do by it, and how a printed decision opens."""
    words = VERDICT_WORDS[decision.verdict]
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


def _other_way(case: Case, *, edition: Edition, units: Sequence[RepairUnit] | None) -> str:
    """What can be done instead of what was proposed."""
    other = decide(replace(case, proposed=None), edition=edition, units=units, rest_in_order=True)
    if other.verdict == "repair":
        entries = other.plan or ()
        ways = [way for way in METHOD_WORDS if entries and all(way in entry.methods_allowed for entry in entries)]
        can = one_of(f"a {METHOD_WORDS[way]}" for way in ways)
        return f"{capital(can)} can." if can else "Each injury needs a way of its own."
    if other.verdict in ("inspect", "refer", "reject"):
        return VERDICT_WORDS[other.verdict].todo
    return "No injury was given, so there is nothing to repair."


def _about(quantity: str, ruling: Ruling, edition: Edition) -> str:
    if quantity == _DOUBT:
        return meaning_of(_FINDING + ruling.subject, edition)
    about = about_clause(ruling.clause, edition)
    kind = MEASURES[quantity].about if quantity else ""
    if kind == "injury":
        return f"{about}, injury {ruling.subject}"
    if kind == "repair":
        return f"{about}, earlier repair {ruling.subject}"
    return f"{about}, {ruling.subject.replace('+', ' and ')}" if kind == "pair" else about


def _sentence(quantity: str, ruling: Ruling, about: str) -> str:
    if ruling.clause == NOT_COVERED:
        return f"No rule here for this: {ruling.found}."
    if quantity == _DOUBT:
        return f"{capital(ruling.found)}. Allowed: {ruling.limit}."
    if quantity.startswith(_FINDING):
        return f"On this tire: {ruling.found}. Allowed: {ruling.limit}."
    if quantity.startswith("contradiction."):
        return f"Look again: {ruling.found}."
    return f"{about}: {ruling.found}. Allowed: {ruling.limit}."
