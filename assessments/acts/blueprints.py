"""Keeping the row of a blueprint, so that forms refer to it after the data has moved on."""

import hashlib
import json
from dataclasses import asdict

from assessments.models import Blueprint
from assessments.questions import Blueprint as Terms
from training.models import Shop
from training.rulebook import edition_language
from training.trade.speech import in_language


def version_of(terms: Terms) -> str:
    """A short digest of all that a blueprint says as it is written, so that any change of it is a new version."""
    return hashlib.sha256(json.dumps(asdict(terms), sort_keys=True).encode()).hexdigest()[:12]


def keep_blueprint(terms: Terms, *, shop: Shop | None = None) -> Blueprint:
    """The row of a blueprint, made on first use: forms refer to it after the data has moved on.

    `shop` makes it the shop's own where families stand in for others; its cells name both. A blueprint is for one
    scope, so its name is the scope's too.
    """
    is_own = any(cell.instead_of for cell in terms.cells)
    with in_language(edition_language(terms.edition)):  # the row is for all its shops, whoever is the first
        title, note = str(terms.title), str(terms.note)
    row, _ = Blueprint.objects.get_or_create(
        shop=shop if is_own else None,
        slug=terms.name,
        version=version_of(terms),
        defaults={
            "title": title,
            "scope": terms.name,
            "edition": terms.edition,
            "cells": [asdict(cell) for cell in terms.cells],
            "minutes": terms.minutes,
            "pass_percent": terms.pass_percent,
            "unsafe_allowed": terms.unsafe_allowed,
            "attempts_allowed": terms.attempts,
            "wait_hours": terms.wait_hours,
            "standing": note,
        },
    )
    return row
