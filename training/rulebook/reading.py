"""Reading a case from JSON data: every problem is collected, each names the field, the value and what is accepted."""

import re
from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace
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
    Tire,
    TreadReading,
    UnitSize,
)
from training.rulebook.case_words import DOUBT, FINDINGS, WORDS
from training.rulebook.fields import (
    MOST_ENTRIES,
    Problems,
    a_list,
    a_quantity,
    an_object,
    answer,
    date_code,
    day,
    designation,
    each,
    flag,
    identity,
    known_keys,
    lean,
    letter,
    matching,
    not_negative,
    number,
    positive,
    required,
    retreaded_on,
    shown,
    station,
    word,
)
from training.rulebook.registry import default_edition, edition_countries, edition_names, unreadable_edition
from training.trade.lists import one_of
from training.trade.words import CASINGS, PURPOSES

_JURISDICTION = re.compile(r"[A-Z]{2}(-[A-Z0-9]{1,3})?")

_CASE = frozenset(
    {
        "edition",
        "jurisdiction",
        "on",
        "purpose",
        "tire",
        "position",
        "on_wheel",
        "pressure",
        "tread_depths",
        "injuries",
        "findings",
        "earlier_repairs",
        "proposed",
        "dual_mate",
    }
)
_TIRE = frozenset(
    {
        "designation",
        "casing",
        "date_code",
        "retreaded",
        "retreaded_on",
        "tread_width",
        "outer_groove",
        "crown_thickness",
        "build",
    }
)
_POSITION = frozenset({"vehicle", "axle", "gross_mass", "dual", "wheel"})
_PRESSURE = frozenset({"recommended", "found"})
_READING = frozenset({"groove", "station", "depth"})
_INJURY = frozenset(
    {
        "id",
        "kind",
        "diameter",
        "before_removal",
        "angle",
        "azimuth",
        "lateral",
        "station",
        "zone",
        "length",
        "reaches",
    }
)
_REPAIR = frozenset({"id", "kind", "zone", "injury", "sound", "lateral", "station", "unit"})
_UNIT = frozenset({"length", "width"})
_DUAL = frozenset({"diameter", "own_diameter"})


def parse_case(data: Mapping[str, object]) -> Case:
    """Read a case from the JSON data of DESIGN's schema.

    Raises CaseError with all problems, one line each.

    >>> parse_case({"tire": {"casing": "passenger"}}).purpose
    'repair'
    """
    problems: Problems = []
    if type(data) is not dict and not isinstance(data, Mapping):
        raise CaseError(
            (f'case: {shown(data)} is not a case; give an object with at least {{"tire": {{"casing": ...}}}}',)
        )
    known_keys(data, _CASE, "", problems)
    given = data.get
    findings = given("findings")
    pressure = given("pressure")
    position = given("position")
    dual = given("dual_mate")
    depths = given("tread_depths")
    case = Case(
        tire=_tire(given("tire"), problems),
        edition=edition_name(given("edition"), problems) or default_edition(),
        jurisdiction=matching(given("jurisdiction"), _JURISDICTION, "jurisdiction", 'a code such as "US-UT"', problems),
        on=day(given("on"), "on", problems),
        purpose=word(given("purpose"), PURPOSES, "purpose", problems) or "repair",
        position=_position(position, problems) if position is not None else Position(),
        on_wheel=flag(given("on_wheel"), "on_wheel", problems),
        pressure=_pressure(pressure, problems) if pressure is not None else Pressure(),
        tread_depths=_depths(depths, problems) if depths is not None else (),
        injuries=_named(each(given("injuries"), "injuries", _injury, problems), letter),
        findings=_findings(findings, problems) if findings is not None else {},
        earlier_repairs=_named(each(given("earlier_repairs"), "earlier_repairs", _repair, problems), number),
        proposed=word(given("proposed"), WORDS["proposed"], "proposed", problems),
        dual_mate=_dual(dual, problems) if dual is not None else None,
    )
    _distinct(case, problems)
    if problems:
        raise CaseError(tuple(problems))
    return case


def edition_name(value: object, problems: Problems) -> str | None:
    """The name of an edition, or None; one that cannot be read is named with what is wrong with it."""
    if isinstance(value, str) and (problem := unreadable_edition(value)):
        problems.append(f"edition: {problem}")
        return None
    return word(value, edition_names(), "edition", problems)


