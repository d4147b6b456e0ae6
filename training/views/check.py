"""Check a tire: the rulebook as a job aid. The address of the page holds all that was found, so it can be passed on."""

from urllib.parse import urlencode

from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.views.decorators.http import require_GET

from training.access import Place, shop_page
from training.forms.tire import TireForm, finding_names
from training.verdict_page import examine

FOUND_NOTHING = "nothing_else"


@require_GET
@shop_page()
def check(request: HttpRequest, place: Place) -> HttpResponse:
    """The form, and above it, once something was entered, the decision with all its rulings."""
    today = place.day(timezone.now())
    form = TireForm(request.GET or None, edition=place.edition.name, today=today)
    if not form.is_bound:
        return render(request, "training/check.html", {"form": form})
    found = {name: request.GET[name].strip() for name in form.fields if request.GET.get(name, "").strip()}
    if FOUND_NOTHING in request.GET:
        found = dict.fromkeys(finding_names(), "no") | found
    found.setdefault("on", today.isoformat())  # opened on a later day, the address gives this day's decision
    if dict(request.GET.items()) != found:
        return redirect(f"{request.path}?{urlencode(found)}")
    if not form.is_valid():
        return render(request, "training/check.html", {"form": form})
    result = examine(form.case, edition=place.edition, prefer=place.shop.units, units=place.units)
    return render(request, "training/check.html", {"form": form, "result": result})
