"""A lesson as a page part: every limit, finding, step and drawing taken from the edition that the shop works under."""

from __future__ import annotations

import hashlib
from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from functools import lru_cache

from training.course import blocks, desk, pictures
from training.course.lessons import Block, CourseError, Lesson
from training.course.loader import modules
from training.course.markings import loads, size_table, speeds
from training.course.movable import Movable
from training.course.movable_html import exchanged, movable_html, whole
from training.course.worked import check_worked, read_worked, worked_html
from training.pictures import Photographed
from training.rulebook import Edition, edition_names, unreadable_edition
from training.trade.measures import unparted
from training.trade.speech import SOURCE, in_language, language, once_a_language

_BUILDERS: Mapping[str, Callable[[Block, blocks.Page], str]] = {
    "worked": worked_html,
    "movable": movable_html,
    "limit": blocks.limit_card,
    "leans": blocks.leans,
    "figure": blocks.drawing,
    "findings": blocks.findings,
    "steps": blocks.job_card,
    "size": size_table,
    "loads": loads,
    "speeds": speeds,
    "caution": blocks.caution,
    "stop": blocks.stop,
    "picture": pictures.pair,
    "self-check": blocks.self_check,
}
# What does not stand in the column of text.
_LIES: Mapping[str, str] = {
    "worked": desk.BENCH, "movable": desk.BENCH, "figure": desk.BENCH, "findings": desk.ACROSS, "steps": desk.ACROSS,
    "size": desk.ACROSS, "loads": desk.ACROSS, "speeds": desk.ACROSS, "picture": desk.ACROSS,
}  # fmt: skip


@dataclass(frozen=True, slots=True)
class RenderedLesson:
    """What a page prints, and what it depends on.

    `html` is safe to print as it stands, with headings from h2 on; `page` is the same with no number parted from its
    unit by a line's end. `parts` are its sections with their places on the page, `contents` the links to them as items
    of a list. `clauses` are the ids it prints, in order of appearance. `content_version` changes when the text, the
    edition's released version, a printed limit or the outcome of a worked example changes: a house rule touches only
    the lessons that print it. It is the same in every language. `movable` is what a reader moves on it, with its HTML
    as it stands at first.
    """

    html: str
    page: str
    parts: tuple[desk.Part, ...]
    contents: str
    clauses: tuple[str, ...]
    content_version: str
    movable: tuple[Movable, str] | None = None

    def moved(self, asked: Mapping[str, str]) -> str:
        """The page with what it lets a reader move as the values of an address have it."""
        if self.movable is None:
            return self.page
        movable, at_start = self.movable
        return self.page.replace(unparted(at_start), unparted(whole(movable, asked)))

    def exchanged(self, asked: Mapping[str, str]) -> str:
        """What of the page changes with these values, for a page that is open already; "" where nothing is moved."""
        return "" if self.movable is None else unparted(exchanged(self.movable[0], asked))


@once_a_language(1024)
def render(
    lesson: Lesson, *, edition: Edition, prefer: str = "in", photographs: tuple[Photographed, ...] = ()
) -> RenderedLesson:
    """The lesson under one edition, in the language spoken, the preferred unit first, with a shop's `photographs` of
    what it shows pictures of. They leave its version as it is.

    Raises CourseError for a name it does not know.
    """
    if language() == SOURCE:
        return _render(lesson, edition=edition, prefer=prefer, photographs=photographs)
    with in_language(SOURCE):
        version = render(lesson, edition=edition, prefer=prefer).content_version
    spoken = _render(lesson.spoken, edition=edition, prefer=prefer, photographs=photographs)
    return replace(spoken, content_version=version)


@lru_cache(maxsize=256)
def content_versions(edition: Edition, prefer: str) -> Mapping[tuple[str, str], str]:
    """The version of every lesson under one edition, by module and lesson: the same in every language."""
    return {
        (module.slug, lesson.slug): render(lesson, edition=edition, prefer=prefer).content_version
        for module in modules()
        for lesson in module.lessons
    }


@dataclass(frozen=True, slots=True)
class Passage:
    """One section of a lesson: its heading as plain text, the place on the lesson's page, and HTML with an h2."""

    title: str
    anchor: str
    html: str