def vocabulary() -> tuple[tuple[str, str, str], ...]:
    """All accepted words as (field, word, meaning)."""
    words = {"edition": edition_countries(), **WORDS}
    return tuple((field, word, meaning) for field, known in words.items() for word, meaning in known.items())


def _tire(data: object, problems: Problems) -> Tire:
    if data is None:
        problems.append(f"tire.casing: missing; give {one_of(CASINGS)}")
        return Tire("")
    tire = an_object(data, _TIRE, "tire", problems)
    if tire is None:
        return Tire("")
    given = tire.get
    casing = word(given("casing"), CASINGS, "tire.casing", problems)
    if given("casing") is None:
        problems.append(f"tire.casing: missing; give {one_of(CASINGS)}")
    return Tire(
        casing=casing or "",
        designation=designation(given("designation"), problems),
        date_code=date_code(given("date_code"), "tire.date_code", problems),
        retreaded=flag(given("retreaded"), "tire.retreaded", problems),
        retreaded_on=retreaded_on(given("retreaded_on"), problems),
        tread_width=positive(given("tread_width"), "length", "tire.tread_width", problems),
        outer_groove=positive(given("outer_groove"), "length", "tire.outer_groove", problems),
        crown_thickness=positive(given("crown_thickness"), "length", "tire.crown_thickness", problems),
        build=word(given("build"), WORDS["tire.build"], "tire.build", problems),
    )


def _position(data: object, problems: Problems) -> Position:
    position = an_object(data, _POSITION, "position", problems)
    if position is None:
        return Position()
    given = position.get
    return Position(
        vehicle=word(given("vehicle"), WORDS["position.vehicle"], "position.vehicle", problems),
        axle=word(given("axle"), WORDS["position.axle"], "position.axle", problems),
        gross_mass=positive(given("gross_mass"), "mass", "position.gross_mass", problems),
        dual=flag(given("dual"), "position.dual", problems),
        wheel=word(given("wheel"), WORDS["position.wheel"], "position.wheel", problems),
    )


def _pressure(data: object, problems: Problems) -> Pressure:
    pressure = an_object(data, _PRESSURE, "pressure", problems)
    if pressure is None:
        return Pressure()
    given = pressure.get
    return Pressure(
        recommended=positive(given("recommended"), "pressure", "pressure.recommended", problems),
        found=not_negative(given("found"), "pressure", "pressure.found", problems),
    )


def _depths(data: object, problems: Problems) -> tuple[TreadReading, ...]:
    listed = a_list(data, "tread_depths", 'a list of depths such as ["5/32 in", "4/32 in"]', problems)
    readings = []
    for place, entry in enumerate(listed or ()):
        path = f"tread_depths[{place}]"
        if type(entry) is not dict and not isinstance(entry, Mapping):
            depth = not_negative(entry, "length", path, problems)
            if entry is None:
                problems.append(f'{path}: null is not a depth; give one such as "5/32 in", or leave the entry out')
            if depth is not None:
                readings.append(TreadReading(depth))
            continue
        known_keys(entry, _READING, path, problems)
        depth = required(entry, "depth", "length", path, problems, lowest=0)
        groove = entry.get("groove")
        if groove is not None and (type(groove) is not int or not 1 <= groove <= MOST_ENTRIES):
            problems.append(
                f"{path}.groove: {shown(groove)} is not a groove; give its number, counted 1, 2, 3 across the tread"
            )
            groove = None
        at = station(entry.get("station"), f"{path}.station", problems)
        if depth is not None:
            readings.append(TreadReading(depth, groove if isinstance(groove, int) else None, at))
    return tuple(readings)


