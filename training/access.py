"""The one place that decides who may open a page of a shop.

A page that a person may not see does not exist for them: 404 from the query that looks for their roles. While they sit
an assessment, the same query closes whatever could answer it.
"""

from collections.abc import Callable
from dataclasses import dataclass
from datetime import date, datetime
from functools import cached_property, wraps
from typing import Any, Concatenate, ParamSpec, cast
from zoneinfo import ZoneInfo

from django.contrib.auth.decorators import login_required
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import render
from django.utils import timezone
from django.views.decorators.http import require_http_methods
from django_htmx.http import HttpResponseClientRefresh

from training.models import Membership, Role, Shop, User
from training.queries import edition_of, units_of
from training.rulebook import Edition, OnShelf, edition_language
from training.sittings import sits, sitting_of
from training.speaking import speaking

P = ParamSpec("P")


@dataclass(frozen=True)
class Place:
    """Where a request stands: a shop, the person asking, that person's roles there, and whether they sit an assessment
    now, there or in another shop; False as well where that was not asked."""

    shop: Shop
    person: User
    roles: frozenset[str]
    sits: bool = False

    @cached_property
    def edition(self) -> Edition:
        """The rulebook of the shop, its house rules laid over."""
        return edition_of(self.shop)

    @cached_property
    def units(self) -> tuple[OnShelf, ...] | None:
        """What is on the shop's shelf, looked up once; None while nothing is."""
        return units_of(self.shop)

    @property
    def zone(self) -> ZoneInfo:
        """The shop's time zone."""
        return ZoneInfo(self.shop.time_zone)

    @property
    def language(self) -> str:
        """What the people of the shop read: the language of its rulebook."""
        return edition_language(self.shop.edition)

    def day(self, at: datetime) -> date:
        """The shop's calendar day at an instant."""
        return at.astimezone(self.zone).date()

    def has(self, *roles: str) -> bool:
        """Whether the person holds one of the roles here."""
        return not self.roles.isdisjoint(roles)


def place_of(
    user: User, shop_slug: str, *, roles: tuple[str, ...] = tuple(Role.values), asks_sitting: bool = True
) -> Place:
    """Find the person's place in a shop, one query. Raises Http404 when they hold none of `roles` there.

    Without `asks_sitting` it is not looked up whether they sit an assessment.
    """
    found = Membership.objects.filter(user=user, shop__slug=shop_slug, ended_at=None).select_related("shop")
    if asks_sitting:
        found = found.annotate(**sits(timezone.now()))
    memberships = list(found.order_by("pk"))
    held = frozenset(membership.role for membership in memberships)
    if held.isdisjoint(roles):
        raise Http404
    return Place(shop=memberships[0].shop, person=user, roles=held, sits=getattr(memberships[0], "sits", False))


PlaceView = Callable[Concatenate[HttpRequest, Place, P], HttpResponse]


def closed_to(request: HttpRequest, person: User) -> HttpResponse | None:
    """What is answered instead of a page that could answer the assessment this person sits; None if they sit none."""
    sitting = sitting_of(person, timezone.now())
    if sitting is None:
        return None
    if request.headers.get("HX-Request"):  # a part of a page has no place for the sentence; the page has
        return HttpResponseClientRefresh()
    return render(request, "training/closed_while_sitting.html", {"sitting": sitting}, status=403)


def shop_page(
    *roles: str, methods: str = "GET", while_sitting: bool = False
) -> Callable[[PlaceView[P]], Callable[..., HttpResponse]]:
    """Open a view to people of the shop who hold one of `roles` (all three when none is named).

    `methods` are the HTTP methods it answers. The view receives the `Place` instead of the shop's slug; times on the
    page are the shop's, and so is its language. It is closed to whoever sits an assessment, unless it says by
    `while_sitting` that nothing of it could answer one.
    """
    allowed = roles or tuple(Role.values)

    def decorate(view: PlaceView[P]) -> Callable[..., HttpResponse]:
        @require_http_methods(methods.split())
        @login_required
        @wraps(view)
        def inner(request: HttpRequest, shop: str, *args: Any, **kwargs: Any) -> HttpResponse:
            place = place_of(cast(User, request.user), shop, roles=allowed, asks_sitting=not while_sitting)
            request.place = place  # type: ignore[attr-defined]
            with timezone.override(place.zone), speaking(place.language):
                closed = closed_to(request, place.person) if place.sits else None
                response = closed or view(request, place, *args, **kwargs)
            response.headers.setdefault("Cache-Control", "private, no-store")
            return response

        return inner

    return decorate
