"""Audit a repair: the job as it was done, held against the rulebook."""

from typing import Any

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.utils import timezone

from training.access import Place, shop_page
from training.forms.job import PasteForm, SheetForm, StartForm
from training.pages.audit import audited
from training.views.check_a_tire import kept_check


@shop_page(methods="GET HEAD POST")
def audit(request: HttpRequest, place: Place) -> HttpResponse:
    """Choose casing and method, fill in the sheet that follows, or paste a job; the faults come out."""
    edition, on = place.edition, place.day(timezone.now()).isoformat()
    kept = kept_check(place, request.GET.get("check"))
    asked = request.GET.copy()
    if kept is not None:
        asked["casing"] = kept.casing
    start = StartForm(
        asked if "method" in asked else None, edition=edition, initial={"casing": asked.get("casing", "")}
    )
    pasted = request.method == "POST" and request.POST.get("how") == "paste"
    paste = PasteForm(request.POST if pasted else None, request.FILES if pasted else None, edition=edition, on=on)
    sheet = None
    if start.is_bound and start.is_valid():
        filled = request.POST if request.method == "POST" and not pasted else None
        case = kept.case if kept is not None else None
        sheet = SheetForm(filled, edition=edition, case=case, on=on, prefer=place.shop.units, **start.cleaned_data)
    filled_in = paste if pasted else sheet
    context: dict[str, Any] = {"start": start, "paste": paste, "sheet": sheet, "kept": kept, "edition": edition}
    context["form"] = filled_in if filled_in is not None and filled_in.is_bound else start
    if filled_in is not None and filled_in.is_bound and filled_in.is_valid():
        said = {"untouched": sheet.untouched, "not_done": sheet.not_done} if filled_in is sheet and sheet else {}
        context["audited"] = audited(filled_in.job, units=place.units, **said)
        context["job_text"] = filled_in.job_text()
    return render(request, "training/audit.html", context)
