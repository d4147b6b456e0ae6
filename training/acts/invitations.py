"""Asking people into a shop, and their coming in."""

import logging
import secrets
from dataclasses import dataclass
from datetime import datetime, timedelta
from smtplib import SMTPException
from zoneinfo import ZoneInfo

from allauth.account.models import EmailAddress
from django.conf import settings
from django.core.exceptions import ValidationError
from django.core.mail import send_mail
from django.db import IntegrityError, transaction
from django.template.loader import render_to_string
from django.urls import reverse

from training.models import Invitation, Membership, Notice, Role, Shop, User, digest_of
from training.rulebook import edition_language
from training.speaking import speaking
from training.trade.days import written_day, written_instant
from training.trade.speech import say

log = logging.getLogger(__name__)

# whom a person may ask in, by the roles they hold themselves
MAY_INVITE: dict[str, tuple[str, ...]] = {Role.OWNER: tuple(Role.values), Role.TRAINER: (Role.APPRENTICE,)}


class InvitationRefused(Exception):
    """This person may not be invited so: the words say why."""


class InvitationClosed(Exception):
    """The invitation was used, withdrawn, or is past its day: the words say which."""


@dataclass
class Invited:
    """An invitation that stands. `link` is known only now, since the database keeps a digest of its secret.

    `problem` is filled after the transaction when the mail could not be handed to the mail server.
    """

    invitation: Invitation
    link: str
    is_repeat: bool
    problem: str = ""


def roles_to_invite(held: frozenset[str]) -> tuple[str, ...]:
    """The roles that a person holding `held` may invite to, in the order of Role."""
    allowed = {role for own in held for role in MAY_INVITE.get(own, ())}
    return tuple(role for role in Role.values if role in allowed)


def invite(*, shop: Shop, invited_by: User | None, email: str, name: str, role: str, at: datetime) -> Invited:
    """Send an address a link to join `shop` as `role`; asking again sends a new link, and the one before stops working.

    `invited_by` is None only when the shop is being opened. Raises InvitationRefused.
    """
    link = new_link()
    with transaction.atomic():
        return invite_by(link, shop=shop, invited_by=invited_by, email=email, name=name, role=role, at=at)


def new_link() -> tuple[str, str]:
    """A secret that nobody can guess, and the address it opens."""
    secret = secrets.token_urlsafe(32)
    return secret, settings.ADDRESS + reverse("training:join", args=[secret])


def invite_by(
    link: tuple[str, str], *, shop: Shop, invited_by: User | None, email: str, name: str, role: str, at: datetime
) -> Invited:
    """What `invite` does, by a link of `new_link`, in the transaction of its caller."""
    email, name = email.strip().lower(), name.strip()
    Shop.objects.select_for_update(no_key=True).get(pk=shop.pk)  # two presses at once must find one invitation
    if invited_by is not None:
        held = Membership.objects.filter(shop=shop, user=invited_by, ended_at=None).values_list("role", flat=True)
        if role not in roles_to_invite(frozenset(held)):
            raise InvitationRefused(
                say(
                    "{person} may not invite a person as {role}; the owner can.",
                    person=invited_by.name,
                    role=Role(role).told,
                )
            )
    if Membership.objects.filter(shop=shop, user__email=email, role=role, ended_at=None).exists():
        raise InvitationRefused(
            say(
                "{address} already belongs to {shop} as {role}. Nothing was sent.",
                address=email,
                shop=shop.name,
                role=Role(role).told,
            )
        )
    secret, address = link
    fields = {
        "name": name,
        "secret_digest": digest_of(secret),
        "invited_by": invited_by,
        "sent_at": at,
        "expires_at": at + timedelta(days=settings.INVITATION_DAYS),
    }
    opened = Invitation.objects.select_for_update(no_key=True).filter(
        shop=shop, email=email, role=role, accepted_at=None, withdrawn_at=None
    )
    is_repeat = bool(opened.update(**fields))
    if not is_repeat:
        Invitation(shop=shop, email=email, role=role, **fields).save()
    invitation = Invitation.objects.select_related("shop", "invited_by").get(secret_digest=fields["secret_digest"])
    invited = Invited(invitation, address, is_repeat)
    transaction.on_commit(lambda: _send(invited))
    return invited


