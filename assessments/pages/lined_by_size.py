"""A list of holes by their size: how much each is smaller or larger than the greatest that is allowed."""

from collections.abc import Mapping, Sequence
from functools import partial

from assessments.pages.judged import Judged, Lineup, tires_of
from assessments.questions import Item, Line
from training.drawings import size_strips
from training.rulebook import Case, Clause, Edition, Quantity, in_unit, quantity
from training.trade.lists import all_of
from training.trade.measures import as_read
from training.trade.speech import say, say_many

_SIZE = "injury.diameter"


def by_size(item: Item, edition: Edition, lines: Mapping[str, Line]) -> Lineup | None:
    """None where something else decides, a line is not measured, or not all are measured in one unit."""
    decided = {edition.clauses[id].quantity for id in _clauses(item) if id in edition.clauses}
    tires = tires_of(item, edition, lines) if decided == {_SIZE} else None
    if tires is None:
        return None
    clause = edition.limit(_SIZE, tires[0][1].tire.casing)
    sizes = [size for _, case, _ in tires if (size := _size(case)) is not None]
    units = {size.unit for size in sizes}
    if clause is None or len(sizes) != len(tires) or len(units) != 1 or not units <= {"in", "mm"}:
        return None
    (unit,) = units
    limit = _limit(clause, tires[0][1], unit)
    if limit is None:
        return None
    judged = tuple(
        Judged(option, line, size.value > limit.value, size.value > limit.value, _reason(size, limit, line))
        for size, (option, _, line) in zip(sizes, tires, strict=True)
    )
    draw = partial(size_strips, sizes, limit, prefer=unit)
    return Lineup(judged, lambda ringed: draw(ringed=ringed), _told)


def _clauses(item: Item) -> set[str]:
    return {str(line.get("clause", "")) for line in item.explanation}


def _size(case: Case) -> Quantity | None:
    """Of its one hole."""
    holes = case.injuries or ()
    return holes[0].diameter if len(holes) == 1 and holes[0].kind == "puncture" else None


def _limit(clause: Clause, case: Case, unit: str) -> Quantity | None:
    """The least that counts, as it is stated in this unit, where it is."""
    counted = [[one for one in stated.quantities if one.unit == unit] or stated.quantities[:1]
               for stated in clause.deciding(case.jurisdiction) if stated.bound == "at_most"]  # fmt: skip
    return min((each[0] for each in counted if each), key=lambda one: one.value, default=None)


def _reason(size: Quantity, limit: Quantity, line: Line) -> str:
    """Why, by the size alone; in the rulebook's own words where something else decides or it states another unit."""
    if (size.value <= limit.value) != (line.verdict == "repair") or size.unit != limit.unit:
        return line.reason
    if size.value == limit.value:
        return say("Just what is allowed, {limit}.", limit=as_read(limit.text))
    by = as_read(quantity(in_unit(limit, limit.unit) - in_unit(size, limit.unit), limit.unit).text.removeprefix("-"))
    if size.value < limit.value:
        return say("{by} smaller than the limit of {limit}.", by=by, limit=as_read(limit.text))
    return say("{by} larger than the limit of {limit}.", by=by, limit=as_read(limit.text))


def _told(past: Sequence[str], inside: Sequence[str]) -> str:
    told = []
    if past:
        told.append(
            say_many(
                "{lines} is larger than the limit", "{lines} are larger than the limit", len(past), lines=all_of(past)
            )
        )
    if inside:
        told.append(
            say_many("{lines} keeps to the limit", "{lines} keep to the limit", len(inside), lines=all_of(inside))
        )
    return all_of(told)
