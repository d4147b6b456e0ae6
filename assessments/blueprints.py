"""Which blueprints a shop's assessments follow, one for each scope it works in, and their rows in the database."""

import hashlib
import json
from dataclasses import asdict

from assessments import questions
from assessments.models import Blueprint, FamilyOff
from assessments.questions import Blueprint as Terms
from assessments.questions.blueprints.stand_ins import with_stand_ins, with_their_series
from assessments.questions.draws.coverage import families_of
from training.models import Shop
from training.queries.scopes import scopes_of
from training.queries.shop_rulebook import edition_of
from training.trade.words import tires_in_words


def terms_in_edition(edition: str) -> tuple[Terms, ...]:
    """Every blueprint of a rulebook: one for each scope that a shop under it may work in."""
    built_in = map(questions.blueprint, questions.blueprint_names())
    return tuple(terms for terms in built_in if terms.edition == edition)


def terms_in(shop: Shop) -> tuple[Terms, ...]:
    """The blueprints of the scopes that the shop works in."""
    working_in = {scope.id for scope in scopes_of(shop)}
    return tuple(terms for terms in terms_in_edition(shop.edition) if terms.name in working_in)


def terms_of(shop: Shop, scope: str = "") -> Terms | None:
    """The blueprint of a scope the shop works in, its first scope without a name; None where there is none such."""
    return next((terms for terms in terms_in(shop) if scope in ("", terms.name)), None)


def casings_of_scope(scope: str) -> tuple[str, ...] | None:
    """The casings of a scope, also of one the shop no longer works in; None for all where it is not known."""
    return questions.blueprint(scope).casings if scope in questions.blueprint_names() else None


def terms_about(shop: Shop, casing: str) -> Terms | None:
    """The blueprint of the first of the shop's scopes about a casing; None where it works on no such tires."""
    return next((terms for terms in terms_in(shop) if casing in terms.casings), None)


def tires_asked(shop: Shop, scope: str) -> str:
    """The tires of a scope in words, for a page about one of several; empty in a shop that has but one."""
    casings = casings_of_scope(scope)
    return tires_in_words(casings) if casings and len(terms_in(shop)) > 1 else ""


def practiced_as(shop: Shop, terms: Terms | None) -> tuple[str, ...]:
    """The scopes that stand on practice of these terms: practice drawn before there were several has none."""
    is_first = terms == terms_of(shop)
    return (*((terms.name,) if terms else ()), *(("",) if is_first else ()))


def off_in(shop: Shop) -> frozenset[str]:
    """The families the shop does not ask now, a case in several parts with all its parts; one query."""
    rows = FamilyOff.objects.filter(shop=shop, ended_at=None, family__in=questions.family_names())
    return with_their_series(rows.values_list("family", flat=True))


def plan_of(shop: Shop, terms: Terms) -> Terms:
    """What a form of this shop asks: the terms, with stand-ins for families that are switched off; one query."""
    return _plan(shop, terms, off_in(shop))


def plans_of(shop: Shop) -> tuple[Terms, ...]:
    """The same for every scope that the shop works in; one query."""
    off = off_in(shop)
    return tuple(_plan(shop, terms, off) for terms in terms_in(shop))


def _plan(shop: Shop, terms: Terms, off: frozenset[str]) -> Terms:
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
