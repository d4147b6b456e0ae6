"""Which blueprint a shop's assessment follows, and its row in the database."""

import hashlib
import json
from dataclasses import asdict

from assessments import scenarios
from assessments.models import Blueprint, FamilyOff
from assessments.scenarios import Blueprint as Terms
from assessments.scenarios.coverage import families_of
from assessments.scenarios.stand_ins import with_stand_ins, with_their_series
from training.models import Shop
from training.shop_rulebook import edition_of


def terms_of(shop: Shop) -> Terms | None:
    """The blueprint for the shop's rulebook; None while there is none for it."""
    built_in = map(scenarios.blueprint, scenarios.blueprint_names())
    return next((terms for terms in built_in if terms.edition == shop.edition), None)


def off_in(shop: Shop) -> frozenset[str]:
    """The families the shop does not ask now, a case in several parts with all its parts; one query."""
    rows = FamilyOff.objects.filter(shop=shop, ended_at=None, family__in=scenarios.family_names())
    return with_their_series(rows.values_list("family", flat=True))


def plan_of(shop: Shop, terms: Terms) -> Terms:
    """What a form of this shop asks: the terms, with stand-ins for families that are switched off; one query."""
    off = off_in(shop)
    return with_stand_ins(terms, off=off, among=families_of(edition_of(shop), terms.casings)) if off else terms


def version_of(terms: Terms) -> str:
    """A short digest of all that a blueprint says, so that any change of it is a new version."""
    return hashlib.sha256(json.dumps(asdict(terms), sort_keys=True).encode()).hexdigest()[:12]


def keep_blueprint(terms: Terms, *, shop: Shop | None = None) -> Blueprint:
    """The row of a blueprint, made on first use: forms refer to it after the data has moved on.

    `shop` makes it the shop's own where families stand in for others; its cells name both. A blueprint is for one
    scope, so its name is the scope's too.
    """
    is_own = any(cell.instead_of for cell in terms.cells)
    row, _ = Blueprint.objects.get_or_create(
        shop=shop if is_own else None,
        slug=terms.name,
        version=version_of(terms),
        defaults={
            "title": terms.title,
            "scope": terms.name,
            "edition": terms.edition,
            "cells": [asdict(cell) for cell in terms.cells],
            "minutes": terms.minutes,
            "pass_percent": terms.pass_percent,
            "unsafe_allowed": terms.unsafe_allowed,
            "attempts_allowed": terms.attempts,
            "wait_hours": terms.wait_hours,
            "standing": terms.note,
        },
    )
    return row