@transaction.atomic
def withdraw_invitation(*, invitation: Invitation, at: datetime) -> Invitation:
    """Make the link stop working. Once more changes nothing. Raises InvitationRefused when it was used already."""
    invitation = Invitation.objects.select_for_update(no_key=True).get(pk=invitation.pk)
    if invitation.accepted_at:
        raise InvitationRefused(
            say(
                "{person} has joined already, so there is nothing to withdraw; end the role on the People page.",
                person=invitation.name,
            )
        )
    if invitation.withdrawn_at is None:
        invitation.withdrawn_at = at
        invitation.save(update_fields=["withdrawn_at"])
    return invitation


def accept_invitation(
    *, invitation: Invitation, person: User | None, at: datetime, name: str = "", password: str = ""
) -> Membership:
    """Let the invited person in. Without `person`, an account is made with `name` and `password`.

    The same person once more changes nothing. Raises InvitationClosed, or InvitationRefused for somebody else.
    """
    # made before the lock is taken: a password is hashed for a third of a second
    account = _account(email=invitation.email, name=name, password=password) if person is None else None
    return _accept(invitation=invitation, person=person, account=account, at=at)


@transaction.atomic
def _accept(*, invitation: Invitation, person: User | None, account: User | None, at: datetime) -> Membership:
    waiting = Invitation.objects.select_for_update(of=("self",), no_key=True).select_related("shop", "invited_by")
    invitation = waiting.get(pk=invitation.pk)
    if person is not None and person.email != invitation.email:
        raise InvitationRefused(
            say(
                "This link was sent to {address}, and you are logged in as {own_address}.",
                address=invitation.email,
                own_address=person.email,
            )
        )
    if person is not None and invitation.accepted_at:
        held = Membership.objects.filter(shop=invitation.shop, user=person, role=invitation.role, ended_at=None).first()
        if held:
            return held
    if closed := why_closed(invitation, at=at):
        raise InvitationClosed(closed)
    if account is not None:
        try:
            with transaction.atomic():
                account.save()
        except IntegrityError:  # made before, or at this moment by the link of another shop
            raise InvitationRefused(
                say("{address} has an account already; log in, then open the link again.", address=invitation.email)
            ) from None
        # the link came by mail to this address, so it is theirs: password reset needs this row
        EmailAddress.objects.create(user=account, email=account.email, verified=True, primary=True)
    membership, _ = Membership.objects.get_or_create(
        shop=invitation.shop, user=person or account, role=invitation.role, ended_at=None, defaults={"since_at": at}
    )
    invitation.accepted_at = at
    invitation.save(update_fields=["accepted_at"])
    if invitation.invited_by:
        Notice.objects.create(
            shop=invitation.shop,
            person=invitation.invited_by,
            text=say("{person} has joined as {role}.", person=membership.user.name, role=Role(invitation.role).told),
            written_at=at,
        )
    return membership


def why_closed(invitation: Invitation, *, at: datetime) -> str:
    """Why the link no longer works, in words; empty while it works."""
    if invitation.accepted_at:
        return say("This link has already been used. Log in with the address it was sent to.")
    if invitation.withdrawn_at:
        return say("The shop withdrew this invitation. Ask the person who invited you.")
    if at >= invitation.expires_at:
        day = invitation.expires_at.astimezone(ZoneInfo(invitation.shop.time_zone)).date()
        last = written_day(day)
        return say("This link worked until {day}. Ask the person who invited you to send it again.", day=last)
    return ""


def _account(*, email: str, name: str, password: str) -> User:
    """An account that is not stored yet."""
    if not name.strip() or not password:
        raise ValidationError(say("Give your name and a password."))
    account = User(email=email, name=name.strip())
    account.set_password(password)
    account.clean_fields()
    return account


def _send(invited: Invited) -> None:
    with speaking(edition_language(invited.invitation.shop.edition)):  # who opens a shop may speak another
        _send_spoken(invited)


def _send_spoken(invited: Invited) -> None:
    invitation = invited.invitation
    last = invitation.expires_at.astimezone(ZoneInfo(invitation.shop.time_zone))
    until = written_instant(last)
    role = Role(invitation.role).told
    context = {"invitation": invitation, "link": invited.link, "until": until, "role": role}
    subject = " ".join(render_to_string("training/mail/invitation_subject.txt", context).split())
    try:
        send_mail(subject, render_to_string("training/mail/invitation.txt", context), None, [invitation.email])
    except (OSError, SMTPException) as error:
        log.warning("invitation %s: the mail was not taken: %s", invitation.reference, error)
        invited.problem = say(
            "The invitation stands, but the mail server did not take the mail. Press Send again later."
        )
