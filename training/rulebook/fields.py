"""Reading single values of a case: each refusal names the field, the value and what is accepted."""

import json
import re
from collections.abc import Callable, Mapping, Sequence
from datetime import date
from typing import TypeVar

from training.rulebook.case import Finding
from training.rulebook.case_words import DOUBT, UNREADABLE
from training.rulebook.dates import production_week
from training.rulebook.markings import MarkingError
from training.rulebook.quantities import Quantity, parse_quantity, printable, refusal
from training.trade.lists import one_of

Problems = list[str]
T = TypeVar("T")
MOST_ENTRIES = 100
_DATE_CODE = re.compile(r"(0[1-9]|[1-4][0-9]|5[0-3])([0-9]{2}|[0-9])")
_DAY = re.compile(r"[0-9]{4}-[0-9]{2}-[0-9]{2}")


def shown(value: object) -> str:
    """A value for a message: short, one line, printable anywhere."""
    try:
        return printable(json.dumps(value, ensure_ascii=True))
    except (TypeError, ValueError, RecursionError):
        return printable(type(value).__name__)


def known_keys(data: Mapping[str, object], accepted: frozenset[str], path: str, problems: Problems) -> None:
    """Note every key that is not a field here."""
    if not accepted.issuperset(data):
        for key in data:
            if key not in accepted:
                prefix = f"{path}." if path else ""
                problems.append(
                    f"{prefix}{printable(key)}: is not a field; the fields here are {', '.join(sorted(accepted))}"
                )


def an_object(data: object, accepted: frozenset[str], path: str, problems: Problems) -> Mapping[str, object] | None:
    """The data as an object whose keys are all known, or None with the problem noted."""
    if type(data) is dict or isinstance(data, Mapping):
        known_keys(data, accepted, path, problems)
        return data
    problems.append(f"{path}: {shown(data)} is not accepted; give an object with {', '.join(sorted(accepted))}")
    return None


def a_list(data: object, path: str, accepted: str, problems: Problems) -> Sequence[object] | None:
    """The data as a list of reasonable length, or None with the problem noted."""
    if not isinstance(data, list | tuple):
        problems.append(f"{path}: {shown(data)} is not accepted; give {accepted}")
        return None
    if len(data) > MOST_ENTRIES:
        problems.append(f"{path}: {len(data)} entries are not accepted; give at most {MOST_ENTRIES}")
        return None
    return data


def each(
    data: object, path: str, read: Callable[[Mapping[str, object], str, int, Problems], T], problems: Problems
) -> tuple[T, ...] | None:
    """Every object of a list, read; None where the list was not given."""
    listed = None if data is None else a_list(data, path, "a list of objects", problems)
    if listed is None:
        return None
    entries = []
    for place, entry in enumerate(listed):
        if type(entry) is dict or isinstance(entry, Mapping):
            entries.append(read(entry, f"{path}[{place}]", place, problems))
        else:
            problems.append(f"{path}[{place}]: {shown(entry)} is not accepted; give an object")
    return tuple(entries)


def word(value: object, accepted: Mapping[str, str] | tuple[str, ...], path: str, problems: Problems) -> str | None:
    """One of the accepted words, or None."""
    if value is None:
        return None
    if type(value) is str and value in accepted:
        return value
    problems.append(f"{path}: {shown(value)} is not accepted; choose {one_of(tuple(accepted))}")
    return None


def flag(value: object, path: str, problems: Problems) -> bool | None:
    """True, false or None."""
    if value is None or value is True or value is False:
        return value
    problems.append(f"{path}: {shown(value)} is not accepted; give true or false")
    return None


def answer(value: object, path: str, problems: Problems) -> Finding | None:
    """True, false, doubt or None."""
    if value is None or value is True or value is False or value == DOUBT:
        return value if not isinstance(value, str) else DOUBT
    problems.append(f'{path}: {shown(value)} is not accepted; give true, false or "{DOUBT}"')
    return None


def matching(value: object, pattern: re.Pattern[str], path: str, accepted: str, problems: Problems) -> str | None:
    """A text of this pattern, or None."""
    if value is None:
        return None
    if type(value) is str and pattern.fullmatch(value):
        return value
    problems.append(f"{path}: {shown(value)} is not accepted; give {accepted}")
    return None


def day(value: object, path: str, problems: Problems) -> date | None:
    """A calendar day, or None."""
    if value is None:
        return None
    if type(value) is str and _DAY.fullmatch(value):
        try:
            return date.fromisoformat(value)
        except ValueError:
            pass
    problems.append(f'{path}: {shown(value)} is not a day; give year, month and day, for example "2026-11-25"')
    return None


