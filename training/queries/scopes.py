"""The scopes a shop works in, and through them the casings it works on; both are named by its edition. No query."""

from training.models import Shop
from training.rulebook import Scope, edition_scopes


def scopes_of(shop: Shop) -> tuple[Scope, ...]:
    """The scopes that the shop works in: those its owner chose, else the first of its edition."""
    known = edition_scopes(shop.edition)
    return tuple(scope for scope in known if scope.id in shop.scopes) or known[:1]


def casings_of(shop: Shop) -> tuple[str, ...]:
    """The casings of all scopes that the shop works in."""
    return tuple(dict.fromkeys(casing for scope in scopes_of(shop) for casing in scope.casings))
