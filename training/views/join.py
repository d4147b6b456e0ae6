"""Coming in by the link of an invitation."""

from urllib.parse import urlencode

from django.conf import settings
from django.contrib import messages
from django.contrib.auth import login
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils import timezone
from django.views.decorators.cache import never_cache
from django.views.decorators.debug import sensitive_post_parameters
from django.views.decorators.http import require_http_methods

from training import acts, queries
from training.acts import why_closed
from training.forms.people import JoinForm
from training.models import Invitation, Role, User
from training.trade.speech import say, saying

UNKNOWN_LINK = saying(
    "This link is not one of ours, or a newer one was sent. Open the latest mail, or ask the shop to send it again."
)


@require_http_methods(["GET", "HEAD", "POST"])
@never_cache
@sensitive_post_parameters("password", "again")
def join(request: HttpRequest, secret: str) -> HttpResponse:
    """A new person gives name and password; somebody with an account says yes; a dead link says what to do."""
    invitation = queries.invitation_of_secret(secret)
    if invitation is None:
        return render(request, "training/join_closed.html", {"words": UNKNOWN_LINK}, status=404)
    person = request.user if isinstance(request.user, User) else None
    if closed := why_closed(invitation, at=timezone.now()):
        if person is not None and person.email == invitation.email and invitation.accepted_at:
            return redirect("/")
        return render(request, "training/join_closed.html", {"words": closed, "invitation": invitation}, status=410)
    if person is not None and person.email != invitation.email:
        return render(request, "training/join_other.html", {"invitation": invitation, "person": person}, status=409)
    if person is None and User.objects.filter(email=invitation.email).exists():
        onward = f"{reverse('account_login')}?{urlencode({'next': request.path})}"
        return render(request, "training/join_login.html", {"invitation": invitation, "login_url": onward})
    return _answer(request, invitation, person)


def _answer(request: HttpRequest, invitation: Invitation, person: User | None) -> HttpResponse:
    if person is not None:
        if request.method == "POST":
            return _accept(request, invitation, person)
        return render(request, "training/join_yes.html", {"invitation": invitation})
    form = JoinForm(request.POST or None, invitation=invitation)
    if form.is_valid():
        account = {name: form.cleaned_data[name] for name in ("name", "password")}
        return _accept(request, invitation, None, **account)
    return render(request, "training/join.html", {"form": form, "invitation": invitation})


def _accept(request: HttpRequest, invitation: Invitation, person: User | None, **account: str) -> HttpResponse:
    try:
        membership = acts.accept_invitation(invitation=invitation, person=person, at=timezone.now(), **account)
    except (acts.InvitationClosed, acts.InvitationRefused) as refusal:  # it closed between the page and the press
        context = {"words": str(refusal), "invitation": invitation}
        return render(request, "training/join_closed.html", context, status=410)
    if person is None:
        login(request, membership.user, backend=settings.AUTHENTICATION_BACKENDS[0])
    messages.success(
        request,
        say(
            "Welcome to {shop}. You belong to it as {role}.",
            shop=invitation.shop.name,
            role=Role(membership.role).told,
        ),
    )
    return redirect("/")
