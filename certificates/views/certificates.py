"""A certificate inside its shop: read it, print it, issue it, suspend, restore or revoke it."""

from typing import Any
from uuid import UUID

from django.conf import settings
from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils import timezone

from assessments.queries import withdrawn_in
from certificates import acts, queries
from certificates.documents.certificate import PAPERS, certificate_pdf
from certificates.forms.certificates import ReasonForm
from certificates.models import Certificate, Status
from certificates.numbers import MalformedNumber, read_number, show_number
from certificates.queries import UnknownScope, scope_of
from training.access import Place, shop_page
from training.models import Role, Units
from training.trade.lists import one_of
from training.trade.speech import say, saying

PAPER_NAMES = [("a4", "A4"), ("letter", saying("US Letter"))]
# address word -> (act, what was done)
CHANGES = {
    "suspend": (acts.suspend, saying("Suspended certificate {number} of {holder}.")),
    "restore": (acts.restore, saying("Restored certificate {number} of {holder}.")),
    "revoke": (acts.revoke, saying("Revoked certificate {number} of {holder}.")),
}


def _find(place: Place, number: str) -> Certificate:
    """A certificate that the reader may see, by its number in any spelling; 404 otherwise."""
    try:
        symbols = read_number(number)
    except MalformedNumber as problem:
        raise Http404 from problem
    return get_object_or_404(queries.certificates_in(place), number=symbols)


def _page(request: HttpRequest, place: Place, found: Certificate, **context: Any) -> HttpResponse:
    """The certificate's page; `form` replaces the empty form of the act that was refused."""
    standing = queries.standing_of(found, timezone.now())
    return render(
        request,
        "certificates/certificate.html",
        {
            "certificate": found,
            "withdrawn": withdrawn_in(found.attempt.form_id),
            "is_staff": place.has(Role.OWNER, Role.TRAINER),
            "number": show_number(found.number),
            "standing": standing,
            "can_print": standing.status in (Status.VALID, Status.EXPIRED),
            "papers": PAPER_NAMES if place.shop.units == Units.METRIC else PAPER_NAMES[::-1],
            "may_change": place.has(Role.OWNER) and standing.status is not Status.REVOKED,
            "form": ReasonForm(),
            "check_address": settings.ADDRESS + reverse("certificates:verify", args=[show_number(found.number)]),
            **context,
        },
    )


@shop_page(while_sitting=True)
def certificate(request: HttpRequest, place: Place, number: str) -> HttpResponse:
    """What a certificate says, what it rests on and what happened to it."""
    return _page(request, place, _find(place, number))


@shop_page(while_sitting=True)
def certificate_pdf_file(request: HttpRequest, place: Place, number: str) -> HttpResponse:
    """The certificate to print; `?paper=` a4 or letter. A suspended or revoked one is not printed anew."""
    found = _find(place, number)
    shown = show_number(found.number)
    usual = "a4" if place.shop.units == Units.METRIC else "letter"
    paper = request.GET.get("paper", usual)
    status = queries.standing_of(found, timezone.now()).status
    if paper not in PAPERS:
        messages.error(
            request, say('Paper: "{paper}" is not accepted; choose {papers}.', paper=paper, papers=one_of(PAPERS))
        )
        return redirect("certificates:certificate", place.shop.slug, shown)
    if status not in (Status.VALID, Status.EXPIRED):
        messages.error(
            request, say("Certificate {number} is {status}: it cannot be printed.", number=shown, status=status.words)
        )
        return redirect("certificates:certificate", place.shop.slug, shown)
    record = queries.printed(found, site=settings.ADDRESS, path=reverse("certificates:verify", args=[shown]))
    response = HttpResponse(certificate_pdf(record, paper=paper), content_type="application/pdf")
    response["Content-Disposition"] = f'inline; filename="certificate-{shown}.pdf"'
    return response


@shop_page(Role.OWNER, Role.TRAINER, methods="POST", while_sitting=True)
def issue(request: HttpRequest, place: Place, person: UUID) -> HttpResponse:
    """Issue a certificate on what the person passed."""
    holder = get_object_or_404(queries.member_in(place), reference=person)
    try:
        made = acts.issue_certificate(
            shop=place.shop,
            holder=holder,
            issuer=place.person,
            scope=scope_of(place.shop, request.POST.get("scope", "")),
            at=timezone.now(),
        )
    except (acts.CertificateRefused, UnknownScope) as refusal:
        messages.error(request, str(refusal))
        return redirect("certificates:roster", place.shop.slug)
    messages.success(
        request,
        say(
            "Issued certificate {number} to {holder}.",
            number=show_number(made.number),
            holder=made.holder_name,
        ),
    )
    return redirect("certificates:certificate", place.shop.slug, show_number(made.number))


@shop_page(Role.OWNER, methods="POST", while_sitting=True)
def change(request: HttpRequest, place: Place, number: str, act: str) -> HttpResponse:
    """Suspend or restore a certificate with a reason."""
    found = _find(place, number)
    form = ReasonForm(request.POST)
    if _done(request, place, found, form, act):
        return redirect("certificates:certificate", place.shop.slug, show_number(found.number))
    return _page(request, place, found, form=form)


@shop_page(Role.OWNER, methods="GET POST", while_sitting=True)
def revoke(request: HttpRequest, place: Place, number: str) -> HttpResponse:
    """Ask once more, then revoke for good."""
    found = _find(place, number)
    form = ReasonForm(request.POST or None)
    if request.method == "POST" and _done(request, place, found, form, "revoke"):
        return redirect("certificates:certificate", place.shop.slug, show_number(found.number))
    return render(
        request,
        "certificates/revoke.html",
        {
            "certificate": found,
            "number": show_number(found.number),
            "form": form,
            "standing": queries.standing_of(found, timezone.now()),
        },
    )


def _done(request: HttpRequest, place: Place, found: Certificate, form: ReasonForm, act: str) -> bool:
    """Do one act of an owner if the form and the certificate allow it; else the form says why not."""
    do, told = CHANGES[act]
    if not form.is_valid():
        return False
    try:
        do(certificate=found, by=place.person, reason=form.cleaned_data["reason"], at=timezone.now())
    except acts.EventRefused as refusal:
        form.add_error(None, str(refusal))
        return False
    messages.success(
        request,
        say(told, number=show_number(found.number), holder=found.holder_name),
    )
    return True
