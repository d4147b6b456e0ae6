"""The hands-on sheet and the record it leaves."""

from uuid import UUID

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils import timezone

from certificates import acts, queries
from certificates.forms.hands_on import HandsOnForm
from certificates.queries import Scope, UnknownScope, scope_of, scope_title, scopes_of
from training.access import Place, shop_page
from training.models import Role, User
from training.rulebook import edition_title
from training.trade.speech import say


@shop_page(Role.TRAINER, methods="GET POST")
def hands_on(request: HttpRequest, place: Place, person: UUID) -> HttpResponse:
    """Choose for which tires the work is seen; where the shop works in one scope, straight to its sheet."""
    learner = get_object_or_404(queries.learner_in(place), reference=person)
    scopes = scopes_of(place.shop)
    if len(scopes) == 1:
        return _sheet(request, place, learner, scopes[0])
    return render(request, "certificates/hands_on_choose.html", {"learner": learner, "scopes": scopes})


@shop_page(Role.TRAINER, methods="GET POST")
def hands_on_sheet(request: HttpRequest, place: Place, person: UUID, scope: str) -> HttpResponse:
    """Mark what a learner does, criterion by criterion, for the tires of one scope."""
    learner = get_object_or_404(queries.learner_in(place), reference=person)
    try:
        chosen = scope_of(place.shop, scope)
    except UnknownScope as problem:
        raise Http404 from problem
    return _sheet(request, place, learner, chosen)


def _sheet(request: HttpRequest, place: Place, learner: User, scope: Scope) -> HttpResponse:
    form = HandsOnForm(request.POST or None, edition=place.edition, scope=scope)
    if request.method == "POST" and form.is_valid():
        try:
            record = acts.record_hands_on(
                shop=place.shop,
                learner=learner,
                trainer=place.person,
                scope=scope,
                edition=place.edition,
                marks=form.marks(),
                remarks=form.cleaned_data["remarks"],
                press=form.cleaned_data["press"],
                at=timezone.now(),
            )
        except acts.HandsOnRefused as refusal:
            form.add_error(None, str(refusal))
        else:
            told = (
                say("Recorded hands-on of {learner}: passed.", learner=learner.name)
                if record.has_passed
                else say("Recorded hands-on of {learner}: not passed.", learner=learner.name)
            )
            messages.success(request, told)
            return redirect("certificates:hands_on_record", place.shop.slug, record.reference)
    return render(request, "certificates/hands_on.html", {"form": form, "learner": learner, "scope": scope})


@shop_page()
def hands_on_record(request: HttpRequest, place: Place, reference: UUID) -> HttpResponse:
    """One record as it was made, to read and to print."""
    record = get_object_or_404(queries.hands_on_in(place), reference=reference)
    failed = [line["text"] for line in record.criteria if line["critical"] and line["mark"] != acts.MET]
    context = {
        "record": record,
        "failed": failed,
        "edition": edition_title(record.edition),
        "scope": scope_title(record.scope),
    }
    return render(request, "certificates/hands_on_record.html", context)
