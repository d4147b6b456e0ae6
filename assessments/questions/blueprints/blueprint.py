"""Blueprints: how many questions of which families make a form, its minutes and its pass mark; and drawing a form."""

from __future__ import annotations

import hashlib
import hmac
import tomllib
from collections import Counter
from collections.abc import Callable, Collection, Iterator, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path
from random import Random

from assessments.questions.drafts.rules import NoSuchLimit
from assessments.questions.draws.fairness import COUNTED, Band, off_bands, places_without
from assessments.questions.draws.registry import family, family_names
from assessments.questions.draws.sampling import CannotDraw, draw, draw_different
from assessments.questions.items.digest import digest
from assessments.questions.items.item import Item
from training.rulebook import Edition, OnShelf, Scope, edition_names, edition_scopes
from training.trade.reading import Place
from training.trade.speech import saying
from training.trade.words import SKILLS

_FIELDS = ("scope", "minutes", "pass_percent", "unsafe_allowed", "attempts", "wait_hours", "note", "cell")
_OPTIONAL = ("band",)
_ADJUSTMENTS = 80  # questions drawn again at most to bring a form into its bands


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
class Blueprint:
    """The plan of a form, named after its scope. `pass_percent` of the questions right and at most `unsafe_allowed`
    unsafe releases pass; `wait_hours` lie between two of the `attempts`; `note` says what the pass mark rests on;
    `bands` keep the forms alike in what makes them hard."""

    name: str
    title: str
    edition: str
    casings: tuple[str, ...]
    minutes: int
    pass_percent: int
    unsafe_allowed: int
    attempts: int
    wait_hours: int
    note: str
    cells: tuple[Cell, ...]
    bands: tuple[Band, ...] = ()

    @property
    def count(self) -> int:
        """How many questions a form has."""
        return sum(cell.count for cell in self.cells)

    @property
    def needed(self) -> int:
        """How many right answers pass: the percentage, rounded up."""
        return -(-self.count * self.pass_percent // 100)

    def recall(self) -> dict[str, int]:
        """Questions that ask what one has to know by heart, by skill; a skill without any is left out."""
        counts: Counter[str] = Counter()
        for cell in self.cells:
            if family(cell.family).recall:
                counts[family(cell.family).skill] += cell.count
        return dict(counts)

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
        unsafe_allowed=place.whole(entry, "unsafe_allowed", 0, 100),
        attempts=place.whole(entry, "attempts", 1, 100),
        wait_hours=place.whole(entry, "wait_hours", 0, 10000),
        note=saying(place.text(entry, "note")),
        cells=cells,
        bands=tuple(_band(file, band) for band in place.tables(entry, "band")),
    )


def _cell(file: str, cell: Mapping[str, object]) -> Cell:
    name = _Place(file, "cell").word(cell, "family", family_names())
    return Cell(name, _Place(file, f'cell "{name}"').whole(cell, "count", 1, 100))


def _band(file: str, band: Mapping[str, object]) -> Band:
    what = _Place(file, "band").word(band, "what", COUNTED)
    place = _Place(file, f'band "{what}"')
    least = place.whole(band, "least", 0, 1000)
    return Band(what, least, place.whole(band, "most", least, 1000))


_folders = [Path(__file__).parent]


@contextmanager
def blueprints_in(folder: Path) -> Iterator[None]:
    """The blueprints of another folder instead of those that come with the product, while it lasts."""
    _folders.append(folder)
    try:
        yield
    finally:
        _folders.pop()


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


def draw_form(
    plan: Blueprint,
    *,
    secret: bytes,
    form_id: str,
    edition: Edition,
    prefer: str = "in",
    units: Sequence[OnShelf] | None = None,
    shown: Collection[str] = (),
    off: Collection[str] = (),
) -> list[Item]:
    """The questions of one form, no two alike, in an order mixed over the skills; the parts of a case stay together.

    Seeds are keyed by `secret`, so that nobody who knows the form's id can draw it beforehand. The places of the keys
    are balanced, and the bands of the plan kept. `shown` holds the digests of what the person was asked before: none of
    it comes again while the family has something else. `off`: the families that stand in for none.
    """

    def keyed(*parts: object) -> str:
        return hmac.new(secret, repr((form_id, *parts)).encode(), hashlib.sha256).hexdigest()

    blocks = _blocks(plan.cells)
    Random(keyed("order")).shuffle(blocks)  # noqa: S311 - the seed is keyed
    items = draw_different(
        [name for block in blocks for name in block],
        seeds=[keyed("item", place) for place, block in enumerate(blocks) for _ in block],
        edition=edition,
        prefer=prefer,
        units=units,
        casings=plan.casings,
        shown=shown,
        off=off,
        balanced=True,
    )

    def again(place: int, turn: int) -> Item:
        return draw(
            items[place].family,
            seed=keyed("band", turn),
            edition=edition,
            prefer=prefer,
            units=units,
            casings=plan.casings,
        )

    return _into_bands(items, plan.bands, Random(keyed("bands")), again, shown)  # noqa: S311 - the seed is keyed


def _into_bands(
    items: list[Item], bands: Sequence[Band], rng: Random, again: Callable[[int, int], Item], shown: Collection[str]
) -> list[Item]:
    """The form with single questions drawn again until it keeps its bands, as far as some tries go."""
    alone = [place for place, item in enumerate(items) if not family(item.family).series]
    for turn in range(_ADJUSTMENTS if bands and alone else 0):
        missed = off_bands(items, bands)
        if missed == 0:
            break
        place = rng.choice(alone)
        try:
            other = again(place, turn)
        except (CannotDraw, NoSuchLimit):
            continue
        changed = [*items[:place], other, *items[place + 1 :]]
        is_new = digest(other) not in {*shown, *map(digest, items)}
        if is_new and off_bands(changed, bands) < missed and places_without(items, place).takes(other):
            items = changed
    return items


def _blocks(cells: Sequence[Cell]) -> list[list[str]]:
    """What stands together on a form: each question alone, the parts of one case in their order."""
    names = [cell.family for cell in cells for _ in range(cell.count)]
    alone = [[name] for name in names if not family(name).series]
    cases: dict[tuple[str, int], list[str]] = {}
    counted: Counter[str] = Counter()
    for name in names:
        if series := family(name).series:
            cases.setdefault((series, counted[name]), []).append(name)
            counted[name] += 1
    return alone + [sorted(parts, key=lambda name: family(name).part) for parts in cases.values()]
