"""The owner chooses which scopes the shop works in."""

from collections.abc import Collection
from datetime import datetime

from django.db import transaction

from assessments.queries import terms_in, terms_in_edition
from training.models import Shop, ShopScope, User
from training.trade.speech import say


class ScopesRefused(Exception):
    """The shop cannot work in these scopes; the message says what is accepted."""


def choose_scopes(*, shop: Shop, scopes: Collection[str], by: User, at: datetime) -> Shop:
    """Let the shop work in these scopes and no others from now on; certificates issued before stand.

    The same scopes again change nothing. Raises ScopesRefused for none, and for one its rulebook does not have.
    """
    known = [terms.name for terms in terms_in_edition(shop.edition)]
    if unknown := sorted(set(scopes) - set(known)):
        raise ScopesRefused(
            say(
                'Scopes: "{scope}" is not accepted; choose among {scopes}.',
                scope=unknown[0][:60],
                scopes=", ".join(known),
            )
        )
    wanted = [name for name in known if name in scopes]
    if not wanted:
        raise ScopesRefused(say("Scopes: nothing is chosen; at least one stays on."))
    unchosen = [terms.name for terms in terms_in(Shop(edition=shop.edition))]
    with transaction.atomic():
        shop = Shop.objects.select_for_update(no_key=True).get(pk=shop.pk)
        if wanted == ([name for name in known if name in shop.scopes] or unchosen):
            return shop
        on = ShopScope.objects.filter(shop=shop, ended_at=None)
        standing = set(on.values_list("scope", flat=True))
        # the new ones first: the database lets nobody turn off the last
        ShopScope.objects.bulk_create(
            ShopScope(shop=shop, scope=name, since_at=at, by=by) for name in wanted if name not in standing
        )
        on.exclude(scope__in=wanted).update(ended_at=at, ended_by=by)
        shop.scopes = wanted
        shop.save(update_fields=["scopes"])
        return shop
