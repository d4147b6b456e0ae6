"""A shop's own photographs: bring one, look at it, keep it; confirm what another says it shows; take one back."""

from uuid import UUID

from django.contrib import messages
from django.core.paginator import Paginator
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils import timezone

from training import acts, queries
from training.access import Place, shop_page
from training.forms.photographs import KeepPhotographForm, PhotographForm, TakeBackForm
from training.models import Role
from training.pages import photographs as pages
from training.trade.speech import say

ON_A_PAGE = 24


@shop_page(Role.TRAINER, Role.OWNER)
def photographs(request: HttpRequest, place: Place) -> HttpResponse:
    """What the shop keeps, and what waits for a second trainer."""
    page = Paginator(queries.photographs_in(place.shop), ON_A_PAGE).get_page(request.GET.get("page"))
    context = {
        "page": page,
        "rows": pages.rows(
            page,
            edition=place.edition,
            standing=queries.standing_photographs(place.shop),
            trainers=queries.trainers_of(place.shop),
        ),
        "draft": queries.photograph_drafts(place.shop, place.person).first(),
        "is_trainer": place.has(Role.TRAINER),
    }
    return render(request, "training/photographs.html", context)


@shop_page(Role.TRAINER, methods="GET HEAD POST")
def photograph_add(request: HttpRequest, place: Place) -> HttpResponse:
    """Bring a photograph and say what it shows."""
    form = PhotographForm(*((request.POST, request.FILES) if request.method == "POST" else ()))
    if form.is_valid():
        try:
            draft = acts.bring_photograph(shop=place.shop, by=place.person, at=timezone.now(), **form.cleaned_data)
        except acts.PhotographRefused as refusal:
            form.add_error("photograph", str(refusal))
        else:
            return redirect("training:photograph_look", place.shop.slug, draft.reference)
    return render(request, "training/photograph_add.html", {"form": form})


@shop_page(Role.TRAINER, methods="GET HEAD POST")
def photograph_look(request: HttpRequest, place: Place, reference: UUID) -> HttpResponse:
    """One's own draft as it will be, before it is kept."""
    draft = get_object_or_404(queries.photograph_drafts(place.shop, place.person), reference=reference)
    form = KeepPhotographForm(request.POST if request.method == "POST" else None)
    if form.is_valid():
        try:
            acts.keep_photograph(photograph=draft, at=timezone.now())
        except acts.PhotographRefused as refusal:
            form.add_error(None, str(refusal))
        else:
            messages.success(request, say("Kept this photograph: {shows}.", shows=draft.shows))
            return redirect("training:photographs", place.shop.slug)
    [row] = pages.rows([draft], edition=place.edition, standing=(), trainers=queries.trainers_of(place.shop))
    return render(request, "training/photograph_look.html", {"form": form, "row": row})


@shop_page(Role.TRAINER, methods="POST")
def photograph_discard(request: HttpRequest, place: Place, reference: UUID) -> HttpResponse:
    """Drop one's own draft."""
    draft = get_object_or_404(queries.photograph_drafts(place.shop, place.person), reference=reference)
    acts.discard_photograph(photograph=draft)
    messages.success(request, say("The photograph was not kept; nothing of it is left."))
    return redirect("training:photographs", place.shop.slug)


@shop_page(Role.TRAINER, methods="POST")
def photograph_confirm(request: HttpRequest, place: Place, reference: UUID) -> HttpResponse:
    """Say as a second trainer that it shows what the first one says."""
    found = get_object_or_404(queries.photographs_in(place.shop), reference=reference)
    try:
        acts.confirm_photograph(photograph=found, by=place.person, at=timezone.now())
    except acts.PhotographRefused as refusal:
        messages.error(request, str(refusal))
    else:
        messages.success(request, say("Confirmed: {shows}.", shows=found.shows))
    return redirect("training:photographs", place.shop.slug)


@shop_page(Role.TRAINER, methods="GET HEAD POST")
def photograph_take_back(request: HttpRequest, place: Place, reference: UUID) -> HttpResponse:
    """Show and ask it no more, and say why."""
    found = get_object_or_404(queries.photographs_in(place.shop), reference=reference)
    form = TakeBackForm(request.POST if request.method == "POST" else None)
    if form.is_valid():
        acts.take_back_photograph(photograph=found, by=place.person, at=timezone.now(), **form.cleaned_data)
        messages.success(request, say("Taken back: {shows}.", shows=found.shows))
        return redirect("training:photographs", place.shop.slug)
    [row] = pages.rows(
        [found],
        edition=place.edition,
        standing=queries.standing_photographs(place.shop),
        trainers=queries.trainers_of(place.shop),
    )
    return render(request, "training/photograph_take_back.html", {"form": form, "row": row})


@shop_page()
def photograph_picture(request: HttpRequest, place: Place, reference: UUID) -> HttpResponse:
    """The picture itself."""
    sees_all = place.has(Role.TRAINER, Role.OWNER)
    file = queries.photograph_picture(place.shop, reference, person=place.person, sees_all=sees_all)
    return HttpResponse(file, content_type="image/webp")
