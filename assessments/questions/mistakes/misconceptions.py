"""The named wrong rules, read from the files beside this one: what each believes, why it is wrong, what it computes."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from dataclasses import dataclass, fields
from functools import lru_cache
from importlib import resources

from training.rulebook import Beliefs
from training.trade.lists import one_of
from training.trade.reading import Place
from training.trade.speech import saying

_TEXTS = ("id", "title", "statement", "refutation", "lesson")
_SAID = ("title", "statement", "refutation")


class MisconceptionError(Exception):
    """A file of misconceptions is wrong; the message names the file, the entry, the field and what is accepted."""


class _Place(Place):
    error = MisconceptionError


@dataclass(frozen=True, slots=True)
class Misconception:
    """A wrong rule. `alteration` is the rulebook as its believer has it; empty where `beyond` says in a phrase why no
    alteration can state it: then the family computes with the wrong quantity itself. `typed`: why a limit in it is a
    number of its own and not a clause's."""

    id: str
    title: str
    statement: str
    refutation: str
    lesson: str
    alteration: Beliefs
    beyond: str
    typed: str = ""


def parse_misconceptions(text: str, file: str) -> dict[str, Misconception]:
    """Read the entries of a file in their order. Raises MisconceptionError."""
    try:
        entries = tomllib.loads(text).get("misconception", [])
    except tomllib.TOMLDecodeError as problem:
        raise MisconceptionError(f"{file}: {problem}") from None
    found: dict[str, Misconception] = {}
    accepted = [field.name for field in fields(Misconception)]
    for entry in entries:
        name = entry.get("id", "")
        place = _Place(file, f'misconception "{name}"')
        for field in _TEXTS:
            place.text(entry, field)
        place.keys(entry, accepted)
        for field in entry.get("alteration", {}).keys() - set(Beliefs.__annotations__):
            place.refuse("alteration", f'"{field}" is not accepted; choose {one_of(Beliefs.__annotations__)}')
        if bool(entry.get("alteration")) == bool(entry.get("beyond")):
            place.refuse("alteration", "give either alteration or beyond, not both and not neither")
        if name in found:
            place.refuse("id", "stands twice; give each its own id")
        said = {field: saying(entry[field]) for field in _SAID}
        found[name] = Misconception(**{"alteration": {}, "beyond": "", **entry, **said})
    return found


@lru_cache(maxsize=1)
def misconceptions() -> Mapping[str, Misconception]:
    """All misconceptions by id. Raises MisconceptionError."""
    found: dict[str, Misconception] = {}
    files = [one for one in resources.files(__package__).iterdir() if one.name.endswith(".toml")]
    for file in sorted(files, key=lambda one: one.name):
        entries = parse_misconceptions(file.read_text("utf-8"), file.name)
        for name in entries.keys() & found.keys():
            raise MisconceptionError(f'{file.name}: misconception "{name}": stands in two files; give each its own id')
        found |= entries
    return found
