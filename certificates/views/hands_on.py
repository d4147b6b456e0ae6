"""The hands-on sheet and the record it leaves."""

from uuid import UUID

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils import timezone
from django.views.decorators.http import require_GET, require_http_methods

from certificates import acts, queries
from certificates.forms import HandsOnForm
from certificates.scopes import scopes
from training.access import Place, shop_page
from training.models import Role
from training.rulebook import load_edition


@require_http_methods(["GET", "POST"])
@shop_page(Role.TRAINER)
def hands_on(request: HttpRequest, place: Place, person: UUID) -> HttpResponse:
    """Mark what a learner does, criterion by criterion."""
    learner = get_object_or_404(queries.learner_in(place), reference=person)
    form = HandsOnForm(request.POST or None, edition=place.edition, scopes=scopes(place.edition.name))
    if request.method == "POST" and form.is_valid():
        try:
            record = acts.record_hands_on(
                shop=place.shop,
                learner=learner,
                trainer=place.person,
                scope=form.scopes[form.cleaned_data["scope"]],
                edition=place.edition,
                marks=form.marks(),
                remarks=form.cleaned_data["remarks"],
                press=form.cleaned_data["press"],
                at=timezone.now(),
            )
        except acts.HandsOnRefused as refusal:
            form.add_error(None, str(refusal))
        else:
            outcome = "passed" if record.has_passed else "not passed"
            messages.success(request, f"Recorded hands-on of {learner.name}: {outcome}.")
            return redirect("certificates:hands_on_record", place.shop.slug, record.reference)
    return render(request, "certificates/hands_on.html", {"form": form, "learner": learner})


@require_GET
@shop_page()
def hands_on_record(request: HttpRequest, place: Place, reference: UUID) -> HttpResponse:
    """One record as it was made, to read and to print."""
    record = get_object_or_404(queries.hands_on_in(place), reference=reference)
    failed = [line["text"] for line in record.criteria if line["critical"] and line["mark"] != acts.MET]
    title = load_edition(record.edition).title
    return render(request, "certificates/hands_on_record.html", {"record": record, "failed": failed, "edition": title})