def _injury(data: Mapping[str, object], path: str, place: int, problems: Problems) -> Injury:
    known_keys(data, _INJURY, path, problems)
    given = data.get
    return Injury(
        id=identity(given("id"), f"{path}.id", problems) or "",
        kind=word(given("kind"), WORDS["injury.kind"], f"{path}.kind", problems) or "puncture",
        diameter=positive(given("diameter"), "length", f"{path}.diameter", problems),
        before_removal=positive(given("before_removal"), "length", f"{path}.before_removal", problems),
        angle=lean(given("angle"), f"{path}.angle", problems),
        azimuth=a_quantity(given("azimuth"), "angle", f"{path}.azimuth", problems),
        lateral=a_quantity(given("lateral"), "length", f"{path}.lateral", problems),
        station=station(given("station"), f"{path}.station", problems),
        zone=word(given("zone"), WORDS["injury.zone"], f"{path}.zone", problems),
        length=positive(given("length"), "length", f"{path}.length", problems),
        reaches=word(given("reaches"), WORDS["injury.reaches"], f"{path}.reaches", problems),
    )


def _repair(data: Mapping[str, object], path: str, place: int, problems: Problems) -> EarlierRepair:
    known_keys(data, _REPAIR, path, problems)
    given = data.get
    return EarlierRepair(
        id=identity(given("id"), f"{path}.id", problems) or "",
        kind=word(given("kind"), WORDS["earlier_repair.kind"], f"{path}.kind", problems),
        zone=word(given("zone"), WORDS["earlier_repair.zone"], f"{path}.zone", problems),
        injury=positive(given("injury"), "length", f"{path}.injury", problems),
        sound=answer(given("sound"), f"{path}.sound", problems),
        lateral=a_quantity(given("lateral"), "length", f"{path}.lateral", problems),
        station=station(given("station"), f"{path}.station", problems),
        unit=_unit(given("unit"), f"{path}.unit", problems),
    )


def _unit(data: object, path: str, problems: Problems) -> UnitSize | None:
    unit = None if data is None else an_object(data, _UNIT, path, problems)
    if unit is None:
        return None
    length = required(unit, "length", "length", path, problems)
    width = required(unit, "width", "length", path, problems)
    return UnitSize(length, width) if length is not None and width is not None else None


def _dual(data: object, problems: Problems) -> DualMate | None:
    pair = an_object(data, _DUAL, "dual_mate", problems)
    if pair is None:
        return None
    mate = required(pair, "diameter", "length", "dual_mate", problems)
    own = required(pair, "own_diameter", "length", "dual_mate", problems)
    return DualMate(mate, own) if mate is not None and own is not None else None


def _findings(data: object, problems: Problems) -> dict[str, Finding]:
    known = WORDS["findings"]
    if isinstance(data, list | tuple):
        for place, slug in enumerate(data):
            if type(slug) is not str or slug not in known:
                problems.append(f"findings[{place}]: {shown(slug)} is not a finding; choose from {one_of(FINDINGS)}")
        return dict.fromkeys(data, True) if not problems else {}
    if isinstance(data, Mapping):
        for slug, found in data.items():
            if slug not in known:
                problems.append(f"findings: {shown(slug)} is not a finding; choose from {one_of(FINDINGS)}")
            elif found is not True and found is not False and found != DOUBT:
                problems.append(f'findings.{slug}: {shown(found)} is not accepted; give true, false or "{DOUBT}"')
        return dict(data) if not problems else {}
    accepted = f'a list of findings, or a map from finding to true, false or "{DOUBT}"'
    problems.append(f"findings: {shown(data)} is not accepted; give {accepted}")
    return {}


Named = TypeVar("Named", Injury, EarlierRepair)


def _named(entries: tuple[Named, ...] | None, name: Callable[[int], str]) -> tuple[Named, ...] | None:
    """The entries, those without an id given the first free one."""
    if entries is None or all(entry.id for entry in entries):
        return entries
    taken = {entry.id for entry in entries}
    free = (name(place) for place in count() if name(place) not in taken)
    return tuple(entry if entry.id else replace(entry, id=next(free)) for entry in entries)


def _distinct(case: Case, problems: Problems) -> None:
    seen: set[str] = set()
    named: list[tuple[str, Sequence[Injury | EarlierRepair]]] = [
        ("injuries", case.injuries or ()),
        ("earlier_repairs", case.earlier_repairs or ()),
    ]
    for name, entries in named:
        for place, entry in enumerate(entries):
            if entry.id in seen:
                problems.append(
                    f'{name}[{place}].id: "{entry.id}" is used twice; give each injury and repair its own id'
                )
            seen.add(entry.id)
