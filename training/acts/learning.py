"""Asking learners to finish modules, and keeping what they have read and been told."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date, datetime
from zoneinfo import ZoneInfo

from django.db import transaction

from training import course
from training.models import Assignment, Notice, Progress, Shop, User
from training.trade.days import written_day
from training.trade.speech import say, saying

# what the learner is told of a change; of none, nothing
_TOLD = {
    "new": saying("{person} asks you to finish {module} by {day}."),
    "moved": saying("{person} has moved {module}: finish it by {day}."),
}


class AssignmentRefused(Exception):
    """The module may not be assigned so: the words say why."""


@dataclass(frozen=True)
class Assigned:
    """One module asked of one learner. `change` is "new", "moved" (it had another date) or "same"."""

    assignment: Assignment
    title: str
    change: str


def assign(
    *, shop: Shop, learners: Sequence[User], modules: Sequence[str], due_date: date, assigned_by: User, at: datetime
) -> tuple[Assigned, ...]:
    """Ask each learner to finish each module by a day. An open assignment gets the new day; the learner is told.

    Raises AssignmentRefused for a day gone by in the shop's time zone.
    """
    today = at.astimezone(ZoneInfo(shop.time_zone)).date()
    if due_date < today:
        raise AssignmentRefused(
            say(
                "{day} has gone by; choose today, {today}, or a later day.",
                day=written_day(due_date),
                today=written_day(today),
            )
        )
    titles = {module.slug: module.title for module in course.modules()}
    with transaction.atomic():
        return _assign(shop, learners, titles, modules, due_date, assigned_by, at)


def _assign(
    shop: Shop,
    learners: Sequence[User],
    titles: Mapping[str, str],
    modules: Sequence[str],
    due_date: date,
    assigned_by: User,
    at: datetime,
) -> tuple[Assigned, ...]:
    Shop.objects.select_for_update(no_key=True).get(pk=shop.pk)
    opened = {
        (assignment.learner_id, assignment.module): assignment
        for assignment in Assignment.objects.filter(
            shop=shop, learner__in=learners, module__in=modules, withdrawn_at=None
        ).select_related("learner")
    }
    done = []
    for learner in learners:
        for module in modules:
            change, assignment = "new", opened.get((learner.pk, module))
            if assignment is None:
                assignment = Assignment.objects.create(
                    shop=shop,
                    learner=learner,
                    module=module,
                    due_date=due_date,
                    assigned_by=assigned_by,
                    assigned_at=at,
                )
            elif assignment.due_date == due_date:
                change = "same"
            else:
                change = "moved"
                assignment.due_date, assignment.assigned_by, assignment.assigned_at = due_date, assigned_by, at
                assignment.save(update_fields=["due_date", "assigned_by", "assigned_at"])
            done.append(Assigned(assignment, titles[module], change))
    Notice.objects.bulk_create(
        Notice(
            shop=shop,
            person=one.assignment.learner,
            text=_TOLD[one.change].format(person=assigned_by.name, module=one.title, day=written_day(due_date)),
            written_at=at,
        )
        for one in done
        if one.change in _TOLD
    )
    return tuple(done)


@transaction.atomic
def withdraw_assignment(*, assignment: Assignment, at: datetime) -> Assignment:
    """Take back what a learner was asked; what they read stays. Once more changes nothing."""
    assignment = Assignment.objects.select_for_update(no_key=True).get(pk=assignment.pk)
    if assignment.withdrawn_at is None:
        assignment.withdrawn_at = at
        assignment.save(update_fields=["withdrawn_at"])
    return assignment


@transaction.atomic
def mark_lesson_read(
    *, shop: Shop, learner: User, module: str, lesson: str, content_version: str, at: datetime
) -> Progress:
    """Keep that a learner read a lesson in one version of its text and limits. Once more changes nothing."""
    progress, _ = Progress.objects.get_or_create(
        shop=shop,
        learner=learner,
        module=module,
        lesson=lesson,
        content_version=content_version,
        defaults={"read_at": at},
    )
    return progress


@transaction.atomic
def put_away_notice(*, notice: Notice, at: datetime) -> None:
    """Take a line off its reader's start page. Once more changes nothing."""
    Notice.objects.filter(pk=notice.pk, put_away_at=None).update(put_away_at=at)
