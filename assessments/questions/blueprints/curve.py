"""The curve of a blueprint: how many pass it, by true ability and by a misconception held, as simulated people did."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path

from assessments.questions.blueprints import blueprint as blueprints
from assessments.questions.mistakes.misconceptions import misconceptions
from training.trade.reading import Place

_FIELDS = ("version", "forms", "people", "ability", "held")


class CurveError(Exception):
    """A file of a curve is wrong; the message names the file, the field and what is accepted."""


class _Place(Place):
    error = CurveError


@dataclass(frozen=True, slots=True)
class Curve:
    """Shares of people passing in one sitting, in tenths of a percent. `ability` by the percentage of all questions
    that somebody would get right; `held` by the misconception that somebody firmly holds who else gets 90 % right.

    `version` is that of the blueprint it was made for, `people` how many sat for each point, `forms` how many forms.
    """

    version: str
    forms: int
    people: int
    ability: Sequence[tuple[int, int]]
    held: Sequence[tuple[str, int]]

    def to_json(self) -> dict[str, object]:
        """Plain JSON values."""
        return {
            "forms": self.forms,
            "people": self.people,
            "ability": [list(point) for point in self.ability],
            "held": [list(point) for point in self.held],
        }


def curve_of(name: str) -> Curve | None:
    """The curve beside the built-in blueprint of this name; None where none was made. Raises CurveError."""
    path = blueprints.folder() / "curves" / f"{name}.toml"
    return _read(path) if path.exists() else None


@lru_cache(maxsize=16)
def _read(path: Path) -> Curve:
    return parse_curve(path.read_text("utf-8"), path.name)


def parse_curve(text: str, file: str) -> Curve:
    """Read a curve from TOML. Raises CurveError."""
    try:
        entry = tomllib.loads(text)
    except ValueError as failure:
        raise CurveError(f"{file}: is not TOML: {failure}") from failure
    place = _Place(file)
    place.keys(entry, _FIELDS)
    return Curve(
        version=place.text(entry, "version"),
        forms=place.whole(entry, "forms", 1, 1_000_000),
        people=place.whole(entry, "people", 1, 1_000_000),
        ability=tuple(_ability(file, point) for point in place.tables(entry, "ability")),
        held=tuple(_held(file, point) for point in place.tables(entry, "held")),
    )


def _ability(file: str, point: Mapping[str, object]) -> tuple[int, int]:
    place = _Place(file, "ability")
    return place.whole(point, "right", 0, 100), place.whole(point, "passes", 0, 1000)


def _held(file: str, point: Mapping[str, object]) -> tuple[str, int]:
    place = _Place(file, "held")
    return place.word(point, "misconception", misconceptions()), place.whole(point, "passes", 0, 1000)


def written(curve: Curve) -> str:
    """The curve as TOML, as `parse_curve` reads it."""
    lines = [
        "# Made by `python -m tests.simulations passing --write`: by simulation, in tenths of a percent.",
        f'version = "{curve.version}"',
        f"forms = {curve.forms}",
        f"people = {curve.people}",
        "ability = [",
        *(f"    {{ right = {right}, passes = {passes} }}," for right, passes in curve.ability),
        "]",
        "held = [",
        *(f'    {{ misconception = "{name}", passes = {passes} }},' for name, passes in curve.held),
        "]",
    ]
    return "\n".join(lines) + "\n"