@once_a_language(512)
def passage(lesson: Lesson, heading: str, *, edition: Edition, prefer: str = "in") -> Passage | None:
    """The section of a lesson with this heading, as the lesson's file writes it, in the language spoken; None where the
    lesson prints no such section under this edition."""
    with in_language(SOURCE):
        _, written = _sections(lesson, edition=edition, prefer=prefer, is_still=True)
    _, sections = _sections(lesson.spoken, edition=edition, prefer=prefer, is_still=True)
    titled = [place for place, section in enumerate(written) if desk.plain_title(section) == heading]
    if not titled or len(sections) != len(written):  # a file of the language's own may be cut otherwise
        return None
    section = sections[titled[0]]
    html, _ = desk.laid_out([section])
    number = sum(bool(one.title) for one in sections[: titled[0] + 1])
    return Passage(desk.plain_title(section), f"part-{number}", unparted(html))


def check(edition: Edition) -> None:
    """Render every lesson under an edition and let it decide every worked example.

    Raises CourseError for the first lesson that names an unknown clause, step, finding or drawing, or whose worked
    example comes out otherwise than its text says, and for a worked example that only the edition names.
    """
    examples = [read_worked(block, edition).title for module in modules() for lesson in module.lessons
                for block in lesson.blocks if block.kind == "worked"]  # fmt: skip
    for title in edition.worked:
        if title not in examples:
            raise CourseError(f'worked: "{title}" is no worked example of the lessons')
    for module in modules():
        for lesson in module.lessons:
            check_lesson(lesson, edition=edition)


def check_lesson(lesson: Lesson, *, edition: Edition) -> None:
    """The same for one lesson, and for the files that languages have of their own."""
    for block in lesson.blocks:
        if block.only and block.only not in edition_names() and not unreadable_edition(block.only):
            choice = ", ".join(edition_names())
            raise CourseError(f"{_where(lesson, block.line)}: edition {block.only!r} is not known; choose {choice}")
        if block.kind == "worked" and block.is_read_under(edition.name):
            check_worked(block, edition=edition, where=_where(lesson, block.line))
    _render(lesson, edition=edition, prefer=edition.units)
    for own in lesson.own:
        check_lesson(own, edition=edition)


def _render(
    lesson: Lesson, *, edition: Edition, prefer: str, photographs: tuple[Photographed, ...] = ()
) -> RenderedLesson:
    page, sections = _sections(lesson, edition=edition, prefer=prefer, photographs=photographs)
    html, parts = desk.laid_out(sections)
    if told_by := blocks.sources(page):
        html += f"\n{told_by}"
        parts += (desk.Part(blocks.SOURCES, blocks.sources_title()),)
    facts = [lesson.source, *(own.source for own in lesson.own), edition.name, edition.released_version, *page.facts()]
    digest = hashlib.sha256("\0".join(facts).encode()).hexdigest()[:16]
    return RenderedLesson(html, unparted(html), parts, desk.contents(parts), tuple(page.clauses), digest, page.movable)


def _sections(
    lesson: Lesson, *, edition: Edition, prefer: str, photographs: tuple[Photographed, ...] = (), is_still: bool = False
) -> tuple[blocks.Page, list[desk.Section]]:
    """The sections of a lesson under one edition, and what its page has printed so far."""
    casings = lesson.casings or blocks.CASING
    page = blocks.Page(edition=edition, prefer=prefer, casings=casings, photographs=photographs, is_still=is_still)
    sections = [desk.Section()]
    for block in _read_under(lesson, edition):
        try:
            _lay(block, page, sections)
        except CourseError as error:
            raise CourseError(f"{_where(lesson, block.line)}: {error}") from error
    return page, sections


def _lay(block: Block, page: blocks.Page, sections: list[desk.Section]) -> None:
    """Put one block where it lies; a heading in its text opens a section."""
    if block.kind != "text":
        sections[-1].add(_LIES.get(block.kind, desk.TEXT), _BUILDERS[block.kind](block, page))
        return
    for title, html in desk.cut(blocks.text(block, page)):
        if title:
            sections.append(desk.Section(title))
        sections[-1].add(desk.TEXT, html)


def _read_under(lesson: Lesson, edition: Edition) -> list[Block]:
    """The blocks that the lesson prints under an edition; Markdown that then follows Markdown is one piece with it."""
    found: list[Block] = []
    for block in lesson.blocks:
        if not block.is_read_under(edition.name):
            continue
        if found and found[-1].kind == block.kind == "text":
            found[-1] = replace(found[-1], body=f"{found[-1].body}\n{block.body}")
        else:
            found.append(block)
    return found


def _where(lesson: Lesson, line: int) -> str:
    return f"{lesson.file}, line {line}"
