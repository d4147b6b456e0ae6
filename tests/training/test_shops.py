"""Opening a shop from the command line, and its settings page."""

from io import StringIO
from typing import Any

import pytest
from django.conf import settings
from django.core import mail
from django.core.management import CommandError, call_command
from django.db import IntegrityError, transaction
from django.http import HttpResponse

from tests.factories import MembershipFactory, ShopFactory
from tests.pages import Visit
from training import acts
from training.models import Invitation, Shop

OWNER = {"owner_email": "kim@shop.example", "owner_name": "Kim Alvarez"}


def run(**changes) -> str:
    out = StringIO()
    options = {"name": "Quarry Road Tire", "time_zone": "America/Denver"} | OWNER | changes
    call_command("open_shop", stdout=out, **options)
    return out.getvalue()


@pytest.mark.django_db
class TestOpeningAShop:
    def test_makes_the_shop_and_prints_and_sends_the_owners_link(self, django_capture_on_commit_callbacks) -> None:
        with django_capture_on_commit_callbacks(execute=True):
            printed = run(units="mm")

        shop = Shop.objects.get()
        assert (shop.slug, shop.name, shop.units, shop.time_zone) == (
            "quarry-road-tire",
            "Quarry Road Tire",
            "mm",
            "America/Denver",
        )
        link = printed.strip().splitlines()[-1]
        assert link.startswith(f"{settings.ADDRESS}/join/")
        assert link in mail.outbox[0].body

    def test_takes_the_rulebook_asked_for_and_its_units(self) -> None:
        run(edition="united-kingdom")

        shop = Shop.objects.get()
        assert (shop.edition, shop.units) == ("united-kingdom", "mm")

    def test_another_rulebook_for_a_shop_that_stands_is_refused(self) -> None:
        run()

        with pytest.raises(CommandError, match="is not the rulebook of Quarry Road Tire, which is north-america"):
            run(edition="united-kingdom")

    def test_the_link_makes_an_owner(self, client) -> None:
        link = run().strip().splitlines()[-1]

        password = "seven-worn-lug-nuts"
        form = {"name": "Kim Alvarez", "password": password, "again": password}
        client.post(link.removeprefix(settings.ADDRESS), form)

        assert client.get("/shop/quarry-road-tire/settings/").status_code == 200

    def test_again_without_an_owner_sends_a_new_link(self) -> None:
        first, again = run(), run()

        assert Shop.objects.count() == Invitation.objects.count() == 1
        assert first.splitlines()[-1] != again.splitlines()[-1]

    def test_again_with_an_owner_changes_nothing(self) -> None:
        MembershipFactory.create(shop__slug="quarry-road-tire", shop__name="Quarry Road Tire", owner=True)

        assert "nothing was changed" in run()
        assert not Invitation.objects.exists()

    @pytest.mark.parametrize(
        ("changes", "words"),
        [
            ({"name": "???"}, r'name: "\?\?\?" is not accepted'),
            ({"time_zone": "Denver"}, 'time zone: "Denver" is not known; give a name such as America/Denver'),
            ({"edition": "mars"}, 'edition: "mars" is not a rulebook; choose north-america or united-kingdom'),
            ({"units": "cm"}, 'units: "cm" is not accepted; choose in or mm'),
            ({"owner_email": "kim"}, 'owner email: "kim" is not a mail address'),
            ({"owner_name": " "}, "owner name: it is empty"),
        ],
    )
    def test_bad_input_is_named_and_nothing_is_made(self, changes, words) -> None:
        with pytest.raises(CommandError, match=words) as refused:
            run(**changes)

        assert refused.value.returncode == 2
        assert not Shop.objects.exists()

    def test_two_names_with_one_address_are_refused(self) -> None:
        run()

        with pytest.raises(CommandError, match='would share its address with "Quarry Road Tire"'):
            run(name="Quarry Road, Tire")


class TestTheSettingsPage:
    def post(self, visit: Visit, shop: Shop, **changes: str) -> HttpResponse:
        fields = {"name": "Quarry Tire", "units": "mm", "time_zone": "Europe/Helsinki", "certificate_months": "12"}
        return visit(f"/shop/{shop.slug}/settings/", as_role="owner", post=fields | changes)

    def test_stores(self, own_shop, visit) -> None:
        answer = self.post(visit, own_shop)

        own_shop.refresh_from_db()
        assert answer.status_code == 302
        assert (own_shop.name, own_shop.units, own_shop.time_zone) == ("Quarry Tire", "mm", "Europe/Helsinki")
        assert own_shop.certificate_months == 12

    @pytest.mark.parametrize(
        ("changes", "words"),
        [
            ({"name": " "}, "Name of the shop: it is empty"),
            ({"units": "cm"}, "Units: &quot;cm&quot; is not accepted"),
            ({"time_zone": "Denver"}, "Time zone: &quot;Denver&quot; is not known"),
            ({"certificate_months": "0"}, "give months from 1 to 60"),
            ({"certificate_months": "61"}, "at most 60 months"),
            ({"certificate_months": "two"}, "this is not a whole number"),
        ],
    )
    def test_bad_input_is_named_and_nothing_is_stored(self, own_shop, visit, changes, words) -> None:
        answer = self.post(visit, own_shop, **changes)

        own_shop.refresh_from_db()
        assert words in answer.content.decode()
        assert own_shop.name == "Quarry Road Tire"

    def test_the_database_refuses_what_the_form_refuses(self, db) -> None:
        with pytest.raises(IntegrityError, match="shop_certificate_months"), transaction.atomic():
            ShopFactory.create(certificate_months=61)
        with pytest.raises(IntegrityError, match="shop_units_known"), transaction.atomic():
            ShopFactory.create(units="cm")

    def test_storing_the_same_twice_changes_nothing(self, own_shop) -> None:
        fields: dict[str, Any] = {"name": "Quarry Tire", "units": "mm", "time_zone": "UTC"}
        fields |= {"certificate_months": 12, "public_check": True}

        assert acts.change_shop(shop=own_shop, **fields) == acts.change_shop(shop=own_shop, **fields)
