"""Check a tire: the rulebook as a job aid. The address of the page holds all that was found, so it can be passed on."""

from collections.abc import Collection
from typing import Any
from urllib.parse import urlencode
from uuid import UUID
from zoneinfo import ZoneInfo

from django.http import Http404, HttpRequest, HttpResponse, QueryDict
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils import timezone
from django.views.decorators.http import require_GET

from training import queries
from training.access import Place, closed_to, shop_page
from training.forms.check_a_tire import TireForm
from training.forms.kept_checks import KeepForm
from training.forms.tire_needs import asked_fields
from training.forms.tire_parts import FIRST, HOLE, INSIDE, PARTS, TIRE_PART
from training.models import Shop, TireCheck, User
from training.pages.verdict import Result, examine
from training.queries import edition_of, units_of
from training.rulebook import CASINGS, PURPOSES, Edition
from training.speaking import speaking
from training.trade.words import LOOK_FIRST_WORDS

FOUND_NOTHING, TAKE_BACK, EMPTY, FILL = "nothing_else", "take_back", "empty", "fill"
STEP, AT, ASK, ALL = "step", "at", "hole", "all"
CARD, RULES, KEEP = "card", "rules", "keep"
CORRECTS = "corrects"


@shop_page()
def check(request: HttpRequest, place: Place) -> HttpResponse:
    """First casing and purpose, then what they need; above it, once something was entered, the decision."""
    corrected = corrected_by(request.GET, place)
    form = form_of(request.GET, edition=place.edition, shop=place.shop)
    answer = redirect_or_none(request, form)
    if answer is not None:
        return answer
    result = None
    if is_to_decide(request.GET, form):
        result = examine(form.case, edition=place.edition, prefer=place.shop.units, units=place.units)
        if page := page_alone(request, form, result):
            return page
    return show(request, place, form, result=result, corrected=corrected)


@require_GET
def check_public(request: HttpRequest, shop: str) -> HttpResponse:
    """The same for anyone, where the shop's owner allows it. Nothing is kept, and nobody of the shop is named."""
    owner = get_object_or_404(queries.shops_open_to_all(), slug=shop)
    edition = edition_of(owner)
    with timezone.override(ZoneInfo(owner.time_zone)), speaking(edition.language):
        if isinstance(request.user, User) and (closed := closed_to(request, request.user)):
            return closed
        form = form_of(request.GET, edition=edition, shop=owner)
        answer = redirect_or_none(request, form)
        if answer is not None:
            return answer
        context = {"form": form, "edition": edition, "check_url": request.path, "shop": owner, "query": request.GET}
        if is_to_decide(request.GET, form):
            result = examine(form.case, edition=edition, prefer=owner.units, units=units_of(owner))
            if page := page_alone(request, form, result):
                return page
            context |= {"result": result, "entered": form.entered(), **addresses(request.path, form)}
            context |= open_rows(form, result)
        return render(request, "training/check_public.html", context)


def form_of(asked: QueryDict, *, edition: Edition, shop: Shop) -> TireForm:
    """The form that an address fills in, asking what its casing and purpose need."""
    today = timezone.now().astimezone(ZoneInfo(shop.time_zone)).date()
    casing, purpose = asked.get("casing", ""), asked.get("purpose", "") or "repair"
    needs: Collection[str] | None = FIRST
    step = asked.get(STEP, "")
    if step == ALL:
        needs = None
    elif casing in CASINGS and purpose in PURPOSES:
        needs = asked_fields(edition, casing=casing, purpose=purpose)
    part = step if step in PARTS else HOLE if step else TIRE_PART
    return TireForm(asked or None, edition=edition.name, today=today, asks=needs, prefer=shop.units, on_page=part)


def way_to(form: TireForm, **more: str) -> str:
    """The address of what was found, from the page itself."""
    return f"?{urlencode(form.found() | more)}"


def addresses(page: str, form: TireForm, **more: str) -> dict[str, str]:
    """Where a decision is changed, and where its job cards and its rules stand alone."""
    ways = {"way_to": {}, "card_url": {CARD: "1"}, "rules_url": {RULES: "1"}}
    return {name: page + way_to(form, **more, **what) for name, what in ways.items()}


