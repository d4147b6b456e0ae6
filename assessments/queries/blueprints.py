"""Which blueprints a shop's assessments follow, one for each scope it works in."""

from assessments import questions
from assessments.models import FamilyOff
from assessments.questions import Blueprint as Terms
from assessments.questions import families_of, with_stand_ins, with_their_series
from training.models import Shop
from training.queries import edition_of, scopes_of
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
