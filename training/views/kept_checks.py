"""The shop's record of checks: keep one, find it again, print the customer's statement."""

from urllib.parse import urlencode
from uuid import UUID

from django.contrib import messages
from django.core.paginator import Paginator
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils import timezone

from training import acts, queries
from training.access import Place, shop_page
from training.forms.kept_checks import KeepForm, SearchForm
from training.pages.kept_checks import kept_result
from training.pages.verdict import examine
from training.trade.speech import say
from training.views import check_a_tire

ON_A_PAGE = 50


@shop_page(methods="POST")
def check_keep(request: HttpRequest, place: Place) -> HttpResponse:
    """Keep the check whose case the address holds."""
    form = check_a_tire.form_of(request.GET, edition=place.edition, shop=place.shop)
    corrected = check_a_tire.corrected_by(request.GET, place)
    if not check_a_tire.is_to_decide(request.GET, form):
        return redirect(f"{reverse('training:check', args=[place.shop.slug])}?{request.GET.urlencode()}")
    result = examine(form.case, edition=place.edition, prefer=place.shop.units, units=place.units)
    keep = KeepForm(request.POST, case=form.case, verdict=result.decision.verdict, is_correction=corrected is not None)
    if keep.is_valid():
        try:
            entry = acts.keep_check(
                shop=place.shop,
                person=place.person,
                case=form.case,
                found=form.found(),
                entered=form.entered(),
                corrects=corrected,
                at=timezone.now(),
                **keep.cleaned_data,
            )
        except acts.CheckRefused as refusal:
            keep.add_error(None, str(refusal))
        else:
            messages.success(request, say("Kept this check."))
            return redirect("training:check_record", place.shop.slug, entry.reference)
    return check_a_tire.show(request, place, form, result=result, corrected=corrected, keep=keep)


@shop_page()
def checks(request: HttpRequest, place: Place) -> HttpResponse:
    """Every check the shop kept, searched."""
    form = SearchForm(request.GET or None, people=queries.who_looked(place.shop, person=place.person))
    rows = Paginator(queries.found_checks(place.shop, form.wanted()), ON_A_PAGE)
    page = rows.get_page(request.GET.get("page"))
    asked = {name: value for name, value in request.GET.items() if value and name != "page"}
    context = {
        "form": form,
        "page": page,
        "asked": urlencode(asked),
        "is_search": bool(asked),
        "mine": urlencode({"by": place.person.reference}),
    }
    return render(request, "training/checks.html", context)


@shop_page()
def check_record(request: HttpRequest, place: Place, reference: UUID) -> HttpResponse:
    """One entry as it was kept."""
    entry = get_object_or_404(queries.checks_in(place.shop), reference=reference)
    again = urlencode({**entry.found, check_a_tire.CORRECTS: entry.reference, check_a_tire.STEP: check_a_tire.ASK})
    context = {"entry": entry, "result": kept_result(entry.decision, entry.printed), "again": again}
    context |= {"card_url": f"?{check_a_tire.CARD}=1", "rules_url": f"?{check_a_tire.RULES}=1", "back": "?"}
    page = next((name for name in (check_a_tire.CARD, check_a_tire.RULES) if name in request.GET), "record")
    return render(request, f"training/check_{page}.html", context)


@shop_page()
def check_statement(request: HttpRequest, place: Place, reference: UUID) -> HttpResponse:
    """What the customer is given on paper."""
    entry = get_object_or_404(queries.checks_in(place.shop), reference=reference)
    context = {"entry": entry, "result": kept_result(entry.decision, entry.printed)}
    return render(request, "training/check_statement.html", context)
