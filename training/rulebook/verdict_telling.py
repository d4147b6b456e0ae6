"""What a verdict says to a person: its name, what to do by it, and what a refusal refuses: a way to repair, a position,
the tire as it is, or the tire."""

from collections.abc import Sequence
from dataclasses import replace

from training.rulebook.case import Case
from training.rulebook.case_words import severity
from training.rulebook.decision import Decision, Ruling
from training.rulebook.edition import Edition
from training.rulebook.engine import decide
from training.rulebook.telling import ToldRuling, not_looked_at
from training.rulebook.units import OnShelf
from training.trade.lists import one_of
from training.trade.speech import LANGUAGES, in_language, say
from training.trade.verdict_words import PURPOSE_VERDICT_WORDS, PUT_RIGHT, RAN_SOFT
from training.trade.words import A_METHOD, METHOD_WORDS, VERDICT_WORDS, VerdictWords, capital, uncapital

_WAY, _POSITION, _AS_IT_IS, _TIRE = "way", "position", "as it is", "tire"
# what refuses a tire only where it is to run, and what refuses it only until that is put right
_OF_THE_POSITION = frozenset({"dual.difference", "load.of_asked", "load.of_asked_index", "load.of_carried",
                              "tire.retread", "tire.speed_fit", "finding.mixed-on-axle", "finding.bias-behind-radial",
                              "finding.not-for-steering", "finding.trailer-only"})  # fmt: skip
_WHERE_IT_RUNS = frozenset({"position.axle", "position.dual"})
_MARKED_FOR, _PRESSURE = "tire.use", "pressure.ratio"
_UNTIL_PUT_RIGHT = frozenset({"finding.audible-leak", _PRESSURE, "tire.part_worn_mark"})
_AFTER_A_REPAIR = "speed-symbol-after-repair"  # the clause is no matter where nothing is repaired
_INJURY, _PUNCTURE = "injury.kind", "puncture"
_PROPOSAL = "proposal"
_LETS_GO = ("advise", "repair")
# what is done with wheel, valve and sensor, and what may undo a rejection, is to be done with a rejected tire too
_ALSO_WHEN_REJECTED = frozenset({"finding.wheel-damaged", "finding.valve-damaged", "finding.sensor-damaged",
                                 "tire.casing"})  # fmt: skip


def words_of(decision: Decision, case: Case, *, edition: Edition, units: Sequence[OnShelf] | None) -> VerdictWords:
    """The verdict as a person is told it: its name, what to do by it, and how a printed decision opens."""
    words = _words_of(decision, case, edition=edition, units=units)
    return VerdictWords(str(words.name), str(words.todo), str(words.opening))


def _words_of(decision: Decision, case: Case, *, edition: Edition, units: Sequence[OnShelf] | None) -> VerdictWords:
    words = PURPOSE_VERDICT_WORDS.get((case.purpose, decision.verdict), VERDICT_WORDS[decision.verdict])
    quantities = _deciding_quantities(decision, edition)
    if decision.is_open:
        return VerdictWords(say("Not decided yet"), say("Look at what is missing first."), say("NOT DECIDED YET"))
    if decision.verdict == "reject":
        refused = _refused_what(decision, edition)
        if refused == {_WAY}:
            return _refused(say("Not this way"), _other_way(case, edition=edition, units=units))
        if refused == {_POSITION}:
            return _refused(say("Not in this position"), say("Do not run it there; check it for where it is to go."))
        if _TIRE not in refused:
            return _refused(say("Not as it is"), RAN_SOFT if _PRESSURE in quantities else PUT_RIGHT[case.purpose])
    if decision.verdict == "inspect" and any(name.startswith("contradiction.") for name in quantities):
        again = say("Look again: what was given cannot all be true.")
        return replace(words, todo=again, opening=say("INSPECT: look again: what was given cannot all be true"))
    is_hardly_true = any(name.startswith("plausible.") for name in quantities)
    if decision.verdict == "inspect" and (is_hardly_true or case.on_wheel is False):
        return replace(words, todo=say("Look at it again before you decide."),
                       opening=say("INSPECT: look at it again before you decide"))  # fmt: skip
    if decision.verdict == "repair" and not decision.plan:
        return replace(words, todo=say("Repair it."), opening=say("REPAIR"))
    return words


def _refused(name: str, instead: str) -> VerdictWords:
    """The words of a refusal that is not the end of the tire, with what to do instead."""
    return VerdictWords(name, instead, f"{name.upper()}: {uncapital(instead).rstrip('.')}")


def _deciding_quantities(decision: Decision, edition: Edition) -> list[str]:
    return [edition.clauses[one.clause].quantity for one in decision.deciding if one.clause in edition.clauses]


