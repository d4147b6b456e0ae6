"""Asking people into a shop: who may ask whom, what the link does, when it stops working."""

import re
from datetime import datetime, timedelta

import pytest
from allauth.account.models import EmailAddress
from django.conf import settings
from django.core import mail
from django.db import IntegrityError, transaction
from django.test import Client
from django.utils import timezone

from tests.factories import NOW, PASSWORD, InvitationFactory, MembershipFactory, UserFactory
from tests.present import present
from training import acts
from training.models import Invitation, Membership, Notice, Role, Shop, User
from training.models.shops import digest_of

GOOD_PASSWORD = "seven-worn-lug-nuts"


def invite(
    shop: Shop,
    by: User,
    *,
    email: str = "dana@shop.example",
    name: str = "Dana Reyes",
    role: Role = Role.APPRENTICE,
    at: datetime = NOW,
) -> acts.Invited:
    return acts.invite(shop=shop, invited_by=by, email=email, name=name, role=role, at=at)


def sent_link(secret: str, **facts) -> Invitation:
    """An invitation whose link is known to the test and works by the real clock."""
    now = timezone.now()
    given = {"sent_at": now - timedelta(hours=1), "expires_at": now + timedelta(days=1)}
    return InvitationFactory.create(secret_digest=digest_of(secret), **(given | facts))


class TestInviting:
    def test_sends_a_mail_with_the_link_the_shop_and_the_last_day(
        self, own_shop, trainer, django_capture_on_commit_callbacks
    ):
        with django_capture_on_commit_callbacks(execute=True):
            invited = invite(own_shop, trainer)

        (letter,) = mail.outbox
        assert letter.to == ["dana@shop.example"]
        assert own_shop.name in letter.subject
        assert invited.link in letter.body
        # fourteen days after Nov 25, 2026, 15:00 UTC, in Denver (UTC-7 in winter)
        assert "Dec 9, 2026, 8:00\N{NO-BREAK SPACE}AM (America/Denver)" in letter.body
        assert "\n\n\n" not in letter.body

    def test_keeps_only_a_digest_of_the_secret(self, own_shop, trainer) -> None:
        invited = invite(own_shop, trainer)

        secret = invited.link.rstrip("/").rsplit("/", 1)[1]
        assert invited.link.startswith(settings.ADDRESS)
        assert invited.invitation.secret_digest == digest_of(secret)
        assert secret not in "".join(str(value) for value in vars(invited.invitation).values())

    def test_the_same_address_and_role_again_replaces_the_link(self, own_shop, trainer, owner) -> None:
        first = invite(own_shop, trainer)

        again = invite(own_shop, owner, email="Dana@Shop.example", at=NOW + timedelta(days=2))

        assert Invitation.objects.count() == 1
        assert again.is_repeat
        assert again.link != first.link
        assert again.invitation.expires_at == NOW + timedelta(days=2 + settings.INVITATION_DAYS)

    def test_the_link_sent_before_works_no_more(self, own_shop, trainer) -> None:
        first = invite(own_shop, trainer, at=timezone.now())
        invite(own_shop, trainer, at=timezone.now())

        answer = Client().get(first.link.removeprefix(settings.ADDRESS))

        assert answer.status_code == 404
        assert "a newer one was sent" in answer.content.decode()

    def test_a_member_in_this_role_is_refused_in_words(self, own_shop, owner, apprentice) -> None:
        with pytest.raises(acts.InvitationRefused, match=r"already belongs to Quarry Road Tire as apprentice"):
            invite(own_shop, owner, email=apprentice.email)

    def test_a_member_may_be_invited_to_another_role(self, own_shop, owner, apprentice) -> None:
        assert invite(own_shop, owner, email=apprentice.email, role=Role.TRAINER).invitation.role == "trainer"

    def test_a_person_whose_role_ended_may_be_invited_again(self, own_shop, owner) -> None:
        left = MembershipFactory.create(shop=own_shop, ended=True).user

        assert invite(own_shop, owner, email=left.email).invitation.email == left.email

    @pytest.mark.parametrize("role", [Role.TRAINER, Role.OWNER])
    def test_a_trainer_invites_apprentices_only(self, own_shop, trainer, role) -> None:
        with pytest.raises(acts.InvitationRefused, match=f"may not invite a person as {role}; the owner can"):
            invite(own_shop, trainer, role=role)

        assert not Invitation.objects.exists()

    @pytest.mark.parametrize("role", Role.values)
    def test_an_owner_invites_to_any_role(self, own_shop, owner, role) -> None:
        assert invite(own_shop, owner, role=role).invitation.role == role

    def test_an_apprentice_invites_nobody(self, own_shop, apprentice) -> None:
        with pytest.raises(acts.InvitationRefused):
            invite(own_shop, apprentice)

    def test_an_owner_of_another_shop_invites_nobody_here(self, own_shop, person) -> None:
        with pytest.raises(acts.InvitationRefused):
            invite(own_shop, person("owner_of_other_shop"))

    def test_a_mail_that_is_not_taken_is_told_and_the_invitation_stands(
        self, own_shop, trainer, monkeypatch, django_capture_on_commit_callbacks
    ):
        def refuse(*args, **kwargs):
            raise ConnectionRefusedError("no mail server")

        monkeypatch.setattr("training.acts.invitations.send_mail", refuse)
        with django_capture_on_commit_callbacks(execute=True):
            invited = invite(own_shop, trainer)

        assert "mail server did not take" in invited.problem
        assert Invitation.objects.filter(email="dana@shop.example").exists()

    def test_the_database_refuses_a_second_open_one_for_the_same_role(self, own_shop) -> None:
        InvitationFactory.create(shop=own_shop, email="dana@shop.example")

        with pytest.raises(IntegrityError, match="invitation_open_once_per_role"), transaction.atomic():
            InvitationFactory.create(shop=own_shop, email="DANA@shop.example")


