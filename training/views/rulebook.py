"""The shop's rulebook to read and to check."""

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render

from training.access import Place, shop_page
from training.pages.rulebook import rulebook_page
from training.rulebook import edition_versions


@shop_page()
def from_memory(request: HttpRequest, place: Place) -> HttpResponse:
    """What nobody has read in its source, then every clause with its limits and sources."""
    context = {
        "edition": place.edition,
        "versions": edition_versions(place.shop.edition),
        "book": rulebook_page(place.edition),
    }
    return render(request, "training/rulebook.html", context)
