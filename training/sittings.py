"""While somebody sits an assessment, whatever could answer it is closed to that person, in every shop of theirs.

What an assessment is, is not known here: the app that holds them says once, at start, how an open one is found.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from datetime import datetime
from typing import TYPE_CHECKING

from django.db.models import Expression

if TYPE_CHECKING:  # told at start, before models can be read
    from training.models import User


@dataclass(frozen=True, slots=True)
class Sitting:
    """An assessment that a person has open: its title, when its clock runs out, and the address that leads back."""

    title: str
    closes_at: datetime
    address: str


@dataclass(frozen=True, slots=True)
class Finding:
    """How an open assessment is found: `sits` tells, as a part of a query of memberships, whether their person has one
    open at an instant; `sitting` looks it up.
    """

    sits: Callable[[datetime], Expression]
    sitting: Callable[[User, datetime], Sitting | None]


_told: list[Finding] = []


def tell(finding: Finding) -> None:
    """Say how an open assessment is found; once, at start."""
    _told[:] = [finding]


def sits(at: datetime) -> dict[str, Expression]:
    """What to add to a query of memberships so that each tells in `sits` whether its person sits an assessment."""
    return {"sits": _told[0].sits(at)} if _told else {}


def sitting_of(person: User, at: datetime) -> Sitting | None:
    """The assessment that a person has open at this instant; one query."""
    return _told[0].sitting(person, at) if _told else None
