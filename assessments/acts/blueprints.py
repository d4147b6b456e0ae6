"""Keeping the row of a blueprint, so that forms refer to it after the data has moved on."""

from dataclasses import asdict

from assessments.models import Blueprint
from assessments.questions import Blueprint as Terms
from assessments.questions import blueprint, blueprint_names, curve_of
from training.models import Shop
from training.rulebook import edition_language
from training.trade.speech import in_language


class TooLax(ValueError):
    """A shop's own blueprint would pass somebody whom the built-in one of its scope does not; it is not kept."""


def keep_blueprint(terms: Terms, *, shop: Shop | None = None) -> Blueprint:
    """The row of a blueprint, made on first use: forms refer to it after the data has moved on.

    `shop` makes it the shop's own where families stand in for others; its cells name both. A blueprint is for one
    scope, so its name is the scope's too. Its curve is kept with it where one was made for just this version. Raises
    TooLax for a rule that is not at least as strict as the built-in one of the scope.
    """
    is_own = any(cell.instead_of for cell in terms.cells)
    built_in = blueprint(terms.name) if terms.name in blueprint_names() else terms
    if not terms.rule.is_at_least_as_strict_as(built_in.rule):
        raise TooLax(f"{terms.name}: {terms.rule} is not accepted; a shop may only be stricter than {built_in.rule}")
    is_own = is_own or (shop is not None and terms.rule != built_in.rule)
    curve = curve_of(terms.name)
    with in_language(edition_language(terms.edition)):  # the row is for all its shops, whoever is the first
        title, note = str(terms.title), str(terms.note)
    row, _ = Blueprint.objects.get_or_create(
        shop=shop if is_own else None,
        slug=terms.name,
        version=terms.version,
        defaults={
            "title": title,
            "scope": terms.name,
            "edition": terms.edition,
            "cells": [asdict(cell) for cell in terms.cells],
            "minutes": terms.minutes,
            "pass_percent": terms.pass_percent,
            "safety_percent": terms.safety_percent,
            "unsafe_allowed": terms.unsafe_allowed,
            "alike_allowed": terms.alike_allowed,
            "graves": list(terms.grave),
            "curve": curve.to_json() if curve is not None and curve.version == terms.version else {},
            "attempts_allowed": terms.attempts,
            "wait_hours": terms.wait_hours,
            "standing": note,
        },
    )
    return row
