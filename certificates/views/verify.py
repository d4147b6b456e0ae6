"""The page anyone opens by a certificate's number: whether it is valid, now, in plain words. No login."""

import time
from zoneinfo import ZoneInfo

from allauth.account.adapter import get_adapter
from django.core.cache import cache
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils import timezone
from django.views.decorators.cache import never_cache
from django.views.decorators.http import require_GET

from certificates import queries
from certificates.forms.certificates import LookupForm
from certificates.numbers import MalformedNumber, read_number, show_number
from training.rulebook import edition_language
from training.speaking import speaking
from training.trade.lists import all_of
from training.trade.speech import say

LOOKUPS_A_MINUTE = 60


def _is_too_often(request: HttpRequest) -> bool:
    """Count a look-up by the client's address: True beyond LOOKUPS_A_MINUTE, so that nobody tries them all."""
    key = f"lookups-{get_adapter().get_client_ip(request)}-{int(time.time() // 60)}"
    return not cache.add(key, 1, timeout=120) and cache.incr(key) > LOOKUPS_A_MINUTE


@require_GET
@never_cache
def lookup(request: HttpRequest) -> HttpResponse:
    """Where to type a number."""
    form = LookupForm(request.GET if "number" in request.GET else None)
    if form.is_bound and form.is_valid():
        try:
            number = read_number(form.cleaned_data["number"])
        except MalformedNumber as problem:
            form.add_error("number", say("Certificate number: {problem}.", problem=problem))
        else:
            return redirect("certificates:verify", show_number(number))
    return render(request, "certificates/verify_lookup.html", {"form": form})


@require_GET
@never_cache
def verify(request: HttpRequest, number: str) -> HttpResponse:
    """Whether the certificate of this number is valid now."""
    malformed, symbols, address = "", "", ""
    try:
        symbols = read_number(number)
    except MalformedNumber as problem:
        malformed = str(problem)
    else:
        address = reverse("certificates:verify", args=[show_number(symbols)])
        if request.path != address:
            return redirect(address)
    if _is_too_often(request):
        return render(request, "certificates/verify_busy.html", {"limit": LOOKUPS_A_MINUTE}, status=429)
    certificate = queries.on_the_web().filter(number=symbols).first() if symbols else None
    if certificate is None:
        context = {"malformed": malformed, "number": show_number(symbols), "form": LookupForm()}
        return render(request, "certificates/verify_unknown.html", context, status=404)
    now = timezone.now()
    # what it prints is kept in the language of the shop that issued it
    with timezone.override(ZoneInfo(certificate.shop.time_zone)), speaking(edition_language(certificate.edition)):
        return render(
            request,
            "certificates/verify.html",
            {
                "certificate": certificate,
                "number": show_number(symbols),
                "standing": queries.standing_of(certificate, now),
                "now": now,
                "tires": all_of(certificate.tires),
                "address": request.build_absolute_uri(address),
            },
        )
