"""What the start pages read, gathered from all three apps: the Bay, the Floor and one person's page."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime

from django.db.models import QuerySet

from assessments.blueprints import terms_of
from assessments.models import COUNTED, Attempt
from assessments.queries.beliefs import HeldBelief, beliefs_of
from assessments.queries.skills import SkillResult, skill_results
from assessments.queries.theory import State, Theory, theory_of, theory_of_shop
from assessments.scenarios import SKILLS
from certificates.models import Certificate, Event, HandsOn
from certificates.queries.ready import rests
from certificates.scopes import Scope, scope_of
from certificates.status import Standing, status_by
from training.access import Place
from training.models import Notice, User
from training.queries import learning

FEW_DAYS = 90


@dataclass(frozen=True)
class Held:
    """A certificate and what it is today."""

    certificate: Certificate
    standing: Standing
    days_left: int


@dataclass(frozen=True)
class Step:
    """What to do next: a title, why, and where; `page` and `args` name the address, the template reverses it."""

    title: str
    why: str
    button: str
    page: str
    args: tuple[str, ...] = ()


@dataclass(frozen=True)
class Bay:
    """A person's start page."""

    next: Step | None
    due: tuple[learning.ModuleProgress, ...]
    theory: Theory | None  # none while the shop's rulebook has no assessment
    theory_state: State | None
    skills: tuple[SkillResult, ...]
    hands_on: HandsOn | None
    held: tuple[Held, ...]
    notices: QuerySet[Notice]


@dataclass(frozen=True)
class FloorRow:
    """One learner on the Floor."""

    progress: learning.LearnerProgress
    theory: Theory | None  # none while the shop's rulebook has no assessment
    theory_state: State | None
    failed: tuple[str, ...]  # titles of the skills below the pass mark
    hands_on: HandsOn | None
    held: Held | None

    @property
    def needs_trainer(self) -> bool:
        """Whether the learner cannot go on without a trainer: hands-on to be seen, or attempts used up."""
        if self.held is not None and self.held.standing.is_valid:
            return False
        waits_for_hands_on = self.theory_state is State.PASSED and (
            self.hands_on is None or not self.hands_on.has_passed
        )
        return waits_for_hands_on or self.theory_state is State.USED_UP


@dataclass(frozen=True)
class PersonPage:
    """One person as a trainer or owner sees them."""

    modules: tuple[learning.ModuleProgress, ...]
    theory: Theory | None  # none while the shop's rulebook has no assessment
    theory_state: State | None
    failed: tuple[str, ...]
    attempts: tuple[Attempt, ...]
    skills: tuple[SkillResult, ...]
    beliefs: tuple[HeldBelief, ...]
    hands_on: tuple[HandsOn, ...]
    held: tuple[Held, ...]
    ready: Scope | None  # the scope that a certificate can be issued for now


def bay(*, place: Place, at: datetime) -> Bay:
    """The Bay of the person asking; a constant number of queries."""
    shop, person, day = place.shop, place.person, place.day(at)
    modules = learning.course_of(shop, person, day)
    theory = theory_of(shop, person) if terms_of(shop) else None
    skills = skill_results(shop, person)
    latest = HandsOn.objects.filter(shop=shop, learner=person).defer("criteria").order_by("-recorded_at", "-pk").first()
    held = _held(place, at, person)
    return Bay(
        next=_next(place, modules, theory, at, latest, held),
        due=tuple(module for module in modules if module.assignment is not None and not module.is_done),
        theory=theory,
        theory_state=theory.state(at) if theory else None,
        skills=skills,
        hands_on=latest,
        held=held,
        notices=learning.notices_of(shop, person),
    )


def floor(*, place: Place, at: datetime) -> list[FloorRow]:
    """Every learner of the shop, whoever needs the trainer first; a constant number of queries."""
    shop = place.shop
    theories = theory_of_shop(shop) if terms_of(shop) else None
    records: dict[int, HandsOn] = {}
    for record in HandsOn.objects.filter(shop=shop).defer("criteria").order_by("recorded_at", "pk"):
        records[record.learner_id] = record
    held: dict[int, Held] = {}
    for one in _held(place, at):
        if one.certificate.holder_id not in held or one.standing.is_valid:
            held[one.certificate.holder_id] = one
    rows = []
    for progress in learning.progress_of_shop(shop, place.day(at)):
        key = progress.person.pk
        theory = theories[key] if theories is not None else None
        rows.append(
            FloorRow(
                progress=progress,
                theory=theory,
                theory_state=theory.state(at) if theory else None,
                failed=_titles(theory.failed_skills) if theory else (),
                hands_on=records.get(key),
                held=held.get(key),
            )
        )
    return sorted(rows, key=lambda row: (not row.needs_trainer, not row.progress.late, row.progress.person.name))