class TestThePages:
    def url(self, shop: Shop, invitation: Invitation, act: str) -> str:
        return f"/shop/{shop.slug}/invitations/{invitation.reference}/{act}/"

    def test_the_form_sends_and_says_until_when(
        self, own_shop, trainer, client_as, django_capture_on_commit_callbacks
    ) -> None:
        fields = {"name": "Dana Reyes", "email": "dana@shop.example", "role": "apprentice"}

        with django_capture_on_commit_callbacks(execute=True):
            answer = client_as(trainer).post(f"/shop/{own_shop.slug}/people/invite/", fields, follow=True)

        assert "Invitation sent to dana@shop.example." in answer.content.decode()
        assert len(mail.outbox) == 1

    @pytest.mark.parametrize(
        ("changes", "words"),
        [
            ({"name": " "}, "Name: it is empty"),
            ({"email": "dana"}, "Email address: this is not an address"),
            ({"email": ""}, "Email address: it is empty"),
            ({"role": "owner"}, "Role: &quot;owner&quot; is not open to you"),
            ({"role": ""}, "Role: nothing is chosen"),
        ],
    )
    def test_bad_input_is_named_and_nothing_is_sent(self, own_shop, visit, changes, words) -> None:
        fields = {"name": "Dana Reyes", "email": "dana@shop.example", "role": "apprentice"} | changes

        answer = visit(f"/shop/{own_shop.slug}/people/invite/", as_role="trainer", post=fields)

        assert words in answer.content.decode()
        assert not Invitation.objects.exists()

    def test_a_member_is_refused_beside_the_address(self, own_shop, apprentice, visit) -> None:
        fields = {"name": apprentice.name, "email": apprentice.email, "role": "apprentice"}

        answer = visit(f"/shop/{own_shop.slug}/people/invite/", as_role="owner", post=fields)

        assert "already belongs to Quarry Road Tire as apprentice" in answer.content.decode()

    def test_send_again_gives_a_new_link(self, own_shop, visit) -> None:
        invitation = InvitationFactory.create(shop=own_shop)
        before = invitation.secret_digest

        visit(self.url(own_shop, invitation, "again"), as_role="trainer", post={})

        invitation.refresh_from_db()
        assert invitation.secret_digest != before

    def test_a_trainer_does_not_find_what_only_an_owner_may_send(self, own_shop, visit) -> None:
        for_trainer = InvitationFactory.create(shop=own_shop, role=Role.TRAINER)

        assert for_trainer.email not in visit(f"/shop/{own_shop.slug}/people/", as_role="trainer").content.decode()
        for act in ("again", "withdraw"):
            assert visit(self.url(own_shop, for_trainer, act), as_role="trainer", post={}).status_code == 404
        for_trainer.refresh_from_db()
        assert for_trainer.withdrawn_at is None

    def test_an_invitation_of_another_shop_is_not_found(self, own_shop, other_shop, visit) -> None:
        theirs = InvitationFactory.create(shop=other_shop)

        for act in ("again", "withdraw"):
            assert visit(self.url(own_shop, theirs, act), as_role="owner", post={}).status_code == 404


