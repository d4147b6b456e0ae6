"""Deciding: every clause that covers a tire is applied to each of its subjects; the worst consequence wins."""

from collections.abc import Mapping, Sequence

from training.rulebook.case import Case
from training.rulebook.case_words import severity
from training.rulebook.decision import Decision, Ruling, still_to_look_at
from training.rulebook.edition import Edition
from training.rulebook.essentials import looks
from training.rulebook.measures import Facts
from training.rulebook.one_case import OneCase
from training.rulebook.planning import plan_work, to_get
from training.rulebook.prepared import LOOK_FIRST, prepared_for
from training.rulebook.reading import parse_case
from training.rulebook.registry import load_edition
from training.rulebook.ruling import MILDEST
from training.rulebook.second_reading import OTHER_READINGS
from training.rulebook.units import OnShelf
from training.rulebook.walking import Session

_HARDEST = "reject"
_MOST_READINGS = 81  # four pairs with three readings each: a case of more is looked at again anyhow
_COULD_BE_GRAVER = ("inspect", "refer")  # what facts that cannot both be true come to at least, and is not the worst


def decide(case: Case | Mapping[str, object], *, edition: Edition | None = None,
           units: Sequence[OnShelf] | None = None, rest_in_order: bool = False,
           prefer: str = "mm", one_case: OneCase | None = None) -> Decision:  # fmt: skip
    """Decide a case under an edition (its own, unless one is given), with the repair units on the shelf, if any.

    Without them no unit and no outline is planned, and whether repairs overlap is decided only where it is the same for
    every unit.

    `rest_in_order` takes the word of whoever tells the case that what is not said of it is in order; without it a tire
    of which something essential was not looked at is not released. `prefer`: computed lengths are told in "mm" or "in".
    `one_case` spares work where the same case is put to several rulebooks, and changes nothing else.
    Raises CaseError for input that is not a case.

    >>> decide({"tire": {"casing": "passenger"}, "injuries": [{"diameter": "10 mm"}]}).verdict
    'reject'
    """
    if not isinstance(case, Case):
        case = parse_case(case)
    if edition is None:
        edition = load_edition(case.edition, on=case.on)
    if edition.starts and case.on is not None:
        edition = edition.as_of(case.on)
    units = units or ()
    session = _walked(case, edition, units, prefer, one_case)
    if_nothing_else = _gravest(session.rulings)
    if if_nothing_else in _COULD_BE_GRAVER:
        session.rulings += _by_the_other_facts(session, edition)
        if_nothing_else = _gravest(session.rulings)
    worst = severity(if_nothing_else)
    unexamined = tuple(dict.fromkeys(session.unexamined))
    missing = session.missing(edition) if session.open and not rest_in_order else {}
    verdict = LOOK_FIRST if missing and worst < severity(LOOK_FIRST) else if_nothing_else
    plan = plan_work(edition, session.rulings, session.facts) if verdict == "repair" else None
    conditions = dict.fromkeys(session.conditions)
    to_look_at = looks(missing.values()) if verdict == LOOK_FIRST else ()
    conditions |= dict.fromkeys(still_to_look_at(look.where, look.words) for look in to_look_at)
    conditions |= dict.fromkeys(to_get(plan or (), units))
    return Decision(verdict, edition.name, edition.version, tuple(session.rulings), unexamined, bool(unexamined),
                    tuple(conditions), plan, if_nothing_else, tuple(missing), to_look_at)  # fmt: skip


def _walked(
    case: Case, edition: Edition, units: Sequence[OnShelf], prefer: str, one_case: OneCase | None = None
) -> Session:
    casing = case.tire.casing
    prepared = prepared_for(edition, casing, case.purpose)
    crown, margin_mm = edition.crowns.get(casing), prepared.margin_mm
    if one_case is None:
        facts = Facts(case, crown, units, margin_mm, prefer, free_mm=prepared.free_mm)
    else:
        facts = one_case.facts(case, crown, units, margin_mm, prefer, prepared.free_mm)
    session = Session(case, facts, prepared)
    session.walk(edition)
    return session


def _gravest(rulings: Sequence[Ruling]) -> str:
    """The worst consequence of what does not hold."""
    gravest, worst = MILDEST, 0
    for ruling in rulings:
        if not ruling.holds and severity(ruling.consequence) > worst:
            gravest, worst = ruling.consequence, severity(ruling.consequence)
    return gravest


def _by_the_other_facts(session: Session, edition: Edition) -> list[Ruling]:
    """What decides where the other of two facts is believed, if that is graver; of several pairs, any of them.

    A reading may disagree where the case did not, so that each is asked for its own pairs; a pair is settled once.
    """
    facts, readings = session.facts, [session]
    unsettled: list[tuple[Session, frozenset[str]]] = [(session, frozenset())]
    for one, settled in unsettled:
        rule = next((rule for rule in one.disagreeing() if rule.clause.quantity not in settled), None)
        if rule is None:
            continue
        others = [
            _walked(case, edition, facts.shelf, facts.prefer) for case in OTHER_READINGS[rule.clause.quantity](one.case)
        ]
        readings += others
        if len(readings) > _MOST_READINGS or any(_gravest(other.rulings) == _HARDEST for other in others):
            break
        unsettled += [(reading, settled | {rule.clause.quantity}) for reading in (one, *others)]
    gravest_reading = max(readings, key=lambda one: severity(_gravest(one.rulings)))
    gravest = _gravest(gravest_reading.rulings)
    if severity(gravest) <= severity(_gravest(session.rulings)):
        return []
    return [ruling for ruling in gravest_reading.rulings if not ruling.holds and ruling.consequence == gravest]
