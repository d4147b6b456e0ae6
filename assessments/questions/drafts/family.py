"""What a family is, and how it registers itself from its own file."""

from __future__ import annotations

from collections.abc import Callable, Collection
from dataclasses import dataclass
from typing import Any

from assessments.questions.items.item import FORMATS, SERIES, Item
from training.rulebook import CASINGS
from training.trade.speech import saying
from training.trade.words import LIGHT, SKILLS

Build = Callable[[Any], Item]  # takes a Draft


@dataclass(frozen=True, slots=True)
class Family:
    """A generator of items on one skill. `lesson` is where to read again: "module/lesson".

    A family with a `series` asks one part of a case in several parts: the families of a series, drawn by one seed, ask
    of the same tire, in the order of `part`. `casings` are those it can ask about; none where it tells no tire.
    `converts`: it asks in which unit something is, so that it tells values in both; all others keep to one.
    `recall`: it asks what one has to know by heart, so that its options alone tell who has learned them.
    `foretells`: what a draw will come to can be told before it is made (`Foretelling`).
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
    converts: bool = False
    recall: bool = False
    foretells: bool = False

    def asks_about(self, casings: Collection[str] | None) -> bool:
        """Has it anything to ask about one of these casings? None stands for all."""
        return casings is None or not self.casings or not set(self.casings).isdisjoint(casings)


REGISTERED: dict[str, Family] = {}


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
    converts: bool = False,
    recall: bool = False,
    foretells: bool = False,
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
        if name in REGISTERED:
            raise ValueError(f'family "{name}" is registered twice; give each family its own name')
        told = (series, part, casings, converts, recall, foretells)
        REGISTERED[name] = Family(name, saying(title), skill, formats, lesson, build, *told)
        return build

    return register