class TestWithdrawing:
    def test_stops_the_link_once_and_for_all(self, own_shop) -> None:
        invitation = sent_link("abc", shop=own_shop)

        first = acts.withdraw_invitation(invitation=invitation, at=NOW)
        again = acts.withdraw_invitation(invitation=invitation, at=NOW + timedelta(days=1))

        assert first.withdrawn_at == again.withdrawn_at == NOW
        answer = Client().get("/join/abc/")
        assert answer.status_code == 410
        assert "withdrew this invitation" in answer.content.decode()

    def test_is_refused_once_the_person_has_joined(self, own_shop) -> None:
        invitation = InvitationFactory.create(shop=own_shop, accepted=True)

        with pytest.raises(acts.InvitationRefused, match="has joined already"):
            acts.withdraw_invitation(invitation=invitation, at=NOW)


class TestAccepting:
    def test_makes_an_account_with_a_confirmed_address(self, own_shop, trainer) -> None:
        invitation = InvitationFactory.create(shop=own_shop, email="dana@shop.example", invited_by=trainer)

        membership = acts.accept_invitation(
            invitation=invitation, person=None, name=" Dana Reyes ", password=GOOD_PASSWORD, at=NOW
        )

        person = User.objects.get(email="dana@shop.example")
        assert (membership.user, membership.role, membership.since_at) == (person, "apprentice", NOW)
        assert person.name == "Dana Reyes"
        assert person.check_password(GOOD_PASSWORD)
        address = EmailAddress.objects.get(user=person)
        assert (address.email, address.verified, address.primary) == ("dana@shop.example", True, True)

    def test_tells_the_person_who_invited(self, own_shop, trainer) -> None:
        invitation = InvitationFactory.create(shop=own_shop, invited_by=trainer)

        acts.accept_invitation(invitation=invitation, person=None, name="Dana Reyes", password=GOOD_PASSWORD, at=NOW)

        assert Notice.objects.get(person=trainer).text == "Dana Reyes has joined as apprentice."

    def test_adds_the_shop_to_an_account_that_stands(self, own_shop) -> None:
        known = UserFactory.create(email="dana@shop.example", name="Dana Reyes")
        invitation = InvitationFactory.create(shop=own_shop, email=known.email)

        membership = acts.accept_invitation(invitation=invitation, person=known, at=NOW)

        assert (membership.user, membership.shop) == (known, own_shop)
        assert User.objects.filter(email=known.email).count() == 1

    def test_twice_by_the_same_person_changes_nothing(self, own_shop) -> None:
        known = UserFactory.create()
        invitation = InvitationFactory.create(shop=own_shop, email=known.email)
        first = acts.accept_invitation(invitation=invitation, person=known, at=NOW)

        again = acts.accept_invitation(invitation=invitation, person=known, at=NOW + timedelta(minutes=1))

        assert first == again
        assert Membership.objects.filter(user=known).count() == 1
        assert Notice.objects.count() == 1

    def test_a_role_that_ended_does_not_come_back_by_the_old_link(self, own_shop) -> None:
        known = UserFactory.create()
        invitation = InvitationFactory.create(shop=own_shop, email=known.email)
        acts.accept_invitation(invitation=invitation, person=known, at=NOW)
        acts.end_role(shop=own_shop, person=known, role=Role.APPRENTICE, at=NOW)

        with pytest.raises(acts.InvitationClosed, match="already been used"):
            acts.accept_invitation(invitation=invitation, person=known, at=NOW)

    def test_somebody_else_is_refused(self, own_shop) -> None:
        invitation = InvitationFactory.create(shop=own_shop, email="dana@shop.example")

        with pytest.raises(acts.InvitationRefused, match=r"was sent to dana@shop\.example"):
            acts.accept_invitation(invitation=invitation, person=UserFactory.create(), at=NOW)

    def test_an_address_with_an_account_must_log_in(self, own_shop) -> None:
        known = UserFactory.create()
        invitation = InvitationFactory.create(shop=own_shop, email=known.email)

        with pytest.raises(acts.InvitationRefused, match="has an account already"):
            acts.accept_invitation(invitation=invitation, person=None, name="X", password=GOOD_PASSWORD, at=NOW)

    @pytest.mark.parametrize(("after", "is_open"), [(timedelta(0), True), (timedelta(seconds=1), False)])
    def test_the_link_works_until_its_last_instant(self, own_shop, after, is_open) -> None:
        known = UserFactory.create()
        invitation = InvitationFactory.create(shop=own_shop, email=known.email)
        last = invitation.expires_at - timedelta(seconds=1)

        if is_open:
            assert acts.accept_invitation(invitation=invitation, person=known, at=last + after).user == known
        else:
            # sent Nov 25, 14:00 UTC, so over on Dec 9, 14:00 UTC, the 9th in Denver too
            with pytest.raises(acts.InvitationClosed, match=r"until Dec 9, 2026\. Ask the person who invited you"):
                acts.accept_invitation(invitation=invitation, person=known, at=last + after)


