"""The shop's rulebook to read and to check."""

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render

from training.access import Place, shop_page
from training.pages.rulebook import rulebook_page, rules_that_say
from training.views.same_for_all import whole_rulebook

# what a reader may look for [letters]; so many rules found lie open [rules]
_LONGEST, _OPEN = 80, 6


@shop_page()
def from_memory(request: HttpRequest, place: Place) -> HttpResponse:
    """Every clause by subject with its limits and sources, or those that say some words; what nobody has read."""
    wanted = " ".join(request.GET.get("q", "").split())[:_LONGEST]
    found = rules_that_say(rulebook_page(place.edition), wanted) if wanted else ()
    count = sum(len(group.rules) for group in found)
    context = {
        "edition": place.edition,
        "whole": "" if wanted else whole_rulebook(place.edition),
        "wanted": wanted,
        "found": found,
        "count": count,
        "are_open": 0 < count <= _OPEN,
    }
    return render(request, "training/rulebook.html", context)
