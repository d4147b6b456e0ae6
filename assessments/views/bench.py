"""The draw bench: what the families ask, twelve draws of one side by side, flags, families switched off."""

from collections.abc import Callable
from uuid import UUID

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils import timezone

from assessments import acts, queries
from assessments.forms.bench import DRAW_SEED, SEED, FlagForm, SwitchOffForm
from assessments.pages import bench as pages
from assessments.pages.explained import lesson_of
from assessments.queries import plans_of
from assessments.questions import (
    DRAWS_TO_COVER,
    SERIES,
    Family,
    Item,
    UnknownFamily,
    draw,
    draw_different,
    families_of,
    family,
    public_seed,
)
from assessments.views.parts import picture_answer
from training.access import Place, shop_page
from training.models import Role
from training.queries import units_of
from training.trade.speech import say
from training.trade.words import tires_in_words

DOZEN = 12


def _family(place: Place, name: str) -> Family:
    """The family, 404 if there is none or the shop's rulebook says nothing on what it asks."""
    try:
        found = family(name)
    except UnknownFamily as problem:
        raise Http404 from problem
    if found.name not in families_of(place.edition):
        raise Http404
    return found


@shop_page(Role.TRAINER, Role.OWNER)
def bench(request: HttpRequest, place: Place) -> HttpResponse:
    """What is asked, skill by skill, the families, and the flags nobody has settled."""
    off, flags = queries.families_off(place.shop), list(queries.open_flags(place.shop))
    plans = plans_of(place.shop)
    context = {
        "draws_each": DRAWS_TO_COVER,
        "table": pages.coverage_table(place.edition, off=off),
        "families": pages.family_rows(place.edition, off=off, flags=flags),
        "flags": [(family_title(flag.family), flag, flag.seed.partition(":")[2]) for flag in flags],
        "stand_ins": [
            (tires_in_words(plan.casings) if len(plans) > 1 else "", found)
            for plan in plans
            if (found := pages.stand_ins(plan.cells))
        ],
    }
    return render(request, "assessments/bench.html", context)


def family_title(name: str) -> str:
    """The title of a family; its name where the product no longer has it."""
    try:
        return family(name).title
    except UnknownFamily:
        return name


@shop_page(Role.TRAINER, Role.OWNER)
def bench_family(request: HttpRequest, place: Place, name: str) -> HttpResponse:
    """Twelve draws of one family side by side; the seed in the address draws the same twelve again."""
    return _family_page(request, place, _family(place, name), SwitchOffForm())


def _family_page(request: HttpRequest, place: Place, found: Family, form: SwitchOffForm) -> HttpResponse:
    seed = request.GET.get("seed", "1")
    if not SEED.fullmatch(seed):
        messages.error(
            request, say('Seed: "{seed}" is not accepted; give up to 20 letters, digits or hyphens.', seed=seed[:30])
        )
        return redirect("assessments:bench_family", place.shop.slug, found.name)
    items = draw_different(
        [found.name] * DOZEN,
        seeds=[public_seed(f"{seed}/{number}") for number in range(1, DOZEN + 1)],
        edition=place.edition,
        prefer=place.shop.units,
        units=units_of(place.shop),
    )
    flags = list(queries.flags_of(place.shop, found.name))
    open_flags = [flag for flag in flags if flag.resolved_at is None]
    off = queries.families_off(place.shop)
    context = {
        "family": found,
        "row": next(row for row in pages.family_rows(place.edition, off=off, flags=open_flags) if row.family == found),
        # where a house rule leaves a draw nothing fair to ask, another family stood in: it is not this one's
        "draws": [
            pages.drawn(number, item, open_flags, _pictures_at(place, found))
            for number, item in enumerate((one for one in items if one.family == found.name), 1)
        ],
        "series": SERIES.get(found.series, ""),
        "seed": seed,
        "next_seed": str(int(seed) + 1) if seed.isascii() and seed.isdigit() and len(seed) < 20 else "1",
        "flags": [(flag, flag.seed.partition(":")[2]) for flag in flags],
        "lesson": lesson_of(found.lesson),
        "exposure": queries.exposure_of(place.shop, found.name, at=timezone.now()),
        "lately_days": queries.LATELY_DAYS,
        "form": form,
        "edition": place.edition,
    }
    return render(request, "assessments/bench_family.html", context)


