"""The named wrong rules, read from `misconceptions.toml`: what each believes, why it is wrong, what it computes."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache
from importlib import resources
from typing import Any

_TEXTS = ("id", "title", "statement", "refutation", "lesson")
_ALTERATIONS = ("without", "limits", "measures", "consequences")


class MisconceptionError(Exception):
    """The file of misconceptions is wrong; the message names the entry, the field and what is accepted."""


@dataclass(frozen=True, slots=True)
class Misconception:
    """A wrong rule. `alteration` holds the arguments of `Edition.altered`, or is empty where `swaps` says what it takes
    for what: then the family computes with the wrong quantity itself."""

    id: str
    title: str
    statement: str
    refutation: str
    lesson: str
    alteration: Mapping[str, Any]
    swaps: str


def parse_misconceptions(text: str) -> dict[str, Misconception]:
    """Read the entries of a file in their order. Raises MisconceptionError."""
    try:
        entries = tomllib.loads(text).get("misconception", [])
    except tomllib.TOMLDecodeError as problem:
        raise MisconceptionError(f"misconceptions.toml: {problem}") from None
    found: dict[str, Misconception] = {}
    for entry in entries:
        name = entry.get("id", "")
        where = f'misconceptions.toml: misconception "{name}"'
        for field in _TEXTS:
            if not isinstance(entry.get(field), str) or not entry[field].strip():
                raise MisconceptionError(f"{where}, {field}: {entry.get(field)!r} is not accepted; give a text")
        alteration, swaps = entry.get("alteration", {}), entry.get("swaps", "")
        for field in entry.keys() - {*_TEXTS, "alteration", "swaps"}:
            raise MisconceptionError(f"{where}, {field}: is not a field; choose {', '.join(_TEXTS)}, alteration, swaps")
        for field in alteration.keys() - set(_ALTERATIONS):
            accepted = ", ".join(_ALTERATIONS)
            raise MisconceptionError(f'{where}, alteration: "{field}" is not accepted; choose {accepted}')
        if bool(alteration) == bool(swaps):
            raise MisconceptionError(f"{where}: give either alteration or swaps, not both and not neither")
        if name in found:
            raise MisconceptionError(f"{where}: stands twice; give each its own id")
        texts = {field: entry[field] for field in _TEXTS}
        found[name] = Misconception(**texts, alteration=alteration, swaps=swaps)
    return found


@lru_cache(maxsize=1)
def misconceptions() -> Mapping[str, Misconception]:
    """All misconceptions by id."""
    return parse_misconceptions(resources.files(__package__).joinpath("misconceptions.toml").read_text("utf-8"))
