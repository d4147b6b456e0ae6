"""A shop's own stricter limits, and the repair units on its shelf."""

from uuid import UUID

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.template.loader import render_to_string
from django.utils import timezone

from training import acts, queries
from training.access import Place, shop_page
from training.forms.house import HouseFileForm, HouseRulesForm, SetRulesForm, UnitForm
from training.forms.measured import read_back
from training.models import Role, UnitKind
from training.pages import house
from training.queries import house_rules_of, units_of_rows
from training.rulebook import (
    HouseRuleError,
    HouseRules,
    OnShelf,
    Quantity,
    effective,
    fitting_stem,
    load_edition,
    read_house_rules,
    smallest_unit,
    write_house_rules,
)
from training.trade.speech import say, say_many
from training.trade.words import CASING_WORDS, UNIT_WORDS, capital
from training.views.same_for_all import house_fields, house_file, unit_fields


@shop_page(Role.OWNER, methods="GET HEAD POST")
def house_rules(request: HttpRequest, place: Place) -> HttpResponse:
    """What stands, the fields to change it, and every set there was."""
    edition, standing = load_edition(place.shop.edition), house_rules_of(place.shop)
    form = None
    if request.POST:
        form = HouseRulesForm(request.POST, edition=edition, standing=standing, prefer=place.shop.units)
        if form.is_valid():
            if house.change_lines(edition, standing, form.rules):
                return _confirm(request, place, form.rules)
            form.add_error(None, say("Nothing would change: every limit is as it stands now."))
    context = {
        "form": form,
        "fields": house_fields(edition, standing, place.shop.units)
        if form is None
        else render_to_string("training/_house_fields.html", {"form": form}),
        "edition": edition,
        "lines": house.standing_lines(edition, standing),
        "overtaken": house.overtaken(edition, standing),
        "sets": queries.house_rule_sets(place.shop),
    }
    return render(request, "training/house_rules.html", context)


@shop_page(Role.OWNER, methods="GET HEAD POST")
def house_rules_import(request: HttpRequest, place: Place) -> HttpResponse:
    """House rules from a TOML file; they take the place of all that stand, once confirmed."""
    edition, standing = load_edition(place.shop.edition), house_rules_of(place.shop)
    data = (request.POST, request.FILES) if request.method == "POST" else (None, None)
    form = HouseFileForm(*data, edition=edition)
    if form.is_valid():
        if house.change_lines(edition, standing, form.rules):
            return _confirm(request, place, form.rules)
        form.add_error(None, say("Nothing would change: the file says what is in force now."))
    context = {"form": form, "file": house_file(edition, standing)}
    return render(request, "training/house_rules_import.html", context)


@shop_page(Role.OWNER)
def house_rules_version(request: HttpRequest, place: Place, number: int) -> HttpResponse:
    """One set as it was, or none at all for number 0, and the way back to it."""
    edition, standing = load_edition(place.shop.edition), house_rules_of(place.shop)
    kept = get_object_or_404(queries.house_rule_sets(place.shop), number=number) if number else None
    rules = HouseRules() if kept is None else HouseRules.from_json(kept.rules)
    latest = queries.latest_number(place.shop)
    if number == 0 and not latest:
        raise Http404
    wanted = effective(edition, rules)
    context = {
        "kept": kept,
        "number": number,
        "edition": edition,
        "lines": house.standing_lines(edition, rules),
        "overtaken": house.overtaken(edition, rules),
        "text": write_house_rules(rules, edition),
        "changes": house.change_lines(edition, standing, wanted),
        "form": _set_form(place, wanted),
    }
    return render(request, "training/house_rules_version.html", context)


@shop_page(Role.OWNER, methods="POST")
def house_rules_set(request: HttpRequest, place: Place) -> HttpResponse:
    """Put in force what the owner has just read."""
    form = SetRulesForm(request.POST)
    if not form.is_valid():
        for errors in form.errors.values():
            messages.error(request, str(errors[0]))
        return redirect("training:house_rules", place.shop.slug)
    try:
        made = acts.set_house_rules(
            shop=place.shop,
            rules=read_house_rules(form.cleaned_data["rules"], load_edition(place.shop.edition)),
            reason=form.cleaned_data["reason"],
            by=place.person,
            base=form.cleaned_data["base"],
            at=timezone.now(),
        )
    except (HouseRuleError, acts.RulesChanged) as refusal:
        messages.error(request, say("House rules were not set. {problem}", problem=refusal))
    else:
        count = len(made.rules) if made is not None else 0
        told = (
            say_many(
                "House rules set: {count} house rule in force. Assessments drawn before keep their own.",
                "House rules set: {count} house rules in force. Assessments drawn before keep their own.",
                count,
            )
            if count
            else say("House rules set: no house rule in force any more. Assessments drawn before keep their own.")
        )
        messages.success(request, told)
    return redirect("training:house_rules", place.shop.slug)


