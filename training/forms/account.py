"""Logging in and passwords: the forms of allauth in the words of this site."""

from typing import Any

from allauth.account import forms as account

from training.forms.fields import said
from training.trade.speech import saying

_LABELS = {
    "login": saying("Email"),
    "email": saying("Email"),
    "password": saying("Password"),
    "oldpassword": saying("Current password"),
    "password1": saying("New password"),
    "password2": saying("The new password again"),
}
_EMPTY = {
    "login": saying("it is empty; give the address you log in with."),
    "email": saying("it is empty; give the address you log in with."),
    "password": saying("it is empty; give your password."),
    "oldpassword": saying("it is empty; give the password you log in with now."),
    "password1": saying("it is empty; give one."),
    "password2": saying("it is empty; type the new password once more."),
}
_NO_ADDRESS = saying("this is not an address; give one such as dana@example.org.")


class _InOurWords:
    """Each field is named and refused as everywhere on the site."""

    fields: dict[str, Any]

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        for name, label in _LABELS.items():
            if field := self.fields.get(name):
                field.label = label
                field.error_messages |= said(label, required=_EMPTY[name])
                if name in ("login", "email"):
                    field.error_messages |= said(label, invalid=_NO_ADDRESS)


class LoginForm(_InOurWords, account.LoginForm):  # type: ignore[misc]
    """Who one is."""


class ResetPasswordForm(_InOurWords, account.ResetPasswordForm):  # type: ignore[misc]
    """Where the link to a new password goes."""


class ResetPasswordKeyForm(_InOurWords, account.ResetPasswordKeyForm):  # type: ignore[misc]
    """A new password by the link from the mail."""


class ChangePasswordForm(_InOurWords, account.ChangePasswordForm):  # type: ignore[misc]
    """A new password for the one that is known."""
