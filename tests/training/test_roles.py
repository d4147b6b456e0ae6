"""Roles are given and ended, never deleted; a shop is never left without an owner."""

import pytest
from django.db import IntegrityError, transaction

from tests.factories import NOW, InvitationFactory, MembershipFactory, UserFactory
from tests.pages import cost_of
from training import acts
from training.models import Membership, Role, Shop, User


def test_giving_a_role_twice_changes_nothing(own_shop, apprentice) -> None:
    first = acts.give_role(shop=own_shop, person=apprentice, role=Role.TRAINER, at=NOW)

    assert acts.give_role(shop=own_shop, person=apprentice, role=Role.TRAINER, at=NOW) == first
    assert Membership.objects.filter(user=apprentice, ended_at=None).count() == 2


def test_a_stranger_is_given_no_role(own_shop, person) -> None:
    with pytest.raises(acts.RoleRefused, match="never belonged to Quarry Road Tire; send an invitation"):
        acts.give_role(shop=own_shop, person=person("owner_of_other_shop"), role=Role.TRAINER, at=NOW)


def test_a_person_who_left_can_come_back_and_the_first_time_stays_on_record(own_shop) -> None:
    before = MembershipFactory.create(shop=own_shop, ended=True)

    back = acts.give_role(shop=own_shop, person=before.user, role=Role.APPRENTICE, at=NOW)

    assert back.pk != before.pk
    before.refresh_from_db()
    assert before.ended_at is not None


def test_ending_a_role_twice_keeps_the_first_moment(own_shop, apprentice) -> None:
    acts.end_role(shop=own_shop, person=apprentice, role=Role.APPRENTICE, at=NOW)
    acts.end_role(shop=own_shop, person=apprentice, role=Role.APPRENTICE, at=NOW.replace(year=2027))

    assert Membership.objects.get(user=apprentice).ended_at == NOW


def test_the_last_owner_cannot_be_ended(own_shop, owner) -> None:
    with pytest.raises(acts.RoleRefused, match="is the only owner of Quarry Road Tire"):
        acts.end_role(shop=own_shop, person=owner, role=Role.OWNER, at=NOW)

    assert Membership.objects.get(user=owner).ended_at is None


def test_one_of_two_owners_can_be_ended(own_shop, owner) -> None:
    MembershipFactory.create(shop=own_shop, owner=True)

    acts.end_role(shop=own_shop, person=owner, role=Role.OWNER, at=NOW)

    assert Membership.objects.get(user=owner).ended_at == NOW


def test_an_owner_of_another_shop_does_not_count(own_shop, owner, person) -> None:
    person("owner_of_other_shop")

    with pytest.raises(acts.RoleRefused):
        acts.end_role(shop=own_shop, person=owner, role=Role.OWNER, at=NOW)


def test_the_database_holds_a_role_once(own_shop, apprentice) -> None:
    with pytest.raises(IntegrityError), transaction.atomic():
        MembershipFactory.create(shop=own_shop, user=apprentice)


class TestThePages:
    def url(self, shop: Shop, person: User, act: str = "") -> str:
        return f"/shop/{shop.slug}/people/{person.reference}/roles/{act}"

    def test_an_owner_gives_and_ends(self, own_shop, apprentice, visit) -> None:
        visit(self.url(own_shop, apprentice, "give/"), as_role="owner", post={"role": "trainer"})
        visit(self.url(own_shop, apprentice, "end/"), as_role="owner", post={"role": "apprentice"})

        held = Membership.objects.filter(user=apprentice, ended_at=None).values_list("role", flat=True)
        assert list(held) == ["trainer"]

    def test_the_refusal_stands_on_the_page(self, own_shop, owner, visit) -> None:
        answer = visit(self.url(own_shop, owner, "end/"), as_role="owner", post={"role": "owner"})

        assert "Make another person owner first." in answer.content.decode()

    def test_an_owner_who_steps_back_is_sent_home(self, own_shop, owner, visit) -> None:
        MembershipFactory.create(shop=own_shop, owner=True)

        assert visit(self.url(own_shop, owner, "end/"), as_role="owner", post={"role": "owner"}).url == "/"

    def test_an_unknown_role_is_named(self, own_shop, apprentice, visit) -> None:
        answer = visit(self.url(own_shop, apprentice, "give/"), as_role="owner", post={"role": "boss"})

        assert "Role: &quot;boss&quot; is not a role; choose apprentice, trainer or owner." in answer.content.decode()

    def test_a_person_of_another_shop_is_not_found(self, own_shop, person, visit) -> None:
        stranger = person("apprentice_of_other_shop")

        assert visit(self.url(own_shop, stranger), as_role="owner").status_code == 404
        assert visit(self.url(own_shop, stranger, "give/"), as_role="owner", post={"role": "owner"}).status_code == 404


class TestThePeoplePage:
    def test_lists_members_invitations_and_those_who_left(self, own_shop, apprentice, visit) -> None:
        left = MembershipFactory.create(shop=own_shop, ended=True, user__name="Noor Haddad").user

        page = visit(f"/shop/{own_shop.slug}/people/", as_role="owner").content.decode()

        assert apprentice.email in page
        assert left.name in page[page.index("Left") :]
        assert "Nobody is invited at the moment" in page

    def test_a_trainer_sees_it_without_the_change_of_roles(self, own_shop, apprentice, visit) -> None:
        page = visit(f"/shop/{own_shop.slug}/people/", as_role="trainer").content.decode()

        assert apprentice.email in page
        assert "Change roles" not in page

    def test_shows_nobody_of_another_shop(self, own_shop, person, visit) -> None:
        stranger = person("apprentice_of_other_shop")

        assert stranger.email not in visit(f"/shop/{own_shop.slug}/people/", as_role="owner").content.decode()

    def test_costs_the_same_for_few_and_for_many(self, own_shop, owner, client_as) -> None:
        browser, address = client_as(owner), f"/shop/{own_shop.slug}/people/"
        InvitationFactory.create(shop=own_shop)
        MembershipFactory.create(shop=own_shop, ended=True)
        few = cost_of(browser, address)
        for _ in range(10):
            MembershipFactory.create(shop=own_shop, user=UserFactory.create())
            MembershipFactory.create(shop=own_shop, ended=True)
            InvitationFactory.create(shop=own_shop)

        assert cost_of(browser, address) == few
