"""Which casings a shop works on. Its scopes are known to an app above this one, so the settings name who answers."""

from collections.abc import Callable
from typing import cast

from django.conf import settings
from django.utils.module_loading import import_string

from training.models import Shop


def casings_of(shop: Shop) -> tuple[str, ...]:
    """The casings of all scopes that the shop works in; no query."""
    answer = cast(Callable[[Shop], tuple[str, ...]], import_string(settings.CASINGS_OF_SHOP))
    return answer(shop)
