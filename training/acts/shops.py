"""Opening a shop and changing its settings."""

from dataclasses import dataclass
from datetime import datetime
from zoneinfo import available_timezones

from django.core.exceptions import ValidationError
from django.core.validators import validate_email
from django.db import transaction
from django.utils.text import slugify

from training.acts.invitations import Invited, invite_by, new_link
from training.models import Membership, Role, Shop, Units
from training.rulebook import default_edition, edition_names, load_edition
from training.trade.lists import one_of
from training.trade.speech import say


class ShopRefused(Exception):
    """The shop may not be opened so: the words name the field, the value and what is accepted."""


@dataclass
class OpenedShop:
    """A shop that stands; `invited` is None once it has an owner."""

    shop: Shop
    is_new: bool
    invited: Invited | None


@transaction.atomic
def change_shop(
    *, shop: Shop, name: str, units: str, time_zone: str, certificate_months: int, public_check: bool
) -> Shop:
    """Store a shop's settings. Certificates issued before keep the dates printed on them."""
    shop = Shop.objects.select_for_update(no_key=True).get(pk=shop.pk)
    shop.name, shop.units, shop.time_zone, shop.certificate_months = name, units, time_zone, certificate_months
    shop.public_check = public_check
    shop.full_clean()
    shop.save(update_fields=["name", "units", "time_zone", "certificate_months", "public_check"])
    return shop


def open_shop(
    *,
    name: str,
    owner_email: str,
    owner_name: str,
    at: datetime,
    edition: str = "",
    units: str = "",
    time_zone: str = "UTC",
) -> OpenedShop:
    """Make a shop and invite its owner. Run again, it invites again until there is an owner, then changes nothing.

    The rulebook stays for good, since certificates rest on it: the default one where none is named. Without `units` the
    rulebook's own come first.

    Raises ShopRefused, and RulebookError where the rulebook cannot be read.
    """
    slug = slugify(name)[:60]
    if not slug:
        raise ShopRefused(say('name: "{name}" is not accepted; give a name with letters or digits', name=name))
    if time_zone not in available_timezones():
        raise ShopRefused(
            say('time zone: "{time_zone}" is not known; give a name such as America/Denver', time_zone=time_zone)
        )
    edition = edition or default_edition()
    if edition not in edition_names():
        raise ShopRefused(
            say(
                'edition: "{edition}" is not a rulebook; choose {editions}',
                edition=edition,
                editions=one_of(edition_names()),
            )
        )
    units = units or load_edition(edition).units
    if units not in Units.values:
        raise ShopRefused(
            say('units: "{units}" is not accepted; choose {accepted}', units=units, accepted=one_of(Units.values))
        )
    if not owner_name.strip():
        raise ShopRefused(say("owner name: it is empty; give the owner's name"))
    try:
        validate_email(owner_email)
    except ValidationError:
        raise ShopRefused(say('owner email: "{address}" is not a mail address', address=owner_email)) from None
    owner = {"email": owner_email, "name": owner_name, "role": Role.OWNER}
    link = new_link()
    with transaction.atomic():
        shop, is_new = Shop.objects.select_for_update(no_key=True).get_or_create(
            slug=slug, defaults={"name": name, "edition": edition, "units": units, "time_zone": time_zone}
        )
        if shop.name != name:
            raise ShopRefused(
                say(
                    'name: "{name}" would share its address with "{shop}"; give another name',
                    name=name,
                    shop=shop.name,
                )
            )
        if shop.edition != edition:
            raise ShopRefused(
                say(
                    'edition: "{edition}" is not the rulebook of {shop}, which is {own_edition}',
                    edition=edition,
                    shop=shop.name,
                    own_edition=shop.edition,
                )
            )
        if Membership.objects.filter(shop=shop, role=Role.OWNER, ended_at=None).exists():
            return OpenedShop(shop, False, None)
        return OpenedShop(shop, is_new, invite_by(link, shop=shop, invited_by=None, **owner, at=at))
