"""Giving people roles in a shop, and ending them."""

from datetime import datetime

from django.db import transaction

from training.models import Membership, Role, Shop, User
from training.trade.speech import say


class RoleRefused(Exception):
    """The role may not be given or ended: the words say why."""


@transaction.atomic
def give_role(*, shop: Shop, person: User, role: str, at: datetime) -> Membership:
    """Give a person who belongs, or belonged, to the shop one more role. Holding it already changes nothing."""
    Shop.objects.select_for_update(no_key=True).get(pk=shop.pk)
    if not Membership.objects.filter(shop=shop, user=person).exists():
        raise RoleRefused(
            say("{person} never belonged to {shop}; send an invitation instead.", person=person.name, shop=shop.name)
        )
    membership, _ = Membership.objects.get_or_create(
        shop=shop, user=person, role=role, ended_at=None, defaults={"since_at": at}
    )
    return membership


@transaction.atomic
def end_role(*, shop: Shop, person: User, role: str, at: datetime) -> None:
    """End a person's role; what they did stays. An ended role changes nothing. The last owner stays: RoleRefused."""
    # two owners ending each other at once must wait in line
    Shop.objects.select_for_update(no_key=True).get(pk=shop.pk)
    held = Membership.objects.filter(shop=shop, role=role, ended_at=None)
    mine = held.filter(user=person).first()
    if mine is None:
        return
    if role == Role.OWNER and not held.exclude(user=person).exists():
        raise RoleRefused(
            say(
                "{person} is the only owner of {shop}. Make another person owner first.",
                person=person.name,
                shop=shop.name,
            )
        )
    mine.ended_at = at
    mine.save(update_fields=["ended_at"])
