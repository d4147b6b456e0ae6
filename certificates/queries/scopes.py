"""What a certificate can cover: an edition and some casings, as the built-in blueprints name it; a shop's choice."""

from collections.abc import Iterable
from dataclasses import dataclass

from assessments.queries import terms_in, terms_in_edition
from assessments.questions import Blueprint as Terms
from assessments.questions import blueprint, blueprint_names
from training.models import Shop
from training.rulebook import edition_title
from training.trade.lists import one_of
from training.trade.speech import say
from training.trade.words import CASING_WORDS, tires_in_words


class UnknownScope(LookupError):
    """No scope has this name; the message lists those there are."""


@dataclass(frozen=True)
class Scope:
    """One scope: what the holder may do, for which casings, by which edition."""

    slug: str
    title: str
    edition: str
    casings: tuple[str, ...]

    @property
    def tires(self) -> str:
        """Its tires in a few words, for a heading."""
        return tires_in_words(self.casings)


def _scope(terms: Terms) -> Scope:
    return Scope(slug=terms.name, title=terms.title, edition=terms.edition, casings=terms.casings)


def scopes_in(edition: str) -> tuple[Scope, ...]:
    """The scopes of an edition: one for each built-in blueprint, which is named after its scope."""
    return tuple(_scope(terms) for terms in terms_in_edition(edition))


def scopes_of(shop: Shop) -> tuple[Scope, ...]:
    """The scopes a shop works in; none while its rulebook has no assessment."""
    return tuple(_scope(terms) for terms in terms_in(shop))


def scope_of(shop: Shop, slug: str = "") -> Scope:
    """One scope the shop works in; without a name the only one. Raises UnknownScope, naming those there are."""
    known = scopes_of(shop)
    if not known:
        raise UnknownScope(
            say("There is no assessment for the rulebook {edition} yet.", edition=edition_title(shop.edition))
        )
    if not slug and len(known) == 1:
        return known[0]
    for scope in known:
        if scope.slug == slug:
            return scope
    raise UnknownScope(
        say('Scope: "{slug}" is not accepted; choose {scopes}.', slug=slug, scopes=one_of(one.title for one in known))
    )


def scope_title(slug: str) -> str:
    """The title of a scope on a record; its name where we no longer have it."""
    return blueprint(slug).title if slug in blueprint_names() else slug


def casing_words(casings: Iterable[str]) -> tuple[str, ...]:
    """Casing classes as the certificate names them."""
    return tuple(str(CASING_WORDS[casing].many) for casing in casings)
