"""Which editions there are: the folders with a header, each read once. A broken one is named, and the others go on."""

from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from datetime import date
from functools import cached_property, lru_cache
from pathlib import Path

from training.rulebook.edition import Edition, in_force, read_versions
from training.rulebook.header import HEADER, Header, Scope, read_header
from training.rulebook.loader import RulebookError, read_toml
from training.rulebook.taking import TRADE, Files, read_files
from training.trade.speech import SOURCE, say

EDITIONS = Path(__file__).with_name("editions")


class UnreadableEdition(RulebookError):
    """An edition cannot be read, or is not there; `edition` is its name."""

    def __init__(self, edition: str, problem: str) -> None:
        super().__init__(problem)
        self.edition = edition


class Registry:
    """The editions of one folder. What was read, and what could not be read, is kept."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self.load = lru_cache(maxsize=4096)(self._load)
        self.versions = lru_cache(maxsize=None)(self._versions)
        self._broken: dict[str, str] = {}

    @cached_property
    def headers(self) -> Mapping[str, Header]:
        """The headers that can be read, by the names of the editions."""
        found: dict[str, Header] = {}
        folders = {path.parent for path in self.folder.glob("*/*.toml")} - {self.folder / TRADE}
        for path in sorted(folder / HEADER for folder in folders):
            name = path.parent.name
            try:
                header = read_header(read_toml(path), HEADER)
                if header.name != name:
                    raise RulebookError(f'{HEADER}: name: "{header.name}" stands in a folder of "{name}"')
                for other in found.values():
                    header.stands_beside(other)
            except RulebookError as problem:
                self._broken[name] = f"{name}: {problem}"
            else:
                found[name] = header
        return found

    @cached_property
    def default(self) -> str:
        """The edition of what names none. Raises RulebookError where no header says `default`."""
        for header in self.headers.values():
            if header.is_default:
                return header.name
        problems = "; ".join(self._broken.values()) or "give default = true in one of them"
        raise RulebookError(f"{HEADER}: default: no edition says it is the default one: {problems}")

    @cached_property
    def _trade(self) -> Files:
        return read_files(self.folder / TRADE, f"{TRADE}/")

    def unreadable(self, name: str) -> str:
        """What is wrong with the header of an edition; empty where it can be read, or is not there."""
        return "" if name in self.headers else self._broken.get(name, "")

    def broken(self) -> Mapping[str, str]:
        """What is wrong with each edition that cannot be read, in one sentence each; reads them all."""
        for name in self.headers:
            try:
                self.versions(name)
            except RulebookError as problem:
                self._broken[name] = str(problem)
        return dict(sorted(self._broken.items()))

    def _versions(self, name: str) -> tuple[Edition, ...]:
        if name not in self.headers:
            known = ", ".join(self.headers)
            problem = self.unreadable(name) or say(
                'edition: "{name}" is not an edition; choose {known}', name=name, known=known
            )
            raise UnreadableEdition(name, problem)
        if name not in self._broken:
            try:
                return read_versions(self.folder / name, trade=self._trade)
            except RulebookError as problem:
                self._broken[name] = f"{name}: {problem}"
        raise UnreadableEdition(name, self._broken[name])

    def _load(self, name: str, on: date | None, version: str | None) -> Edition:
        versions = self.versions(name)
        if version is None:
            return versions[-1] if on is None else in_force(versions, on)
        for edition in versions:
            if edition.version == version:
                return edition
        raise RulebookError(
            say(
                '{name}: has no version "{version}"; it has {versions}',
                name=name,
                version=version,
                versions=", ".join(one.version for one in versions),
            )
        )


_registries = [Registry(EDITIONS)]


@contextmanager
def editions_in(folder: Path) -> Iterator[Registry]:
    """The editions of another folder instead of those that come with the product, while it lasts."""
    _registries.append(Registry(folder))
    try:
        yield _registries[-1]
    finally:
        _registries.pop()


def edition_names() -> tuple[str, ...]:
    """Names of the editions whose header can be read."""
    return tuple(_registries[-1].headers)


def default_edition() -> str:
    """The edition of a case, a shop and a command that name none, and the one the lessons were written for."""
    return _registries[-1].default


def edition_countries() -> Mapping[str, str]:
    """Each edition with the country it holds for."""
    return {name: header.country for name, header in _registries[-1].headers.items()}


def edition_title(name: str) -> str:
    """The title of an edition, also of one whose clauses cannot be read; its name where it is no longer there."""
    header = _registries[-1].headers.get(name)
    return header.title if header else name


def edition_language(name: str) -> str:
    """What the shops of an edition read, also of one whose clauses cannot be read; the language of the texts else."""
    header = _registries[-1].headers.get(name)
    return header.language if header else SOURCE


def unreadable_edition(name: str) -> str:
    """What is wrong with the header of an edition, in one sentence; empty where it can be read, or is not there."""
    return _registries[-1].unreadable(name)


def broken_editions() -> Mapping[str, str]:
    """What is wrong with each edition that cannot be read, in one sentence each; empty where all is well."""
    return _registries[-1].broken()


def edition_scopes(name: str) -> tuple[Scope, ...]:
    """The scopes of an edition, in its own order; none for one that is not known."""
    header = _registries[-1].headers.get(name)
    return header.scopes if header else ()


def edition_versions(name: str) -> tuple[Edition, ...]:
    """Every version of an edition that is kept, the first in force first. Raises UnreadableEdition."""
    return _registries[-1].versions(name)


def load_edition(name: str, *, on: date | None = None, version: str | None = None) -> Edition:
    """An edition by name: the version asked for, else the one in force on a day, else the newest.

    A day before the first version gets the first. Raises RulebookError naming what there is.
    """
    return _registries[-1].load(name, on, version)
