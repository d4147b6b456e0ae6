"""Inviting, joining, and roles."""

from typing import Any, cast

from django import forms
from django.contrib.auth.password_validation import (
    MinimumLengthValidator,
    get_default_password_validators,
    validate_password,
)
from django.core.exceptions import ValidationError

from training.forms.base import PlainForm
from training.forms.fields import choice, said, text
from training.models import Invitation, Role, User
from training.trade.speech import say, saying

NAME_LENGTH = 120


class InviteForm(PlainForm):
    """Whom to ask in, and as what. Only the roles the inviter may give are offered."""

    name = text(
        saying("Name"), most=NAME_LENGTH, empty=saying("it is empty; give the person's name."), autocomplete="off"
    )
    email = forms.EmailField(
        label=saying("Email address"),
        help_text=saying("The link goes to this address and works for nobody else."),
        widget=forms.EmailInput(attrs={"autocomplete": "off"}),
        error_messages=said(
            saying("Email address"),
            required=saying("it is empty; give one such as dana@example.org."),
            invalid=saying("this is not an address; give one such as dana@example.org."),
        ),
    )
    role = choice(
        saying("Role"),
        empty=saying("nothing is chosen; choose one."),
        unknown=saying('"%(value)s" is not open to you; choose one of those listed.'),
        widget=forms.RadioSelect,
    )

    def __init__(self, *args: Any, roles: tuple[str, ...], **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        words = {
            Role.APPRENTICE: say("Apprentice: learns, practices, takes the assessment"),
            Role.TRAINER: say("Trainer: assigns, evaluates hands-on work"),
            Role.OWNER: say("Owner: everything, and who belongs to the shop"),
        }
        role = cast(forms.ChoiceField, self.fields["role"])
        role.choices = [(value, words[Role(value)]) for value in roles]
        role.initial = roles[0]


class JoinForm(PlainForm):
    """A new person's name and password."""

    name = text(
        saying("Your name"),
        most=NAME_LENGTH,
        empty=saying("it is empty; give your name."),
        hint=saying("As it should appear on your certificate."),
        autocomplete="name",
    )
    password = forms.CharField(
        label=saying("Choose a password"),
        strip=False,
        widget=forms.PasswordInput(attrs={"autocomplete": "new-password"}),
        error_messages={"required": saying("Choose a password: it is empty; give one.")},
    )
    again = forms.CharField(
        label=saying("The same password again"),
        strip=False,
        widget=forms.PasswordInput(attrs={"autocomplete": "new-password"}),
        error_messages={"required": saying("The same password again: it is empty; type the password once more.")},
    )

    def __init__(self, *args: Any, invitation: Invitation, **kwargs: Any) -> None:
        super().__init__(*args, initial={"name": invitation.name}, **kwargs)
        self.invitation = invitation
        self.fields["password"].help_text = _password_words()

    def clean(self) -> dict[str, Any]:
        data = super().clean() or {}
        password, again = data.get("password"), data.get("again")
        if password and again and password != again:
            self.add_error("again", say("The same password again: the two differ; type the same password in both."))
        if password:
            person = User(email=self.invitation.email, name=data.get("name", ""))
            try:
                validate_password(password, person)
            except ValidationError as refused:
                self.add_error(
                    "password", [say("Choose a password: {problem}", problem=problem) for problem in refused.messages]
                )
        return data


def _password_words() -> str:
    lengths = [one.min_length for one in get_default_password_validators() if isinstance(one, MinimumLengthValidator)]
    return say(
        "At least {least} characters. Not a common one, and nothing like your name or address.",
        least=max(lengths, default=1),
    )


class RoleForm(PlainForm):
    """One role to give or to end."""

    role = choice(
        saying("Role"),
        Role.choices,
        empty=saying("nothing is chosen; choose apprentice, trainer or owner."),
        unknown=saying('"%(value)s" is not a role; choose apprentice, trainer or owner.'),
    )
