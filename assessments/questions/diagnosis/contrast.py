"""Two tires on either side of a limit, the same but for one value, and what the rulebook says of each."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from itertools import product
from typing import Any

from training.rulebook import (
    MEASURES,
    CaseError,
    Clause,
    Edition,
    decide,
    parse_case,
    parse_quantity,
    said_by,
    severity,
)
from training.trade.measures import as_read
from training.trade.words import written


@dataclass(frozen=True, slots=True)
class Side:
    """One of the two: what was found, the verdict on the tire, "" where the work is judged and not the tire, and
    whether it keeps to the clause."""

    found: str
    verdict: str
    is_within: bool


@dataclass(frozen=True, slots=True)
class Contrast:
    """What keeps to a clause and what does not. `casing` is that of both tires, "" where it is about the work."""

    clause: str
    title: str
    limit: str
    because: str
    source: str
    casing: str
    within: Side
    beyond: Side

    @property
    def sides(self) -> tuple[Side, Side]:
        """Both, the one in order first."""
        return self.within, self.beyond


def contrast(clauses: Iterable[str], *, edition: Edition, prefer: str, casing: str = "") -> Contrast | None:
    """The pair of the first of these clauses that has one under this edition; None where none has.

    It is told in the unit preferred, "in" or "mm", and of this casing, as far as the clause's own examples allow.

    The examples are those that the edition keeps with a clause; the rulebook decides both here, house rules included.
    """
    for id in dict.fromkeys(clauses):
        clause = edition.clauses.get(id)
        if clause is None:
            continue
        pairs = _work(clause) if clause.is_for_job() else _tires(clause, edition, prefer, casing)
        found = min(pairs, key=lambda pair: sum(not _is_told_in(value, prefer) for value in pair[0]), default=None)
        if found is not None:
            _, told_of, within, beyond = found
            limit = as_read(clause.limit_told_in(prefer))
            source = said_by(clause.kind, clause.source)
            return Contrast(id, clause.title, limit, clause.because, source, told_of, within, beyond)
    return None


_Pair = tuple[tuple[str, str], str, Side, Side]  # the two values that differ, the casing, both sides


def _is_told_in(value: str, prefer: str) -> bool:
    return value.endswith((" in", " psi", " lbf.ft", " mi") if prefer == "in" else (" mm", " kPa", " N.m", " km"))


def _work(clause: Clause) -> Iterator[_Pair]:
    """Values of the work, such as a speed of the cutter."""
    dimension = MEASURES[clause.quantity].dimension

    def told(example: Mapping[str, Any]) -> str:
        value = str(example["value"])
        return as_read(parse_quantity(value, dimension).text) if dimension else str(written(value))

    def holds(example: Mapping[str, Any]) -> bool:
        value = str(example["value"])
        if dimension:
            return clause.strictest.permits(parse_quantity(value, dimension))
        return (value in clause.strictest.words) == (clause.bound == "must_be")

    for within in filter(holds, clause.passes):
        for beyond in clause.fails:
            if not holds(beyond):
                values = str(within["value"]), str(beyond["value"])
                yield values, "", Side(told(within), "", True), Side(told(beyond), "", False)


def _tires(clause: Clause, edition: Edition, prefer: str, asked: str) -> Iterator[_Pair]:
    """Tires of the casing that was asked about, else of the first the clause is for."""
    for casing in sorted(clause.casings, key=lambda one: one != asked)[:1]:
        for purpose in clause.purposes:
            for within, beyond in _apart(clause):
                values = _values_apart(within, beyond)
                if values is None:
                    continue
                first, holds = _side(clause, within, casing, purpose, edition, prefer)
                second, fails = _side(clause, beyond, casing, purpose, edition, prefer)
                if first and second and holds and not fails and severity(first.verdict) < severity(second.verdict):
                    yield values, casing, first, second


def _apart(clause: Clause) -> Iterator[tuple[Mapping[str, Any], Mapping[str, Any]]]:
    """Examples that keep to the clause, each with one that does not; under a house rule also with its own limit, which
    the edition's examples know nothing of."""
    for within, beyond in product(clause.passes, clause.fails):
        yield within, beyond
        path = _path_apart(within, beyond)
        for limit in clause.house.quantities if clause.house is not None and path else ():
            yield _with(within, path, limit.text), beyond


def _path_apart(one: Mapping[str, Any], other: Mapping[str, Any]) -> tuple[Any, ...]:
    """Where the two examples differ, if in one value alone; () else."""
    first, second = dict(_leaves(one)), dict(_leaves(other))
    differing = [path for path in first if first[path] != second.get(path)]
    return differing[0] if first.keys() == second.keys() and len(differing) == 1 else ()


def _with(told: Any, path: tuple[Any, ...], value: str) -> Any:
    """The example with another value at this place."""
    if not path:
        return value
    step, *rest = path
    if isinstance(told, Mapping):
        return {**told, step: _with(told[step], tuple(rest), value)}
    return [_with(one, tuple(rest), value) if place == step else one for place, one in enumerate(told)]


def _values_apart(one: Mapping[str, Any], other: Mapping[str, Any]) -> tuple[str, str] | None:
    """What the two examples say differently, where it is one value and no more."""
    path = _path_apart(one, other)
    return (str(dict(_leaves(one))[path]), str(dict(_leaves(other))[path])) if path else None


def _leaves(told: object, path: tuple[Any, ...] = ()) -> Iterator[tuple[tuple[Any, ...], object]]:
    if isinstance(told, Mapping):
        for name, value in told.items():
            yield from _leaves(value, (*path, name))
    elif isinstance(told, list | tuple):
        for place, value in enumerate(told):
            yield from _leaves(value, (*path, place))
    else:
        yield path, told


def _side(
    clause: Clause, example: Mapping[str, Any], casing: str, purpose: str, edition: Edition, prefer: str
) -> tuple[Side | None, bool]:
    """What the rulebook says of one example, and whether the clause holds on it; nothing where it does not apply."""
    tire = {"casing": casing, **example.get("tire", {})}
    told = {
        "edition": edition.name,
        "on": edition.in_force_from.isoformat(),
        "purpose": purpose,
        **example,
        "tire": tire,
    }
    try:
        decision = decide(parse_case(told), edition=edition, rest_in_order=True, prefer=prefer)
    except CaseError:
        return None, False
    rulings = [ruling for ruling in decision.rulings if ruling.clause == clause.id]
    if not rulings:
        return None, False
    failing = [ruling for ruling in rulings if not ruling.holds]
    shown = (failing or rulings)[0]
    return Side(as_read(str(written(shown.found))), decision.verdict, not failing), not failing
