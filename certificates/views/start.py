"""Start pages: where a person lands, the apprentice's Bay, the trainer's Floor, and one person's page."""

from typing import cast
from uuid import UUID

from django.contrib.auth.decorators import login_required
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils import timezone
from django.views.decorators.http import require_safe

from assessments.forms.rounds import ExtraRoundForm
from certificates import queries
from certificates.queries import scopes_of
from training.access import Place, shop_page
from training.models import Role, User
from training.queries import person_in, places_of

MOST_TO_DO = 7  # lines on the Floor; the rest stands below by name

# where each role begins; a person with several begins at the first they hold
BEGINS = (
    (Role.TRAINER, "certificates:floor"),
    (Role.OWNER, "certificates:roster"),
    (Role.APPRENTICE, "certificates:bay"),
)


@require_safe
@login_required
def home(request: HttpRequest) -> HttpResponse:
    """Send a person to the start page of their shop; with several shops or none, let them choose or say so."""
    person = cast(User, request.user)
    places = [
        {
            "shop": shop,
            "roles": roles,
            "url": next(reverse(page, args=[shop.slug]) for role, page in BEGINS if role in roles),
        }
        for shop, roles in places_of(person)
    ]
    if len(places) == 1:
        return redirect(str(places[0]["url"]))
    return render(request, "certificates/home.html", {"places": places})


@shop_page(methods="GET HEAD", while_sitting=True)
def bay(request: HttpRequest, place: Place) -> HttpResponse:
    """What is due, what to do next, and what the person can do so far."""
    found = queries.bay(place=place, at=timezone.now())
    next_url = reverse(found.next.page, args=found.next.args) + found.next.query if found.next else ""
    context = {
        "bay": found,
        "next_url": next_url,
        "open_ways": [way for way in found.ways if not way.is_settled],
        "asked": sorted((skill for skill in found.skills if skill.asked), key=lambda skill: skill.at or 0),
        "not_asked": [str(skill.title) for skill in found.skills if not skill.asked],
    }
    return render(request, "certificates/bay.html", context)


@shop_page(Role.TRAINER, Role.OWNER, methods="GET HEAD", while_sitting=True)
def floor(request: HttpRequest, place: Place) -> HttpResponse:
    """Who has done what, who is late, and who failed on which skill."""
    now = timezone.now()
    rows = queries.floor(place=place, at=now)
    to_do = queries.to_do(
        place.shop.slug,
        ((row.progress.person, row.progress.assigned, row.ways) for row in rows),
        today=place.day(now),
        day_of=place.day,
        is_trainer=place.has(Role.TRAINER),
    )
    context = {
        "rows": rows,
        "scopes": scopes_of(place.shop),
        "today": place.day(now),
        "count": len(to_do),
        "to_do": [(one, reverse(one.page, args=one.args)) for one in to_do[:MOST_TO_DO]],
    }
    return render(request, "certificates/floor.html", context)


@shop_page(Role.TRAINER, Role.OWNER, methods="GET HEAD")
def person(request: HttpRequest, place: Place, person: UUID) -> HttpResponse:
    """One person's course, theory, hands-on and certificates."""
    who = get_object_or_404(person_in(place.shop), reference=person)
    page = queries.person_page(place=place, person=who, at=timezone.now())
    context = {
        "who": who,
        "is_oneself": who == place.person,
        "is_trainer": place.has(Role.TRAINER),
        "page": page,
        "ways": [(way, ExtraRoundForm(auto_id=f"id_{way.scope.slug}_%s")) for way in page.ways],
    }
    return render(request, "certificates/person.html", context)
