"""A shop's own photographs: those it keeps, a trainer's draft, and the picture for those to whom it is open."""

from uuid import UUID

from django.db.models import Q, QuerySet
from django.http import Http404

from training.models import Membership, Photograph, Role, Shop, User


def photographs_in(shop: Shop) -> QuerySet[Photograph]:
    """Every photograph that the shop keeps, taken back ones too, the newest first; without the pictures themselves."""
    rows = Photograph.objects.filter(shop=shop, kept_at__isnull=False).defer("content")
    return rows.select_related("added_by", "confirmed_by", "taken_back_by").order_by("-kept_at", "-pk")


def standing_photographs(shop: Shop) -> QuerySet[Photograph]:
    """Those that were not taken back."""
    return photographs_in(shop).filter(taken_back_at=None)


def photograph_drafts(shop: Shop, person: User) -> QuerySet[Photograph]:
    """What somebody has brought to the shop and not kept yet: one draft at most."""
    return Photograph.objects.filter(shop=shop, added_by=person, kept_at=None).defer("content").select_related("shop")


def trainers_of(shop: Shop) -> int:
    """How many trainers the shop has."""
    rows = Membership.objects.filter(shop=shop, role=Role.TRAINER, ended_at=None, user__is_active=True)
    return rows.values("user").distinct().count()


def photograph_picture(shop: Shop, reference: UUID, *, person: User, sees_all: bool) -> bytes:
    """The picture for a page: all that is kept for those who see all, what lessons show for the others, and their own
    draft. One query. Raises Http404."""
    kept, shown = Q(kept_at__isnull=False), Q(confirmed_at__isnull=False, taken_back_at=None)
    open_to = (kept if sees_all else kept & shown) | Q(kept_at=None, added_by=person)
    found = Photograph.objects.filter(open_to, shop=shop, reference=reference).values_list("content", flat=True).first()
    if found is None:
        raise Http404
    return bytes(found)
