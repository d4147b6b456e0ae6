"""Reading the course from its folder: modules, lessons, and the blocks a lesson is made of.

One folder is a module, one Markdown file is a lesson. `course.toml` gives the order of the modules, and
`<module>/module.toml` the title, summary, skills and order of its lessons, and `casings` where the module is about
some tires only: without it, it is for all. A lesson opens with TOML between two lines of `+++`:

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

A limit that the shop's edition lacks is printed as the edition the lessons were written by states it, and says so.

and boxes, which run to a line `::end`:

    ::caution Eyes and wire       what can hurt, in plain words
    ::stop                        "Stop here if": what ends the work
    ::self-check                  "Before you go on": questions for the hands
    ::worked                      TOML: a case that the rulebook decides on the page

Errors name the file, the line and what is accepted.
"""

from __future__ import annotations

import re
import tomllib
from collections.abc import Collection, Iterable, Iterator, Mapping
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path

from training.rulebook import CASINGS
from training.trade import reading
from training.trade.reading import shown
from training.trade.speech import say
from training.trade.words import SKILLS

LINES = ("limit", "figure", "findings", "steps", "size", "loads", "speeds")
BOXES = ("caution", "stop", "self-check", "worked")
HERE = Path(__file__).parent

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
                self.refuse(
                    field, say("{name} is not accepted; give a name of small letters and dashes", name=shown(name))
                )
        return names


class UnknownLesson(CourseError, LookupError):
    """No such module or lesson."""


@dataclass(frozen=True, slots=True)
class Block:
    """One piece of a lesson: `kind` is "text", one of LINES or one of BOXES; `line` is its place in the file."""

    kind: str
    line: int
    argument: str = ""
    body: str = ""


@dataclass(frozen=True, slots=True)
class Lesson:
    """One lesson. `minutes` is the reading time told to the learner; `source` the whole text of the file.

    `casings` are those of its module: its job cards and tables show what holds for them.
    """

    module: str
    slug: str
    title: str
    summary: str
    minutes: int
    skills: tuple[str, ...]
    blocks: tuple[Block, ...]
    source: str
    casings: tuple[str, ...] = ()

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
        return f"{self.module}/{self.slug}.md"


@dataclass(frozen=True, slots=True)
class Module:
    """Lessons that belong together, in the order of the work. `casings` is empty for a module about every tire."""

    slug: str
    title: str
    summary: str
    skills: tuple[str, ...]
    lessons: tuple[Lesson, ...]
    casings: tuple[str, ...] = ()

    @property
    def minutes(self) -> int:
        """Reading time of all its lessons."""
        return sum(lesson.minutes for lesson in self.lessons)

    def is_for(self, casings: Collection[str]) -> bool:
        """Does someone who works on these casings need it? A module about every tire is for everybody."""
        return not self.casings or not set(self.casings).isdisjoint(casings)


def load_course(folder: Path) -> tuple[Module, ...]:
    """Every module under `folder`, in order. Raises CourseError for the first thing that is wrong."""
    head = _toml(folder / "course.toml", "course.toml")
    slugs = Place("course.toml").slugs(head, "modules")
    modules = tuple(_load_module(folder / slug, slug) for slug in slugs)
    known = [lesson.slug for module in modules for lesson in module.lessons]
    if repeated := sorted({slug for slug in known if known.count(slug) > 1}):
        raise CourseError(
            say("course.toml: lesson {repeated} stands twice; give each lesson a name of its own", repeated=repeated[0])
        )
    for module in modules:
        for lesson in module.lessons:
            _check_lesson_names(lesson, known)
    return modules


def load_lesson(path: Path, module: str, casings: tuple[str, ...] = ()) -> Lesson:
    """Read one lesson file of a module. Raises CourseError naming file and line."""
    slug, name = path.stem, f"{module}/{path.name}"
    try:
        source = path.read_text(encoding="utf-8")
    except FileNotFoundError:
        raise CourseError(
            say("{name}: there is no such file; write it, or take it out of module.toml", name=name)
        ) from None
    return parse_lesson(source, module=module, slug=slug, casings=casings)


