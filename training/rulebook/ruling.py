"""One clause on what was found: does it hold, and what follows where it does not?"""

from dataclasses import replace

from training.rulebook.case_words import severity
from training.rulebook.clauses import Clause, Statement
from training.rulebook.decision import Ruling
from training.rulebook.measures import MEASURES, Facts, Found

MILDEST = "accept"
_UPPER = ("at_most", "below")
_LOWER = ("at_least", "above")


def rule_on(clause: Clause, found: Found, jurisdiction: str | None, subject: str) -> Ruling | None:
    """One clause on what was found; None where what is known does not decide."""
    statements = clause.statements
    deciding = statements[0]
    if len(statements) == 1:
        holds, between = outcome(deciding, found)
        consequence = MILDEST if holds else deciding.otherwise
    else:
        eligible = clause.deciding(jurisdiction)
        consequence, between, seen, house = "", False, set(), clause.house
        for one in statements:
            holds, within = outcome(one, found)
            follows = MILDEST if holds else one.otherwise
            if house is None or one is house:  # a house rule settles what the edition's statements leave open
                seen.add(follows)
                between = between or within
            if one in eligible and (not consequence or severity(follows) > severity(consequence)):
                deciding, consequence = one, follows
        holds, between = consequence == MILDEST, between or len(seen) > 1
        if holds:
            deciding = clause.strictest if clause.strictest in eligible else eligible[0]
    if found.sense != "exact":
        sure = (deciding.bound in _LOWER) == ((found.sense == "at_least") == holds)
        if not sure or deciding.bound not in _LOWER + _UPPER:
            return None
    kind, source = deciding.kind, deciding.source
    if jurisdiction is not None and deciding.cited is not None and deciding.cited.depends_on_place:
        said = deciding.said_in(jurisdiction)
        kind, source = said.kind, said.source
    return Ruling(clause.id, subject, holds, found.text, deciding.signed, consequence, clause.because, kind, source,
                  between)  # fmt: skip


def rule_by_share(clause: Clause, found: Found, facts: Facts, subject: str) -> Ruling | None:
    """A limit that grows with the tire; where the tire's own figure is missing, only what is sure either way."""
    jurisdiction = facts.case.jurisdiction
    share = clause.of_edition.share
    read = MEASURES[share.quantity].read if share is not None else None
    whole = read(facts, None) if read is not None else None
    if isinstance(whole, Found) and whole.measured is not None:
        measured = whole.measured
        clause = replace(clause, statements=tuple(one.for_whole(measured) for one in clause.statements))
        return rule_on(clause, found, jurisdiction, subject)
    if clause.house is not None:  # it does not grow with the tire
        own = rule_on(replace(clause, statements=(clause.house,)), found, jurisdiction, subject)
        if own is not None and not own.holds:
            return own
        clause = replace(clause, statements=tuple(one for one in clause.statements if not one.is_house))
    ruling = rule_on(clause, found, jurisdiction, subject)
    if ruling is None or share is None:
        return ruling
    sure = ruling.holds == ((share.takes != "smaller") == (clause.bound in _UPPER))
    return ruling if sure else None


def outcome(statement: Statement, found: Found) -> tuple[bool, bool]:
    """Does the statement hold, compared in the unit taken; and would its other printed limit decide otherwise?"""
    if found.word is not None:
        return (found.word in statement.words) == (statement.bound == "must_be"), False
    measured, limits = found.measured, statement.quantities
    value, number = (found.value, None) if measured is None else (measured.value, measured.number)
    if value is None:
        raise TypeError(f"{found.text}: a measure gave neither a word nor a value")
    if len(limits) == 1:
        return statement.holds(value, 0, number), False
    outcomes = [statement.holds(value, place, number) for place in range(len(limits))]
    places = range(len(limits)) if measured is None else statement.in_unit_of(measured)
    return all(outcomes[place] for place in places), len(set(outcomes)) > 1
