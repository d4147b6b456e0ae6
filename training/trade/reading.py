"""Reading tables of a file: every mistake is refused with file, table, field, value and what is accepted."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from datetime import date
from difflib import get_close_matches
from typing import ClassVar, NoReturn

from training.trade.lists import one_of
from training.trade.speech import say

_LONG = 40


class Place:
    """Where in a file a value stands; `error` is what it raises for a value that is not accepted."""

    error: ClassVar[type[Exception]] = ValueError

    def __init__(self, file: str, what: str = "") -> None:
        self.file, self.what = file, what

    def refuse(self, field: str, problem: str) -> NoReturn:
        """Stop with one message."""
        inside = f" {self.what}," if self.what else ""
        raise self.error(f"{self.file}:{inside} {field}: {problem}")

    def table(self, table: object) -> Mapping[str, object]:
        """The value as a table; anything else is refused."""
        if not isinstance(table, Mapping):
            raise self.error(
                say(
                    "{file}: {given}: {table} is not accepted; give a table",
                    file=self.file,
                    given=self.what or "here",
                    table=shown(table),
                )
            )
        return table

    def tables(self, data: Mapping[str, object], name: str) -> list[Mapping[str, object]]:
        """The tables of this name; none where there are none."""
        tables = data.get(name, [])
        if not isinstance(tables, list) or not all(isinstance(table, Mapping) for table in tables):
            self.refuse(name, say("is not accepted; give [[{name}]] tables", name=name))
        return tables

    def keys(self, table: Mapping[str, object], accepted: Collection[str]) -> None:
        """Refuse every field that is not among these."""
        for key in self.table(table):
            if key not in accepted:
                self.refuse(
                    printable(key),
                    say("is not a field; the fields here are {fields}", fields=", ".join(sorted(accepted))),
                )

    def text(self, table: Mapping[str, object], field: str, *, default: str | None = None) -> str:
        """A text; an empty one only where there is a default."""
        value = table.get(field, default)
        if not isinstance(value, str) or (default is None and not value.strip()):
            self.refuse(field, say("{given} is not accepted; give a text", given=shown(value)))
        return value

    def word(
        self, table: Mapping[str, object], field: str, accepted: Collection[str], *, default: str | None = None
    ) -> str:
        """One of the accepted words."""
        if field not in table and default is not None:
            return default
        value = table.get(field)
        if not isinstance(value, str) or value not in accepted:
            self.refuse(
                field,
                say(
                    "{given} is not accepted; choose {choices}",
                    given=shown(value),
                    choices=one_of(_nearest(value, accepted)),
                ),
            )
        return value

    def words(self, table: Mapping[str, object], field: str, accepted: Collection[str] | None, *,
              default: Sequence[str] | None = None) -> tuple[str, ...]:  # fmt: skip
        """Different texts, among the accepted ones if any are named."""
        value = table.get(field, default)
        if not isinstance(value, list | tuple) or (not value and default is None):
            self.refuse(field, say("{given} is not accepted; give a list of texts", given=shown(value)))
        for entry in value:
            if not isinstance(entry, str) or (accepted is not None and entry not in accepted):
                choice = (
                    say("give texts")
                    if accepted is None
                    else say("choose {choices}", choices=one_of(_nearest(entry, accepted)))
                )
                self.refuse(field, say("{given} is not accepted; {choice}", given=shown(entry), choice=choice))
        if len(set(value)) != len(value):
            self.refuse(field, say("{given} is not accepted; name each once", given=shown(value)))
        return tuple(value)

    def flag(self, table: Mapping[str, object], field: str) -> bool:
        """True or false; false where it is not given."""
        value = table.get(field, False)
        if not isinstance(value, bool):
            self.refuse(field, say("{given} is not accepted; give true or false", given=shown(value)))
        return value

    def day(self, table: Mapping[str, object], field: str) -> date:
        """A day."""
        value = table.get(field)
        if type(value) is not date:
            self.refuse(field, say("{given} is not accepted; give a day, for example 2026-11-20", given=shown(value)))
        return value

    def whole(self, table: Mapping[str, object], field: str, low: int, high: int) -> int:
        """A whole number within these bounds."""
        value = table.get(field)
        if type(value) is not int or not low <= value <= high:
            self.refuse(
                field,
                say(
                    "{given} is not accepted; give a whole number from {low} to {high}",
                    given=shown(value),
                    low=low,
                    high=high,
                ),
            )
        return value


def _nearest(entry: object, accepted: Collection[str]) -> Collection[str]:
    """What to choose from: all of a short list, of a long one what comes nearest."""
    if len(accepted) <= _LONG:
        return accepted
    return get_close_matches(str(entry), accepted, n=5) or list(accepted)[:5]


def shown(value: object) -> str:
    """A value for a message."""
    return "nothing" if value is None else f'"{printable(value)}"' if isinstance(value, str) else printable(value)


def printable(text: object, *, most: int = 60) -> str:
    """Text safe to print anywhere: one line, no control characters or lone surrogates, shortened."""
    shown = str(text)
    if len(shown) > most:
        shown = shown[: most - 3] + "..."
    return "".join(mark if mark.isprintable() else mark.encode("unicode_escape").decode("ascii") for mark in shown)
