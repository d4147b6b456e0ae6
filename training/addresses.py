"""The addresses of pages, each put together once: a page names dozens of them, most of them again and again."""

from functools import lru_cache
from uuid import UUID

from django.urls import get_script_prefix, get_urlconf, reverse

_PLAIN = frozenset({str, int, UUID})  # what reads the same whenever it is asked


def address(page: str, *places: object, **named: object) -> str:
    """The address of a page by its name, as `django.urls.reverse`. Raises NoReverseMatch."""
    if all(type(place) in _PLAIN for place in (*places, *named.values())):
        return _known(get_urlconf(), get_script_prefix(), page, *places, **named)
    return reverse(page, args=places, kwargs=named)


@lru_cache(maxsize=4096, typed=True)
def _known(_addresses: str | None, _before: str, page: str, *places: object, **named: object) -> str:
    return reverse(page, args=places, kwargs=named)
