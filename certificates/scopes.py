"""What a certificate can cover: an edition and some casings, as the built-in blueprints name it."""

from collections.abc import Iterable
from dataclasses import dataclass

from assessments.scenarios import blueprint, blueprint_names
from training.models import Shop

# as said on the certificate; vocabulary() of the rulebook explains one tire, these name a kind
_CASING_WORDS = {
    "passenger": "passenger tires",
    "light-truck-fabric": "light truck tires with a fabric body",
    "light-truck-steel": "light truck tires with a steel body",
    "truck": "medium and heavy truck tires",
    "motorcycle": "motorcycle tires",
}


class UnknownScope(LookupError):
    """No scope has this name; the message lists those there are."""


@dataclass(frozen=True)
class Scope:
    """One scope: what the holder may do, for which casings, by which edition."""

    slug: str
    title: str
    edition: str
    casings: tuple[str, ...]


def scopes(edition: str) -> tuple[Scope, ...]:
    """The scopes of an edition: one for each built-in blueprint, which is named after its scope."""
    plans = (blueprint(name) for name in blueprint_names())
    return tuple(
        Scope(slug=plan.name, title=plan.title, edition=plan.edition, casings=plan.casings)
        for plan in plans
        if plan.edition == edition
    )


def scope_named(slug: str, edition: str) -> Scope:
    """One scope of an edition. Raises UnknownScope."""
    known = {scope.slug: scope for scope in scopes(edition)}
    if slug not in known:
        raise UnknownScope(f'Scope: "{slug}" is not accepted; choose {", ".join(known)}.')
    return known[slug]


def scope_of(shop: Shop) -> Scope:
    """The scope that the shop's assessment is for. Raises UnknownScope while there is none for its rulebook."""
    found = scopes(shop.edition)
    if not found:
        raise UnknownScope(f"There is no assessment for the rulebook {shop.edition} yet.")
    return found[0]


def casing_words(casings: Iterable[str]) -> tuple[str, ...]:
    """Casing classes as the certificate names them."""
    return tuple(_CASING_WORDS[casing] for casing in casings)
