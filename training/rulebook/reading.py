"""Reading a case from JSON data: every problem is collected, each names the field, the value and what is accepted."""

import json
import re
from collections.abc import Callable, Mapping
from datetime import date
from typing import TypeVar

from training.rulebook.case import (
    Case, CaseError, DualMate, EarlierRepair, Finding, Injury, Position, Pressure, Tire, TreadReading, UnitSize,
)  # fmt: skip
from training.rulebook.quantity import Quantity, parse_quantity, printable, refusal
from training.rulebook.vocabulary import CASINGS, DOUBT, FINDINGS, PURPOSES, UNREADABLE, WORDS

Problems = list[str]
T = TypeVar("T")
_MOST_ENTRIES = 100
_JURISDICTION = re.compile(r"[A-Z]{2}(-[A-Z0-9]{1,3})?")
_DATE_CODE = re.compile(r"(0[1-9]|[1-4][0-9]|5[0-3])([0-9]{2}|[0-9])")
_DAY = re.compile(r"[0-9]{4}-[0-9]{2}-[0-9]{2}")

_CASE = frozenset({"edition", "jurisdiction", "on", "purpose", "tire", "position", "on_wheel", "pressure", "tread_depths",
                   "injuries", "findings", "earlier_repairs", "proposed", "dual_mate"})  # fmt: skip
_TIRE = frozenset({"designation", "casing", "date_code", "retreaded", "retreaded_on", "tread_width", "outer_groove",
                   "crown_thickness", "build"})  # fmt: skip
_POSITION = frozenset({"vehicle", "axle", "gross_mass", "dual", "wheel"})
_PRESSURE = frozenset({"recommended", "found"})
_READING = frozenset({"groove", "station", "depth"})
_INJURY = frozenset({"id", "kind", "diameter", "before_removal", "angle", "azimuth", "lateral", "station", "zone", "length",
                     "reaches"})  # fmt: skip
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
    if not isinstance(data, Mapping):
        raise CaseError((f'case: {_value(data)} is not a case; give an object with at least {{"tire": {{"casing": ...}}}}',))
    _keys(data, _CASE, "", problems)
    given = data.get
    findings = given("findings")
    pressure = given("pressure")
    position = given("position")
    dual = given("dual_mate")
    depths = given("tread_depths")
    case = Case(
        tire=_tire(given("tire"), problems),
        edition=_word(given("edition"), WORDS["edition"], "edition", problems) or "north-america",
        jurisdiction=_pattern(given("jurisdiction"), _JURISDICTION, "jurisdiction", 'a code such as "US-UT"', problems),
        on=_day(given("on"), "on", problems),
        purpose=_word(given("purpose"), PURPOSES, "purpose", problems) or "repair",
        position=_position(position, problems) if position is not None else Position(),
        on_wheel=_flag(given("on_wheel"), "on_wheel", problems),
        pressure=_pressure(pressure, problems) if pressure is not None else Pressure(),
        tread_depths=_depths(depths, problems) if depths is not None else (),
        injuries=_each(given("injuries"), "injuries", _injury, problems),
        findings=_findings(findings, problems) if findings is not None else {},
        earlier_repairs=_each(given("earlier_repairs"), "earlier_repairs", _repair, problems),
        proposed=_word(given("proposed"), WORDS["proposed"], "proposed", problems),
        dual_mate=_dual(dual, problems) if dual is not None else None,
    )
    _distinct(case, problems)
    if problems:
        raise CaseError(tuple(problems))
    return case


def _tire(data: object, problems: Problems) -> Tire:
    if data is None:
        problems.append(f"tire.casing: missing; give {_listed(CASINGS)}")
        return Tire("")
    if not _object(data, _TIRE, "tire", problems):
        return Tire("")
    assert isinstance(data, Mapping)
    given = data.get
    casing = _word(given("casing"), CASINGS, "tire.casing", problems)
    if given("casing") is None:
        problems.append(f"tire.casing: missing; give {_listed(CASINGS)}")
    return Tire(
        casing=casing or "",
        designation=_designation(given("designation"), problems),
        date_code=_date_code(given("date_code"), "tire.date_code", problems),
        retreaded=_flag(given("retreaded"), "tire.retreaded", problems),
        retreaded_on=_retreaded_on(given("retreaded_on"), problems),
        tread_width=_positive(given("tread_width"), "length", "tire.tread_width", problems),
        outer_groove=_positive(given("outer_groove"), "length", "tire.outer_groove", problems),
        crown_thickness=_positive(given("crown_thickness"), "length", "tire.crown_thickness", problems),
        build=_word(given("build"), WORDS["tire.build"], "tire.build", problems),
    )


