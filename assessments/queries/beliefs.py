"""What a person's answers say they believe, and which questions they and the shop have seen."""

from collections import OrderedDict
from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import datetime, timedelta
from functools import reduce
from operator import or_
from uuid import UUID

from django.db.models import Count, Q

from assessments.models import FormItem, Response
from assessments.pages.explained import lesson_of
from assessments.queries.withdrawals import that_count
from assessments.questions import (
    Answer,
    Diagnosis,
    Item,
    Misconception,
    Outlook,
    diagnose,
    from_canonical,
    misconceptions,
)
from training import course
from training.models import Shop, User

LATELY_DAYS = 90
LATEST = 40  # answers: older ones say little about what somebody believes today
KEPT = 4_000  # questions, those of a hundred people: a question that was asked never changes

Place = tuple[UUID, int]  # a form and a position in it
_kept: OrderedDict[Place, Outlook] = OrderedDict()


@dataclass(frozen=True)
class HeldBelief:
    """A misconception that is likely enough to be said: how likely, in words, and the lesson that clears it up."""

    misconception: Misconception
    words: str
    lesson: course.Lesson | None


def diagnosis_of(shop: Shop, learner: User, *told: tuple[Item, Answer]) -> Diagnosis:
    """What the latest answers say, and those just `told`, which are not stored yet; two queries at most.

    An assessment says nothing here before it is handed in, and a question that was withdrawn nothing at all.
    """
    answered = list(
        that_count(Response.objects.filter(attempt__form__shop=shop, attempt__form__learner=learner))
        .filter(Q(attempt__form__purpose="practice") | Q(attempt__handed_in_at__isnull=False))
        .exclude(answer="")
        .order_by("-saved_at", "-pk")
        .values_list("attempt__form__reference", "position", "answer")[: LATEST - len(told)]
    )
    given: list[tuple[Item | Outlook, Answer]] = [(item, answer) for item, answer in told if answer is not None]
    outlooks = _outlooks_of([(form, position) for form, position, _ in answered])
    given += [(outlooks[form, position], from_canonical(answer)) for form, position, answer in answered]
    return diagnose(given) if given else Diagnosis()


def _outlooks_of(places: Sequence[Place]) -> dict[Place, Outlook]:
    """What the answers to these questions say; no query where all were asked for before."""
    found = {place: outlook for place in places if (outlook := _kept.get(place)) is not None}
    if new := [place for place in places if place not in found]:
        wanted = reduce(or_, (Q(form__reference=form, position=position) for form, position in new))
        rows = FormItem.objects.filter(wanted).values_list("form__reference", "position", "snapshot")
        for form, position, snapshot in rows:
            item = Item.from_json(snapshot)
            found[form, position] = Outlook(replace(item, figure=None, explanation=(), case=None))
            _kept[form, position] = found[form, position]
    while len(_kept) > KEPT:
        _kept.popitem(last=False)
    return found


def beliefs_of(shop: Shop, learner: User) -> tuple[HeldBelief, ...]:
    """The misconceptions a person holds, as far as the answers make that likely; two queries."""
    known = misconceptions()
    return tuple(
        HeldBelief(known[belief.misconception], belief.words, lesson_of(known[belief.misconception].lesson))
        for belief in diagnosis_of(shop, learner).probable
        if belief.misconception in known
    )


def shown_to(shop: Shop, learner: User) -> frozenset[str]:
    """The digests of all questions this person was asked in this shop; one query."""
    rows = FormItem.objects.filter(form__shop=shop, form__learner=learner).exclude(digest="")
    return frozenset(rows.values_list("digest", flat=True))


@dataclass(frozen=True)
class Exposure:
    """How many questions of a family a shop was asked, and how many different ones: in all, and `lately`."""

    asked: int
    different: int
    asked_lately: int
    different_lately: int


def exposure_of(shop: Shop, family: str, *, at: datetime) -> Exposure:
    """What was asked of one family, in all and in the LATELY_DAYS before; one query. Words alone make no difference."""
    lately = Q(form__drawn_at__gt=at - timedelta(days=LATELY_DAYS))
    counts = (
        FormItem.objects.filter(form__shop=shop, family=family)
        .exclude(digest="")
        .aggregate(
            asked=Count("pk"),
            different=Count("digest", distinct=True),
            asked_lately=Count("pk", filter=lately),
            different_lately=Count("digest", distinct=True, filter=lately),
        )
    )
    return Exposure(**counts)
