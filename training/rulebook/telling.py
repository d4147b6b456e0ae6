"""What a ruling says to a person: a sentence, the reason, the source; what is in order, and what nobody looked at."""

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from training.rulebook.case import Case
from training.rulebook.case_words import severity
from training.rulebook.citations import LAW_AWAY, MEMORY
from training.rulebook.decision import Decision, Ruling
from training.rulebook.edition import Edition
from training.rulebook.measures import MEASURES
from training.rulebook.walking import NOT_COVERED
from training.trade.lists import all_of
from training.trade.measures import as_read
from training.trade.quantity_words import QUANTITY_WORDS
from training.trade.speech import say, saying
from training.trade.words import (
    BUILD_WORDS,
    CASING_WORDS,
    COUNTRY_WORDS,
    FINDING_WORDS,
    INJURY_WORDS,
    KIND_CAUTIONS,
    KIND_WORDS,
    REPAIR_WORDS,
    VEHICLE_WORDS,
    capital,
    uncapital,
)

_FINDING = "finding."
_DOUBT = "finding.doubt"
_KIND = "injury.kind"
_NOT_BOTH_TRUE = ("contradiction.", "plausible.")
# what is measured in several ways: where one of them is at fault, none of the others is told as in order
_IN_PARTS = frozenset({"pressure", "proposed", "tread"})
_SAME = {"plausible.pressure_ratio": "pressure.ratio"}
_FOUND_WORDS = {
    "tire.casing": {name: words.one for name, words in CASING_WORDS.items()},
    "tire.build": BUILD_WORDS,
    "injury.build": BUILD_WORDS,
    "injury.kind": INJURY_WORDS,
    "repair.kind": REPAIR_WORDS,
    "proposed.kind": REPAIR_WORDS,
    "position.vehicle": VEHICLE_WORDS,
    "jurisdiction.country": COUNTRY_WORDS,
}
_IN_CROWN = ("injury.crown_margin", "injury.exit_margin", "repair.crown_margin")
_PLACES = "\0"
_UNCOVERED = saying("What no rule covers is not released.")
_NOBODY_SAYS = saying("Common practice, no published source")


