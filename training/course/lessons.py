"""What a lesson is, and how its text is read: a Markdown file that opens with TOML between two lines of `+++`.

    +++
    title = "Where it may be"
    minutes = 7
    skill = "position"            # the skill it teaches first; `also` may list further ones
    summary = "One sentence for the list of lessons."
    +++

The text is Markdown without HTML, headings from level 2 on, and these directives of ours, so that no number of the
trade is ever typed into a lesson:

    {limit:injury-size}           inside a sentence: the limit as the clause states it, tied to its source
    {limit:united-kingdom/tread-depth}  the same of another rulebook by name; a card takes such a name too
    {lesson:where-it-may-be}      inside a sentence: the title of another lesson
    ::limit injury-size           a card: limit, reason, source, and whether the source was read or quoted from memory
    ::figure where-it-may-be      a drawing to scale, with its description
    ::findings reject             a table of the findings whose consequence is named, with reasons and sources
    ::findings ozone-cracking weather-checking      the same for single clauses
    ::steps two-piece: clean-liner remove-damage    a job card; all steps of the method without a list
    ::size 205/55R16 91V          a size read part by part, with what follows from it
    ::loads 88 94                 lines of the load index table, from the first to the last
    ::speeds Q Y                  speed symbols, from the first to the last, the slowest first
    ::leans 1/2 1                 the leans at which a hole comes out such parts of the crown's thickness farther out

A limit that the shop's edition lacks is printed as the edition the lessons were written by states it, and says so.

What is so by the law or the trade of one country stands between two lines, and is read under its edition alone:

    ::only north-america
    Paragraphs, and any of the directives.
    ::end

and boxes, which run to a line `::end`:

    ::caution Eyes and wire       what can hurt, in plain words
    ::stop                        "Stop here if": what ends the work
    ::self-check                  "Before you go on": questions for the hands
    ::picture bulge plain 3       two captions: a condition in its degrees beside what is taken for it (`pictures.py`)
    ::worked                      TOML: a case that the rulebook decides on the page
    ::movable                     TOML: a hole that the reader moves, decided anew each time (`movable.py`)

Each heading, paragraph and item is translated by itself (`texts.py`). Where a language says it otherwise altogether, a
file of its own beside the lesson's is taken whole, `where-it-may-be.en-GB.md`: the same skills, minutes, directives and
worked examples, other sentences.

Errors name the file, the line and what is accepted.
"""

from __future__ import annotations

import re
import tomllib
from collections.abc import Collection, Iterable, Iterator, Mapping
from dataclasses import dataclass, replace

from training.course.texts import mark_texts
from training.trade import reading, speech
from training.trade.reading import shown
from training.trade.speech import saying
from training.trade.words import SKILLS

LINES = ("limit", "figure", "findings", "steps", "size", "loads", "speeds", "leans")
BOXES = ("caution", "stop", "self-check", "worked", "movable", "picture")
DATA = ("worked", "movable")  # whose bodies are TOML
ONLY = "only"

_DIRECTIVE = re.compile(r"::([a-z-]*)(?: +(.*\S))? *$")
_SLUG = re.compile(r"[a-z][a-z0-9-]*\Z")
_INLINE = re.compile(r"\{([a-z]+):([a-z0-9/-]+)\}")


class CourseError(Exception):
    """A lesson, a module or the rulebook under them does not fit: where, what was found, what is accepted."""


class Place(reading.Place):
    """Where in the files of the course a value stands."""

    error = CourseError

    def slugs(self, table: Mapping[str, object], field: str) -> tuple[str, ...]:
        """Names of files and folders."""
        for name in (names := self.words(table, field, None)):
            if not _SLUG.match(name):
                self.refuse(field, f"{shown(name)} is not accepted; give a name of small letters and dashes")
        return names


@dataclass(frozen=True, slots=True)
class Block:
    """One piece of a lesson: `kind` is "text", one of LINES or one of BOXES; `line` is its place in the file.

    `only` names the edition it is read under, and is empty for each; `language` the one its words are written in, where
    that is not the language of the sources.
    """

    kind: str
    line: int
    argument: str = ""
    body: str = ""
    only: str = ""
    language: str = ""

    def is_read_under(self, edition: str) -> bool:
        """Does a lesson print it under this edition?"""
        return self.only in ("", edition)


@dataclass(frozen=True, slots=True)
class Lesson:
    """One lesson. `minutes` is the reading time told to the learner; `source` the whole text of the file.

    `casings` are those of its module: its job cards and tables show what holds for them. `own` are the files that a
    language has of its own; `language` is empty but in them.
    """

    module: str
    slug: str
    written_title: str
    written_summary: str
    minutes: int
    skills: tuple[str, ...]
    blocks: tuple[Block, ...]
    source: str
    casings: tuple[str, ...] = ()
    language: str = ""
    own: tuple[Lesson, ...] = ()

    @property
    def spoken(self) -> Lesson:
        """The lesson as it is written for the language spoken: itself, or the file this language has of its own."""
        return next((one for one in self.own if one.language == speech.language()), self)

    @property
    def title(self) -> str:
        """Its title, in the language spoken."""
        return self.spoken.written_title

    @property
    def summary(self) -> str:
        """One sentence for the list of lessons, in the language spoken."""
        return self.spoken.written_summary

    @property
    def skill(self) -> str:
        """The skill this lesson teaches first."""
        return self.skills[0]

    @property
    def key(self) -> str:
        """ "module/lesson", as questions and misconceptions name it."""
        return f"{self.module}/{self.slug}"

    @property
    def file(self) -> str:
        """The file's name inside the course, for messages."""
        return f"{self.module}/{self.slug}{self.language and '.'}{self.language}.md"


