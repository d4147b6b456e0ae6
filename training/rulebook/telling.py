"""What a decision says to a person: each ruling as a sentence, the verdict with what to do by it, and what can be done
where a way to repair was refused."""

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from training.rulebook.case import Case
from training.rulebook.case_words import severity
from training.rulebook.decision import Decision, Ruling
from training.rulebook.edition import Edition
from training.rulebook.engine import decide
from training.rulebook.measures import MEASURES
from training.rulebook.spelling import spelled
from training.rulebook.units import OnShelf
from training.rulebook.walking import NOT_COVERED
from training.trade.lists import one_of
from training.trade.quantity_words import QUANTITY_WORDS
from training.trade.verdict_words import PURPOSE_VERDICT_WORDS, PUT_RIGHT
from training.trade.words import (
    BUILD_WORDS,
    CASING_WORDS,
    INJURY_WORDS,
    KIND_WORDS,
    METHOD_WORDS,
    REPAIR_WORDS,
    VEHICLE_WORDS,
    VERDICT_WORDS,
    VerdictWords,
    capital,
    uncapital,
)

_FINDING = "finding."
_DOUBT = "finding.doubt"
_NOT_BOTH_TRUE = ("contradiction.", "plausible.")
_FOUND_WORDS = {
    "tire.casing": {name: words.one for name, words in CASING_WORDS.items()},
    "tire.build": BUILD_WORDS,
    "injury.build": BUILD_WORDS,
    "injury.kind": INJURY_WORDS,
    "repair.kind": REPAIR_WORDS,
    "proposed.kind": REPAIR_WORDS,
    "position.vehicle": VEHICLE_WORDS,
}
_IN_CROWN = ("injury.crown_margin", "injury.exit_margin", "repair.crown_margin")
_UNCOVERED = "What no rule covers is not released."
_NOBODY_SAYS = "Common practice, no published source"
# what refuses a tire only where it is to run, and what refuses it only until that is put right
_OF_THE_POSITION = frozenset({"dual.difference", "load.of_asked", "load.of_asked_index", "load.of_carried",
                              "tire.retread", "tire.speed_fit", "finding.mixed-on-axle", "finding.bias-behind-radial",
                              "finding.not-for-steering", "finding.trailer-only"})  # fmt: skip
_WHERE_IT_RUNS = frozenset({"position.axle", "position.dual"})
_UNTIL_PUT_RIGHT = frozenset({"finding.audible-leak", "tire.part_worn_mark"})
_PUNCTURE = "puncture"
# what is done with wheel, valve and sensor, and what may undo a rejection, is to be done with a rejected tire too
_ALSO_WHEN_REJECTED = frozenset({"finding.wheel-damaged", "finding.valve-damaged", "finding.sensor-damaged",
                                 "tire.casing"})  # fmt: skip


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
        because="" if ruling.holds else _UNCOVERED if ruling.clause == NOT_COVERED else ruling.because,
        holds=ruling.holds,
        consequence=ruling.consequence,
        source=_source(ruling),
        between_statements=ruling.between_statements,
        is_finding=quantity.startswith(_FINDING),
        is_plain=ruling.holds and quantity.startswith(_NOT_BOTH_TRUE),
    )


def in_order(lines: Iterable[ToldRuling]) -> tuple[ToldRuling, ...]:
    """What was checked and is in order, each thing once; not what another rule finds fault with, in whole or part."""
    lines = tuple(lines)
    at_fault = tuple(f"{line.about}, " for line in lines if not line.holds)
    held = {line.about: line for line in reversed(lines) if line.holds and not line.is_plain}
    return tuple(
        line for line in reversed(held.values()) if not any(one.startswith(f"{line.about}, ") for one in at_fault)
    )


def besides(decision: Decision, lines: Sequence[ToldRuling]) -> tuple[ToldRuling, ...]:
    """What was found besides what decided, the gravest first; how to repair is not told of what is not to be repaired.

    `lines` are the rulings of the decision in words, in their order.
    """
    deciding = decision.deciding
    found = [line for ruling, line in zip(decision.rulings, lines, strict=True)
             if not ruling.holds and ruling not in deciding]  # fmt: skip
    if decision.verdict == "refer" or (decision.verdict == "reject" and not is_way_refused(decision)):
        found = [line for line in found if line.consequence != "repair"]
    return tuple(sorted(found, key=lambda line: -severity(line.consequence)))


def to_do(decision: Decision, edition: Edition) -> tuple[str, ...]:
    """What must be done with the tire, besides looking: with a rejected one not what only one that runs again needs."""
    if not is_tire_rejected(decision, edition):
        return decision.other_conditions
    idle = set()
    for ruling in decision.rulings:
        clause = edition.clauses.get(ruling.clause)
        if clause is not None and not ruling.holds and severity(ruling.consequence) <= severity("advise"):
            idle |= {clause.condition} if clause.quantity not in _ALSO_WHEN_REJECTED else set()
    return tuple(condition for condition in decision.other_conditions if condition not in idle)


def not_needed(decision: Decision, case: Case, edition: Edition) -> tuple[str, ...]:
    """What nobody looked at and the decision was made without, in words; nothing while it is open."""
    if decision.is_open:
        return ()
    named = {words.lower() for look in decision.to_look_at for words in look.words}
    return tuple(words for words in not_looked_at(decision, case, edition) if words.lower() not in named)


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
    words = _words_of(decision, case, edition=edition, units=units)
    return VerdictWords(words.name, *(spelled(text, edition.spelling) for text in (words.todo, words.opening)))


