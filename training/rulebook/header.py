"""Reading what opens an edition: its names, versions and units, its scopes, and the rule of its crowns."""

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date

from training.rulebook.citations import Library
from training.rulebook.clauses import KINDS
from training.rulebook.geometry import CrownRule
from training.rulebook.loader import Place, quantity_of
from training.rulebook.measures import MEASURES
from training.trade.lists import one_of
from training.trade.reading import shown
from training.trade.speech import LANGUAGES, SOURCE, saying
from training.trade.words import CASINGS, PURPOSES, VERDICTS

HEADER = "edition.toml"
_VERSION = re.compile(r"[0-9]{4}\.[0-9]{1,3}")
_EDITION = frozenset(
    [
        "name",
        "title",
        "country",
        "units",
        "default",
        "version",
        "scope",
        "crown",
        "covers",
        "trade",
        "worked",
        "law_of",
        "language",
    ]
)
_RELEASE = frozenset({"id", "in_force_from"})
_SCOPE = frozenset({"id", "title", "casings"})
_CROWN = frozenset({"casings", "basis", "inset", "shares", "printed", "kind", "cites"})


@dataclass(frozen=True, slots=True)
class Scope:
    """What a certificate can cover: some casings, under one edition. `id` is unlike that of any other edition's."""

    id: str
    title: str
    casings: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Version:
    """One released version and the first day on which it is in force."""

    id: str
    in_force_from: date


@dataclass(frozen=True)
class Header:
    """What opens an edition. `covers`: for each purpose, groups of quantities of which one must be limited.

    `covers_of` has the groups of a casing and purpose that needs others. `country` is where it holds, in words;
    `is_default` says that it counts where no edition is named, `without` what the trade takes and this country does
    not, `worked` the verdicts of the lessons' worked examples that come out otherwise here, by their titles. `law_of`
    is the country whose law counts where no state is named, as a case names it, and `language` the one that its shops
    read. The versions stand in the order in
    which they come into force.
    """

    name: str
    title: str
    country: str
    units: str
    versions: tuple[Version, ...]
    covers: Mapping[str, Sequence[Sequence[str]]]
    without: tuple[str, ...] = ()
    covers_of: Mapping[tuple[str, str], Sequence[Sequence[str]]] = field(default_factory=dict)
    scopes: tuple[Scope, ...] = ()
    is_default: bool = False
    worked: Mapping[str, str] = field(default_factory=dict)
    law_of: str = ""
    language: str = SOURCE

    def stands_beside(self, other: "Header") -> None:
        """Refuse what only one of two editions can have: the same scope, or to be the default."""
        place = Place(HEADER)
        if self.is_default and other.is_default:
            place.refuse("default", f'true is not accepted; "{other.name}" is the default edition')
        for scope in self.scopes:
            if scope.id in {one.id for one in other.scopes}:
                place.refuse("scope", f'id {shown(scope.id)} is not accepted; it is a scope of "{other.name}"')


def read_header(data: Mapping[str, object], file: str) -> Header:
    """Names, versions, units, scopes and what an edition covers, and what it leaves out. Raises RulebookError."""
    place = Place(file)
    place.keys(data, _EDITION)
    covers = data.get("covers", {})
    if not isinstance(covers, Mapping):
        place.refuse("covers", "is not accepted; give a table from purpose to quantities")
    own = {casing: table for casing, table in covers.items() if casing in CASINGS}
    for casing, table in {"": {name: covers[name] for name in covers if name not in own}, **own}.items():
        if not isinstance(table, Mapping):
            place.refuse(f"covers.{casing}", "is not accepted; give a table from purpose to quantities")
        for purpose in table:
            if purpose not in PURPOSES:
                accepted = PURPOSES if casing else (*PURPOSES, *CASINGS)
                place.refuse("covers", f"{shown(purpose)} is not accepted; choose {one_of(accepted)}")
    return Header(
        name=place.text(data, "name"),
        title=saying(place.text(data, "title")),
        country=saying(place.text(data, "country")),
        units=place.word(data, "units", ("in", "mm")),
        versions=_versions(data.get("version", []), Place(file, "version")),
        covers={name: _covers(place, name, groups) for name, groups in covers.items() if name not in own},
        without=_without(data.get("trade", {}), Place(file, "trade")),
        covers_of={
            (casing, purpose): _covers(place, purpose, groups)
            for casing, table in own.items()
            for purpose, groups in table.items()
        },
        scopes=_scopes(data.get("scope", []), Place(file, "scope")),
        is_default=place.flag(data, "default"),
        worked=_worked(data.get("worked", {}), Place(file, "worked")),
        law_of=place.text(data, "law_of", default=""),
        language=place.word(data, "language", LANGUAGES) if "language" in data else SOURCE,
    )