def date_code(value: object, path: str, problems: Problems) -> str | None:
    """A date code as molded, or "unreadable", or None."""
    if value is None or value == UNREADABLE:
        return value if not isinstance(value, str) else UNREADABLE
    if type(value) is str and _DATE_CODE.fullmatch(value):
        try:
            production_week(value)
        except MarkingError as refused:
            problems.append(f'{path}: "{value}" names no week: {refused.accepted}; or give "{UNREADABLE}"')
            return None
        return value
    problems.append(f"{path}: {shown(value)} is not a date code; give the week (01 to 53) and year as molded, "
                    f'for example "3219", or "{UNREADABLE}"')  # fmt: skip
    return None


def retreaded_on(value: object, problems: Problems) -> str | None:
    """A day or a date code, or None."""
    if value is None:
        return None
    if type(value) is str and _DAY.fullmatch(value):
        on = day(value, "tire.retreaded_on", problems)
        return on.isoformat() if on else None
    return date_code(value, "tire.retreaded_on", problems)


def designation(value: object, problems: Problems) -> str | None:
    """A size designation as molded, or "unreadable", or None."""
    if value is None or value == UNREADABLE:
        return value if not isinstance(value, str) else UNREADABLE
    if type(value) is str and len(value) <= 40 and value.isprintable() and any(mark.isdigit() for mark in value):
        return " ".join(value.split())
    problems.append(f"tire.designation: {shown(value)} is not a size designation; give it as molded, "
                    f'for example "205/55R16 91V", or "{UNREADABLE}"')  # fmt: skip
    return None


def identity(value: object, path: str, problems: Problems) -> str | None:
    """A short id of the user's own, or None."""
    if value is None:
        return None
    if type(value) is str and 0 < len(value) <= 20 and value.isprintable() and value.strip() == value:
        return value
    problems.append(f'{path}: {shown(value)} is not an id; give 1 to 20 letters or figures, for example "A"')
    return None


def letter(place: int) -> str:
    """The id of an injury that was given none: A, B, C."""
    return chr(ord("A") + place) if place < 26 else f"A{place}"


def number(place: int) -> str:
    """The id of an earlier repair that was given none: R1, R2, R3."""
    return f"R{place + 1}"


def a_quantity(value: object, dimension: str, path: str, problems: Problems) -> Quantity | None:
    """A quantity of this dimension, or None."""
    if value is None:
        return None
    try:
        return parse_quantity(value, dimension)
    except ValueError as refused:
        problems.append(f"{path}: {refused}")
        return None


def not_negative(value: object, dimension: str, path: str, problems: Problems) -> Quantity | None:
    """A quantity of 0 or more, or None."""
    found = a_quantity(value, dimension, path, problems)
    if found is not None and found.value < 0:
        problems.append(f'{path}: "{found}" is below 0; a {dimension} here is 0 or more')
        return None
    return found


def positive(value: object, dimension: str, path: str, problems: Problems) -> Quantity | None:
    """A quantity above 0, or None."""
    found = a_quantity(value, dimension, path, problems)
    if found is not None and found.value <= 0:
        problems.append(f'{path}: "{found}" is not above 0; a {dimension} here is more than 0')
        return None
    return found


def required(data: Mapping[str, object], name: str, dimension: str, path: str, problems: Problems,
              *, lowest: int | None = None) -> Quantity | None:  # fmt: skip
    """A quantity that must be there."""
    if data.get(name) is None:
        problems.append(f'{path}.{name}: missing; give a {dimension}, for example "75 mm"')
        return None
    return (positive if lowest is None else not_negative)(data[name], dimension, f"{path}.{name}", problems)


def lean(value: object, path: str, problems: Problems) -> Quantity | None:
    """An angle from the perpendicular, or None."""
    found = a_quantity(value, "angle", path, problems)
    if found is not None and not 0 <= found.value < 90:
        problems.append(
            f'{path}: "{found}" is not accepted; give the angle from the perpendicular, 0 deg to less than 90 deg'
        )
        return None
    return found


def station(value: object, path: str, problems: Problems) -> Quantity | None:
    """A station as an angle or as a length along the tread, or None."""
    if value is None:
        return None
    for dimension in ("angle", "length"):
        try:
            return parse_quantity(value, dimension)
        except ValueError:
            continue
    problems.append(f"{path}: {refusal(value, 'angle', 'length')}")
    return None
