"""Reading the course from its folder: its modules, and the lessons of each.

One folder is a module, one Markdown file is a lesson. `course.toml` gives the order of the modules, and
`<module>/module.toml` the title, summary, skills and order of its lessons, and `casings` where the module is about
some tires only: without it, it is for all. What stands in a lesson is told in `lessons.py`.

Errors name the file, the line and what is accepted.
"""

from __future__ import annotations

import tomllib
from collections.abc import Collection
from dataclasses import dataclass, replace
from functools import lru_cache
from pathlib import Path

from training.course.lessons import (
    DATA,
    LINES,
    Block,
    CourseError,
    Lesson,
    Place,
    inline_names,
    only_known,
    parse_lesson,
)
from training.rulebook import CASINGS
from training.trade import speech
from training.trade.reading import shown
from training.trade.speech import saying
from training.trade.words import SKILLS

HERE = Path(__file__).parent


class UnknownLesson(CourseError, LookupError):
    """No such module or lesson."""


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
        raise CourseError(f"course.toml: lesson {repeated[0]} stands twice; give each lesson a name of its own")
    for module in modules:
        for lesson in module.lessons:
            for written in (lesson, *lesson.own):
                _check_lesson_names(written, known)
    return modules


def load_lesson(path: Path, module: str, casings: tuple[str, ...] = ()) -> Lesson:
    """Read one lesson of a module, with the files that languages have of their own. Raises CourseError."""
    name = f"{module}/{path.name}"
    try:
        source = path.read_text(encoding="utf-8")
    except FileNotFoundError:
        raise CourseError(f"{name}: there is no such file; write it, or take it out of module.toml") from None
    lesson = parse_lesson(source, module=module, slug=path.stem, casings=casings)
    own = []
    for file in sorted(path.parent.glob(f"{path.stem}.*.md")):
        language = file.stem.removeprefix(f"{path.stem}.")
        others = [tag for tag in speech.LANGUAGES if tag != speech.SOURCE]
        if language not in others:
            choice = f"choose {', '.join(others)}" if others else "there is none but that of the lessons"
            raise CourseError(f"{module}/{file.name}: language: {shown(language)} is not accepted; {choice}")
        text = file.read_text(encoding="utf-8")
        own.append(parse_lesson(text, module=module, slug=path.stem, casings=casings, language=language))
        _check_own(own[-1], lesson)
    return replace(lesson, own=tuple(own))


def _check_own(own: Lesson, lesson: Lesson) -> None:
    """Raises CourseError where what a language has of its own is another lesson, and not the same in other words."""
    for field in ("minutes", "skills"):
        if getattr(own, field) != getattr(lesson, field):
            raise CourseError(f"{own.file}: {field}: not those of {lesson.file}; only the words may differ")
    theirs, ours = ([(block, _frame(block)) for block in one.blocks if block.kind != "text"] for one in (own, lesson))
    for (block, frame), (_, wanted) in zip(theirs, ours, strict=False):
        if frame != wanted:
            raise CourseError(
                f"{own.file}, line {block.line}: ::{block.kind} {block.argument}: not what stands at this place in "
                f"{lesson.file}; only the words may differ"
            )
    if len(theirs) != len(ours):
        raise CourseError(f"{own.file}: {len(theirs)} directives, and {len(ours)} in {lesson.file}; give the same")


def _frame(block: Block) -> tuple[str, ...]:
    """What of a directive is no words: an example is translated by its title alone."""
    worked = block.body if block.kind in DATA else ""
    return block.kind, block.only, block.argument if block.kind in (*LINES, "picture") else "", worked


@lru_cache(maxsize=1)
def modules() -> tuple[Module, ...]:
    """The course, in order."""
    return load_course(HERE)


def module(slug: str) -> Module:
    """One module. Raises UnknownLesson."""
    found = {module.slug: module for module in modules()}
    if slug not in found:
        raise UnknownLesson(f"module: {slug!r} is not known; choose {', '.join(found)}")
    return found[slug]


def lesson(module_slug: str, lesson_slug: str) -> Lesson:
    """One lesson of one module. Raises UnknownLesson."""
    found = {lesson.slug: lesson for lesson in module(module_slug).lessons}
    if lesson_slug not in found:
        raise UnknownLesson(f"lesson: {lesson_slug!r} is not in {module_slug}; choose {', '.join(found)}")
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
    if forgotten := sorted({path.name.partition(".")[0] for path in folder.glob("*.md")} - set(wanted)):
        place.refuse("lessons", f"{forgotten[0]}.md is not listed; list every lesson file, in order")
    casings = place.words(head, "casings", CASINGS) if "casings" in head else ()
    lessons = tuple(load_lesson(folder / f"{lesson_slug}.md", slug, casings) for lesson_slug in wanted)
    taught = {skill for lesson in lessons for skill in lesson.skills}
    if taught != set(skills):
        odd = sorted(taught ^ set(skills))[0]
        place.refuse("skills", f"{odd} must be listed here and taught by a lesson, or neither")
    title, summary = saying(place.text(head, "title")), saying(place.text(head, "summary"))
    return Module(slug, title, summary, skills, lessons, casings)


def _check_lesson_names(lesson: Lesson, known: list[str]) -> None:
    for block in lesson.blocks:
        targets = [target for directive, target in inline_names(block.body) if directive == "lesson"]
        only_known(f"{lesson.file}, from line {block.line}: lesson", targets, known)


def _toml(path: Path, name: str) -> dict[str, object]:
    try:
        return tomllib.loads(path.read_text(encoding="utf-8"))
    except FileNotFoundError:
        raise CourseError(f"{name}: there is no such file") from None
    except tomllib.TOMLDecodeError as error:
        raise CourseError(f"{name}: cannot be read: {error}") from error
