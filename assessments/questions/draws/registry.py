"""All families, found in `families/` without a list to keep."""

from __future__ import annotations

import importlib
import pkgutil
from functools import lru_cache

from assessments.questions import families
from assessments.questions.drafts.family import REGISTERED, Family


class UnknownFamily(KeyError):
    """No family of this name; the message names the known ones."""

    def __str__(self) -> str:
        return str(self.args[0])


@lru_cache(maxsize=1)
def _discovered() -> dict[str, Family]:
    for module in pkgutil.walk_packages(families.__path__, f"{families.__name__}."):
        importlib.import_module(module.name)
    return dict(sorted(REGISTERED.items()))


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