def parse_lesson(source: str, *, module: str, slug: str, casings: tuple[str, ...] = (), language: str = "") -> Lesson:
    """A lesson from its text, whose words are marked for translation; one in a language of its own is not translated.

    Raises CourseError naming file and line.
    """
    name = f"{module}/{slug}{language and '.'}{language}.md"
    lines = source.split("\n")
    if lines[0].strip() != "+++" or "+++" not in (line.strip() for line in lines[1:]):
        raise CourseError(f"{name}, line 1: a lesson opens with TOML between two lines of +++")
    end = next(at for at, line in enumerate(lines[1:], start=1) if line.strip() == "+++")
    try:
        head = tomllib.loads("\n".join(lines[1:end]))
    except tomllib.TOMLDecodeError as error:
        raise CourseError(f"{name}: the TOML at the top cannot be read: {error}") from error
    place = Place(name)
    place.keys(head, ("title", "minutes", "skill", "also", "summary"))
    skills = (place.word(head, "skill", SKILLS), *(place.words(head, "also", SKILLS) if "also" in head else ()))
    title, summary = place.text(head, "title"), place.text(head, "summary")
    blocks = tuple(replace(block, language=language) for block in _blocks(lines, start=end + 1, name=name))
    if not language:
        title, summary = saying(title), saying(summary)
        for block in blocks:
            _mark(block)
    return Lesson(
        module=module,
        slug=slug,
        written_title=title,
        written_summary=summary,
        minutes=place.whole(head, "minutes", 1, 30),
        skills=skills,
        blocks=blocks,
        source=source,
        casings=casings,
        language=language,
    )


def _mark(block: Block) -> None:
    """Mark the words of a block for translation."""
    if block.kind == "caution":
        saying(block.argument)
    if block.kind not in DATA:
        mark_texts(block.body)
        return
    try:
        data = tomllib.loads(block.body)
    except tomllib.TOMLDecodeError:
        return  # said where the example is read
    units = data.get("units")
    for told in (data, *(units if isinstance(units, list) else ())):
        for field in ("title", "name"):
            if isinstance(told, dict) and isinstance(text := told.get(field), str):
                saying(text)


def inline_names(text: str) -> Iterator[tuple[str, str]]:
    """The inline directives of a text: ("limit", clause) or ("lesson", slug)."""
    for found in _INLINE.finditer(text):
        yield found.group(1), found.group(2)


def _blocks(lines: list[str], *, start: int, name: str) -> Iterator[Block]:
    text: list[str] = []
    text_at = start + 1
    at = start
    only, only_at = "", 0

    def told() -> Iterator[Block]:
        if any(line.strip() for line in text):
            yield Block("text", text_at, body=_checked("\n".join(text), name, text_at), only=only)

    while at < len(lines):
        where = f"{name}, line {at + 1}"
        if lines[at].startswith("# "):
            raise CourseError(f"{where}: the page has its heading; start headings with ##")
        found = _DIRECTIVE.match(lines[at])
        if lines[at].startswith("::") and found is None:
            raise CourseError(f"{where}: {lines[at]!r} is not a directive; choose {_choices()}")
        if found is None:
            text.append(lines[at])
            at += 1
            continue
        yield from told()
        kind, argument = found.group(1), found.group(2) or ""
        if kind not in (*LINES, *BOXES, ONLY) and not (only and kind == "end"):
            raise CourseError(f"{where}: ::{kind} is not known; choose {_choices()}")
        if not argument and kind in (*LINES, "caution", "picture", ONLY):
            raise CourseError(f"{where}: ::{kind} needs a name after it")
        if kind == ONLY and only:
            raise CourseError(f"{where}: no ::only may stand inside ::only {only}")
        if kind in (ONLY, "end"):
            only, only_at = argument if kind == ONLY else "", at + 1
            at += 1
        elif kind in BOXES:
            body = _body(lines, at, name, kind)
            yield Block(kind, at + 1, argument, body, only)
            at += body.count("\n") + 3
        else:
            yield Block(kind, at + 1, argument, only=only)
            at += 1
        text, text_at = [], at + 1
    if only:
        raise CourseError(f"{name}, line {only_at}: ::only {only} has no ::end")
    yield from told()


def _body(lines: list[str], at: int, name: str, kind: str) -> str:
    """The lines of a box that opens in the line `at`, up to its end."""
    where = f"{name}, line {at + 1}"
    inner = at + 1
    while inner < len(lines) and lines[inner].strip() != "::end":
        if lines[inner].startswith("::"):
            raise CourseError(f"{name}, line {inner + 1}: no directive may stand inside ::{kind}")
        inner += 1
    if inner == len(lines):
        raise CourseError(f"{where}: ::{kind} has no ::end")
    body = "\n".join(lines[at + 1 : inner])
    if not body.strip():
        raise CourseError(f"{where}: ::{kind} is empty")
    return body if kind in DATA else _checked(body, name, at + 2)


def _checked(text: str, name: str, line: int) -> str:
    for directive, _ in inline_names(text):
        if directive not in ("limit", "lesson"):
            raise CourseError(f"{name}, from line {line}: {{{directive}:...}} is not known; choose limit or lesson")
    return text


def only_known(what: str, names: Iterable[str], known: Collection[str]) -> None:
    """Raises CourseError for the first name that is not one of those known, which it lists."""
    for name in names:
        if name not in known:
            raise CourseError(f"{what} {name!r} is not known; choose {', '.join(known)}")


def _choices() -> str:
    return ", ".join(f"::{kind}" for kind in (*LINES, *BOXES, ONLY))
