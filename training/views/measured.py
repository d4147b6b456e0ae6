"""How a typed number is understood, said while the form is still open."""

from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_GET

from training.forms.measured import HOW_MANY, LONGEST, ONE, UNIT, Taken, Typed
from training.rulebook import UNITS


@require_GET
def read_typed(request: HttpRequest) -> HttpResponse:
    """What the field `name` says, which measures one `of` these; or the sentence that refuses it. Nothing is kept."""
    asked, name = request.GET, request.GET.get("name", "")
    dimensions = tuple(asked.getlist("of"))
    how_many = asked.get("how_many", ONE)
    if not dimensions or not {*UNITS, "tread"}.issuperset(dimensions) or how_many not in HOW_MANY:
        raise Http404
    typed = Typed(asked.get(name, "").strip()[:LONGEST], asked.get(f"{name}{UNIT}", ""))
    taken = Taken(dimensions, how_many)
    context = {"told": taken.told(typed)}
    if typed:
        try:
            taken.read(typed)
        except ValueError as refused:
            context["refused"] = f"{refused}."
    return render(request, "training/_read_as.html", context)
