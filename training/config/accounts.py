"""How people get an account: by invitation only."""

from allauth.account.adapter import DefaultAccountAdapter
from django.http import HttpRequest


class ShopAccountAdapter(DefaultAccountAdapter):  # type: ignore[misc]
    """Nobody signs up unasked; an account is made when an invitation is accepted."""

    def is_open_for_signup(self, request: HttpRequest) -> bool:
        return False
