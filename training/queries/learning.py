"""What learners were asked to do, have read, and have been told.

A lesson counts as read when it was read in the version that stands now: its text and the edition's limits.
"""

from collections import defaultdict
from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass
from datetime import date, datetime

from django.db.models import QuerySet

from training import course
from training.course import Lesson, Module
from training.models import Assignment, Notice, Progress, Role, Shop, User
from training.queries.scopes import casings_of
from training.queries.shop_rulebook import edition_of
from training.trade.words import casings_in_words

# (module, lesson) -> {content version: when it was read}
Reads = Mapping[tuple[str, str], Mapping[str, datetime]]


@dataclass(frozen=True)
class LessonRead:
    """One lesson as a learner stands to it. `read_at` is None until the version that stands now was read."""

    lesson: Lesson
    read_at: datetime | None
    is_outdated: bool  # read, but text or limits have changed since


@dataclass(frozen=True)
class ModuleProgress:
    """One module as a learner stands to it, with what they were asked."""

    module: Module
    lessons: tuple[LessonRead, ...]
    assignment: Assignment | None
    is_late: bool
    is_for_shop: bool  # the shop works on its tires

    @property
    def title(self) -> str:
        return self.module.title

    @property
    def due_date(self) -> date | None:
        return self.assignment.due_date if self.assignment else None

    @property
    def read(self) -> int:
        """Lessons read in the version that stands now."""
        return sum(1 for one in self.lessons if one.read_at)

    @property
    def total(self) -> int:
        return len(self.lessons)

    @property
    def is_done(self) -> bool:
        return self.read == self.total

    @property
    def casings(self) -> str:
        """The tires it is about, in words; empty for a module about every tire."""
        return casings_in_words(self.module.casings)

    @property
    def is_wanted(self) -> bool:
        """Is it about tires the shop works on, or was it asked? Another one waits until somebody asks for it."""
        return self.is_for_shop or self.assignment is not None

    @property
    def next_lesson(self) -> Lesson | None:
        """The first lesson that is still to be read."""
        return next((one.lesson for one in self.lessons if one.read_at is None), None)


@dataclass(frozen=True)
class LearnerProgress:
    """One learner over the whole course."""

    person: User
    modules: tuple[ModuleProgress, ...]

    @property
    def assigned(self) -> tuple[ModuleProgress, ...]:
        """The modules the learner was asked to finish, the earliest day first."""
        return _by_day(self.modules)

    @property
    def wanted(self) -> tuple[ModuleProgress, ...]:
        """What the learner is to read: the modules about tires the shop works on, and those asked."""
        return tuple(module for module in self.modules if module.is_wanted)

    @property
    def read(self) -> int:
        """Lessons read of what is wanted."""
        return sum(module.read for module in self.wanted)

    @property
    def total(self) -> int:
        return sum(module.total for module in self.wanted)

    @property
    def late(self) -> tuple[ModuleProgress, ...]:
        return tuple(module for module in self.assigned if module.is_late)


@dataclass(frozen=True)
class NextLesson:
    """Where a learner goes on. `due_date` is None for a lesson nobody asked for."""

    module: Module
    lesson: Lesson
    due_date: date | None


def course_of(shop: Shop, learner: User, day: date) -> tuple[ModuleProgress, ...]:
    """All modules as one learner stands to them; two queries."""
    reads = _reads(Progress.objects.filter(shop=shop, learner=learner)).get(learner.pk, {})
    asked = {one.module: one for one in open_assignments(shop).filter(learner=learner)}
    return _modules(_versions(shop), reads, asked, day, casings_of(shop))


def next_lesson_in(modules: tuple[ModuleProgress, ...], casings: Collection[str] | None = None) -> NextLesson | None:
    """The lesson to read next: of what was asked, the earliest day first, then for the shop's tires; no query.

    With `casings`, after what was asked, only what work on these needs.
    """
    wanted = (one for one in modules if one.is_wanted and (casings is None or one.module.is_for(casings)))
    for module in (*_by_day(modules), *wanted):
        if lesson := module.next_lesson:
            return NextLesson(module.module, lesson, module.due_date)
    return None


def learners(shop: Shop) -> QuerySet[User]:
    """People who hold the role apprentice now, by name."""
    return User.objects.filter(
        memberships__shop=shop, memberships__role=Role.APPRENTICE, memberships__ended_at=None
    ).order_by("name", "pk")


def progress_of_shop(shop: Shop, day: date) -> list[LearnerProgress]:
    """Every learner over the whole course; three queries however many there are."""
    people = list(learners(shop))
    reads = _reads(Progress.objects.filter(shop=shop, learner__in=people))
    asked: dict[int, dict[str, Assignment]] = defaultdict(dict)
    for one in open_assignments(shop).filter(learner__in=people):
        asked[one.learner_id][one.module] = one
    versions, casings = _versions(shop), casings_of(shop)
    return [
        LearnerProgress(person, _modules(versions, reads.get(person.pk, {}), asked[person.pk], day, casings))
        for person in people
    ]


def open_assignments(shop: Shop) -> QuerySet[Assignment]:
    """What stands asked in the shop."""
    asked = Assignment.objects.filter(shop=shop, withdrawn_at=None)
    return asked.select_related("assigned_by").order_by("due_date", "module", "pk")


def assignments_in(shop: Shop) -> QuerySet[Assignment]:
    """All that was ever asked in the shop, withdrawn or not."""
    return Assignment.objects.filter(shop=shop).select_related("learner")


def own_notices(shop: Shop, person: User) -> QuerySet[Notice]:
    """All lines ever written for a person, put away or not."""
    return Notice.objects.filter(shop=shop, person=person)


def notices_of(shop: Shop, person: User) -> QuerySet[Notice]:
    """Lines for a person's start page that they have not put away, the newest first."""
    return Notice.objects.filter(shop=shop, person=person, put_away_at=None).order_by("-written_at", "-pk")


def _by_day(modules: Iterable[ModuleProgress]) -> tuple[ModuleProgress, ...]:
    return tuple(sorted((one for one in modules if one.due_date), key=lambda one: one.due_date or date.max))


def _reads(rows: QuerySet[Progress]) -> dict[int, dict[tuple[str, str], dict[str, datetime]]]:
    found: dict[int, dict[tuple[str, str], dict[str, datetime]]] = {}
    for learner, module, lesson, version, at in rows.values_list(
        "learner_id", "module", "lesson", "content_version", "read_at"
    ):
        found.setdefault(learner, {}).setdefault((module, lesson), {})[version] = at
    return found


def _versions(shop: Shop) -> Mapping[tuple[str, str], str]:
    return course.content_versions(edition_of(shop), shop.units)


def _modules(
    versions: Mapping[tuple[str, str], str],
    reads: Reads,
    asked: Mapping[str, Assignment],
    day: date,
    casings: Collection[str],
) -> tuple[ModuleProgress, ...]:
    result = []
    for module in course.modules():
        lessons = []
        for lesson in module.lessons:
            place = (module.slug, lesson.slug)
            read = reads.get(place, {})
            read_at = read.get(versions[place])
            lessons.append(LessonRead(lesson, read_at, bool(read) and read_at is None))
        assignment = asked.get(module.slug)
        is_done = all(one.read_at for one in lessons)
        is_late = assignment is not None and assignment.due_date < day and not is_done
        result.append(ModuleProgress(module, tuple(lessons), assignment, is_late, module.is_for(casings)))
    return tuple(result)