@dataclass(frozen=True, slots=True)
class ToldRuling:
    """One ruling for a person. `about` is the title of its clause, `sentence` says what does not hold.

    `because` is empty where the rule holds: it explains a failure. `source` opens with what kind
    of rule it is. `is_plain`: it holds, and says only that a value can be true, or what another line says already.
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


def told(rulings: Sequence[Ruling], edition: Edition) -> tuple[ToldRuling, ...]:
    """Rulings in words: each thing is in order once, and none that is at fault in part."""
    pairs = [(ruling, _quantity(ruling, edition)) for ruling in rulings]
    at_fault = {(_whole(quantity), one.subject) for one, quantity in pairs if not one.holds}
    said: set[tuple[str, str]] = set()
    lines = []
    for ruling, quantity in pairs:
        thing = (_SAME.get(quantity, quantity), ruling.subject)
        is_said = thing in said or (_whole(quantity), ruling.subject) in at_fault
        lines.append(_told(ruling, quantity, edition, is_said=is_said))
        said.add(thing)
    return tuple(lines)


def _quantity(ruling: Ruling, edition: Edition) -> str:
    clause = edition.clauses.get(ruling.clause)
    return clause.quantity if clause is not None else ""


def _whole(quantity: str) -> str:
    same = _SAME.get(quantity, quantity)
    whole = same.partition(".")[0]
    return whole if whole in _IN_PARTS else same


def _told(ruling: Ruling, quantity: str, edition: Edition, *, is_said: bool) -> ToldRuling:
    about, found = _about(quantity, ruling, edition), _found(quantity, ruling)
    return ToldRuling(
        about=about,
        sentence=_sentence(quantity, ruling, about, found),
        found=found,
        allowed=as_read(ruling.limit),
        because="" if ruling.holds else str(_UNCOVERED if ruling.clause == NOT_COVERED else ruling.because),
        holds=ruling.holds,
        consequence=ruling.consequence,
        source=_source(ruling),
        between_statements=ruling.between_statements,
        is_finding=quantity.startswith(_FINDING),
        is_plain=ruling.holds and (is_said or quantity.startswith(_NOT_BOTH_TRUE)),
    )


def in_order(lines: Iterable[ToldRuling]) -> tuple[ToldRuling, ...]:
    """What was checked and is in order, each thing once."""
    return tuple(line for line in lines if line.holds and not line.is_plain)


def not_looked_at(decision: Decision, case: Case, edition: Edition) -> tuple[str, ...]:
    """What nobody looked at, in words, each thing once: by the facts that are missing, else by its first clause."""
    words: dict[str, None] = {}
    first: dict[str, str] = {}
    for clause in (edition.clauses[name] for name in decision.unexamined if name in edition.clauses):
        facts = edition.essentials.feeding(clause.quantity)
        named = [capital(fact.words) for fact in facts if not fact.is_stated(case, None)]
        own = edition.essentials.facts.get(clause.quantity)
        if own is not None and not named:
            named = [capital(own.words)]
        words |= dict.fromkeys(named or [first.setdefault(clause.quantity, str(clause.title))])
    return tuple(words)


def meaning_of(quantity: str, edition: Edition) -> str:
    """What a quantity is, in words, without how it is computed: a finding as it is named on the tire."""
    fact = edition.essentials.facts.get(quantity)
    if fact is not None:
        return capital(fact.words)
    words = QUANTITY_WORDS.get(quantity) or re.split(r" \[|[;:]", str(MEASURES[quantity].meaning))[0].rstrip(".")
    return capital(words)


def _about(quantity: str, ruling: Ruling, edition: Edition) -> str:
    if not quantity:
        return say("What this rulebook covers")
    if quantity == _DOUBT:
        return str(FINDING_WORDS[ruling.subject])
    about, kind = edition.clauses[ruling.clause].title, MEASURES[quantity].about
    if kind == "injury":
        return say("Injury {injury}, {about}", injury=ruling.subject, about=uncapital(about))
    if kind == "repair":
        return say("Earlier repair {repair}, {about}", repair=ruling.subject, about=uncapital(about))
    if kind == "pair":
        return f"{all_of(ruling.subject.split('+'))}, {uncapital(about)}"
    return str(about)


def _found(quantity: str, ruling: Ruling) -> str:
    if quantity.startswith(_FINDING) and ruling.holds:
        return say("none")
    found = _FOUND_WORDS.get(quantity, {}).get(ruling.found, ruling.found)
    if quantity in _IN_CROWN:
        found = say("{margin} the repairable crown", margin=found)
    return as_read(found)


def _sentence(quantity: str, ruling: Ruling, about: str, found: str) -> str:
    allowed = as_read(ruling.limit)
    if ruling.clause == NOT_COVERED:
        return say("This rulebook has no rule for it ({found}).", found=found)
    if quantity == _DOUBT:
        return say("{found}. Allowed: {allowed}.", found=capital(found), allowed=allowed)
    if quantity.startswith(_FINDING):
        return say("On this tire: {found}. Allowed: {allowed}.", found=found, allowed=allowed)
    if quantity == _KIND:
        return f"{about}."
    if quantity.startswith("contradiction."):
        return say("These cannot both be true: {found}.", found=found)
    if severity(ruling.consequence) <= severity("advise"):  # what is only advised or noted is not forbidden
        return say("{about}: {found}. In order: {limit}.", about=about, found=found, limit=allowed)
    return say("{about}: {found}. Allowed: {limit}.", about=about, found=found, limit=allowed)


def _source(ruling: Ruling) -> str:
    return str(_NOBODY_SAYS) if ruling.clause == NOT_COVERED else said_by(ruling.kind, ruling.source)


def to_rely_on(kind: str, source: str) -> str:
    """The same to somebody about to quote it: what is from memory is to be checked first."""
    return f"{KIND_CAUTIONS[kind]}: {source}" if kind == MEMORY else said_by(kind, source)


def said_by(kind: str, source: str) -> str:
    """Who says so, opening with what kind of rule it is.

    >>> said_by("law", "49 CFR 393.75(b)"), said_by("law", "law in Utah; common practice here: R714-160-8(1)(b)")
    ('Law: 49 CFR 393.75(b)', 'Law in Utah; common practice here: R714-160-8(1)(b)')
    """
    if kind == MEMORY and say("{source} (from memory)", source="").strip() in source:  # it says so of itself
        return capital(source)
    named, law_away = str(KIND_WORDS[kind]), say(LAW_AWAY, places=_PLACES, sources="").partition(_PLACES)[0]
    says_so = str(source).lower().startswith((named.lower(), law_away.lower()))
    return capital(source) if says_so else f"{named}: {source}"
