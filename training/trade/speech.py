"""What a person reads, in that person's language: every text of the program passes through here. Pure.

A text is written in American English, as a full sentence with named places, where it belongs: `say` gives it in the
language spoken, `saying` marks one that is read before anybody speaks (a table of a module, a value of a data file).
Catalogues stand in `training/locale`; `manage.py catalogue` brings them up to what the program says.
"""

from __future__ import annotations

import gettext
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from contextvars import ContextVar
from functools import cache, lru_cache, wraps
from pathlib import Path
from typing import Any, ParamSpec, SupportsIndex, TypeVar

P = ParamSpec("P")
T = TypeVar("T")

SOURCE = "en-US"
DOMAIN = "django"  # templates and code share one catalogue a language
FOLDER = Path(__file__).parents[1] / "locale"
LANGUAGES = (SOURCE, *sorted(path.parent.parent.name.replace("_", "-") for path in FOLDER.glob("*/LC_MESSAGES/*.po")))

_MOST_KNOWN = 1 << 14  # some times as many as there are texts

_spoken: ContextVar[str] = ContextVar("spoken", default=SOURCE)
_marked: dict[str, None] = {}  # what was marked so far, in order
_heard: ContextVar[dict[str, str] | None] = ContextVar("heard", default=None)


def language() -> str:
    """The language spoken now, as a tag: "en-US"."""
    return _spoken.get()


@contextmanager
def in_language(tag: str) -> Iterator[None]:
    """Speak this language inside. Raises ValueError for one without a catalogue."""
    if tag != SOURCE:
        catalogue(tag)
    token = _spoken.set(tag)
    try:
        yield
    finally:
        _spoken.reset(token)


class _Catalogue(gettext.GNUTranslations):
    """A catalogue that looks up each text once: a question asks for dozens of them, most of them again and again."""

    def __init__(self, file: Any = None) -> None:
        super().__init__(file)
        known = _Known(super().gettext)
        self.gettext = known.__getitem__  # type: ignore[assignment, method-assign]


class _Known(dict[str, str]):
    """Texts by what they translate, bounded: a stream of others must not fill the memory."""

    __slots__ = ("find",)

    def __init__(self, find: Callable[[str], str]) -> None:
        super().__init__()
        self.find = find

    def __missing__(self, text: str) -> str:
        found = self.find(text)
        if len(self) < _MOST_KNOWN:
            self[text] = found
        return found


@cache
def catalogue(tag: str) -> gettext.NullTranslations:
    """What this language says for each text. Raises ValueError where there is no catalogue."""
    if tag == SOURCE:
        return gettext.NullTranslations()
    try:
        return gettext.translation(DOMAIN, FOLDER, [tag.replace("-", "_")], class_=_Catalogue)
    except FileNotFoundError:
        raise ValueError(f"language: {tag!r} is not known; choose {' or '.join(LANGUAGES)}") from None


def say(text: str, /, **places: object) -> str:
    """The text in the language spoken, its named places filled.

    >>> say("{count} of {all} answered", count=3, all=4)
    '3 of 4 answered'
    """
    told, spoken = text if type(text) is str else str.__str__(text), _spoken.get()
    if spoken != SOURCE and told:
        told = catalogue(spoken).gettext(told)
    told = told.format(**places) if places else told
    heard = _heard.get()
    if heard is not None:
        heard[told] = text
    return told


@contextmanager
def hearing() -> Iterator[dict[str, str]]:
    """What `say` and `say_many` tell inside, each with the text as it was written: `{told: written}`, filling up."""
    heard: dict[str, str] = {}
    token = _heard.set(heard)
    try:
        yield heard
    finally:
        _heard.reset(token)


def say_many(one: str, many: str, count: int, /, **places: object) -> str:
    """One of two texts by a count, as the language spoken counts; `count` is a place as well.

    >>> say_many("one tire", "{count} tires", 1), say_many("one tire", "{count} tires", 3)
    ('one tire', '3 tires')
    """
    told = catalogue(language()).ngettext(one, many, count).format(count=count, **places)
    heard = _heard.get()
    if heard is not None:
        heard[told] = many
    return told


class Saying(str):
    """A text marked where it is written: it compares as it was written and prints in the language then spoken.

    Joining and patterns look at the written text: take `str()` of it first.
    """

    __slots__ = ()

    def __str__(self) -> str:
        spoken, text = _spoken.get(), str.__str__(self)
        return text if spoken == SOURCE or not text else catalogue(spoken).gettext(text)

    def __format__(self, spec: str) -> str:
        spoken, text = _spoken.get(), str.__str__(self)
        return format(text if spoken == SOURCE or not text else catalogue(spoken).gettext(text), spec)

    def __getitem__(self, at: SupportsIndex | slice) -> str:
        return str(self)[at]

    def __iter__(self) -> Iterator[str]:
        return iter(str(self))

    def __contains__(self, part: object) -> bool:
        return str(part) in str(self)

    def __add__(self, other: str) -> str:
        return str(self) + str(other)

    def __radd__(self, other: str) -> str:
        return str(other) + str(self)

    def __mod__(self, values: object) -> str:
        return str(self) % values

    def __reduce__(self) -> tuple[type[Saying], tuple[str]]:
        return Saying, (str.__str__(self),)


def _as_spoken(name: str) -> Callable[..., object]:
    def method(self: Saying, *args: object, **named: object) -> object:
        return getattr(str(self), name)(*args, **named)

    return method


for _name in ("lower", "upper", "capitalize", "casefold", "strip", "lstrip", "rstrip", "removeprefix", "removesuffix",
              "replace", "split", "rsplit", "partition", "rpartition", "splitlines", "startswith", "endswith", "format",
              "translate", "encode", "title", "find", "count", "isupper", "islower"):  # fmt: skip
    setattr(Saying, _name, _as_spoken(_name))


def saying(text: str) -> str:
    """Mark a text that is read in before anybody speaks.

    >>> f"{saying('Passenger')} tire"
    'Passenger tire'
    """
    if text:
        _marked[str.__str__(text)] = None
    return Saying(text) if type(text) is str else text


def marked() -> tuple[str, ...]:
    """Every text marked so far, as it was written: what data files say is found so."""
    return tuple(_marked)


def once_a_language(most: int | None = None) -> Callable[[Callable[P, T]], Callable[P, T]]:
    """Like `functools.lru_cache`, for what holds text: one answer for each language."""

    def decorate(make: Callable[P, T]) -> Callable[P, T]:
        def made(_spoken: str, *args: Any, **named: Any) -> T:
            return make(*args, **named)

        kept: Any = lru_cache(maxsize=most)(made)

        @wraps(make)
        def inner(*args: P.args, **named: P.kwargs) -> T:
            return kept(_spoken.get(), *args, **named)  # type: ignore[no-any-return]

        return inner

    return decorate
