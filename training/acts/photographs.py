"""A shop's own photographs: brought, kept once they were looked at, confirmed by a second trainer, taken back."""

from datetime import datetime, timedelta

from django.db import transaction
from django.db.models import Q, QuerySet
from django.utils.timezone import localtime

from training.models import Photograph, Shop, User
from training.pictures import Taken
from training.trade.days import written_day
from training.trade.speech import say

DRAFT_LASTS = timedelta(days=1)


class PhotographRefused(Exception):
    """Nothing was changed: the words say why."""


@transaction.atomic
def bring_photograph(
    *, shop: Shop, by: User, taken: Taken, condition: str, look_alike: bool, casing: str, at: datetime
) -> Photograph:
    """A draft of what a trainer took, in place of their draft of before: nobody else sees it, nothing asks about it.

    The same again gives back the draft that is there. Raises PhotographRefused where the shop has the photograph.
    """
    _line_up(shop)
    _refuse_twice(shop, sent=taken.sent, digest=taken.digest)
    drafts = Photograph.objects.filter(shop=shop, added_by=by, kept_at=None)
    facts = {"condition": condition, "look_alike": look_alike, "casing": casing, "sent": taken.sent}
    standing = drafts.filter(**facts, digest=taken.digest).first()
    if standing is not None:
        return standing
    drafts.delete()
    return Photograph.objects.create(
        shop=shop, content=taken.file, digest=taken.digest, added_by=by, added_at=at, **facts
    )


@transaction.atomic
def keep_photograph(*, photograph: Photograph, at: datetime) -> Photograph:
    """Keep a draft for good: from now on it is shown and asked. Kept already: nothing changes.

    Raises PhotographRefused where somebody has kept the same photograph meanwhile.
    """
    _line_up(photograph.shop)
    found = Photograph.objects.defer("content").get(pk=photograph.pk)
    if found.kept_at is None:
        _refuse_twice(photograph.shop, sent=found.sent, digest=found.digest)
        found.kept_at = at
        found.save(update_fields=["kept_at"])
    return found


@transaction.atomic
def discard_photograph(*, photograph: Photograph) -> None:
    """Drop a draft, pixels and all. What is kept stays; a draft that is gone is gone."""
    Photograph.objects.filter(pk=photograph.pk, kept_at=None).delete()


@transaction.atomic
def clear_photograph_drafts(*, at: datetime) -> int:
    """Drop drafts that nobody kept within a day; how many there were."""
    count, _ = Photograph.objects.filter(kept_at=None, added_at__lt=at - DRAFT_LASTS).delete()
    return count


@transaction.atomic
def confirm_photograph(*, photograph: Photograph, by: User, at: datetime) -> Photograph:
    """Say as a second trainer that it shows what the first one says. Confirmed already: nothing changes.

    Raises PhotographRefused for the one who brought it, and for one that was taken back.
    """
    found = _locked(photograph)
    if found.added_by_id == by.pk:
        raise PhotographRefused(say("You brought this photograph yourself: another trainer confirms what it shows."))
    if found.taken_back_at is not None:
        raise PhotographRefused(say("This photograph was taken back; there is nothing to confirm."))
    if found.kept_at is not None and found.confirmed_at is None:
        found.confirmed_at, found.confirmed_by = at, by
        found.save(update_fields=["confirmed_at", "confirmed_by"])
    return found


@transaction.atomic
def take_back_photograph(*, photograph: Photograph, by: User, reason: str, at: datetime) -> Photograph:
    """Show and ask it no more; questions that were asked with it still show it. Taken back already: nothing changes."""
    found = _locked(photograph)
    if found.stands:
        found.taken_back_at, found.taken_back_by, found.reason = at, by, reason
        found.save(update_fields=["taken_back_at", "taken_back_by", "reason"])
    return found


def _line_up(shop: Shop) -> None:
    """Let two who bring the same photograph to a shop wait for one another."""
    list(Shop.objects.select_for_update(no_key=True).filter(pk=shop.pk).values_list("pk"))


def _locked(photograph: Photograph) -> Photograph:
    rows: QuerySet[Photograph] = Photograph.objects.defer("content").select_for_update(no_key=True)
    return rows.get(pk=photograph.pk)


def _refuse_twice(shop: Shop, *, sent: str, digest: str) -> None:
    standing = Photograph.objects.filter(shop=shop, kept_at__isnull=False, taken_back_at=None)
    found = standing.defer("content").select_related("added_by").filter(Q(sent=sent) | Q(digest=digest)).first()
    if found is not None:
        raise PhotographRefused(
            say(
                'Photograph: your shop has it already, as "{shows}", added by {person} on {day}. Nothing was added; if '
                "that is wrong, take that one back first.",
                shows=found.shows,
                person=found.added_by.name,
                day=written_day(localtime(found.added_at).date()),
            )
        )
