"""Kept checks of a shop: the search, one entry, and who looked."""

from dataclasses import dataclass
from datetime import date
from uuid import UUID

from django.db.models import Q, QuerySet
from django.db.models.fields.json import KT

from training.models import Shop, TireCheck, User, symbols_of


@dataclass(frozen=True)
class Wanted:
    """What a search of the shop's records asks for; empty means all."""

    text: str = ""
    verdict: str = ""
    since: date | None = None
    until: date | None = None
    by: UUID | None = None


def checks_in(shop: Shop) -> QuerySet[TireCheck]:
    """Every kept check of the shop with who looked and the entry that corrects it."""
    return TireCheck.objects.filter(shop=shop).select_related("looked_by", "corrected_by", "corrects")


def found_checks(shop: Shop, wanted: Wanted) -> QuerySet[TireCheck]:
    """The entries a search asks for, the newest first, without what only their own page prints.

    `verdict_name` is the verdict as the entry's own page names it: what was refused may be a way to repair alone.
    """
    rows = checks_in(shop).defer("case", "decision", "printed", "found")
    rows = rows.annotate(verdict_name=KT("printed__content__words__name"))
    if wanted.text:
        rows = rows.filter(_says(wanted.text))
    if wanted.verdict:
        rows = rows.filter(verdict=wanted.verdict)
    if wanted.since:
        rows = rows.filter(looked_on__gte=wanted.since)
    if wanted.until:
        rows = rows.filter(looked_on__lte=wanted.until)
    if wanted.by:
        rows = rows.filter(looked_by__reference=wanted.by)
    return rows.order_by("-kept_at", "-pk")


def _says(text: str) -> Q:
    symbols = symbols_of(text)
    said = Q(ticket__icontains=text) | Q(designation__icontains=text)
    return said | Q(tin_key__contains=symbols) if symbols else said


def who_looked(shop: Shop, *, person: User) -> QuerySet[User]:
    """The people who kept a check in the shop, and the one who asks, by name."""
    return User.objects.filter(Q(tire_checks__shop=shop) | Q(pk=person.pk)).distinct().order_by("name", "pk")


def shops_open_to_all() -> QuerySet[Shop]:
    """Shops whose owner lets anyone use Check a tire without login."""
    return Shop.objects.filter(public_check=True)
