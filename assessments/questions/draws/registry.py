"""The families: each registers itself from its own file in `families/`, found without a list to keep."""

from __future__ import annotations

import importlib
import pkgutil
from collections.abc import Callable, Collection
from dataclasses import dataclass
from functools import lru_cache
from typing import TYPE_CHECKING

from assessments.questions.cases.casebook import LIGHT
from assessments.questions.items.item import FORMATS, SERIES, Item
from training.rulebook import CASINGS
from training.trade.words import SKILLS

if TYPE_CHECKING:
    from assessments.questions.draws.draft import Draft

Build = Callable[["Draft"], Item]


class UnknownFamily(KeyError):
    """No family of this name; the message names the known ones."""

    def __str__(self) -> str:
        return str(self.args[0])


@dataclass(frozen=True, slots=True)
class Family:
    """A generator of items on one skill. `lesson` is where to read again: "module/lesson".

    A family with a `series` asks one part of a case in several parts: the families of a series, drawn by one seed, ask
    of the same tire, in the order of `part`. `casings` are those it can ask about; none where it tells no tire.
    """

    name: str
    title: str
    skill: str
    formats: tuple[str, ...]
    lesson: str
    build: Build
    series: str = ""
    part: int = 0
    casings: tuple[str, ...] = LIGHT

    def asks_about(self, casings: Collection[str] | None) -> bool:
        """Has it anything to ask about one of these casings? None stands for all."""
        return casings is None or not self.casings or not set(self.casings).isdisjoint(casings)


_families: dict[str, Family] = {}


def item_family(
    name: str,
    *,
    title: str,
    skill: str,
    formats: tuple[str, ...],
    lesson: str,
    series: str = "",
    part: int = 0,
    casings: tuple[str, ...] = LIGHT,
) -> Callable[[Build], Build]:
    """Register the decorated function as the family `name`. ValueError for an unknown skill, format or casing."""
    if skill not in SKILLS:
        raise ValueError(f'family "{name}", skill: "{skill}" is not accepted; choose {", ".join(SKILLS)}')
    unknown = [one for one in formats if one not in FORMATS]
    if unknown or not formats:
        raise ValueError(f'family "{name}", formats: {unknown} is not accepted; choose {", ".join(FORMATS)}')

    for casing in casings:
        if casing not in CASINGS:
            raise ValueError(f'family "{name}", casings: "{casing}" is not accepted; choose {", ".join(CASINGS)}')
    if series and series not in SERIES:
        raise ValueError(f'family "{name}", series: "{series}" is not accepted; choose {", ".join(SERIES)}')

    def register(build: Build) -> Build:
        if name in _families:
            raise ValueError(f'family "{name}" is registered twice; give each family its own name')
        _families[name] = Family(name, title, skill, formats, lesson, build, series, part, casings)
        return build

    return register


@lru_cache(maxsize=1)
def _discovered() -> dict[str, Family]:
    from assessments.questions import families

    for module in pkgutil.walk_packages(families.__path__, f"{families.__name__}."):
        importlib.import_module(module.name)
    return dict(sorted(_families.items()))


def family_names() -> tuple[str, ...]:
    """The names of all families, sorted."""
    return tuple(_discovered())


def family(name: str) -> Family:
    """The family of this name. Raises UnknownFamily."""
    try:
        return _discovered()[name]
    except KeyError:
        raise UnknownFamily(f'family: "{name}" is not known; choose {", ".join(family_names())}') from None


def parts_of(series: str) -> tuple[str, ...]:
    """The families of a series in the order of its parts; none for an unknown series."""
    found = [one for one in _discovered().values() if one.series == series and series]
    return tuple(one.name for one in sorted(found, key=lambda one: one.part))