def person_page(*, place: Place, person: User, at: datetime) -> PersonPage:
    """One person of the shop; a constant number of queries."""
    shop = place.shop
    theory = theory_of(shop, person) if terms_of(shop) else None
    scope = scope_of(shop) if theory else None
    found = rests(shop=shop, scope=scope, at=at, learner=person).get(person.pk) if scope else None
    attempts = Attempt.objects.filter(
        form__shop=shop, form__learner=person, form__purpose__in=COUNTED, handed_in_at__isnull=False
    ).exclude(outcome="")
    return PersonPage(
        modules=learning.course_of(shop, person, place.day(at)),
        theory=theory,
        theory_state=theory.state(at) if theory else None,
        failed=_titles(theory.failed_skills) if theory else (),
        attempts=tuple(attempts.select_related("form").order_by("-handed_in_at")),
        skills=skill_results(shop, person),
        beliefs=beliefs_of(shop, person),
        hands_on=tuple(
            HandsOn.objects.filter(shop=shop, learner=person)
            .defer("criteria")
            .select_related("trainer")
            .order_by("-recorded_at", "-pk")
        ),
        held=_held(place, at, person),
        ready=scope if found is not None and found.is_ready else None,
    )


def _titles(skills: Sequence[str]) -> tuple[str, ...]:
    return tuple(SKILLS[skill] for skill in skills)


def _held(place: Place, at: datetime, holder: User | None = None) -> tuple[Held, ...]:
    """Certificates of the shop, or of one holder, with their standing today, the latest first; one query."""
    events = Event.objects.filter(certificate__shop=place.shop)
    if holder is not None:
        events = events.filter(certificate__holder=holder)
    last: dict[int, Event] = {}
    for event in events.select_related("certificate").order_by("order"):
        last[event.certificate_id] = event
    day: date = place.day(at)
    held = [
        Held(
            event.certificate,
            status_by(event.certificate, event.kind, place.day(event.at), day),
            (event.certificate.expires_date - day).days,
        )
        for event in last.values()
    ]
    return tuple(sorted(held, key=lambda one: (one.certificate.issued_date, one.certificate.pk), reverse=True))


def _next(
    place: Place,
    modules: tuple[learning.ModuleProgress, ...],
    theory: Theory | None,
    at: datetime,
    hands_on: HandsOn | None,
    held: tuple[Held, ...],
) -> Step | None:
    """The one thing to do now; None when a valid certificate has more than FEW_DAYS left and nothing is due."""
    shop = place.shop.slug
    state = theory.state(at) if theory else None
    if theory is not None and theory.open is not None and state is State.PAPER:
        return Step(
            "Sit your paper",
            "Your trainer has printed your assessment and types your answers in.",
            "See what it asks",
            "assessments:assessment",
            (shop,),
        )
    if theory is not None and theory.open is not None:
        reference = str(theory.open.form.reference)
        if state is State.OPEN:
            return Step(
                "Go on with your assessment",
                "The clock is running. Every answer you gave is saved.",
                "Go on",
                "assessments:review",
                (shop, reference),
            )
        if state is State.PAPER:
            return Step(
                "Your assessment is on paper",
                "Your trainer has it printed for you and types in what you answer.",
                "See how it stands",
                "assessments:assessment",
                (shop,),
            )
        return Step(
            "Hand in your assessment",
            "The time is up. The answers saved until then count.",
            "Hand in",
            "assessments:review",
            (shop, reference),
        )
    lesson = learning.next_lesson_in(modules)
    if lesson is not None and lesson.due_date is not None:
        return _lesson_step(shop, lesson)
    if any(one.standing.is_valid and one.days_left > FEW_DAYS for one in held):
        return None
    if lesson is not None and state is not State.PASSED:
        return _lesson_step(shop, lesson)
    if theory is not None and state is State.READY:
        return Step(
            "Take the assessment",
            f"You have read the course. {theory.terms.minutes} minutes; the clock starts when you do.",
            "See what it asks",
            "assessments:assessment",
            (shop,),
        )
    if state is State.PASSED and (hands_on is None or not hands_on.has_passed):
        return Step(
            "Show the work to your trainer",
            "Theory is passed. Your trainer watches you repair a tire and records the hands-on.",
            "Read the order of work",
            "training:module",
            (shop, "prepare-install-return"),
        )
    return Step(
        "Practice",
        "Eight fresh questions over all skills, each explained."
        if state is not State.PASSED
        else "All is passed; your certificate is being made out. Keep your hand in.",
        "Practice",
        "assessments:practice",
        (shop,),
    )


def _lesson_step(shop: str, lesson: learning.NextLesson) -> Step:
    return Step(
        lesson.lesson.title,
        f"A lesson of {lesson.lesson.minutes} minutes in {lesson.module.title}.",
        "Read the lesson",
        "training:lesson",
        (shop, lesson.module.slug, lesson.lesson.slug),
    )
