"""Reading a case from JSON data: every problem is collected, each names the field, the value and what is accepted."""

import re
from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace
from functools import partial
from itertools import count
from typing import TypeVar

from training.rulebook.case import (
    Case,
    CaseError,
    DualMate,
    EarlierRepair,
    Finding,
    Injury,
    Position,
    Pressure,
    Roadside,
    Tire,
    TreadReading,
    UnitSize,
)
from training.rulebook.case_words import DOUBT, FINDINGS, WORDS
from training.rulebook.fields import (
    MOST_ENTRIES,
    Problems,
    Shape,
    a_list,
    a_quantity,
    an_object,
    answer,
    date_code,
    day,
    day_or_date_code,
    designation,
    flag,
    identity,
    is_object,
    lean,
    matching,
    not_negative,
    objects,
    positive,
    read_fields,
    shown,
    speed_symbol,
    station,
    word,
)
from training.rulebook.markings import MarkingError, load_capacity_kg
from training.rulebook.registry import default_edition, edition_countries, edition_names, unreadable_edition
from training.trade.lists import one_of
from training.trade.speech import say, saying
from training.trade.words import CASINGS, PURPOSES

_LISTED_DEPTHS = saying('a list of depths such as ["5/32 in", "4/32 in"]')
_LENGTH_NEEDED = saying('a length, for example "75 mm"')


def _groove(value: object, path: str, problems: Problems) -> int | None:
    if type(value) is int and 1 <= value <= MOST_ENTRIES:
        return value
    problems.append(
        say(
            "{path}: {given} is not a groove; give its number, counted 1, 2, 3 across the tread",
            path=path,
            given=shown(value),
        )
    )
    return None


_READING: Shape = {"depth": not_negative("length"), "groove": _groove, "station": station}
_reading = an_object(_READING, TreadReading, needs={"depth": _LENGTH_NEEDED})


def _load_index(value: object, path: str, problems: Problems) -> int | None:
    index = int(value) if type(value) is str and re.fullmatch("[0-9]{1,3}", value) else value
    if type(index) is int:
        try:
            load_capacity_kg(index)
            return index
        except MarkingError:
            pass
    problems.append(
        say(
            "{path}: {given} is not a load index; give a whole number from 0 to 180, for example 91",
            path=path,
            given=shown(value),
        )
    )
    return None


def _depths(data: object, path: str, problems: Problems) -> tuple[TreadReading, ...]:
    listed = a_list(data, path, _LISTED_DEPTHS, problems)
    readings = []
    for place, entry in enumerate(listed or ()):
        inside = f"{path}[{place}]"
        if entry is None:
            problems.append(
                say('{inside}: null is not a depth; give one such as "5/32 in", or leave the entry out', inside=inside)
            )
        elif is_object(entry):
            readings.append(_reading(entry, inside, problems))
        elif (depth := _READING["depth"](entry, inside, problems)) is not None:
            readings.append(TreadReading(depth))
    return tuple(reading for reading in readings if reading is not None)


def _findings(data: object, path: str, problems: Problems) -> dict[str, Finding]:
    known = WORDS["findings"]
    if isinstance(data, list | tuple):
        for place, slug in enumerate(data):
            if type(slug) is not str or slug not in known:
                problems.append(
                    say(
                        "{path}[{place}]: {finding} is not a finding; choose from {choices}",
                        path=path,
                        place=place,
                        finding=shown(slug),
                        choices=one_of(FINDINGS),
                    )
                )
        return dict.fromkeys(data, True) if not problems else {}
    if isinstance(data, Mapping):
        for slug, found in data.items():
            if slug not in known:
                problems.append(
                    say(
                        "{path}: {finding} is not a finding; choose from {choices}",
                        path=path,
                        finding=shown(slug),
                        choices=one_of(FINDINGS),
                    )
                )
            elif found is not False and found is not True:
                answer(found, f"{path}.{slug}", problems)
        return dict(data) if not problems else {}
    accepted = say('a list of findings, or a map from finding to true, false or "{doubt}"', doubt=DOUBT)
    problems.append(
        say("{path}: {given} is not accepted; give {accepted}", path=path, given=shown(data), accepted=accepted)
    )
    return {}


def edition_name(value: object, path: str, problems: Problems) -> str | None:
    """The name of an edition; one that cannot be read is named with what is wrong with it."""
    if isinstance(value, str) and (problem := unreadable_edition(value)):
        problems.append(f"{path}: {problem}")
        return None
    found: str | None = word(edition_names())(value, path, problems)
    return found