class TestTheJoinPage:
    def form(self, **changes: str) -> dict[str, str]:
        return {"name": "Dana Reyes", "password": GOOD_PASSWORD, "again": GOOD_PASSWORD} | changes

    def test_a_new_person_joins_is_logged_in_and_can_log_in_later(self, own_shop) -> None:
        sent_link("abc", shop=own_shop, email="dana@shop.example", name="Dana R.")
        browser = Client()

        page = browser.get("/join/abc/")
        assert 'value="Dana R."' in page.content.decode()
        answer = browser.post("/join/abc/", self.form())

        assert answer.status_code == 302
        person = User.objects.get(email="dana@shop.example")
        assert browser.session["_auth_user_id"] == str(person.pk)
        assert Client().login(email="dana@shop.example", password=GOOD_PASSWORD)

    @pytest.mark.parametrize(
        ("changes", "words"),
        [
            ({"name": "  "}, "Your name: it is empty; give your name."),
            ({"password": "", "again": ""}, "Choose a password: it is empty; give one."),
            ({"again": "another-long-one"}, "The same password again: the two differ"),
            ({"password": "short", "again": "short"}, "at least 10 characters"),
            ({"password": "dana@shop.example", "again": "dana@shop.example"}, "too similar to the email"),
            ({"name": "x" * 121}, "121 characters are too many; give at most 120"),
        ],
    )
    def test_bad_input_is_named_and_nobody_joins(self, own_shop, changes, words) -> None:
        sent_link("abc", shop=own_shop, email="dana@shop.example")

        answer = Client().post("/join/abc/", self.form(**changes))

        assert answer.status_code == 200
        assert words in answer.content.decode()
        assert "<title>Error:" in answer.content.decode()
        assert not User.objects.filter(email="dana@shop.example").exists()

    def test_opening_the_link_uses_nothing_up(self, own_shop) -> None:
        invitation = sent_link("abc", shop=own_shop)

        Client().get("/join/abc/")
        Client().head("/join/abc/")

        invitation.refresh_from_db()
        assert invitation.accepted_at is None

    def test_a_known_address_is_sent_to_log_in_and_back(self, own_shop) -> None:
        known = UserFactory.create(email="dana@shop.example", with_password=True)
        EmailAddress.objects.create(user=known, email=known.email, verified=True, primary=True)
        sent_link("abc", shop=own_shop, email=known.email)
        browser = Client()

        page = browser.get("/join/abc/").content.decode()
        login = present(re.search(r'href="(/accounts/login/\?next=[^"]+)"', page))
        answer = browser.post(login[1], {"login": known.email, "password": PASSWORD})

        assert answer["Location"] == "/join/abc/"
        assert "Your account stays as it is" in browser.get("/join/abc/").content.decode()
        assert browser.post("/join/abc/")["Location"] == "/"
        assert Membership.objects.filter(user=known, shop=own_shop).exists()

    def test_somebody_else_logged_in_is_told_to_log_out(self, own_shop, client_as) -> None:
        sent_link("abc", shop=own_shop, email="dana@shop.example")
        other = UserFactory.create(email="lee@shop.example")

        answer = client_as(other).post("/join/abc/", self.form())

        assert answer.status_code == 409
        assert "was sent to dana@shop.example, and you are logged in as lee@shop.example" in answer.content.decode()
        assert not Membership.objects.filter(user=other).exists()

    def test_a_used_link_says_so_and_takes_its_person_home(self, own_shop, client_as) -> None:
        known = UserFactory.create()
        sent_link("abc", shop=own_shop, email=known.email, accepted_at=timezone.now())

        assert "has already been used" in Client().get("/join/abc/").content.decode()
        assert client_as(known).get("/join/abc/").url == "/"

    def test_a_link_past_its_day_says_whom_to_ask(self, own_shop) -> None:
        now = timezone.now()
        sent_link("abc", shop=own_shop, sent_at=now - timedelta(days=15), expires_at=now - timedelta(days=1))

        answer = Client().post("/join/abc/", self.form())

        assert answer.status_code == 410
        assert "Ask the person who invited you to send it again" in answer.content.decode()

    def test_an_unknown_link_is_not_found(self, db) -> None:
        assert Client().get("/join/nothing/").status_code == 404

    def test_is_never_cached(self, own_shop) -> None:
        sent_link("abc", shop=own_shop)

        assert "no-store" in Client().get("/join/abc/").headers["Cache-Control"]
