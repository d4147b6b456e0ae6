"""Which fields a casing and a purpose need: those that the examples of the edition's own clauses name.

Every clause carries cases that pass and fail it, so its examples say what has to be looked at to decide by it.
"""

from collections.abc import Iterable, Iterator, Mapping
from typing import Any

from training.forms.tire_parts import INJURY, INJURY_ROWS, POSITION, REPAIR, REPAIR_ROWS, TIRE, finding_name
from training.rulebook import MEASURES, Edition

# asked whatever the clauses say: which tire it is, what for, and when
_ALWAYS = ("casing", "purpose", "on_wheel", "designation", "on")
# a field that an example need not name, but without which the other says less
_WITH = {
    "injuries": ("injuries.kind", "injuries.zone"),
    "injuries.diameter": ("injuries.before_removal",),
    "injuries.reaches": ("injuries.length",),
    "injuries.lateral": ("injuries.zone", "injuries.station"),
    "injuries.angle": ("injuries.azimuth",),
    "earlier_repairs": ("earlier_repairs.kind", "earlier_repairs.zone"),
    "earlier_repairs.lateral": ("earlier_repairs.station", "earlier_repairs.unit.length", "earlier_repairs.unit.width"),
    "pressure.found": ("pressure.recommended", "pressure.sidewall_max"),
    "dual_mate.diameter": ("dual_mate.own_diameter", "position.dual"),
    "tire.retreaded": ("tire.retreaded_on",),
}
_NEXT_GROOVE = "tread.adjacent_depth"


def asked_fields(edition: Edition, *, casing: str, purpose: str) -> frozenset[str]:
    """The form fields that an edition's clauses for this casing and purpose look at."""
    paths: set[str] = set()
    names = set(_ALWAYS)
    for clause in edition.clauses.values():
        if clause.is_for_job() or casing not in clause.casings or purpose not in clause.purposes:
            continue
        if MEASURES[clause.quantity].is_rare:  # it speaks of what was stated anyway, and asks for nothing
            continue
        for example in (*clause.passes, *clause.fails):
            paths.update(_paths(example))
        if clause.quantity == _NEXT_GROOVE:
            names.add("depths_2")
    for fact in edition.essentials.insisted_on(_read_by(edition, casing, purpose), casing, purpose):
        paths.update(fact.fields)
    for path in tuple(paths):
        paths.update(_WITH.get(path, ()))
    for path in paths:
        names.update(fields_at(path))
    return frozenset(names)


def _read_by(edition: Edition, casing: str, purpose: str) -> frozenset[str]:
    """The quantities that the clauses for a casing and a purpose look at, conditions too."""
    clauses = [
        clause
        for clause in edition.clauses.values()
        if casing in clause.casings and purpose in clause.purposes and not MEASURES[clause.quantity].is_rare
    ]
    conditions = (condition.quantity for clause in clauses for condition in clause.when)
    return frozenset((*(clause.quantity for clause in clauses), *conditions))


def fields_at(path: str) -> Iterable[str]:
    """The form fields that stand for a place in a case, in every row of the form."""
    group, _, rest = path.partition(".")
    if group == "findings":
        return (finding_name(rest),) if rest else ()
    if group == "injuries":
        return _of_rows("injuries", "injury", INJURY_ROWS, _NAMES_OF_INJURY, rest)
    if group == "earlier_repairs":
        return _of_rows("repairs", "repair", REPAIR_ROWS, _NAMES_OF_REPAIR, rest)
    if group == "tread_depths":
        return ("depths_1",)
    return _under(path, _NAMES)


def _of_rows(whole: str, prefix: str, rows: tuple[str, ...], names: Mapping[str, str], path: str) -> tuple[str, ...]:
    if not path:
        return (whole,)
    return tuple(f"{prefix}_{row}_{name}" for row in rows for name in _under(path, names))


def _under(path: str, names: Mapping[str, str]) -> tuple[str, ...]:
    """The field of a place, or of all places that it is made of."""
    return tuple(name for place, name in names.items() if place == path or place.startswith(f"{path}."))


def _paths(data: Mapping[str, Any], above: str = "") -> Iterator[str]:
    for key, value in data.items():
        path = above + key
        if isinstance(value, Mapping):
            yield from _paths(value, f"{path}.")
            continue
        yield path
        if isinstance(value, list | tuple):
            for entry in value:
                if isinstance(entry, Mapping):
                    yield from _paths(entry, f"{path}.")


_NAMES = {part.path: part.name for part in (*TIRE, *POSITION)} | {"proposed": "proposed", "on": "on"}
_NAMES_OF_INJURY = {part.path: part.name for part in INJURY}
_NAMES_OF_REPAIR = {part.path: part.name for part in REPAIR}