def _position(data: object, problems: Problems) -> Position:
    if not _object(data, _POSITION, "position", problems):
        return Position()
    assert isinstance(data, Mapping)
    return Position(
        vehicle=_word(data.get("vehicle"), WORDS["position.vehicle"], "position.vehicle", problems),
        axle=_word(data.get("axle"), WORDS["position.axle"], "position.axle", problems),
        gross_mass=_positive(data.get("gross_mass"), "mass", "position.gross_mass", problems),
        dual=_flag(data.get("dual"), "position.dual", problems),
        wheel=_word(data.get("wheel"), WORDS["position.wheel"], "position.wheel", problems),
    )


def _pressure(data: object, problems: Problems) -> Pressure:
    if not _object(data, _PRESSURE, "pressure", problems):
        return Pressure()
    assert isinstance(data, Mapping)
    return Pressure(
        recommended=_positive(data.get("recommended"), "pressure", "pressure.recommended", problems),
        found=_not_negative(data.get("found"), "pressure", "pressure.found", problems),
    )


def _depths(data: object, problems: Problems) -> tuple[TreadReading, ...]:
    if not _list(data, "tread_depths", 'a list of depths such as ["5/32 in", "4/32 in"]', problems):
        return ()
    assert isinstance(data, list | tuple)
    readings = []
    for place, entry in enumerate(data):
        path = f"tread_depths[{place}]"
        if not isinstance(entry, Mapping):
            depth = _not_negative(entry, "length", path, problems)
            if entry is None:
                problems.append(f'{path}: null is not a depth; give one such as "5/32 in", or leave the entry out')
            if depth is not None:
                readings.append(TreadReading(depth))
            continue
        _keys(entry, _READING, path, problems)
        depth = _required(entry, "depth", "length", path, problems, lowest=0)
        groove = entry.get("groove")
        if groove is not None and (type(groove) is not int or not 1 <= groove <= _MOST_ENTRIES):
            problems.append(f"{path}.groove: {_value(groove)} is not a groove; give its number, counted 1, 2, 3 across the tread")
            groove = None
        station = _station(entry.get("station"), f"{path}.station", problems)
        if depth is not None:
            readings.append(TreadReading(depth, groove if isinstance(groove, int) else None, station))
    return tuple(readings)


def _injury(data: Mapping[str, object], path: str, place: int, problems: Problems) -> Injury:
    _keys(data, _INJURY, path, problems)
    given = data.get
    return Injury(
        id=_identity(given("id"), f"{path}.id", problems) or _letter(place),
        kind=_word(given("kind"), WORDS["injury.kind"], f"{path}.kind", problems) or "puncture",
        diameter=_positive(given("diameter"), "length", f"{path}.diameter", problems),
        before_removal=_positive(given("before_removal"), "length", f"{path}.before_removal", problems),
        angle=_angle(given("angle"), f"{path}.angle", problems),
        azimuth=_quantity(given("azimuth"), "angle", f"{path}.azimuth", problems),
        lateral=_quantity(given("lateral"), "length", f"{path}.lateral", problems),
        station=_station(given("station"), f"{path}.station", problems),
        zone=_word(given("zone"), WORDS["injury.zone"], f"{path}.zone", problems),
        length=_positive(given("length"), "length", f"{path}.length", problems),
        reaches=_word(given("reaches"), WORDS["injury.reaches"], f"{path}.reaches", problems),
    )


def _repair(data: Mapping[str, object], path: str, place: int, problems: Problems) -> EarlierRepair:
    _keys(data, _REPAIR, path, problems)
    given = data.get
    return EarlierRepair(
        id=_identity(given("id"), f"{path}.id", problems) or f"R{place + 1}",
        kind=_word(given("kind"), WORDS["earlier_repair.kind"], f"{path}.kind", problems),
        zone=_word(given("zone"), WORDS["earlier_repair.zone"], f"{path}.zone", problems),
        injury=_positive(given("injury"), "length", f"{path}.injury", problems),
        sound=_answer(given("sound"), f"{path}.sound", problems),
        lateral=_quantity(given("lateral"), "length", f"{path}.lateral", problems),
        station=_station(given("station"), f"{path}.station", problems),
        unit=_unit(given("unit"), f"{path}.unit", problems),
    )