def page_alone(request: HttpRequest, form: TireForm, result: Result) -> HttpResponse | None:
    """The job cards alone, or every rule with its source; None where neither is asked for."""
    context = {"form": form, "result": result, "back": way_to(form)}
    if RULES in request.GET:
        return render(request, "training/check_rules.html", context)
    return render(request, "training/check_card.html", context) if CARD in request.GET and result.cards else None


def redirect_or_none(request: HttpRequest, form: TireForm) -> HttpResponse | None:
    """The way to the one address that holds what was found and nothing else; None where this is it."""
    if not form.is_bound:
        return None
    found = form.found()
    section = ""
    for name, answered in ((FOUND_NOTHING, form.with_nothing_else), (TAKE_BACK, form.without_press),
                           (EMPTY, form.emptied), (FILL, form.filled_in)):  # fmt: skip
        if pressed := request.GET.get(name):
            section, found = pressed, answered(found, pressed)
    kept = {name: request.GET[name] for name in (STEP, CORRECTS, CARD, RULES, KEEP) if request.GET.get(name)}
    if section and request.GET.get(AT) in (*PARTS, ALL):
        kept[STEP] = request.GET[AT]  # the page on which the press was
    if STEP not in kept:
        found.setdefault("on", form.today.isoformat())  # opened on a later day, the address gives this day's decision
    if dict(request.GET.items()) == found | kept:
        return None
    at = f"#{section}" if form.part_of(section) else form.place_of(section)  # back to where the press was
    return redirect(f"{request.path}?{urlencode(found | kept)}{at}")


def open_rows(form: TireForm, result: Result) -> dict[str, Any]:
    """What is still to be looked at, ready to be answered, and all else that is sent along."""
    groups = form.still_open(result.open_paths) if result.decision.is_open else []
    where = {one.part for one in groups}
    head = (
        LOOK_FIRST_WORDS[INSIDE] if where == {INSIDE} else result.look_first
    )  # oil is looked for inside, and seen outside
    return {
        "look_first": head,
        "still_open": groups,
        "carried": form.carried({field.name for one in groups for field in one.fields}),
    }


def is_to_decide(asked: QueryDict, form: TireForm) -> bool:
    """Whether the address asks for a decision and holds a case."""
    return form.is_bound and STEP not in asked and form.is_valid()


def corrected_by(asked: QueryDict, place: Place) -> TireCheck | None:
    """The entry that a check is to correct; 404 for one that is not the shop's."""
    return kept_check(place, asked.get(CORRECTS))


def kept_check(place: Place, reference: str | None) -> TireCheck | None:
    """The kept check that an address names; None where it names none, 404 for one that is not the shop's."""
    if not reference:
        return None
    try:
        named = UUID(reference)
    except ValueError:
        raise Http404 from None
    return get_object_or_404(queries.checks_in(place.shop), reference=named)


def show(
    request: HttpRequest,
    place: Place,
    form: TireForm,
    *,
    result: Result | None,
    corrected: TireCheck | None,
    keep: KeepForm | None = None,
) -> HttpResponse:
    """The page for people of the shop, with the form that keeps the check once there is a decision."""
    check_url = reverse("training:check", args=[place.shop.slug])
    context: dict[str, Any] = {
        "form": form,
        "edition": place.edition,
        "check_url": check_url,
        "corrected": corrected,
        "query": request.GET,
    }
    if result is not None:
        on_behalf = {CORRECTS: str(corrected.reference)} if corrected else {}
        before = {"tin": corrected.tin, "ticket": corrected.ticket} if corrected else {}
        context |= {
            "result": result,
            "entered": form.entered(),
            **addresses(check_url, form, **on_behalf),
            "keep_here": check_url + way_to(form, **{KEEP: "1"}, **on_behalf),
            **open_rows(form, result),
            "keep": keep
            or KeepForm(
                initial=before, case=form.case, verdict=result.decision.verdict, is_correction=corrected is not None
            ),
            "keep_url": f"{reverse('training:check_keep', args=[place.shop.slug])}?{request.GET.urlencode()}",
        }
        if place.shop.public_check:
            address = reverse("training:check_public", args=[place.shop.slug])
            shared = urlencode(form.found())
            context["public_address"] = request.build_absolute_uri(f"{address}?{shared}")
    is_to_keep = result is not None and (keep is not None or KEEP in request.GET)
    return render(request, "training/check_keep.html" if is_to_keep else "training/check.html", context)
