"""A lesson as a page part: every limit, finding, step and drawing taken from the edition that the shop works under."""

from __future__ import annotations

import hashlib
from collections import OrderedDict
from dataclasses import dataclass
from threading import Lock

from training.course import blocks, prose
from training.course.loader import CourseError, Lesson, modules
from training.course.worked import check_worked, worked_html
from training.rulebook import Edition

_KEPT = 256
_kept: OrderedDict[tuple[str, str, int], tuple[Edition, RenderedLesson]] = OrderedDict()
_lock = Lock()


@dataclass(frozen=True, slots=True)
class RenderedLesson:
    """`html` is safe to print as it stands, headings from h2 on; `clauses` are the ids it prints, in order of appearance;
    `content_version` changes when the text, the edition's version or a printed limit changes."""

    html: str
    clauses: tuple[str, ...]
    content_version: str


def render(lesson: Lesson, *, edition: Edition, prefer: str = "in") -> RenderedLesson:
    """The lesson under one edition, the preferred unit first. Raises CourseError for a name the edition does not know."""
    key = (lesson.key, prefer, id(edition))
    with _lock:
        kept = _kept.get(key)
        # The edition is kept with the page, so that its id cannot pass to another edition meanwhile.
        if kept is not None and kept[0] is edition:
            _kept.move_to_end(key)
            return kept[1]
    rendered = _render(lesson, edition=edition, prefer=prefer)
    with _lock:
        _kept[key] = (edition, rendered)
        while len(_kept) > _KEPT:
            _kept.popitem(last=False)
    return rendered


def check(edition: Edition) -> None:
    """Render every lesson under an edition and let it decide every worked example.

    Raises CourseError for the first lesson that names an unknown clause, step, finding or drawing, or whose worked
    example comes out otherwise than its text says.
    """
    for module in modules():
        for lesson in module.lessons:
            check_lesson(lesson, edition=edition)


def check_lesson(lesson: Lesson, *, edition: Edition) -> None:
    """The same for one lesson."""
    for block in lesson.blocks:
        if block.kind == "worked":
            check_worked(block, edition=edition, where=_where(lesson, block.line))
    _render(lesson, edition=edition, prefer=edition.units)


def _render(lesson: Lesson, *, edition: Edition, prefer: str) -> RenderedLesson:
    page = blocks.Page(edition=edition, prefer=prefer)
    parts: list[str] = []
    for block in lesson.blocks:
        try:
            if block.kind == "worked":
                parts.append(worked_html(block, page))
            else:
                parts.append(blocks.BUILDERS[block.kind](block, page))
        except CourseError as error:
            raise CourseError(f"{_where(lesson, block.line)}: {error}") from error
    parts.append(blocks.sources(page))
    facts = [lesson.source, edition.name, edition.version, *page.facts()]
    digest = hashlib.sha256("\0".join(facts).encode()).hexdigest()[:16]
    return RenderedLesson("\n".join(part for part in parts if part), tuple(page.clauses), digest)


def _where(lesson: Lesson, line: int) -> str:
    return f"{lesson.file}, line {line}"
