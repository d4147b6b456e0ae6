"""The scopes a shop works in: the owner turns them on and off."""

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone

from assessments import acts
from certificates import queries
from certificates.forms.scopes import ScopesForm
from certificates.queries import scopes_in, scopes_of
from training.access import Place, shop_page
from training.models import Role
from training.trade.letters import within
from training.trade.speech import say


@shop_page(Role.OWNER, methods="GET HEAD POST")
def scopes(request: HttpRequest, place: Place) -> HttpResponse:
    """What is on, what rests on it, and the boxes to change it."""
    at = timezone.now()
    form = ScopesForm(
        request.POST if request.method == "POST" else None,
        scopes=scopes_in(place.shop.edition),
        initial={"scopes": [scope.slug for scope in scopes_of(place.shop)]},
    )
    if form.is_valid():
        try:
            shop = acts.choose_scopes(shop=place.shop, scopes=form.cleaned_data["scopes"], by=place.person, at=at)
        except acts.ScopesRefused as refusal:
            form.add_error("scopes", str(refusal))
        else:
            tires = "; ".join(within(scope.tires) for scope in scopes_of(shop))
            messages.success(request, say("The shop works on {tires}.", tires=tires))
            return redirect("certificates:scopes", place.shop.slug)
    context = {"form": form, "rows": queries.scope_rows(place, at), "edition": place.edition}
    return render(request, "certificates/scopes.html", context)
