"""Reading the fields of a case or a job from JSON data: each reader notes what is wrong and gives None for it.

A reader is called with a value that is there, its path in the data, and the problems so far.
"""

import json
import re
from collections.abc import Callable, Collection, Mapping, Sequence
from datetime import date
from typing import Any, TypeGuard, TypeVar

from training.rulebook.case import Finding
from training.rulebook.case_words import DOUBT, UNREADABLE
from training.rulebook.dates import production_week
from training.rulebook.designation import size_of
from training.rulebook.markings import MarkingError
from training.rulebook.markings.tables import is_speed_symbol
from training.rulebook.quantities import Quantity, parse_quantity, refusal
from training.trade.lists import one_of
from training.trade.reading import printable
from training.trade.speech import say, saying

Problems = list[str]
Reader = Callable[[object, str, Problems], Any]
ReadsQuantity = Callable[[object, str, Problems], Quantity | None]
Shape = Mapping[str, Reader]
T = TypeVar("T")
MOST_ENTRIES = 100
_LISTED_OBJECTS = saying("a list of objects")
_DATE_CODE = re.compile(r"(0[1-9]|[1-4][0-9]|5[0-3])([0-9]{2}|[0-9])")
_DAY = re.compile(r"[0-9]{4}-[0-9]{2}-[0-9]{2}")


def shown(value: object) -> str:
    """A value for a message: short, one line, printable anywhere."""
    try:
        return printable(json.dumps(value, ensure_ascii=True))
    except (TypeError, ValueError, RecursionError):
        return printable(type(value).__name__)


def is_object(data: object) -> TypeGuard[Mapping[str, object]]:
    """Is it an object of JSON data?"""
    return type(data) is dict or isinstance(data, Mapping)


def known_keys(data: Mapping[str, object], accepted: Collection[str], path: str, problems: Problems) -> None:
    """Note every key that is not a field here."""
    if len(data) <= len(accepted) and all(map(accepted.__contains__, data)):
        return
    for key in data:
        if key not in accepted:
            field = f"{path}.{printable(key)}" if path else printable(key)
            problems.append(
                say(
                    "{field}: is not a field; the fields here are {fields}",
                    field=field,
                    fields=", ".join(sorted(accepted)),
                )
            )


def read_fields(
    data: Mapping[str, object], shape: Shape, path: str, problems: Problems, needs: Mapping[str, str] | None = None
) -> dict[str, Any]:
    """The fields of an object that were given and can be read, every other key noted.

    `needs`: what to give for each field that must be there.
    """
    known_keys(data, shape, path, problems)
    found = {}
    for name, read in shape.items():
        value = data.get(name)
        if value is not None:
            got = read(value, f"{path}.{name}" if path else name, problems)
            if got is not None:
                found[name] = got
        elif needs and name in needs:
            problems.append(say("{path}.{name}: missing; give {needs}", path=path, name=name, needs=needs[name]))
    return found


def an_object(shape: Shape, make: Callable[..., T], *, needs: Mapping[str, str] | None = None) -> Reader:
    """A reader of an object of this shape. `needs`: what to give for each field that must be there."""

    def read(data: object, path: str, problems: Problems) -> T | None:
        if not is_object(data):
            problems.append(
                say(
                    "{path}: {given} is not accepted; give an object with {fields}",
                    path=path,
                    given=shown(data),
                    fields=", ".join(sorted(shape)),
                )
            )
            return None
        found = read_fields(data, shape, path, problems, needs)
        return make(**found) if not needs or needs.keys() <= found.keys() else None

    return read


def a_list(data: object, path: str, accepted: str, problems: Problems) -> Sequence[object] | None:
    """The data as a list of reasonable length, or None with the problem noted."""
    if not isinstance(data, list | tuple):
        problems.append(
            say("{path}: {given} is not accepted; give {accepted}", path=path, given=shown(data), accepted=accepted)
        )
        return None
    if len(data) > MOST_ENTRIES:
        problems.append(
            say(
                "{path}: {count} entries are not accepted; give at most {most}",
                path=path,
                count=len(data),
                most=MOST_ENTRIES,
            )
        )
        return None
    return data


def objects(shape: Shape, make: Callable[..., T]) -> Reader:
    """A reader of a list of objects of this shape."""

    def read(data: object, path: str, problems: Problems) -> tuple[T, ...] | None:
        listed = a_list(data, path, _LISTED_OBJECTS, problems)
        if listed is None:
            return None
        entries = []
        for place, entry in enumerate(listed):
            if is_object(entry):
                entries.append(make(**read_fields(entry, shape, f"{path}[{place}]", problems)))
            else:
                problems.append(
                    say(
                        "{path}[{place}]: {given} is not accepted; give an object",
                        path=path,
                        place=place,
                        given=shown(entry),
                    )
                )
        return tuple(entries)

    return read


def not_among(value: object, path: str, accepted: Collection[str]) -> str:
    """The sentence that refuses a word, naming those that are accepted."""
    return say(
        "{path}: {given} is not accepted; choose {choices}", path=path, given=shown(value), choices=one_of(accepted)
    )


def word(accepted: Collection[str]) -> Reader:
    """A reader of one of the accepted words."""

    def read(value: object, path: str, problems: Problems) -> str | None:
        if type(value) is str and value in accepted:
            return value
        problems.append(not_among(value, path, accepted))
        return None

    return read


def flag(value: object, path: str, problems: Problems) -> bool | None:
    """True or false."""
    if value is True or value is False:
        return value
    problems.append(say("{path}: {given} is not accepted; give true or false", path=path, given=shown(value)))
    return None


