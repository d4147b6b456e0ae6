"""Blueprints: how many questions of which families make a form, its minutes, what passes it, what it has to catch."""

from __future__ import annotations

import hashlib
import json
import tomllib
from collections import Counter
from collections.abc import Collection, Iterator, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import asdict, dataclass
from functools import lru_cache
from pathlib import Path

from assessments.measurement.passing import PassRule
from assessments.questions.draws.fairness import COUNTED, Band
from assessments.questions.draws.registry import family, family_names
from assessments.questions.mistakes.misconceptions import misconceptions
from training.rulebook import Scope, edition_names, edition_scopes
from training.trade.reading import Place
from training.trade.speech import saying
from training.trade.words import SKILLS

_FIELDS = (
    *("scope", "minutes", "pass_percent", "safety_percent", "unsafe_allowed", "alike_allowed"),
    *("attempts", "wait_hours", "note", "cell"),
)
_OPTIONAL = ("band", "grave")
GRAVE_AT_MOST = 10  # more than these no form can ask about often enough
CATCHES = 3  # questions of every form in which each grave misconception shows by itself


class BlueprintError(Exception):
    """A blueprint file is wrong; the message names the blueprint, the field, the value and what is accepted."""


class _Place(Place):
    error = BlueprintError


class UnknownBlueprint(KeyError):
    """No blueprint of this name; the message names the known ones."""

    def __str__(self) -> str:
        return str(self.args[0])


@dataclass(frozen=True, slots=True)
class Cell:
    """So many questions of one family; `instead_of` names the families it stands in for where a shop asks others."""

    family: str
    count: int
    instead_of: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Grave:
    """A misconception that could kill, for which `because` says how: every form has CATCHES questions that catch it.
    `asked_by` names the families that are drawn again to reach them."""

    misconception: str
    because: str
    asked_by: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Blueprint:
    """The plan of a form, named after its scope. What passes stands in `rule`; `wait_hours` lie between two of the
    `attempts`; `note` says what the pass mark rests on; `bands` keep the forms alike in what makes them hard; `graves`
    name what every form has to catch."""

    name: str
    title: str
    edition: str
    casings: tuple[str, ...]
    minutes: int
    pass_percent: int
    safety_percent: int
    unsafe_allowed: int
    alike_allowed: int
    attempts: int
    wait_hours: int
    note: str
    cells: tuple[Cell, ...]
    bands: tuple[Band, ...] = ()
    graves: tuple[Grave, ...] = ()

    @property
    def rule(self) -> PassRule:
        """What passes a form of this plan."""
        return PassRule(self.pass_percent, self.unsafe_allowed, self.alike_allowed, self.safety_percent)

    @property
    def grave(self) -> tuple[str, ...]:
        """The grave misconceptions by id."""
        return tuple(one.misconception for one in self.graves)

    @property
    def count(self) -> int:
        """How many questions a form has."""
        return sum(cell.count for cell in self.cells)

    @property
    def needed(self) -> int:
        """How many right answers pass: the percentage, rounded up."""
        return self.rule.needed(self.count)

    def recall(self) -> dict[str, int]:
        """Questions that ask what one has to know by heart, by skill; a skill without any is left out."""
        counts: Counter[str] = Counter()
        for cell in self.cells:
            if family(cell.family).recall:
                counts[family(cell.family).skill] += cell.count
        return dict(counts)

    @property
    def version(self) -> str:
        """A short digest of all that the blueprint says as it is written, so that any change of it is a new version."""
        return hashlib.sha256(json.dumps(asdict(self), sort_keys=True).encode()).hexdigest()[:12]

    def skills(self) -> dict[str, int]:
        """Questions by skill, in the order of the skills."""
        counts = dict.fromkeys(SKILLS, 0)
        for cell in self.cells:
            counts[family(cell.family).skill] += cell.count
        return {skill: count for skill, count in counts.items() if count}


