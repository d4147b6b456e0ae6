"""Values that change are dated where they stand: what a table said before a day, and from and until when it holds."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date

from training.rulebook.clauses import BOUNDS
from training.rulebook.loader import Place
from training.trade.lists import one_of
from training.trade.reading import shown

Table = Mapping[str, object]
_LIMIT = frozenset({"statement", *BOUNDS})
_DATES = frozenset({"earlier", "in_force_before"})


@dataclass(frozen=True, slots=True)
class Span:
    """When a version is in force: from `first` up to, but without, `end`, the first day of the next one.

    `changes`: the days on which what it reads may change, the first days of later versions; None leaves them free, as
    for what an edition takes: it moves with the versions of the edition, not with its own days.
    """

    first: date
    end: date | None
    changes: Sequence[date] | None

    @property
    def of_trade(self) -> "Span":
        """The same for what is taken."""
        return Span(self.first, self.end, None)


def holding(tables: Sequence[Table], span: Span, place: Place, *, starts_within: bool = False) -> list[Table]:
    """The tables that hold in a version, each as it was then. Raises RulebookError.

    A table may say `in_force_from`, `in_force_before`, and what it said earlier: `[[clause.earlier]]` with `before` and
    the fields that differed. With `starts_within` the first day stays in the table: it may lie within the version.
    """
    found: list[Table] = []
    for table in map(place.table, tables):
        inside = Place(place.file, f'{place.what} "{table.get("id")}"' if "id" in table else place.what)
        last = _change(table, "in_force_before", span, inside)
        starts = inside.day(table, "in_force_from") if "in_force_from" in table else None
        if (last is None or span.first < last) and (starts is None or span.end is None or starts < span.end):
            held = _earlier(table, span, inside) if "earlier" in table else table
            dropped = _DATES if starts_within else _DATES | {"in_force_from"}
            found.append({field: held[field] for field in held if field not in dropped})
    return found


def changed(table: Table, change: Table) -> Table:
    """The table with some fields changed; a limit takes the place of whatever limit stood there."""
    replaced = _LIMIT if _LIMIT & change.keys() else frozenset[str]()
    return {**{field: value for field, value in table.items() if field not in replaced}, **change}


def _earlier(table: Table, span: Span, place: Place) -> Table:
    entries = table["earlier"]
    if not isinstance(entries, list) or not all(isinstance(entry, Mapping) for entry in entries):
        place.refuse("earlier", "is not accepted; give tables with the day `before` which they held")
    ends = {_change(entry, "before", span, place, is_needed=True): entry for entry in entries}
    for end in sorted((end for end in ends if end is not None), reverse=True):
        if span.first < end:
            table = changed(table, {field: value for field, value in ends[end].items() if field != "before"})
    return table


def _change(table: Table, field: str, span: Span, place: Place, *, is_needed: bool = False) -> date | None:
    if field not in table and not is_needed:
        return None
    day = place.day(table, field)
    if span.changes is not None and day not in span.changes:
        accepted = f"choose {one_of([str(one) for one in span.changes])}" if span.changes else "there is but one"
        place.refuse(field, f"{shown(day)} is not accepted; it is the first day of no later version: {accepted}")
    return day