def answer(value: object, path: str, problems: Problems) -> Finding | None:
    """True, false or doubt."""
    if value is True or value is False or value == DOUBT:
        return value if not isinstance(value, str) else DOUBT
    problems.append(
        say(
            '{path}: {given} is not accepted; give true, false or "{doubt}"', path=path, given=shown(value), doubt=DOUBT
        )
    )
    return None


def matching(pattern: re.Pattern[str], accepted: str) -> Reader:
    """A reader of a text of this pattern."""

    def read(value: object, path: str, problems: Problems) -> str | None:
        if type(value) is str and pattern.fullmatch(value):
            return value
        problems.append(
            say("{path}: {given} is not accepted; give {accepted}", path=path, given=shown(value), accepted=accepted)
        )
        return None

    return read


def day(value: object, path: str, problems: Problems) -> date | None:
    """A calendar day."""
    if type(value) is str and _DAY.fullmatch(value):
        try:
            return date.fromisoformat(value)
        except ValueError:
            pass
    problems.append(
        say(
            '{path}: {given} is not a day; give year, month and day, for example "2026-11-25"',
            path=path,
            given=shown(value),
        )
    )
    return None


def date_code(value: object, path: str, problems: Problems) -> str | None:
    """A date code as molded, or "unreadable"."""
    if value == UNREADABLE:
        return UNREADABLE
    if type(value) is str and _DATE_CODE.fullmatch(value):
        try:
            production_week(value)
        except MarkingError as refused:
            problems.append(
                say(
                    '{path}: "{given}" names no week: {accepted}; or give "{unreadable}"',
                    path=path,
                    given=value,
                    accepted=refused.accepted,
                    unreadable=UNREADABLE,
                )
            )
            return None
        return value
    problems.append(
        say(
            "{path}: {given} is not a date code; give the week (01 to 53) and year as molded, for "
            'example "3219", or "{unreadable}"',
            path=path,
            given=shown(value),
            unreadable=UNREADABLE,
        )
    )
    return None


def day_or_date_code(value: object, path: str, problems: Problems) -> str | None:
    """A day or a date code."""
    if type(value) is str and _DAY.fullmatch(value):
        on = day(value, path, problems)
        return on.isoformat() if on else None
    return date_code(value, path, problems)


def designation(value: object, path: str, problems: Problems) -> str | None:
    """A size designation as molded, or "unreadable"."""
    if value == UNREADABLE:
        return UNREADABLE
    if type(value) is str and len(value) <= 40 and value.isprintable() and any(mark.isdigit() for mark in value):
        text = " ".join(value.split())
        if size_of(text) is not None:
            return text
    problems.append(
        say(
            '{path}: {given} is not a size designation; give it as molded, for example "205/55R16 '
            '91V", or "{unreadable}"',
            path=path,
            given=shown(value),
            unreadable=UNREADABLE,
        )
    )
    return None


def speed_symbol(value: object, path: str, problems: Problems) -> str | None:
    """A speed symbol such as "V"."""
    if type(value) is str and is_speed_symbol(value.strip().upper()):
        return value.strip().upper()
    problems.append(
        say(
            '{path}: {given} is not a speed symbol; give the letter of the placard, for example "V"',
            path=path,
            given=shown(value),
        )
    )
    return None


def identity(value: object, path: str, problems: Problems) -> str | None:
    """A short id of the user's own."""
    if type(value) is str and 0 < len(value) <= 20 and value.isprintable() and value.strip() == value:
        return value
    problems.append(
        say(
            '{path}: {given} is not an id; give 1 to 20 letters or figures, for example "A"',
            path=path,
            given=shown(value),
        )
    )
    return None


def a_quantity(dimension: str) -> ReadsQuantity:
    """A reader of a quantity of this dimension."""

    def read(value: object, path: str, problems: Problems) -> Quantity | None:
        try:
            return parse_quantity(value, dimension)
        except ValueError as refused:
            problems.append(f"{path}: {refused}")
            return None

    return read


def not_negative(dimension: str) -> ReadsQuantity:
    """A reader of a quantity of 0 or more."""
    given = a_quantity(dimension)

    def read(value: object, path: str, problems: Problems) -> Quantity | None:
        found = given(value, path, problems)
        if found is not None and found.value < 0:
            problems.append(
                say(
                    '{path}: "{found}" is below 0; a {dimension} here is 0 or more',
                    path=path,
                    found=found,
                    dimension=dimension,
                )
            )
            return None
        return found

    return read


def positive(dimension: str) -> ReadsQuantity:
    """A reader of a quantity above 0."""
    given = a_quantity(dimension)

    def read(value: object, path: str, problems: Problems) -> Quantity | None:
        found = given(value, path, problems)
        if found is not None and found.value <= 0:
            problems.append(
                say(
                    '{path}: "{found}" is not above 0; a {dimension} here is more than 0',
                    path=path,
                    found=found,
                    dimension=dimension,
                )
            )
            return None
        return found

    return read


def lean(value: object, path: str, problems: Problems) -> Quantity | None:
    """An angle from the perpendicular."""
    found = a_quantity("angle")(value, path, problems)
    if found is not None and not 0 <= found.value < 90:
        problems.append(
            say(
                '{path}: "{found}" is not accepted; give the angle from the perpendicular, 0° to less than 90°',
                path=path,
                found=found,
            )
        )
        return None
    return found


def station(value: object, path: str, problems: Problems) -> Quantity | None:
    """A station as an angle or as a length along the tread."""
    for dimension in ("angle", "length"):
        try:
            return parse_quantity(value, dimension)
        except ValueError:
            continue
    problems.append(f"{path}: {refusal(value, 'angle', 'length')}")
    return None