def _unit(data: object, path: str, problems: Problems) -> UnitSize | None:
    if data is None or not _object(data, _UNIT, path, problems):
        return None
    assert isinstance(data, Mapping)
    length = _required(data, "length", "length", path, problems)
    width = _required(data, "width", "length", path, problems)
    return UnitSize(length, width) if length is not None and width is not None else None


def _dual(data: object, problems: Problems) -> DualMate | None:
    if not _object(data, _DUAL, "dual_mate", problems):
        return None
    assert isinstance(data, Mapping)
    mate = _required(data, "diameter", "length", "dual_mate", problems)
    own = _required(data, "own_diameter", "length", "dual_mate", problems)
    return DualMate(mate, own) if mate is not None and own is not None else None


def _findings(data: object, problems: Problems) -> dict[str, Finding]:
    known = WORDS["findings"]
    if isinstance(data, list | tuple):
        for place, slug in enumerate(data):
            if type(slug) is not str or slug not in known:
                problems.append(f"findings[{place}]: {_value(slug)} is not a finding; choose from {_listed(FINDINGS)}")
        return {slug: True for slug in data} if not problems else {}
    if isinstance(data, Mapping):
        for slug, found in data.items():
            if slug not in known:
                problems.append(f"findings: {_value(slug)} is not a finding; choose from {_listed(FINDINGS)}")
            elif found is not True and found is not False and found != DOUBT:
                problems.append(f'findings.{slug}: {_value(found)} is not accepted; give true, false or "{DOUBT}"')
        return dict(data) if not problems else {}
    problems.append(f"findings: {_value(data)} is not accepted; give a list of findings, or a map from finding to true, false or "
                    f'"{DOUBT}"')  # fmt: skip
    return {}


def _distinct(case: Case, problems: Problems) -> None:
    seen: set[str] = set()
    for name, entries in (("injuries", case.injuries), ("earlier_repairs", case.earlier_repairs)):
        for place, entry in enumerate(entries or ()):
            if entry.id in seen:
                problems.append(f'{name}[{place}].id: "{entry.id}" is used twice; give each injury and repair its own id')
            seen.add(entry.id)


# --- single values


def _value(value: object) -> str:
    try:
        return printable(json.dumps(value, ensure_ascii=True))
    except (TypeError, ValueError, RecursionError):
        return printable(type(value).__name__)


def _listed(words: tuple[str, ...]) -> str:
    return ", ".join(words[:-1]) + f" or {words[-1]}" if len(words) > 1 else words[0]


def _keys(data: Mapping[str, object], accepted: frozenset[str], path: str, problems: Problems) -> None:
    if not accepted.issuperset(data):
        for key in data:
            if key not in accepted:
                prefix = f"{path}." if path else ""
                problems.append(f"{prefix}{printable(key)}: is not a field; the fields here are {', '.join(sorted(accepted))}")


def _object(data: object, accepted: frozenset[str], path: str, problems: Problems) -> bool:
    if isinstance(data, Mapping):
        _keys(data, accepted, path, problems)
        return True
    problems.append(f"{path}: {_value(data)} is not accepted; give an object with {', '.join(sorted(accepted))}")
    return False


def _list(data: object, path: str, accepted: str, problems: Problems) -> bool:
    if not isinstance(data, list | tuple):
        problems.append(f"{path}: {_value(data)} is not accepted; give {accepted}")
        return False
    if len(data) > _MOST_ENTRIES:
        problems.append(f"{path}: {len(data)} entries are not accepted; give at most {_MOST_ENTRIES}")
        return False
    return True


def _each(data: object, path: str, read: Callable[[Mapping[str, object], str, int, Problems], T],
          problems: Problems) -> tuple[T, ...] | None:  # fmt: skip
    if data is None or not _list(data, path, "a list of objects", problems):
        return None
    assert isinstance(data, list | tuple)
    read_entries = []
    for place, entry in enumerate(data):
        if isinstance(entry, Mapping):
            read_entries.append(read(entry, f"{path}[{place}]", place, problems))
        else:
            problems.append(f"{path}[{place}]: {_value(entry)} is not accepted; give an object")
    return tuple(read_entries)


def _word(value: object, accepted: Mapping[str, str] | tuple[str, ...], path: str, problems: Problems) -> str | None:
    if value is None:
        return None
    if type(value) is str and value in accepted:
        return value
    problems.append(f"{path}: {_value(value)} is not accepted; choose {_listed(tuple(accepted))}")
    return None


def _flag(value: object, path: str, problems: Problems) -> bool | None:
    if value is None or value is True or value is False:
        return value
    problems.append(f"{path}: {_value(value)} is not accepted; give true or false")
    return None


