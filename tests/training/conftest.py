"""What tests of the shop's pages share."""

from collections.abc import Callable
from typing import Any

import pytest


@pytest.fixture
def ask(own_shop: Any, client_as: Any) -> Callable[..., Any]:
    """Open Check a tire with what was found, as an apprentice of the shop."""
    browser = client_as("apprentice")

    def go(found: dict[str, str], **more: str) -> Any:
        return browser.get(f"/shop/{own_shop.slug}/check/", found | more, follow=True)

    return go
