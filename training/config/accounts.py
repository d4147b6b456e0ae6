"""How people get an account: by invitation only."""

from allauth.account.adapter import DefaultAccountAdapter
from django.http import HttpRequest

from training.trade.speech import saying


class ShopAccountAdapter(DefaultAccountAdapter):  # type: ignore[misc]
    """Nobody signs up unasked; an account is made when an invitation is accepted."""

    error_messages = DefaultAccountAdapter.error_messages | {
        "email_password_mismatch": saying("Address and password do not match; type both again."),
        "enter_current_password": saying("Current password: it is not the one you log in with now; type it again."),
        "too_many_login_attempts": saying("Too many wrong passwords. Wait a few minutes, then log in again."),
    }

    def is_open_for_signup(self, request: HttpRequest) -> bool:
        return False
