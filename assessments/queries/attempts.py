"""Finding attempts, the open side of their items, and how far they are. Nothing here loads a key."""

from dataclasses import dataclass
from uuid import UUID

from django.http import Http404
from django.urls import reverse

from assessments.models import Attempt, FormItem, Purpose, Response
from assessments.scenarios import OpenItem
from training.models import Shop, User


def attempt_of(shop: Shop, learner: User, reference: UUID, purpose: str) -> Attempt:
    """A person's own attempt in this shop, with its form and blueprint, one query. Raises Http404."""
    attempt = (
        Attempt.objects.filter(form__shop=shop, form__learner=learner, form__reference=reference, form__purpose=purpose)
        .select_related("form__blueprint")
        .defer("form__blueprint__cells")
        .first()
    )
    if attempt is None:
        raise Http404
    return attempt


def item_of(attempt: Attempt, position: int) -> OpenItem:
    """The open side of one item, one query. Raises Http404."""
    found = FormItem.objects.filter(form=attempt.form_id, position=position).values_list("open", flat=True).first()
    if found is None:
        raise Http404
    return OpenItem.from_json(found)


def responses_of(attempt: Attempt) -> dict[int, Response]:
    """What was answered or flagged so far, by position; one query."""
    return {response.position: response for response in Response.objects.filter(attempt=attempt)}


@dataclass(frozen=True, slots=True)
class Block:
    """One block of the tread row."""

    number: int
    url: str
    is_answered: bool
    is_flagged: bool
    is_current: bool


def tread_row(
    responses: dict[int, Response], *, attempt: Attempt, shop: Shop, current: int | None = None
) -> list[Block]:
    """The blocks of a form. A practice question is done once explained, even without an answer."""
    is_practice = attempt.form.purpose == Purpose.PRACTICE
    page = "assessments:practice_item" if is_practice else "assessments:item"
    before = reverse(page, args=[shop.slug, attempt.form.reference, 1]).removesuffix("1/")
    blocks = []
    for number in range(1, attempt.form.size + 1):
        response = responses.get(number)
        blocks.append(
            Block(
                number=number,
                url=f"{before}{number}/",
                is_answered=response is not None and (is_practice or bool(response.answer)),
                is_flagged=response is not None and response.is_flagged,
                is_current=number == current,
            )
        )
    return blocks


def unfinished_practice(shop: Shop, learner: User) -> dict[str, Attempt]:
    """Practice to go on with, by skill ("" for mixed), with its form; one query."""
    found = Attempt.objects.filter(
        form__shop=shop, form__learner=learner, form__purpose=Purpose.PRACTICE, handed_in_at=None
    )
    return {attempt.form.skill: attempt for attempt in found.select_related("form").order_by("started_at", "pk")}
