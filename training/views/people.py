"""Who belongs to the shop: invitations and roles."""

from typing import Any
from uuid import UUID

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils import timezone

from training import acts, queries
from training.access import Place, shop_page
from training.acts import roles_to_invite
from training.forms.people import InviteForm, RoleForm
from training.models import Invitation, Role, User
from training.trade.days import written_instant
from training.trade.speech import say


@shop_page(Role.OWNER, Role.TRAINER, while_sitting=True)
def people(request: HttpRequest, place: Place) -> HttpResponse:
    """Members, those who left, and open invitations."""
    everybody = queries.members(place.shop)
    context = {
        "members": [member for member in everybody if member.held],
        "left": [member for member in everybody if not member.held],
        "invitations": queries.open_invitations(place.shop, roles=roles_to_invite(place.roles)),
        "now": timezone.now(),
        "may_change": place.has(Role.OWNER),
    }
    return render(request, "training/people.html", context)


@shop_page(Role.OWNER, Role.TRAINER, methods="GET HEAD POST", while_sitting=True)
def invite(request: HttpRequest, place: Place) -> HttpResponse:
    """Ask an address into the shop."""
    form = InviteForm(request.POST or None, roles=roles_to_invite(place.roles))
    if form.is_valid():
        try:
            invited = acts.invite(shop=place.shop, invited_by=place.person, at=timezone.now(), **form.cleaned_data)
        except acts.InvitationRefused as refusal:
            form.add_error("email", str(refusal))
        else:
            _tell(request, invited)
            return redirect("training:people", place.shop.slug)
    return render(request, "training/invite.html", {"form": form})


@shop_page(Role.OWNER, Role.TRAINER, methods="POST", while_sitting=True)
def again(request: HttpRequest, place: Place, reference: UUID) -> HttpResponse:
    """Send an open invitation again, with a new link."""
    invitation = _invitation(place, reference)
    try:
        invited = acts.invite(
            shop=place.shop,
            invited_by=place.person,
            email=invitation.email,
            name=invitation.name,
            role=invitation.role,
            at=timezone.now(),
        )
    except acts.InvitationRefused as refusal:
        messages.error(request, str(refusal))
    else:
        _tell(request, invited)
    return redirect("training:people", place.shop.slug)


@shop_page(Role.OWNER, Role.TRAINER, methods="POST", while_sitting=True)
def withdraw(request: HttpRequest, place: Place, reference: UUID) -> HttpResponse:
    """Make an invitation's link stop working."""
    try:
        invitation = acts.withdraw_invitation(invitation=_invitation(place, reference), at=timezone.now())
    except acts.InvitationRefused as refusal:
        messages.error(request, str(refusal))
    else:
        messages.success(
            request, say("Invitation of {address} withdrawn. Its link no longer works.", address=invitation.email)
        )
    return redirect("training:people", place.shop.slug)


@shop_page(Role.OWNER, while_sitting=True)
def roles(request: HttpRequest, place: Place, person: UUID) -> HttpResponse:
    """One person's roles, to give and to end."""
    return _roles_page(request, place, _person(place, person), RoleForm())


@shop_page(Role.OWNER, methods="POST", while_sitting=True)
def role_give(request: HttpRequest, place: Place, person: UUID) -> HttpResponse:
    """Give a role."""
    found = _person(place, person)
    form = RoleForm(request.POST)
    if form.is_valid():
        try:
            acts.give_role(shop=place.shop, person=found, at=timezone.now(), **form.cleaned_data)
        except acts.RoleRefused as refusal:
            form.add_error(None, str(refusal))
        else:
            messages.success(
                request, say("{person} is {role} now.", person=found.name, role=Role(form.cleaned_data["role"]).told)
            )
            return redirect("training:roles", place.shop.slug, found.reference)
    return _roles_page(request, place, found, form)


@shop_page(Role.OWNER, methods="POST", while_sitting=True)
def role_end(request: HttpRequest, place: Place, person: UUID) -> HttpResponse:
    """End a role."""
    found = _person(place, person)
    form = RoleForm(request.POST)
    if form.is_valid():
        role = form.cleaned_data["role"]
        try:
            acts.end_role(shop=place.shop, person=found, role=role, at=timezone.now())
        except acts.RoleRefused as refusal:
            form.add_error(None, str(refusal))
        else:
            messages.success(
                request,
                say(
                    "{person} is no longer {role} here. What they did stays on record.",
                    person=found.name,
                    role=Role(role).told,
                ),
            )
            if found == place.person and role == Role.OWNER:
                return redirect("/")  # this page is no longer theirs
            return redirect("training:roles", place.shop.slug, found.reference)
    return _roles_page(request, place, found, form)


def _roles_page(request: HttpRequest, place: Place, person: User, form: RoleForm) -> HttpResponse:
    member = queries.members(place.shop, person=person)[0]
    since = {membership.role: membership.since_at for membership in member.held}
    words = {
        Role.APPRENTICE: say("Learns, practices, takes the assessment."),
        Role.TRAINER: say("Assigns modules, evaluates hands-on work, invites apprentices."),
        Role.OWNER: say("Everything, and who belongs to the shop."),
    }
    rows: list[dict[str, Any]] = [{"role": role, "words": words[role], "since": since.get(role.value)} for role in Role]
    return render(request, "training/roles.html", {"member": member, "rows": rows, "form": form})


def _person(place: Place, reference: UUID) -> User:
    return get_object_or_404(queries.person_in(place.shop), reference=reference)


def _invitation(place: Place, reference: UUID) -> Invitation:
    """One of those this person may send; a trainer finds none but an apprentice's."""
    mine = Invitation.objects.filter(shop=place.shop, role__in=roles_to_invite(place.roles))
    return get_object_or_404(mine, reference=reference)


def _tell(request: HttpRequest, invited: acts.Invited) -> None:
    if invited.problem:
        messages.error(request, invited.problem)
        return
    invitation = invited.invitation
    told = {"address": invitation.email, "time": written_instant(timezone.localtime(invitation.expires_at))}
    messages.success(
        request,
        say(
            "Invitation sent to {address} again; the link sent before no longer works. The link works until {time}.",
            **told,
        )
        if invited.is_repeat
        else say("Invitation sent to {address}. The link works until {time}.", **told),
    )
