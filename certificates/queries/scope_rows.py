"""The scopes of a shop's rulebook as its owner sees them: on or off, since when, and what rests on each."""

from collections import Counter
from dataclasses import dataclass
from datetime import datetime

from assessments.models import COUNTED, Attempt
from certificates.queries.scopes import Scope, scopes_in, scopes_of
from certificates.queries.ways import held_in
from training.access import Place
from training.models import ShopScope


@dataclass(frozen=True)
class ScopeRow:
    """One scope; `choice` is the latest row on it, None while nobody chose; valid certificates, open assessments."""

    scope: Scope
    is_on: bool
    choice: ShopScope | None
    valid: int
    open: int


def scope_rows(place: Place, at: datetime) -> list[ScopeRow]:
    """Every scope of the rulebook; three queries."""
    choices = ShopScope.objects.filter(shop=place.shop).select_related("by", "ended_by").order_by("since_at", "pk")
    latest = {choice.scope: choice for choice in choices}
    valid = Counter(one.certificate.scope for one in held_in(place, at) if one.standing.is_valid)
    unfinished = Attempt.objects.filter(form__shop=place.shop, form__purpose__in=COUNTED, handed_in_at=None)
    opened = Counter(unfinished.values_list("form__blueprint__scope", flat=True))
    on = scopes_of(place.shop)
    return [
        ScopeRow(scope, scope in on, latest.get(scope.slug), valid[scope.slug], opened[scope.slug])
        for scope in scopes_in(place.shop.edition)
    ]
