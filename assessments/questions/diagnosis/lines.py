"""Why each line of a question is right or wrong: what it claims, put to the rulebook the question was drawn from."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass

from assessments.questions.items.claims import All, Claim, Decided, Done, Not, Permitted, Taught, laid_over
from assessments.questions.items.item import Item
from assessments.questions.work.facts import facts, permits
from training.rulebook import MEASURES, Decision, Edition, Ruling, ToldRuling, decide, told
from training.trade.measures import as_read
from training.trade.speech import say
from training.trade.words import VERDICT_WORDS, capital, uncapital

_KIND, _LEAN = "injury.kind", "injury.angle"
_MILLIMETERS, _INCHES = re.compile(r"\d mm\b"), re.compile(r"\d in\b")


@dataclass(frozen=True, slots=True)
class Line:
    """What the rulebook says of one line. `verdict` is one of its verdicts where the line is about a tire, else ""."""

    verdict: str
    reason: str

    @property
    def verdict_word(self) -> str:
        """The verdict as people read it."""
        return str(VERDICT_WORDS[self.verdict].name) if self.verdict else ""


def lines_of(item: Item, edition: Edition, *, prefer: str = "in") -> Mapping[str, Line]:
    """The reason of each option by its id, as far as its claim gives one. The edition is that of the item.

    `prefer` is the shop's unit, "in" or "mm"; lines in millimeters are explained in millimeters.
    """
    words = " ".join(item.line_of(option) for option in item.options)
    prefer = "mm" if _MILLIMETERS.search(words) and not _INCHES.search(words) else prefer
    claims = {option.id: option.claim for option in item.options if isinstance(option.claim, Decided)}
    decided = {
        id: decide(laid_over(item.case, claim.case), edition=edition, rest_in_order=True, prefer=prefer)
        for id, claim in claims.items()
        if claim.case is not None and not claim.units and not claim.alone
    }
    asks_how = any(claim.methods for claim in claims.values())
    against = {id: _against(one, edition, asks_how=asks_how) for id, one in decided.items()}
    # what ends one tire is what has to be said of the others
    asked = {ruling.clause for rulings in against.values() for ruling in rulings}
    lines = {id: Line(one.verdict, _reason(one, against[id], asked, edition)) for id, one in decided.items()}
    for option in item.options:
        find = _OF_WORK.get(type(option.claim))
        if find is not None and (reason := find(option.claim, edition)):
            lines[option.id] = Line("", as_read(str(reason)))
    return lines


def _against(decision: Decision, edition: Edition, *, asks_how: bool) -> list[Ruling]:
    """What decides against a tire, or where it is asked how to repair it against a way; that a hole is no news."""
    if decision.verdict == "accept" or (decision.verdict == "repair" and not asks_how):
        return []
    return [one for one in decision.deciding
            if not one.holds and not (decision.verdict == "repair" and _is_about(one, _KIND, edition))]  # fmt: skip


def _is_about(ruling: Ruling, quantity: str, edition: Edition) -> bool:
    clause = edition.clauses.get(ruling.clause)
    return clause is not None and clause.quantity == quantity


def _reason(decision: Decision, against: Sequence[Ruling], asked: set[str], edition: Edition) -> str:
    rulings = against or [
        one for one in decision.rulings if one.holds and one.clause in asked and not _is_about(one, _KIND, edition)
    ]
    said = [_said(ruling, line, edition) for ruling, line in zip(rulings, told(rulings, edition), strict=True)]
    if decision.verdict == "repair" and any(not one.holds and _is_about(one, _LEAN, edition) for one in rulings):
        said.append(say("So not with a one-piece unit."))
    return " ".join(dict.fromkeys(filter(None, said))) or say("Nothing rules it out.")


def _said(ruling: Ruling, line: ToldRuling, edition: Edition) -> str:
    """What was found and what is allowed."""
    if line.holds and line.is_finding:
        return ""
    about = _about(ruling, line, edition)
    if line.holds:
        return say("{about}: {found}. Allowed: {allowed}.", about=about, found=line.found, allowed=line.allowed)
    return str(line.sentence).replace(str(line.about), about, 1)


def _about(ruling: Ruling, line: ToldRuling, edition: Edition) -> str:
    """What a ruling is about, without a name for the hole or the repair: each tire of such a question has but one."""
    clause = edition.clauses.get(ruling.clause)
    kind = "" if clause is None else MEASURES[clause.quantity].about
    if clause is not None and kind == "injury":
        return capital(str(clause.title))
    if clause is not None and kind == "repair":
        return say("Earlier repair, {title}", title=uncapital(str(clause.title)))
    return str(line.about)


def _of_clause(claim: Permitted, edition: Edition) -> str:
    clause = edition.clauses.get(claim.clause)
    if clause is None:
        return ""
    return say("{title}: {limit}. {reason}", title=clause.title, limit=clause.printed_limit(), reason=clause.because)


def _of_fact(claim: Taught, edition: Edition) -> str:
    fact = next((one for one in facts() if one.id == claim.fact), None)
    if fact is None:
        return ""
    step = next((one for one in edition.procedure if one.id == fact.step), None)
    return fact.because or (step.instruction if step is not None else "")


def _of_step(claim: Done, edition: Edition) -> str:
    return next((one.instruction for one in edition.procedure if one.id == claim.step), "")


def _of_all(claim: All, edition: Edition) -> str:
    """What it breaks, with the reason; where it breaks nothing, what it keeps to."""
    if broken := [one for one in claim.of if _breaks(one, edition)]:
        return _joined(broken, edition)
    if limits := [_limit_of(one, edition) for one in claim.of if isinstance(one, Permitted)]:
        return " ".join(dict.fromkeys(filter(None, limits)))
    return _joined(claim.of, edition)


def _breaks(claim: Claim, edition: Edition) -> bool:
    """Is it a value that does not keep to its clause? Whatever else it is, is not judged here."""
    if not isinstance(claim, Permitted) or claim.clause not in edition.clauses:
        return False
    return not permits(edition.clause(claim.clause), claim.value, claim.since)


def _limit_of(claim: Permitted, edition: Edition) -> str:
    clause = edition.clauses.get(claim.clause)
    return "" if clause is None else say("{title}: {limit}.", title=clause.title, limit=clause.printed_limit())


def _joined(claims: Sequence[Claim], edition: Edition) -> str:
    found = (_OF_WORK[type(one)](one, edition) for one in claims if type(one) in _OF_WORK)
    return " ".join(dict.fromkeys(str(reason) for reason in found if reason))


def _of_not(claim: Not, edition: Edition) -> str:
    find = _OF_WORK.get(type(claim.of))
    return "" if find is None else find(claim.of, edition)


_OF_WORK: dict[type, Callable[..., str]] = {
    Permitted: _of_clause, Taught: _of_fact, Done: _of_step, All: _of_all, Not: _of_not,
}  # fmt: skip
