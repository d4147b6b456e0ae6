"""What tests of the shop's pages share."""

from collections.abc import Callable
from typing import Any

import pytest

from tests.factories import MembershipFactory, UserFactory
from training.models import Shop, User


@pytest.fixture
def ask(own_shop: Any, client_as: Any) -> Callable[..., Any]:
    """Open Check a tire with what was found, as an apprentice of the shop."""
    browser = client_as("apprentice")

    def go(found: dict[str, str], **more: str) -> Any:
        return browser.get(f"/shop/{own_shop.slug}/check/", found | more, follow=True)

    return go


@pytest.fixture
def second(own_shop: Shop) -> User:
    """Another trainer of the shop."""
    other: User = MembershipFactory.create(
        shop=own_shop, role="trainer", user=UserFactory.create(name="Sam Second")
    ).user
    return other