def _answer(value: object, path: str, problems: Problems) -> Finding | None:
    if value is None or value is True or value is False or value == DOUBT:
        return value if not isinstance(value, str) else DOUBT
    problems.append(f'{path}: {_value(value)} is not accepted; give true, false or "{DOUBT}"')
    return None


def _pattern(value: object, pattern: re.Pattern[str], path: str, accepted: str, problems: Problems) -> str | None:
    if value is None:
        return None
    if type(value) is str and pattern.fullmatch(value):
        return value
    problems.append(f"{path}: {_value(value)} is not accepted; give {accepted}")
    return None


def _day(value: object, path: str, problems: Problems) -> date | None:
    if value is None:
        return None
    if type(value) is str and _DAY.fullmatch(value):
        try:
            return date.fromisoformat(value)
        except ValueError:
            pass
    problems.append(f'{path}: {_value(value)} is not a day; give year, month and day, for example "2026-11-25"')
    return None


def _date_code(value: object, path: str, problems: Problems) -> str | None:
    if value is None or value == UNREADABLE:
        return value if not isinstance(value, str) else UNREADABLE
    if type(value) is str and _DATE_CODE.fullmatch(value):
        return value
    problems.append(f"{path}: {_value(value)} is not a date code; give the week (01 to 53) and year as molded, "
                    f'for example "3219", or "{UNREADABLE}"')  # fmt: skip
    return None


def _retreaded_on(value: object, problems: Problems) -> str | None:
    if value is None:
        return None
    if type(value) is str and _DAY.fullmatch(value):
        day = _day(value, "tire.retreaded_on", problems)
        return day.isoformat() if day else None
    return _date_code(value, "tire.retreaded_on", problems)


def _designation(value: object, problems: Problems) -> str | None:
    if value is None or value == UNREADABLE:
        return value if not isinstance(value, str) else UNREADABLE
    if type(value) is str and len(value) <= 40 and value.isprintable() and any(mark.isdigit() for mark in value):
        return " ".join(value.split())
    problems.append(f"tire.designation: {_value(value)} is not a size designation; give it as molded, "
                    f'for example "205/55R16 91V", or "{UNREADABLE}"')  # fmt: skip
    return None


def _identity(value: object, path: str, problems: Problems) -> str | None:
    if value is None:
        return None
    if type(value) is str and 0 < len(value) <= 20 and value.isprintable() and value.strip() == value:
        return value
    problems.append(f'{path}: {_value(value)} is not an id; give 1 to 20 letters or figures, for example "A"')
    return None


def _letter(place: int) -> str:
    return chr(ord("A") + place) if place < 26 else f"A{place}"


# --- quantities


def _quantity(value: object, dimension: str, path: str, problems: Problems) -> Quantity | None:
    if value is None:
        return None
    try:
        return parse_quantity(value, dimension)
    except ValueError as refused:
        problems.append(f"{path}: {refused}")
        return None


def _not_negative(value: object, dimension: str, path: str, problems: Problems) -> Quantity | None:
    found = _quantity(value, dimension, path, problems)
    if found is not None and found.value < 0:
        problems.append(f'{path}: "{found}" is below 0; a {dimension} here is 0 or more')
        return None
    return found


def _positive(value: object, dimension: str, path: str, problems: Problems) -> Quantity | None:
    found = _quantity(value, dimension, path, problems)
    if found is not None and found.value <= 0:
        problems.append(f'{path}: "{found}" is not above 0; a {dimension} here is more than 0')
        return None
    return found


def _required(data: Mapping[str, object], name: str, dimension: str, path: str, problems: Problems,
              *, lowest: int | None = None) -> Quantity | None:  # fmt: skip
    if data.get(name) is None:
        problems.append(f'{path}.{name}: missing; give a {dimension}, for example "75 mm"')
        return None
    return (_positive if lowest is None else _not_negative)(data[name], dimension, f"{path}.{name}", problems)


def _angle(value: object, path: str, problems: Problems) -> Quantity | None:
    found = _quantity(value, "angle", path, problems)
    if found is not None and not 0 <= found.value < 90:
        problems.append(f'{path}: "{found}" is not accepted; give the angle from the perpendicular, 0 deg to less than 90 deg')
        return None
    return found


def _station(value: object, path: str, problems: Problems) -> Quantity | None:
    if value is None:
        return None
    for dimension in ("angle", "length"):
        try:
            return parse_quantity(value, dimension)
        except ValueError:
            continue
    problems.append(f"{path}: {refusal(value, 'angle', 'length')}")
    return None
