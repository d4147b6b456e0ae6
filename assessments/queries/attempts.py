"""Finding attempts, the open side of their items, and how far they are. Nothing here loads a key."""

from collections.abc import Collection
from dataclasses import dataclass
from datetime import datetime
from uuid import UUID

from django.db.models import Count, F
from django.http import Http404
from django.urls import reverse

from assessments.measurement.timing import Seen, Time, times_at
from assessments.models import Attempt, FormItem, Moment, Purpose, Response, Taught
from assessments.questions import Item, OpenItem
from training.models import Shop, User


def attempt_of(shop: Shop, learner: User, reference: UUID, *purposes: str) -> Attempt:
    """A person's own attempt in this shop, with its form and blueprint, one query. Raises Http404."""
    attempt = (
        Attempt.objects.filter(form__shop=shop, form__learner=learner, form__reference=reference)
        .filter(form__purpose__in=purposes)
        .select_related("form__blueprint")
        .defer("form__blueprint__cells")
        .first()
    )
    if attempt is None:
        raise Http404
    return attempt


@dataclass(frozen=True, slots=True)
class Question:
    """One question of a person's own attempt, as its page needs it; `attempt` has its clock and nothing else."""

    attempt: Attempt
    reference: UUID
    purpose: str
    position: int
    size: int
    scope: str  # whose tires it asks about; empty where it was drawn of all
    item: OpenItem


def question_of(shop: Shop, learner: User, reference: UUID, position: int, purpose: str) -> Question:
    """The open side of one question, one plain query, since every saved answer pays for it. Raises Http404."""
    found = FormItem.objects.filter(
        form__reference=reference,
        form__shop_id=shop.pk,
        form__learner_id=learner.pk,
        form__purpose=purpose,
        position=position,
    )
    columns = (
        "open",
        "form__size",
        "form__scope",
        "form__blueprint__scope",
        "form_id",
        "form__attempt",
        "form__attempt__closes_at",
        "form__attempt__handed_in_at",
    )
    for opened, size, practiced, assessed, *rest in found.order_by().values_list(*columns):
        form_id, attempt_id, closes_at, handed_in_at = rest
        attempt = Attempt(id=attempt_id, form_id=form_id, closes_at=closes_at, handed_in_at=handed_in_at)
        return Question(attempt, reference, purpose, position, size, assessed or practiced, OpenItem.from_json(opened))
    raise Http404


def drawn_in(attempt: Attempt) -> int:
    """How many questions of an attempt were drawn so far; one query."""
    return FormItem.objects.filter(form_id=attempt.form_id).count()


@dataclass(frozen=True, slots=True)
class Saved:
    """What stands at one position: an answer, a flag, or both."""

    position: int
    answer: str
    is_flagged: bool
    revision: int
    saved_at: datetime


def saved_in(attempt: Attempt) -> dict[int, Saved]:
    """What was answered or flagged so far, by position; one query."""
    rows = Response.objects.filter(attempt_id=attempt.pk).values_list(
        "position", "answer", "is_flagged", "revision", "saved_at"
    )
    return {row[0]: Saved(*row) for row in rows}


def to_read(attempt: Attempt) -> Taught | None:
    """What practice stopped to teach and nobody has read yet; one query."""
    return Taught.objects.filter(attempt_id=attempt.pk, read_at=None).order_by("position").first()


def taught_last(attempt: Attempt) -> tuple[Taught, Item]:
    """What practice taught last, the unread before the read, and the question it was taught after; two queries. Raises
    Http404 where it taught nothing."""
    found = (
        Taught.objects.filter(attempt_id=attempt.pk).order_by(F("read_at").asc(nulls_first=True), "-position").first()
    )
    if found is None:
        raise Http404
    row = FormItem.objects.only("snapshot").get(form=attempt.form_id, position=found.position)
    return found, Item.from_json(row.snapshot)


def times_in(attempt: Attempt, *, ended_at: datetime, stays: bool) -> dict[int, Time]:
    """When each question that was seen was first shown, and how long it was in front of the person; one query.

    `stays`: it is still there when its answer is kept, as in an assessment.
    """
    rows = Moment.objects.filter(attempt_id=attempt.pk).order_by("at", "pk").values_list("position", "at", "revision")
    seen = [Seen(position, at, is_answer=revision > 0) for position, at, revision in rows]
    return times_at(seen, ended_at=ended_at, stays=stays)


@dataclass(frozen=True, slots=True)
class Block:
    """One block of the tread row; no `url` for a question that is not drawn yet."""

    number: int
    url: str
    is_answered: bool
    is_flagged: bool
    is_current: bool


def tread_row(
    saved: dict[int, Saved],
    *,
    shop: Shop,
    reference: UUID,
    size: int,
    purpose: str,
    current: int | None = None,
    drawn: int | None = None,
) -> list[Block]:
    """The blocks of a form, of which so many questions are drawn, all unless said. A practice question is done once
    explained, even without an answer."""
    is_practice = purpose == Purpose.PRACTICE
    page = "assessments:practice_item" if is_practice else "assessments:item"
    before = reverse(page, args=[shop.slug, reference, 1]).removesuffix("1/")
    blocks = []
    for number in range(1, size + 1):
        one = saved.get(number)
        is_answered = one is not None and (is_practice or bool(one.answer))
        is_flagged = one is not None and one.is_flagged
        url = f"{before}{number}/" if drawn is None or number <= drawn else ""
        blocks.append(Block(number, url, is_answered, is_flagged, number == current))
    return blocks


def unfinished_practice(shop: Shop, learner: User, scopes: Collection[str]) -> dict[str, Attempt]:
    """Practice of these scopes to go on with, by skill ("" for mixed), with form and `answered_count`; one query."""
    found = Attempt.objects.filter(
        form__shop=shop, form__learner=learner, form__purpose=Purpose.PRACTICE, form__scope__in=scopes
    ).filter(handed_in_at=None)
    found = found.select_related("form").annotate(answered_count=Count("responses"))
    return {attempt.form.skill: attempt for attempt in found.order_by("started_at", "pk")}
