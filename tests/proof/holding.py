"""Whether a claim holds: each is put back to the rulebook afresh, whatever family made it and in whatever words."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from typing import Any

from assessments.questions.items.claims import (
    DIMENSIONS,
    All,
    Asked,
    AtLeast,
    Before,
    Claim,
    Clearance,
    Decided,
    Done,
    Faulty,
    Is,
    Left,
    Measure,
    Molded,
    Next,
    Not,
    Permitted,
    Planned,
    Reading,
    Share,
    Sighted,
    Sizes,
    Spot,
    States,
    Taught,
    Turning,
    is_about,
    laid_over,
    parts,
)
from assessments.questions.work.facts import is_known, permits
from assessments.questions.work.sequence import precedences
from tests.proof.bench import Bench, Recheck, unit_of
from tests.proof.eyes import is_seen
from tests.proof.molded import says
from tests.proof.readback import gauge_reading
from tests.proof.working import misblamed, misordered
from training.rulebook import (
    MEASURES,
    Case,
    Decision,
    Edition,
    Quantity,
    RepairUnit,
    in_unit,
    injury_geometry,
    measured,
    parse_case,
    parse_quantity,
    procedure,
)

_FARTHEST, _HALVINGS = {"mm": 200.0, "kPa": 1000.0}, 24  # to well below a tenth of a millimeter or of a kilopascal


def claimed(bench: Bench) -> Recheck:
    """What the rulebook says of a question by its claims: which of them hold, or the number or place asked for."""
    asks = bench.item.asks
    if bench.item.format in ("order", "fault"):
        complaints = misordered(bench) if bench.item.format == "order" else misblamed(bench)
        return Recheck(complaints=tuple(complaints), between=tuple(bench.between))
    if isinstance(asks, Spot):
        return Recheck(place=place(asks, bench), between=tuple(bench.between))
    if asks is not None:
        return bench.number(answer(asks, bench))
    right = [one.id for one in bench.item.options if one.claim is not None and holds(one.claim, bench)]
    return Recheck(frozenset(right), between=tuple(bench.between))


def holds(claim: Claim, bench: Bench) -> bool:
    """Does the rulebook say so?"""
    judged = bench.judges(claim)
    if judged is not None:
        return judged
    match claim:
        case All():
            return all(holds(one, bench) for one in claim.of)
        case Decided():
            return _is_decided(claim, bench)
        case States():
            statement = bench.edition.clause(claim.clause).strictest
            stated = {one.value for one in statement.quantities}
            return statement.bound == claim.bound and {_value(text) for text in claim.quantities} <= stated
        case Permitted():
            value = _since(claim.since, claim.value) if claim.since else claim.value
            return permits(bench.edition.clause(claim.clause), value)
        case Is():
            return _is(claim, bench)
        case AtLeast():
            return answer(claim.of, bench) >= answer(claim.than, bench)
        case Before():
            orders = (precedences(bench.edition, method) for method in bench.edition.orders)
            return not any((claim.then, claim.first) in pairs for pairs in orders)
        case Next():
            names = [step.id for step in procedure(bench.edition, method=claim.method)]
            return names[names.index(claim.after) + 1] == claim.step
        case Sighted():
            return is_seen(claim, bench.item)
        case Taught():
            return is_known(claim.fact, bench.edition) and not claim.wrongly
        case Not():
            return not holds(claim.of, bench)
        case Done() | Faulty():
            raise TypeError("what one line says of the work holds or not only beside the others")


def answer(asked: Asked, bench: Bench) -> float:
    """What is asked for, in the base unit."""
    for read in bench.reads(asked):
        if isinstance(read, float):
            return read
    match asked:
        case Measure() if asked.quantity not in MEASURES:
            case = _case(bench, asked.case)
            injury = next(one for one in case.injuries or () if one.id == asked.subject)
            return float(getattr(injury_geometry(case, injury, edition=bench.edition), asked.quantity))
        case Measure():
            by = bench.edition.clauses.get(asked.by)
            quantity = asked.quantity if by is None else by.quantity
            return _measured(bench, quantity, asked.subject, _case(bench, asked.case), None)
        case Clearance():
            clause = bench.edition.clause(asked.clause)
            case, units = _case(bench, asked.case), _units(asked.units)
            limit = clause.strictest.quantities[0].value
            return _measured(bench, clause.quantity, asked.subject, case, units) - float(limit)
        case Turning():
            return _turns(asked, bench) * (asked.times or 1)
        case Molded():
            found = says(asked)
            if not isinstance(found, float):
                raise ValueError(f"{asked.marking} says no number of {asked.of}")
            return found * (asked.times or 1)
        case Left():
            value, limits = _quantity(asked.value), bench.edition.clause(asked.clause).strictest.quantities
            stated = next(one for one in limits if one.unit == value.unit)
            return abs(float(stated.value * (asked.times or 1) - value.value))
        case Share():
            (percent,) = bench.edition.clause(asked.clause).strictest.quantities
            return float(_value(asked.value) * percent.value / 100)
        case Planned():
            return float(_value(_planned(asked, bench)))
        case Reading():
            figure = bench.item.figure
            shown = None if figure is None else gauge_reading(figure.svg, figure.description)
            if shown is None:
                raise ValueError("the drawing is no gauge that can be measured")
            return shown
        case Spot():
            raise TypeError("a place is no number")


def place(spot: Spot, bench: Bench) -> tuple[float | None, float | None]:
    """Where on the rulers of its drawing a question has its answer; None for a coordinate that any other will do."""
    frame = bench.item.frame
    if frame is None:
        raise ValueError("no rulers")
    start_x, start_y = spot.start or (-frame.left, None)
    away = spot.way * answer(spot.of, bench)
    if spot.depth_mm:
        start_y = frame.low - spot.depth_mm
    if spot.axis == "across":
        return start_x + away, start_y
    return start_x, None if start_y is None else start_y + away


def _is(claim: Is, bench: Bench) -> bool:
    if isinstance(claim.of, Planned):
        return claim.value in (bench.reads(claim.of) or (_planned(claim.of, bench),))
    read = bench.reads(claim.of)
    return any(_equals(claim, one) for one in read or (_found(claim.of, bench),))


def _found(asked: Asked, bench: Bench) -> float | str | None:
    return says(asked) if isinstance(asked, Molded) else answer(asked, bench)


def _equals(claim: Is, found: float | str | None) -> bool:
    if not claim.within:
        return (f"{found:g}" if isinstance(found, float) else found) == claim.value
    margin = float(_value(claim.within)) + 1e-6
    return isinstance(found, float) and abs(found - float(_value(claim.value))) <= margin


def _planned(asked: Planned, bench: Bench) -> str:
    """What the plan for the first injury says, in its own words; "" where it says nothing."""
    shelf = [
        RepairUnit(name, kind, _quantity(long), _quantity(wide), None, tuple(casings), _quantity(most))
        for name, kind, long, wide, most, *casings in asked.shelf
    ]
    plan = bench.decide(units=shelf or _units(asked.units)).plan
    said = (plan[0].unit if asked.of == "unit" else plan[0].buff) if plan else None
    return "" if said is None else str(said["name" if asked.of == "unit" else asked.of])


def _is_decided(claim: Decided, bench: Bench) -> bool:
    decision = _decision(claim, bench)
    if decision.verdict not in claim.verdicts:
        return False
    if claim.because and not any(_rests_on(decision, claim.because, one) for one in bench.told_by):
        return False
    allowed = [set(plan.methods_allowed) for plan in decision.plan or ()]
    return not claim.methods or (bool(allowed) and set.intersection(*allowed) == set(claim.methods))


def _decision(claim: Decided, bench: Bench) -> Decision:
    """The decision on the case that a claim is about."""
    data = laid_over(bench.data, claim.case)
    if claim.alone:
        data["injuries"] = [one for one in data["injuries"] if one["id"] == claim.alone]
    return bench.decide(data, _units(claim.units))


def _rests_on(decision: Decision, subjects: Iterable[str], edition: Edition) -> bool:
    quantities = [
        (edition.clauses[one.clause].quantity if one.clause in edition.clauses else one.clause, one.found)
        for one in decision.deciding
    ]
    said = [words for quantity, found in quantities for words in (quantity, f"{quantity} {found}")]
    return any(is_about(words, subject) for words in said for subject in subjects)


def _case(bench: Bench, patch: Any) -> Case:
    return parse_case(laid_over(bench.data, patch))


def _units(sizes: Sizes) -> list[RepairUnit] | None:
    return [unit for long, wide in sizes for unit in unit_of(float(_value(long)), float(_value(wide)))] or None


def _value(text: str) -> Any:
    return _quantity(text).value


def _since(start: str, end: str) -> str:
    """How much there is between two quantities of one unit."""
    unit = _quantity(end).unit
    return f"{float(in_unit(_quantity(end), unit) - in_unit(_quantity(start), unit)):g} {unit}"


def _quantity(text: str) -> Quantity:
    return parse_quantity(text, DIMENSIONS[text.rpartition(" ")[2]])


def _measured(bench: Bench, quantity: str, subject: str, case: Case, units: list[RepairUnit] | None) -> float:
    # Who reads a quantity wrongly does so wherever a clause names it.
    clauses = bench.edition.clauses.values()
    named = [one.quantity for one in clauses] + [one.quantity for clause in clauses for one in clause.when]
    misread = (one for one in named if MEASURES[one].misreads == quantity)
    found = measured(case, next(misread, quantity), subject, edition=bench.edition, units=units)
    if found is None:
        raise ValueError(f"{quantity} of {subject or 'the tire'} is not known")
    return float(found)


def _turns(asked: Turning, bench: Bench) -> float:
    """Halves until the value is found at which the decision or the clause turns."""
    data = laid_over(bench.data, asked.case)

    def stands(value: float) -> bool:
        decision = bench.decide(_put(data, asked.path.split("."), f"{value:.6f} {asked.unit}"), _units(asked.units))
        if asked.clause:
            return all(one.holds for one in decision.rulings if one.clause == asked.clause)
        return decision.verdict in asked.verdicts

    low, high = 0.0, _FARTHEST[asked.unit]
    for _ in range(_HALVINGS):
        middle = (low + high) / 2
        low, high = (middle, high) if stands(middle) == (asked.end == "most") else (low, middle)
    return low


def _put(data: Any, path: list[str], value: object) -> Any:
    """The data with a value at the end of a path."""
    if not path:
        return value
    first, *rest = path
    if isinstance(data, list):
        return [_put(one, rest, value) if place == int(first) else one for place, one in enumerate(data)]
    return {**data, first: _put(data.get(first), rest, value)}


def lets_go(claim: Claim, bench: Bench) -> bool:
    """Does it let a tire run, by its verdict, that the rulebook stops?"""
    return any(
        one.releases and not replace(one, verdicts=(_decision(one, bench).verdict,)).releases
        for one in parts(claim)
        if isinstance(one, Decided)
    )


def is_proposal(claim: Claim) -> bool:
    """Does it propose a way to repair, which may be none that a plan knows?"""
    decided = [one for one in parts(claim) if isinstance(one, Decided)]
    return any("patch-only" in one.methods or "proposed" in (one.case or {}) for one in decided)