def parse_lesson(source: str, *, module: str, slug: str, casings: tuple[str, ...] = ()) -> Lesson:
    """A lesson from its text. Raises CourseError naming file and line."""
    name = f"{module}/{slug}.md"
    lines = source.split("\n")
    if lines[0].strip() != "+++" or "+++" not in (line.strip() for line in lines[1:]):
        raise CourseError(say("{name}, line 1: a lesson opens with TOML between two lines of +++", name=name))
    end = next(at for at, line in enumerate(lines[1:], start=1) if line.strip() == "+++")
    try:
        head = tomllib.loads("\n".join(lines[1:end]))
    except tomllib.TOMLDecodeError as error:
        raise CourseError(say("{name}: the TOML at the top cannot be read: {error}", name=name, error=error)) from error
    place = Place(name)
    place.keys(head, ("title", "minutes", "skill", "also", "summary"))
    skills = (place.word(head, "skill", SKILLS), *(place.words(head, "also", SKILLS) if "also" in head else ()))
    return Lesson(
        module=module,
        slug=slug,
        title=place.text(head, "title"),
        summary=place.text(head, "summary"),
        minutes=place.whole(head, "minutes", 1, 30),
        skills=skills,
        blocks=tuple(_blocks(lines, start=end + 1, name=name)),
        source=source,
        casings=casings,
    )


def inline_names(text: str) -> Iterator[tuple[str, str]]:
    """The inline directives of a text: ("limit", clause) or ("lesson", slug)."""
    for found in _INLINE.finditer(text):
        yield found.group(1), found.group(2)


@lru_cache(maxsize=1)
def modules() -> tuple[Module, ...]:
    """The course, in order."""
    return load_course(HERE)


def module(slug: str) -> Module:
    """One module. Raises UnknownLesson."""
    found = {module.slug: module for module in modules()}
    if slug not in found:
        raise UnknownLesson(say("module: {slug!r} is not known; choose {found}", slug=slug, found=", ".join(found)))
    return found[slug]


def lesson(module_slug: str, lesson_slug: str) -> Lesson:
    """One lesson of one module. Raises UnknownLesson."""
    found = {lesson.slug: lesson for lesson in module(module_slug).lessons}
    if lesson_slug not in found:
        raise UnknownLesson(
            say(
                "lesson: {lesson_slug!r} is not in {module_slug}; choose {found}",
                lesson_slug=lesson_slug,
                module_slug=module_slug,
                found=", ".join(found),
            )
        )
    return found[lesson_slug]


def lesson_by_key(key: str) -> Lesson:
    """One lesson by "module/lesson". Raises UnknownLesson."""
    module_slug, _, lesson_slug = key.partition("/")
    return lesson(module_slug, lesson_slug)


def _load_module(folder: Path, slug: str) -> Module:
    name = f"{slug}/module.toml"
    head = _toml(folder / "module.toml", name)
    place = Place(name)
    place.keys(head, ("title", "summary", "skills", "lessons", "casings"))
    wanted = place.slugs(head, "lessons")
    skills = place.words(head, "skills", SKILLS)
    if forgotten := sorted({path.stem for path in folder.glob("*.md")} - set(wanted)):
        place.refuse(
            "lessons", say("{forgotten}.md is not listed; list every lesson file, in order", forgotten=forgotten[0])
        )
    casings = place.words(head, "casings", CASINGS) if "casings" in head else ()
    lessons = tuple(load_lesson(folder / f"{lesson_slug}.md", slug, casings) for lesson_slug in wanted)
    taught = {skill for lesson in lessons for skill in lesson.skills}
    if taught != set(skills):
        odd = sorted(taught ^ set(skills))[0]
        place.refuse("skills", say("{odd} must be listed here and taught by a lesson, or neither", odd=odd))
    return Module(slug, place.text(head, "title"), place.text(head, "summary"), skills, lessons, casings)