def parse_blueprint(text: str, file: str) -> Blueprint:
    """Read a blueprint from TOML. Raises BlueprintError."""
    try:
        entry = tomllib.loads(text)
    except (ValueError, RecursionError) as failure:  # of values too long or too deep too
        raise BlueprintError(f"{file}: is not TOML: {failure}") from failure
    place = _Place(file)
    for field in _FIELDS:
        if field not in entry:
            place.refuse(field, "is missing")
    place.keys(entry, (*_FIELDS, *_OPTIONAL))
    scopes = {scope.id: (edition, scope) for edition in edition_names() for scope in edition_scopes(edition)}
    edition, scope = scopes[place.word(entry, "scope", tuple(scopes))]
    cells = tuple(_cell(file, cell) for cell in place.tables(entry, "cell"))
    if len({cell.family for cell in cells}) < len(cells) or not cells:
        place.refuse("cell", "give each family once, and at least one")
    return Blueprint(
        name=scope.id,
        title=saying(scope.title),
        edition=edition,
        casings=scope.casings,
        minutes=place.whole(entry, "minutes", 1, 600),
        pass_percent=place.whole(entry, "pass_percent", 1, 100),
        safety_percent=place.whole(entry, "safety_percent", 0, 100),
        unsafe_allowed=place.whole(entry, "unsafe_allowed", 0, 100),
        alike_allowed=place.whole(entry, "alike_allowed", 0, 100),
        attempts=place.whole(entry, "attempts", 1, 100),
        wait_hours=place.whole(entry, "wait_hours", 0, 10000),
        note=saying(place.text(entry, "note")),
        cells=cells,
        bands=tuple(_band(file, band) for band in place.tables(entry, "band")),
        graves=_graves(file, entry, {cell.family for cell in cells}),
    )


def _cell(file: str, cell: Mapping[str, object]) -> Cell:
    name = _Place(file, "cell").word(cell, "family", family_names())
    return Cell(name, _Place(file, f'cell "{name}"').whole(cell, "count", 1, 100))


def _band(file: str, band: Mapping[str, object]) -> Band:
    what = _Place(file, "band").word(band, "what", COUNTED)
    place = _Place(file, f'band "{what}"')
    least = place.whole(band, "least", 0, 1000)
    return Band(what, least, place.whole(band, "most", least, 1000))


def _graves(file: str, entry: Mapping[str, object], families: Collection[str]) -> tuple[Grave, ...]:
    place = _Place(file)
    tables = place.tables(entry, "grave")
    if len(tables) > GRAVE_AT_MOST:
        place.refuse("grave", f"{len(tables)} are not accepted; give at most {GRAVE_AT_MOST}")
    graves = tuple(_grave(file, table, families) for table in tables)
    if len({one.misconception for one in graves}) < len(graves):
        place.refuse("grave", "give each misconception once")
    return graves


def _grave(file: str, table: Mapping[str, object], families: Collection[str]) -> Grave:
    name = _Place(file, "grave").word(table, "misconception", misconceptions())
    place = _Place(file, f'grave "{name}"')
    place.keys(table, ("misconception", "because", "asked_by"))
    return Grave(name, saying(place.text(table, "because")), place.words(table, "asked_by", families))


_folders = [Path(__file__).parent]


@contextmanager
def blueprints_in(folder: Path) -> Iterator[None]:
    """The blueprints of another folder instead of those that come with the product, while it lasts."""
    _folders.append(folder)
    try:
        yield
    finally:
        _folders.pop()


def folder() -> Path:
    """Where the blueprints stand."""
    return _folders[-1]


def _built_in() -> tuple[Mapping[str, Blueprint], Sequence[str]]:
    """The blueprints of the scopes there are, in the order of the scopes, and what is wrong with the others."""
    return _read(_folders[-1], tuple(scope for edition in edition_names() for scope in edition_scopes(edition)))


@lru_cache(maxsize=8)
def _read(folder: Path, scopes: Sequence[Scope]) -> tuple[Mapping[str, Blueprint], Sequence[str]]:
    found: dict[str, Blueprint] = {}
    problems = []
    for path in sorted(folder.glob("*.toml")):
        try:
            plan = parse_blueprint(_text_of(path), path.name)
            if plan.name in found:
                raise BlueprintError(f'{path.name}: scope: "{plan.name}" has a blueprint; give one to each scope')
        except BlueprintError as problem:
            problems.append(str(problem))
        else:
            found[plan.name] = plan
    return {scope.id: found[scope.id] for scope in scopes if scope.id in found}, problems


def _text_of(path: Path) -> str:
    try:
        return path.read_text("utf-8")
    except (OSError, UnicodeDecodeError) as failure:
        raise BlueprintError(f"{path.name}: is not TOML: {failure}") from failure


def blueprint_names() -> tuple[str, ...]:
    """The names of the built-in blueprints: the scopes that have one."""
    return tuple(_built_in()[0])


def broken_blueprints() -> Sequence[str]:
    """What is wrong with each blueprint that cannot be read, in one sentence each; empty where all is well."""
    return _built_in()[1]


def blueprint(name: str) -> Blueprint:
    """The built-in blueprint of this name. Raises UnknownBlueprint."""
    try:
        return _built_in()[0][name]
    except KeyError:
        raise UnknownBlueprint(f'blueprint: "{name}" is not known; choose {", ".join(blueprint_names())}') from None