@shop_page(Role.OWNER, Role.TRAINER)
def units(request: HttpRequest, place: Place) -> HttpResponse:
    """What is on the shelf, and what it lacks."""
    rows = list(queries.shelf(place.shop))
    context = {
        "rows": rows,
        "missing": _missing(place, units_of_rows(rows)) if rows else (),
        "taken_off": queries.taken_off(place.shop),
        "may_change": place.has(Role.OWNER),
    }
    return render(request, "training/units.html", context)


@shop_page(Role.OWNER, methods="GET HEAD POST")
def unit_add(request: HttpRequest, place: Place) -> HttpResponse:
    """Put a size on the shelf."""
    form = UnitForm(request.POST, prefer=place.shop.units) if request.method == "POST" else None
    if form is not None and form.is_valid():
        try:
            unit = acts.add_unit(shop=place.shop, by=place.person, at=timezone.now(), **form.cleaned_data)
        except acts.UnitRefused as refusal:
            form.add_error("name", str(refusal))
        else:
            told = "; ".join(f"{label}: {words}" for label, words in read_back(form))
            messages.success(
                request,
                say('"{unit}" is on the shelf. Read as: {told}.', unit=unit.name, told=told)
                if told
                else say('"{unit}" is on the shelf.', unit=unit.name),
            )
            return redirect("training:units", place.shop.slug)
    fields = (
        unit_fields(place.shop.units)
        if form is None
        else render_to_string("training/_unit_fields.html", {"form": form})
    )
    return render(request, "training/unit_add.html", {"form": form, "fields": fields})


@shop_page(Role.OWNER, methods="POST")
def unit_end(request: HttpRequest, place: Place, reference: UUID) -> HttpResponse:
    """Take a size off the shelf."""
    unit = get_object_or_404(queries.units_in(place.shop), reference=reference)
    acts.end_unit(unit=unit, by=place.person, at=timezone.now())
    messages.success(request, say('"{unit}" is taken off the shelf.', unit=unit.name))
    return redirect("training:units", place.shop.slug)


def _confirm(request: HttpRequest, place: Place, wanted: HouseRules) -> HttpResponse:
    edition, standing = load_edition(place.shop.edition), house_rules_of(place.shop)
    context = {
        "edition": edition,
        "changes": house.change_lines(edition, standing, wanted),
        "alike": house.same_limit_elsewhere(edition, standing, wanted),
        "form": _set_form(place, wanted),
    }
    return render(request, "training/house_rules_confirm.html", context)


def _set_form(place: Place, wanted: HouseRules) -> SetRulesForm:
    text = write_house_rules(wanted, load_edition(place.shop.edition))
    return SetRulesForm(initial={"rules": text, "base": queries.latest_number(place.shop)})


def _missing(place: Place, shelf: tuple[OnShelf, ...]) -> tuple[str, ...]:
    """Sentences on injuries the rulebook lets a shop repair and nothing on the shelf fits."""
    told = []
    for casing in place.edition.crowns:
        clause = place.edition.limit("injury.diameter", casing)
        largest = None if clause is None else min(clause.strictest.quantities, key=lambda one: one.value)
        kinds = [words for kind, words in UNIT_WORDS.items() if not _is_there(shelf, kind, casing, largest)]
        if kinds:
            tires = capital(CASING_WORDS[casing].short)
            lacking = ", ".join(say("no {unit}", unit=words) for words in kinds)
            told.append(
                say("{tires}: {lacking}.", tires=tires, lacking=lacking)
                if largest is None
                else say("{tires}, injury of {largest}: {lacking}.", tires=tires, largest=largest, lacking=lacking)
            )
    return tuple(told)


def _is_there(shelf: tuple[OnShelf, ...], kind: str, casing: str, largest: Quantity | None) -> bool:
    if kind != UnitKind.STEM:
        return smallest_unit(shelf, kind=kind, casing=casing, diameter=largest) is not None
    return largest is None or fitting_stem(shelf, casing=casing, diameter=largest) is not None