_TIRE: Shape = {
    "casing": word(CASINGS),
    "designation": designation,
    "date_code": date_code,
    "retreaded": flag,
    "retreaded_on": day_or_date_code,
    "tread_width": positive("length"),
    "outer_groove": positive("length"),
    "crown_thickness": positive("length"),
    "build": word(WORDS["tire.build"]),
    "regroovable": flag,
    "max_load": positive("mass"),
    "max_load_dual": positive("mass"),
    "ran_without_air": flag,
    "approval_mark": flag,
    "part_worn_mark": flag,
}
_POSITION: Shape = {
    "vehicle": word(WORDS["position.vehicle"]),
    "axle": word(WORDS["position.axle"]),
    "gross_mass": positive("mass"),
    "dual": flag,
    "wheel": word(WORDS["position.wheel"]),
    "asked_size": designation,
    "asked_load_index": _load_index,
    "asked_load": positive("mass"),
    "asked_speed": speed_symbol,
    "carried": positive("mass"),
}
_PRESSURE: Shape = {
    "recommended": positive("pressure"),
    "found": not_negative("pressure"),
    "sidewall_max": positive("pressure"),
    "for_load": positive("pressure"),
}
_INJURY: Shape = {
    "id": identity,
    "kind": word(WORDS["injury.kind"]),
    "diameter": positive("length"),
    "before_removal": positive("length"),
    "angle": lean,
    "azimuth": a_quantity("angle"),
    "lateral": a_quantity("length"),
    "station": station,
    "zone": word(WORDS["injury.zone"]),
    "length": positive("length"),
    "reaches": word(WORDS["injury.reaches"]),
}
_UNIT: Shape = {"length": positive("length"), "width": positive("length")}
_REPAIR: Shape = {
    "id": identity,
    "kind": word(WORDS["earlier_repair.kind"]),
    "zone": word(WORDS["earlier_repair.zone"]),
    "injury": positive("length"),
    "sound": answer,
    "lateral": a_quantity("length"),
    "station": station,
    "unit": an_object(_UNIT, UnitSize, needs=dict.fromkeys(_UNIT, _LENGTH_NEEDED)),
}
_DUAL: Shape = {"diameter": positive("length"), "own_diameter": positive("length")}
_ROADSIDE: Shape = {"means": word(WORDS["roadside.means"]), "driven": not_negative("distance")}
_CASE: Shape = {
    "tire": an_object(_TIRE, Tire, needs={"casing": one_of(CASINGS)}),
    "edition": edition_name,
    "jurisdiction": matching(re.compile(r"[A-Z]{2}(-[A-Z0-9]{1,3})?"), saying('a code such as "US-UT"')),
    "on": day,
    "purpose": word(PURPOSES),
    "position": an_object(_POSITION, Position),
    "on_wheel": flag,
    "pressure": an_object(_PRESSURE, Pressure),
    "tread_depths": _depths,
    "injuries": objects(_INJURY, partial(Injury, id="")),
    "findings": _findings,
    "earlier_repairs": objects(_REPAIR, partial(EarlierRepair, id="")),
    "proposed": word(WORDS["proposed"]),
    "dual_mate": an_object(_DUAL, DualMate, needs=dict.fromkeys(_DUAL, _LENGTH_NEEDED)),
    "roadside": an_object(_ROADSIDE, Roadside, needs={"means": one_of(WORDS["roadside.means"])}),
}


def parse_case(data: object) -> Case:
    """Read a case from JSON data.

    Raises CaseError with all problems, one line each.

    >>> parse_case({"tire": {"casing": "passenger"}}).purpose
    'repair'
    """
    problems: Problems = []
    if not is_object(data):
        raise CaseError(
            (
                say(
                    'case: {given} is not a case; give an object with at least {{"tire": {{"casing": ...}}}}',
                    given=shown(data),
                ),
            )
        )
    given = read_fields(data if data.get("tire") is not None else {**data, "tire": {}}, _CASE, "", problems)
    seen: set[str] = set()
    for name, id_of in (("injuries", _letter), ("earlier_repairs", _number)):
        if name in given:
            given[name] = _named(given[name], id_of)
            _distinct(given[name], name, seen, problems)
    if problems:
        raise CaseError(tuple(problems))
    if "edition" not in given:
        given["edition"] = default_edition()
    return Case(**given)


def _letter(place: int) -> str:
    """The id of an injury that was given none: A, B, C."""
    return chr(ord("A") + place) if place < 26 else f"A{place}"


def _number(place: int) -> str:
    """The id of an earlier repair that was given none: R1, R2, R3."""
    return f"R{place + 1}"


def vocabulary() -> tuple[tuple[str, str, str], ...]:
    """All accepted words as (field, word, meaning)."""
    words = {"edition": edition_countries(), **WORDS}
    return tuple((field, word, meaning) for field, known in words.items() for word, meaning in known.items())


Named = TypeVar("Named", Injury, EarlierRepair)


def _named(entries: tuple[Named, ...], name: Callable[[int], str]) -> tuple[Named, ...]:
    """The entries, those without an id given the first free one."""
    if all(entry.id for entry in entries):
        return entries
    taken = {entry.id for entry in entries}
    free = (name(place) for place in count() if name(place) not in taken)
    return tuple(entry if entry.id else replace(entry, id=next(free)) for entry in entries)


def _distinct(entries: Sequence[Injury | EarlierRepair], name: str, seen: set[str], problems: Problems) -> None:
    for place, entry in enumerate(entries):
        if entry.id in seen:
            problems.append(
                say(
                    '{name}[{place}].id: "{id}" is used twice; give each injury and repair its own id',
                    name=name,
                    place=place,
                    id=entry.id,
                )
            )
        seen.add(entry.id)
