"""What an item is put together from: the answers on offer, and what surrounds the question."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import Protocol, TypedDict

from assessments.questions.items.claims import Asked
from assessments.questions.items.item import Json, Key, Option
from assessments.questions.items.shapes import Frame
from training.rulebook import Case, Ruling


class Drawn(Protocol):
    """Anything with a drawing and its words."""

    @property
    def svg(self) -> str: ...
    @property
    def description(self) -> str: ...


class Setting(TypedDict, total=False):
    """What surrounds the question: the case, what is asked of it, what explains the key, the drawing, the difficulty.

    The drawing is a function, called once the question stands: most draws that fail never draw.
    """

    case: Case | None
    asks: Asked
    rulings: Iterable[Ruling]
    clauses: Iterable[str]
    explanation: Iterable[Json]
    figure: Callable[[], Drawn]
    features: Json


class Answers(TypedDict, total=False):
    """What an item offers and what is right; the fields are those of `Item`."""

    options: tuple[Option, ...]
    key: Key
    tolerance: str | None
    units: tuple[str, ...]
    distractors: dict[str, tuple[str, ...]]
    unsafe: tuple[str, ...]
    omissions: dict[str, tuple[str, ...]]
    reasons: tuple[Option, ...]
    frame: Frame
    before: tuple[tuple[str, str], ...]
    routes: dict[str, tuple[tuple[str, ...], ...]]
