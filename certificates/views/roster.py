"""The Roster: who may do what on a day, as a page and as a table to download."""

import csv
from datetime import date

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.utils import timezone

from certificates import queries
from certificates.forms.certificates import RosterForm
from certificates.numbers import show_number
from certificates.queries import scopes_of
from training.access import Place, shop_page
from training.models import Role
from training.trade.speech import say, saying

# a spreadsheet runs a cell that begins so as a formula
FORMULA_STARTS = ("=", "+", "-", "@", "\t", "\r", "\n")
COLUMNS = (
    saying("On"),
    saying("Name"),
    saying("Roles"),
    saying("Scope"),
    saying("Status"),
    saying("Certificate"),
    saying("Issued"),
    saying("Valid through"),
)


def _asked(request: HttpRequest, today: date) -> tuple[RosterForm, date]:
    """The form and the day it asks for; today when it asks for none or for something that is not a day."""
    form = RosterForm(request.GET if "on" in request.GET else None, initial={"on": today})
    on = form.cleaned_data["on"] if form.is_bound and form.is_valid() else None
    return form, on or today


@shop_page(Role.OWNER, Role.TRAINER, while_sitting=True)
def roster(request: HttpRequest, place: Place) -> HttpResponse:
    """Staff against scopes on a day."""
    now = timezone.now()
    form, on = _asked(request, place.day(now))
    found = queries.roster(shop=place.shop, on=on, at=now, scopes=scopes_of(place.shop))
    context = {"form": form, "roster": found, "is_today": on == place.day(now), "is_trainer": place.has(Role.TRAINER)}
    return render(request, "certificates/roster.html", context)


@shop_page(Role.OWNER, Role.TRAINER, while_sitting=True)
def roster_csv(request: HttpRequest, place: Place) -> HttpResponse:
    """The same table as comma-separated values that a spreadsheet opens as UTF-8."""
    now = timezone.now()
    _, on = _asked(request, place.day(now))
    found = queries.roster(shop=place.shop, on=on, at=now, scopes=scopes_of(place.shop))
    response = HttpResponse(content_type="text/csv; charset=utf-8")
    response["Content-Disposition"] = f'attachment; filename="roster-{place.shop.slug}-{on:%Y-%m-%d}.csv"'
    response.write("\N{ZERO WIDTH NO-BREAK SPACE}")  # the mark by which spreadsheets know UTF-8
    table = csv.writer(response)
    table.writerow([str(title) for title in COLUMNS])
    for row in found.rows:
        for cell in row.cells:
            held = cell.certificate
            table.writerow(
                guarded(text)
                for text in (
                    f"{on:%Y-%m-%d}",
                    row.person.name,
                    ", ".join(row.roles) or say("left"),
                    str(cell.scope_title),
                    cell.standing.status.words if cell.standing else say("none"),
                    show_number(held.number) if held else "",
                    f"{held.issued_date:%Y-%m-%d}" if held else "",
                    f"{held.expires_date:%Y-%m-%d}" if held else "",
                )
            )
    return response


def guarded(cell: str) -> str:
    """The cell with an apostrophe in front when a spreadsheet would run it as a formula."""
    return f"'{cell}" if cell.lstrip(" ").startswith(FORMULA_STARTS) else cell