def _scopes(tables: object, place: Place) -> tuple[Scope, ...]:
    if not isinstance(tables, list):
        place.refuse("scope", "is not accepted; give [[scope]] tables")
    scopes: list[Scope] = []
    for table in tables:
        place.keys(table, _SCOPE)
        id, title = place.text(table, "id"), place.text(table, "title")
        if id in {one.id for one in scopes}:
            place.refuse("id", f"{shown(id)} is used for two scopes")
        scopes.append(Scope(id, saying(title), place.words(table, "casings", CASINGS)))
    return tuple(scopes)


def _worked(table: object, place: Place) -> dict[str, str]:
    if not isinstance(table, Mapping):
        place.refuse("worked", 'is not accepted; give a table such as {"A nail in the middle" = "refer"}')
    return {title: place.word(table, title, VERDICTS) for title in table}


def _versions(tables: object, place: Place) -> tuple[Version, ...]:
    if not isinstance(tables, list) or not tables:
        place.refuse("version", "is not accepted; give [[version]] tables")
    versions: list[Version] = []
    for table in tables:
        place.keys(table, _RELEASE)
        id, day = place.text(table, "id"), place.day(table, "in_force_from")
        if not _VERSION.fullmatch(id):
            place.refuse("id", f'{shown(id)} is not accepted; give year and number, for example "2026.1"')
        if versions and (_number(id) <= _number(versions[-1].id) or day <= versions[-1].in_force_from):
            place.refuse("id", f'"{id}" of {day} does not come after "{versions[-1].id}"; give the earlier one first')
        versions.append(Version(id, day))
    return tuple(versions)


def _number(version: str) -> tuple[int, ...]:
    return tuple(map(int, version.split(".")))


def _without(table: object, place: Place) -> tuple[str, ...]:
    if not isinstance(table, Mapping):
        place.refuse("trade", 'is not accepted; give a table such as {without = ["cutter-speed"]}')
    place.keys(table, frozenset({"without"}))
    return place.words(table, "without", None, default=())


def _covers(place: Place, purpose: str, groups: object) -> tuple[tuple[str, ...], ...]:
    if not isinstance(groups, list) or not groups:
        place.refuse("covers", f"{shown(groups)} is not accepted; give a list of quantities, or of groups of them")
    rows = [group if isinstance(group, list) else [group] for group in groups]
    return tuple(place.words({purpose: group}, purpose, tuple(MEASURES)) for group in rows)


def read_crowns(tables: Sequence[Mapping[str, object]], file: str, library: Library) -> dict[str, CrownRule]:
    """The rule of the repairable crown for each casing that has one. Raises RulebookError."""
    place = Place(file, "crown")
    return {
        casing: _crown(table, place, library) for table in tables for casing in place.words(table, "casings", CASINGS)
    }


def _crown(table: Mapping[str, object], place: Place, library: Library) -> CrownRule:
    place.keys(table, _CROWN)
    basis = place.word(table, "basis", ("outer-groove", "shoulder", "section-width"))
    inset = quantity_of(place, "inset", table.get("inset", "0 mm"), "length")
    shares = table.get("shares", [])
    printed = table.get("printed", {})
    if not isinstance(shares, list) or not isinstance(printed, Mapping):
        place.refuse("shares", 'is not accepted; give rows such as {up_to = "155 mm", percent = "60 %"}')
    rows = tuple(
        (quantity_of(place, "shares", row.get("up_to", "10000 mm"), "length").number,
         quantity_of(place, "shares", row.get("percent"), "percent").number)
        for row in map(place.table, shares)
    )  # fmt: skip
    for width in printed:
        if not width.isdigit():
            place.refuse("printed", f"{shown(width)} is not accepted; give a section width in mm, such as 205")
    printed_mm = tuple(
        (int(width), quantity_of(place, "printed", mark, "length").number) for width, mark in printed.items()
    )
    cited = library.cited(table, place, KINDS)
    said = cited.generally
    return CrownRule(basis, inset.number, rows, printed_mm, said.kind, said.source, cited=cited)
