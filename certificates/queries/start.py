"""What the start pages read, gathered from all three apps: the Bay, the Floor and one person's page."""

from collections import defaultdict
from dataclasses import dataclass
from datetime import datetime

from django.db.models import QuerySet

from assessments.models import COUNTED, Attempt
from assessments.queries import (
    HeldBelief,
    SkillResult,
    beliefs_of,
    late_count,
    skill_results,
    theories_of,
    theory_of_shop,
    withdrawn_count,
)
from certificates.models import HandsOn
from certificates.queries.next_step import Step, next_step
from certificates.queries.ready import rests_by_scope
from certificates.queries.road import Road, Stretch, road_of, small_road_of, way_at_hand
from certificates.queries.scopes import Scope, scopes_of
from certificates.queries.ways import Held, Way, held_in, ways
from training.access import Place
from training.models import Notice, Shop, User
from training.queries import LearnerProgress, ModuleProgress, course_of, notices_of, progress_of_shop


@dataclass(frozen=True)
class Bay:
    """A person's start page. `ways` has one entry a scope the shop works in, none while there is no assessment;
    `others` are certificates of scopes it no longer works in."""

    next: Step | None
    road: Road | None
    due: tuple[ModuleProgress, ...]
    ways: tuple[Way, ...]
    skills: tuple[SkillResult, ...]
    held: tuple[Held, ...]
    others: tuple[Held, ...]
    notices: QuerySet[Notice]


@dataclass(frozen=True)
class FloorRow:
    """One learner on the Floor."""

    progress: LearnerProgress
    ways: tuple[Way, ...]

    @property
    def needs_trainer(self) -> bool:
        """Whether the learner cannot go on without a trainer in one of the scopes."""
        return any(way.needs_trainer for way in self.ways)

    @property
    def is_begun(self) -> bool:
        """Whether the learner has set out on any of the scopes."""
        return any(way.is_begun for way in self.ways)

    @property
    def road(self) -> tuple[Stretch, ...]:
        """The road that the learner is on, without the skills; empty where there is none."""
        way = way_at_hand(self.ways)
        return () if way is None else small_road_of(way, self.progress.modules)


@dataclass(frozen=True)
class PersonPage:
    """One person as a trainer or owner sees them; attempts and records with the tires they were for, in words."""

    modules: tuple[ModuleProgress, ...]
    ways: tuple[Way, ...]
    attempts: tuple[tuple[Attempt, str], ...]
    skills: tuple[SkillResult, ...]
    beliefs: tuple[HeldBelief, ...]
    hands_on: tuple[tuple[HandsOn, str], ...]
    held: tuple[Held, ...]
    ready: tuple[Scope, ...]  # the scopes that a certificate can be issued for now


def bay(*, place: Place, at: datetime) -> Bay:
    """The Bay of the person asking; a constant number of queries."""
    shop, person = place.shop, place.person
    modules = course_of(shop, person, place.day(at))
    held = held_in(place, at, person)
    own = _ways_of(place, person, held, _records(shop).filter(learner=person), at)
    step, skills, way = next_step(shop.slug, modules, own, at), skill_results(shop, person), way_at_hand(own)
    return Bay(
        next=step,
        road=None if way is None else road_of(way, modules, skills, step=step),
        due=tuple(module for module in modules if module.assignment is not None and not module.is_done),
        ways=own,
        skills=skills,
        held=held,
        others=tuple(one for one in held if one.certificate.scope not in {way.scope.slug for way in own}),
        notices=notices_of(shop, person),
    )


def floor(*, place: Place, at: datetime) -> list[FloorRow]:
    """Every learner of the shop, whoever needs the trainer first; a constant number of queries."""
    shop, scopes = place.shop, scopes_of(place.shop)
    theories = theory_of_shop(shop)
    records: dict[int, list[HandsOn]] = defaultdict(list)
    for record in _records(shop):
        records[record.learner_id].append(record)
    held: dict[int, list[Held]] = defaultdict(list)
    for one in held_in(place, at):
        held[one.certificate.holder_id].append(one)
    rows = [
        FloorRow(
            progress=progress,
            ways=ways(
                scopes=scopes,
                theories=theories[progress.person.pk],
                records=records[progress.person.pk],
                held=held[progress.person.pk],
                at=at,
            ),
        )
        for progress in progress_of_shop(shop, place.day(at))
    ]
    return sorted(rows, key=lambda row: (not row.needs_trainer, not row.progress.late, row.progress.person.name))


def person_page(*, place: Place, person: User, at: datetime) -> PersonPage:
    """One person of the shop; a constant number of queries."""
    shop, scopes = place.shop, scopes_of(place.shop)
    found = rests_by_scope(shop=shop, scopes=scopes, at=at, learner=person)
    attempts = (
        Attempt.objects.filter(
            form__shop=shop, form__learner=person, form__purpose__in=COUNTED, handed_in_at__isnull=False
        )
        .exclude(outcome="")
        .annotate(withdrawn_count=withdrawn_count(), late_count=late_count())
        .select_related("form__blueprint")
        .defer("form__blueprint__cells")
        .order_by("-handed_in_at")
    )
    records = list(_records(shop).filter(learner=person).select_related("trainer"))
    held = held_in(place, at, person)
    tires = {scope.slug: scope.tires for scope in scopes} if len(scopes) > 1 else {}
    return PersonPage(
        modules=course_of(shop, person, place.day(at)),
        ways=_ways_of(place, person, held, records, at),
        attempts=tuple(
            (one, tires.get(one.form.blueprint.scope if one.form.blueprint else "", "")) for one in attempts
        ),
        skills=skill_results(shop, person),
        beliefs=beliefs_of(shop, person),
        hands_on=tuple((record, tires.get(record.scope, "")) for record in reversed(records)),
        held=held,
        ready=tuple(
            scope for scope in scopes if person.pk in found[scope.slug] and found[scope.slug][person.pk].is_ready
        ),
    )


def _records(shop: Shop) -> QuerySet[HandsOn]:
    """Hands-on records without their lines, the latest last."""
    return HandsOn.objects.filter(shop=shop).defer("criteria").order_by("recorded_at", "pk")


def _ways_of(
    place: Place, person: User, held: tuple[Held, ...], records: QuerySet[HandsOn] | list[HandsOn], at: datetime
) -> tuple[Way, ...]:
    theories = theories_of(place.shop, person)
    return ways(scopes=scopes_of(place.shop), theories=theories, records=records, held=held, at=at)