def _words_of(decision: Decision, case: Case, *, edition: Edition, units: Sequence[OnShelf] | None) -> VerdictWords:
    words = PURPOSE_VERDICT_WORDS.get((case.purpose, decision.verdict), VERDICT_WORDS[decision.verdict])
    quantities = _deciding_quantities(decision, edition)
    if decision.is_open:
        return VerdictWords("Not decided yet", "Look at what is missing first.", "NOT DECIDED YET")
    if decision.verdict == "reject":
        if is_way_refused(decision):
            return _refused("Not this way", _other_way(case, edition=edition, units=units))
        if _is_position_refused(decision, edition):
            return _refused("Not in this position", "Do not run it there; check it for where it is to go.")
        if _is_refused_as_it_is(decision, edition):
            return _refused("Not as it is", PUT_RIGHT[case.purpose])
    if decision.verdict == "inspect" and any(name.startswith(_NOT_BOTH_TRUE) for name in quantities):
        again = "Look again: what was given cannot all be true."
        return replace(words, todo=again, opening=f"INSPECT: {uncapital(again).rstrip('.')}")
    if decision.verdict == "inspect" and case.on_wheel is False:
        return replace(words, todo="Look at it again before you decide.",
                       opening="INSPECT: look at it again before you decide")  # fmt: skip
    if decision.verdict == "repair" and not decision.plan:
        return replace(words, todo="Repair it.", opening="REPAIR")
    return words


def _refused(name: str, instead: str) -> VerdictWords:
    """The words of a refusal that is not the end of the tire, with what to do instead."""
    return VerdictWords(name, instead, f"{name.upper()}: {uncapital(instead).rstrip('.')}")


def _deciding_quantities(decision: Decision, edition: Edition) -> list[str]:
    return [edition.clauses[one.clause].quantity for one in decision.deciding if one.clause in edition.clauses]


def is_way_refused(decision: Decision) -> bool:
    """Was a way to repair refused, and nothing else?"""
    subjects = {ruling.subject for ruling in decision.deciding}
    return decision.verdict == "reject" and subjects == {"proposal"}


def is_tire_rejected(decision: Decision, edition: Edition) -> bool:
    """Is it the end of the tire itself: no mere way to repair it, no position, and nothing that can be put right?"""
    return decision.verdict == "reject" and not (
        is_way_refused(decision) or _is_position_refused(decision, edition) or _is_refused_as_it_is(decision, edition)
    )


def _is_position_refused(decision: Decision, edition: Edition) -> bool:
    clauses = [edition.clauses.get(one.clause) for one in decision.deciding]
    return all(
        clause is not None
        and (clause.quantity in _OF_THE_POSITION or any(one.quantity in _WHERE_IT_RUNS for one in clause.when))
        for clause in clauses
    )


def _is_refused_as_it_is(decision: Decision, edition: Edition) -> bool:
    clauses = [(one, edition.clauses.get(one.clause)) for one in decision.deciding]
    return all(
        clause is not None
        and (clause.quantity in _UNTIL_PUT_RIGHT or (clause.quantity == "injury.kind" and ruling.found == _PUNCTURE))
        for ruling, clause in clauses
    )


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
        return f"{capital(can)} is allowed instead{', if what was not looked at is in order' if is_open else ''}."
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
    return about if whose is None else f"{whose}, {uncapital(about)}"


def _found(quantity: str, ruling: Ruling, edition: Edition) -> str:
    if quantity.startswith(_FINDING) and ruling.holds:
        return "none"
    found = _FOUND_WORDS.get(quantity, {}).get(ruling.found, ruling.found)
    if quantity in _IN_CROWN:
        found = f"{found} the repairable crown"
    return spelled(found, edition.spelling)


def _sentence(quantity: str, ruling: Ruling, about: str, found: str, edition: Edition) -> str:
    if ruling.clause == NOT_COVERED:
        return f"This rulebook has no rule for it ({found})."
    if quantity == _DOUBT:
        return f"{capital(found)}. Allowed: {ruling.limit}."
    if quantity.startswith(_FINDING):
        return f"{spelled('On this tire', edition.spelling)}: {found}. Allowed: {ruling.limit}."
    if quantity.startswith("contradiction."):
        return f"These cannot both be true: {found}."
    # what is only advised or noted is not forbidden
    limit = "In order" if severity(ruling.consequence) <= severity("advise") else "Allowed"
    return f"{about}: {found}. {limit}: {ruling.limit}."


def _source(ruling: Ruling) -> str:
    return _NOBODY_SAYS if ruling.clause == NOT_COVERED else said_by(ruling.kind, ruling.source)


def said_by(kind: str, source: str) -> str:
    """Who says so, opening with what kind of rule it is.

    >>> said_by("law", "49 CFR 393.75(b)"), said_by("law", "law in Utah; common practice here: R714-160-8(1)(b)")
    ('Law: 49 CFR 393.75(b)', 'Law in Utah; common practice here: R714-160-8(1)(b)')
    """
    named = KIND_WORDS[kind]
    says_so = source.lower().startswith((named.lower(), "law in "))
    return capital(source) if says_so else f"{named}: {source}"
