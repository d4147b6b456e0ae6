"""The catalogues of languages, brought up to what the program says: Babel reads the code, Django's lexer the templates,
and what data files say is known once they have been read."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterator, Mapping, Set
from datetime import UTC, datetime
from functools import cache
from io import BytesIO
from pathlib import Path
from typing import Any
from warnings import catch_warnings

from babel.messages import Catalog
from babel.messages.extract import extract_python
from babel.messages.mofile import write_mo
from babel.messages.pofile import read_po, write_po
from django.template.base import Lexer, TokenType
from django.utils.translation.template import block_re, constant_re, endblock_re, inline_re, plural_re

from training.trade.speech import DOMAIN, FOLDER, LANGUAGES, SOURCE, marked

HOME = Path(__file__).parents[2]
APPS = ("training", "assessments", "certificates")
KEYWORDS: Mapping[str, Any] = {"say": None, "saying": None, "say_many": (1, 2)}
SPELLED = "by spelling.toml"  # an entry that says so is made anew each time
Text = str | tuple[str, str]


def texts_of_code(path: Path) -> Iterator[Text]:
    """What a Python file says."""
    with path.open("rb") as code, catch_warnings(action="ignore"):  # of f-strings that fill a place
        for _, function, message, _ in extract_python(code, KEYWORDS, [], {}):
            parts = message if isinstance(message, tuple) else (message,)
            if function == "say_many" and len(parts) > 1 and all(parts[:2]):
                yield str(parts[0]), str(parts[1])
            elif parts[0]:
                yield str(parts[0])


def texts_of_template(path: Path) -> Iterator[Text]:
    """What a template says."""
    inside: list[str] | None = None
    plural: list[str] | None = None
    is_trimmed = False
    for token in Lexer(path.read_text(encoding="utf-8")).tokenize():
        said = token.contents
        if inside is None:
            if token.token_type == TokenType.BLOCK and (found := inline_re.match(said)):
                yield found[1][1:-1].replace("%", "%%")
            elif token.token_type == TokenType.BLOCK and block_re.match(said):
                inside, plural, is_trimmed = [], None, " trimmed" in said
            if token.token_type in (TokenType.BLOCK, TokenType.VAR):
                yield from (text[1:-1].replace("%", "%%") for text in constant_re.findall(said))
        elif token.token_type == TokenType.BLOCK and endblock_re.match(said):
            one = _whole(inside, is_trimmed)
            yield one if plural is None else (one, _whole(plural, is_trimmed))
            inside = None
        elif token.token_type == TokenType.BLOCK and plural_re.match(said):
            plural = []
        elif token.token_type == TokenType.VAR:
            (inside if plural is None else plural).append(f"%({said})s")
        elif token.token_type == TokenType.TEXT:
            (inside if plural is None else plural).append(said.replace("%", "%%"))


def _whole(parts: list[str], is_trimmed: bool) -> str:
    text = "".join(parts)
    return " ".join(line.strip() for line in text.strip().splitlines()) if is_trimmed else text


def said() -> set[Text]:
    """Every text of the program; data files must have been read before."""
    found: set[Text] = set(marked())
    for app in APPS:
        for path in (HOME / app).rglob("*.py"):
            if "migrations" not in path.parts:
                found.update(texts_of_code(path))
        for path in (HOME / app / "templates").rglob("*.*"):
            found.update(texts_of_template(path))
    return found


def spelled(text: str, table: tuple[tuple[str, str], ...]) -> str:
    """The text with each word and phrase of the table in its other spelling, capitals kept; places stay.

    >>> spelled("Tires of light trucks: {tire}", (("light trucks", "vans"), ("tires", "tyres"), ("tire", "tyre")))
    'Tyres of vans: {tire}'
    """
    return _pattern(table).sub(lambda found: _like(found[0], dict(table)), text)


@cache
def _pattern(table: tuple[tuple[str, str], ...]) -> re.Pattern[str]:
    words = "|".join(re.escape(word) for word, _ in sorted(table, key=lambda pair: -len(pair[0])))
    # neither the name of a place, nor a part of a compound such as an address or an attribute
    return re.compile(rf"\{{[^}}]*\}}|%\([^)]*\)s|<[^>]*>|(?<![\w/]){'(?:' + words + ')'}(?![\w/])", re.IGNORECASE)


def _like(word: str, table: Mapping[str, str]) -> str:
    other = table.get(word.lower())
    if other is None:
        return word
    if word.isupper() and len(word) > 1:
        return other.upper()
    return other[0].upper() + other[1:] if word[0].isupper() else other


def catalogue_of(tag: str, texts: Set[Text]) -> Catalog:
    """The catalogue of a language as it should be: what was translated stays, what is not said any more goes."""
    folder = FOLDER / tag.replace("-", "_")
    path = folder / "LC_MESSAGES" / f"{DOMAIN}.po"
    known = read_po(path.open("rb"), locale=tag.replace("-", "_")) if path.exists() else Catalog()
    spelling = folder / "spelling.toml"
    table: tuple[tuple[str, str], ...] = ()
    if spelling.exists():
        data = tomllib.loads(spelling.read_text(encoding="utf-8"))
        table = (*data["phrases"].items(), *data["words"].items())
    never = datetime.fromtimestamp(0, UTC)  # the same texts make the same file
    catalogue = Catalog(tag.replace("-", "_"), header_comment="#", charset="utf-8", fuzzy=False,
                        creation_date=never, revision_date=never,
                        project="sound-casing", version="1", msgid_bugs_address="none", last_translator="none",
                        language_team="none")  # fmt: skip
    for text in texts:
        before = known.get(text if isinstance(text, str) else text[0])
        if before is not None and "".join(before.string or "") and SPELLED not in before.auto_comments:
            catalogue.add(text, before.string, user_comments=before.user_comments)
        elif table:
            other = spelled(text, table) if isinstance(text, str) else tuple(spelled(one, table) for one in text)
            if other != text:
                catalogue.add(text, other, auto_comments=[SPELLED])
        else:
            catalogue.add(text, "" if isinstance(text, str) else ("", ""))
    return catalogue


def as_files(catalogue: Catalog) -> tuple[bytes, bytes]:
    """The catalogue as it is read by people and by the program."""
    po, mo = BytesIO(), BytesIO()
    write_po(po, catalogue, width=110, sort_output=True)
    write_mo(mo, catalogue)
    return po.getvalue(), mo.getvalue()


def languages() -> tuple[str, ...]:
    """Those that have a catalogue."""
    return tuple(tag for tag in LANGUAGES if tag != SOURCE)


def files_of(tag: str) -> tuple[Path, Path]:
    """Where the catalogue of a language stands: as people read it, as the program reads it."""
    folder = FOLDER / tag.replace("-", "_") / "LC_MESSAGES"
    return folder / f"{DOMAIN}.po", folder / f"{DOMAIN}.mo"