def _pictures_at(place: Place, found: Family) -> Callable[[str, int], str]:
    """The address of a picture of a draw, by the draw's path and the picture's number."""

    def address(path: str, number: int) -> str:
        page = reverse("assessments:bench_picture", args=[place.shop.slug, found.name, number])
        return f"{page}?seed={path}"

    return address


@shop_page(Role.TRAINER, Role.OWNER)
def bench_picture(request: HttpRequest, place: Place, name: str, number: int) -> HttpResponse:
    """One picture of a draw."""
    figure = _draw_of(place, _family(place, name), request.GET.get("seed", "1/1")).figure
    if figure is None:
        raise Http404
    return picture_answer(queries.one_file(figure, number))


def _draw_of(place: Place, found: Family, path: str) -> Item:
    """One draw by its seed without the namespace, which is always put before it."""
    if not DRAW_SEED.fullmatch(path):
        raise Http404
    return draw(
        found.name, seed=public_seed(path), edition=place.edition, prefer=place.shop.units, units=units_of(place.shop)
    )


@shop_page(Role.TRAINER, Role.OWNER, methods="GET POST")
def bench_draw(request: HttpRequest, place: Place, name: str) -> HttpResponse:
    """One draw at its full size; flag it with a comment."""
    found = _family(place, name)
    item = _draw_of(place, found, request.GET.get("seed", "1/1"))
    form = FlagForm(request.POST or None)
    if request.method == "POST" and form.is_valid():
        try:
            acts.flag_draw(
                shop=place.shop, item=item, comment=form.cleaned_data["comment"], by=place.person, at=timezone.now()
            )
        except acts.FlagRefused as refusal:
            form.add_error(None, str(refusal))
        else:
            messages.success(request, say('Flagged a draw of "{title}".', title=found.title))
            dozen = reverse("assessments:bench_family", args=[place.shop.slug, found.name])
            return redirect(f"{dozen}?seed={item.seed.partition(':')[2].partition('/')[0]}")
    flags = queries.flags_of(place.shop, found.name).filter(seed=item.seed)
    told = pages.drawn(1, item, flags, _pictures_at(place, found))
    context = {"family": found, "draw": told, "seed": told.path.partition("/")[0], "form": form}
    return render(request, "assessments/bench_draw.html", context)


@shop_page(Role.TRAINER, Role.OWNER, methods="POST")
def bench_settle(request: HttpRequest, place: Place, reference: UUID) -> HttpResponse:
    """Say that a flag has been looked at."""
    flag = get_object_or_404(queries.flags_in(place.shop), reference=reference)
    acts.settle_flag(flag=flag, by=place.person, at=timezone.now())
    messages.success(request, say('Settled the flag on "{title}".', title=family_title(flag.family)))
    return redirect("assessments:bench", place.shop.slug)


@shop_page(Role.TRAINER, Role.OWNER, methods="POST")
def bench_off(request: HttpRequest, place: Place, name: str) -> HttpResponse:
    """Ask a family no more in this shop."""
    found = _family(place, name)
    form = SwitchOffForm(request.POST)
    if form.is_valid():
        try:
            acts.switch_family_off(
                shop=place.shop,
                family_name=found.name,
                reason=form.cleaned_data["reason"],
                by=place.person,
                at=timezone.now(),
            )
        except acts.LastOfSkill as refusal:
            form.add_error(None, str(refusal))
        else:
            messages.success(
                request, say('Switched "{title}" off. Assessments already drawn keep it.', title=found.title)
            )
            return redirect("assessments:bench_family", place.shop.slug, found.name)
    return _family_page(request, place, found, form)


@shop_page(Role.TRAINER, Role.OWNER, methods="POST")
def bench_on(request: HttpRequest, place: Place, name: str) -> HttpResponse:
    """Ask a family again."""
    found = _family(place, name)
    acts.switch_family_on(shop=place.shop, family_name=found.name, by=place.person, at=timezone.now())
    messages.success(request, say('Switched "{title}" on.', title=found.title))
    return redirect("assessments:bench_family", place.shop.slug, found.name)