def _blocks(lines: list[str], *, start: int, name: str) -> Iterator[Block]:
    text: list[str] = []
    text_at = start + 1
    at = start
    while at < len(lines):
        where = say("{name}, line {at}", name=name, at=at + 1)
        if lines[at].startswith("# "):
            raise CourseError(say("{where}: the page has its heading; start headings with ##", where=where))
        found = _DIRECTIVE.match(lines[at])
        if lines[at].startswith("::") and found is None:
            raise CourseError(
                say(
                    "{where}: {lines!r} is not a directive; choose {choices}",
                    where=where,
                    lines=lines[at],
                    choices=_choices(),
                )
            )
        if found is None:
            text.append(lines[at])
            at += 1
            continue
        if any(line.strip() for line in text):
            yield Block("text", text_at, body=_checked("\n".join(text), name, text_at))
        kind, argument = found.group(1), found.group(2) or ""
        if kind not in LINES + BOXES:
            raise CourseError(
                say("{where}: ::{kind} is not known; choose {choices}", where=where, kind=kind, choices=_choices())
            )
        if not argument and kind in (*LINES, "caution"):
            raise CourseError(say("{where}: ::{kind} needs a name after it", where=where, kind=kind))
        body = ""
        if kind in BOXES:
            inner = at + 1
            while inner < len(lines) and lines[inner].strip() != "::end":
                if lines[inner].startswith("::"):
                    raise CourseError(
                        say(
                            "{name}, line {inner}: no directive may stand inside ::{kind}",
                            name=name,
                            inner=inner + 1,
                            kind=kind,
                        )
                    )
                inner += 1
            if inner == len(lines):
                raise CourseError(say("{where}: ::{kind} has no ::end", where=where, kind=kind))
            body = "\n".join(lines[at + 1 : inner])
            if not body.strip():
                raise CourseError(say("{where}: ::{kind} is empty", where=where, kind=kind))
            if kind != "worked":
                _checked(body, name, at + 2)
            yield Block(kind, at + 1, argument, body)
            at = inner + 1
        else:
            yield Block(kind, at + 1, argument)
            at += 1
        text, text_at = [], at + 1
    if any(line.strip() for line in text):
        yield Block("text", text_at, body=_checked("\n".join(text), name, text_at))


def _checked(text: str, name: str, line: int) -> str:
    for directive, _ in inline_names(text):
        if directive not in ("limit", "lesson"):
            raise CourseError(
                say(
                    "{name}, from line {line}: {{{directive}:...}} is not known; choose limit or lesson",
                    name=name,
                    line=line,
                    directive=directive,
                )
            )
    return text


def _check_lesson_names(lesson: Lesson, known: list[str]) -> None:
    for block in lesson.blocks:
        targets = [target for directive, target in inline_names(block.body) if directive == "lesson"]
        only_known(say("{file}, from line {line}: lesson", file=lesson.file, line=block.line), targets, known)


def only_known(what: str, names: Iterable[str], known: Collection[str]) -> None:
    """Raises CourseError for the first name that is not one of those known, which it lists."""
    for name in names:
        if name not in known:
            raise CourseError(
                say("{what} {name!r} is not known; choose {known}", what=what, name=name, known=", ".join(known))
            )


def _choices() -> str:
    return ", ".join(f"::{kind}" for kind in LINES + BOXES)


def _toml(path: Path, name: str) -> dict[str, object]:
    try:
        return tomllib.loads(path.read_text(encoding="utf-8"))
    except FileNotFoundError:
        raise CourseError(say("{name}: there is no such file", name=name)) from None
    except tomllib.TOMLDecodeError as error:
        raise CourseError(say("{name}: cannot be read: {error}", name=name, error=error)) from error