def is_way_refused(decision: Decision) -> bool:
    """Was a way to repair refused, and nothing else?"""
    return decision.verdict == "reject" and {ruling.subject for ruling in decision.deciding} == {_PROPOSAL}


def is_tire_rejected(decision: Decision, edition: Edition) -> bool:
    """Is it the end of the tire itself: no mere way to repair it, no position, and nothing that can be put right?"""
    return decision.verdict == "reject" and _TIRE in _refused_what(decision, edition)


def _refused_what(decision: Decision, edition: Edition) -> set[str]:
    return {_refused_by(ruling, edition) for ruling in decision.deciding}


def _refused_by(ruling: Ruling, edition: Edition) -> str:
    clause = edition.clauses.get(ruling.clause)
    if ruling.subject == _PROPOSAL:
        return _WAY
    if clause is None:
        return _TIRE
    asks = {one.quantity for one in clause.when}
    is_for_a_vehicle = clause.quantity == _MARKED_FOR and "position.vehicle" in asks
    if clause.quantity in _OF_THE_POSITION or asks & _WHERE_IT_RUNS or is_for_a_vehicle:
        return _POSITION
    is_open = clause.quantity == _INJURY and ruling.found == _PUNCTURE
    return _AS_IT_IS if clause.quantity in _UNTIL_PUT_RIGHT or is_open else _TIRE


def _other_way(case: Case, *, edition: Edition, units: Sequence[OnShelf] | None) -> str:
    """What can be done instead of what was proposed; only with a condition before all else was looked at."""
    case = replace(case, proposed=None)
    other = decide(case, edition=edition, units=units, rest_in_order=True)
    is_open = decide(case, edition=edition, units=units).is_open
    if other.verdict == "repair":
        entries = other.plan or ()
        ways = [way for way in METHOD_WORDS if entries and all(way in entry.methods_allowed for entry in entries)]
        methods = capital(one_of(A_METHOD[way] for way in ways))
        if not methods:
            return say("Each injury needs a way of its own.")
        if is_open:
            return say("{methods} is allowed instead, if what was not looked at is in order.", methods=methods)
        return say("{methods} is allowed instead.", methods=methods)
    if other.verdict in ("inspect", "refer", "reject"):
        return VERDICT_WORDS[other.verdict].todo
    return say("No injury was given, so there is nothing to repair.")


def besides(decision: Decision, lines: Sequence[ToldRuling]) -> tuple[ToldRuling, ...]:
    """What was found besides what decided, the gravest first; how to repair is not told of what is not to be repaired.

    `lines` are the rulings of the decision in words, in their order.
    """
    deciding, idle = decision.deciding, {_AFTER_A_REPAIR} if decision.verdict == "reject" else set()
    found = [line for ruling, line in zip(decision.rulings, lines, strict=True)
             if not ruling.holds and ruling not in deciding and ruling.clause not in idle]  # fmt: skip
    if decision.verdict == "refer" or (decision.verdict == "reject" and not is_way_refused(decision)):
        found = [line for line in found if line.consequence != "repair"]
    return tuple(sorted(found, key=lambda line: -severity(line.consequence)))


def to_do(decision: Decision, edition: Edition) -> tuple[str, ...]:
    """What must be done with the tire, besides looking: with a rejected one not what only one that runs again needs.

    Of one that is let go it also says what was found and only has to be told.
    """
    if not is_tire_rejected(decision, edition):
        return tuple(dict.fromkeys((*decision.other_conditions, *_only_told(decision, edition))))
    idle: set[str] = set()
    for ruling in decision.rulings:
        clause = edition.clauses.get(ruling.clause)
        if clause is not None and not ruling.holds and severity(ruling.consequence) <= severity("advise"):
            idle |= _in_every_language(clause.condition) if clause.quantity not in _ALSO_WHEN_REJECTED else set()
    return tuple(condition for condition in decision.other_conditions if str(condition) not in idle)


def _only_told(decision: Decision, edition: Edition) -> list[str]:
    """What was found and asks no work, on a tire that is let go: its clause says why, and no condition follows."""
    if decision.verdict not in _LETS_GO:
        return []
    found = [one for one in decision.rulings if not one.holds and one.consequence == "advise"]
    return [
        str(one.because) for one in found if one.clause in edition.clauses and not edition.clauses[one.clause].condition
    ]


def _in_every_language(text: str) -> set[str]:
    """A decision that was kept says it in the language in which it was made."""
    told = set()
    for tag in LANGUAGES:
        with in_language(tag):
            told.add(str(text))
    return told


def not_needed(decision: Decision, case: Case, edition: Edition) -> tuple[str, ...]:
    """What nobody looked at and the decision was made without, in words; nothing while it is open."""
    if decision.is_open:
        return ()
    named = {words.lower() for look in decision.to_look_at for words in look.words}
    return tuple(words for words in not_looked_at(decision, case, edition) if words.lower() not in named)
