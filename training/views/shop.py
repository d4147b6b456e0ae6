"""The shop's settings."""

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render

from training import acts
from training.access import Place, shop_page
from training.forms.shop import ShopForm
from training.models import Role
from training.trade.speech import say


@shop_page(Role.OWNER, methods="GET HEAD POST", while_sitting=True)
def settings(request: HttpRequest, place: Place) -> HttpResponse:
    """Name, units, time zone, certificate months, and whether Check a tire asks for a login."""
    form = ShopForm(request.POST or None, initial={name: getattr(place.shop, name) for name in ShopForm.base_fields})
    if form.is_valid():
        acts.change_shop(shop=place.shop, **form.cleaned_data)
        messages.success(request, say("Settings stored."))
        return redirect("training:shop_settings", place.shop.slug)
    return render(request, "training/shop_settings.html", {"form": form, "edition": place.edition})
