"""Every address of the site against everybody who may ask, and a test that no address is missing from the table."""

from collections.abc import Callable, Iterator
from typing import Any

import pytest
from django.urls import URLPattern, URLResolver, get_resolver, reverse

from tests.pages import ClientAs
from tests.permissions import TABLE, WHO

pytestmark = pytest.mark.walk  # over everything of a kind: what the README adds passes it too


def _named(patterns: list[Any], namespace: str = "") -> Iterator[str]:
    for pattern in patterns:
        if isinstance(pattern, URLResolver):
            inner = f"{namespace}{pattern.namespace}:" if pattern.namespace else namespace
            yield from _named(pattern.url_patterns, inner)
        elif isinstance(pattern, URLPattern) and pattern.name:
            yield namespace + pattern.name


def test_the_table_names_every_address_of_the_site() -> None:
    assert {name for name, _ in TABLE} == set(_named(get_resolver().url_patterns))


@pytest.mark.parametrize("method", ["get", "post"])
@pytest.mark.parametrize("page", TABLE, ids=[name for name, _ in TABLE])
def test_each_address_answers_each_role_as_listed(
    page: tuple[str, tuple[str, ...]],
    method: str,
    value: Callable[[str], object],
    client_as: ClientAs,
) -> None:
    name, arguments = page
    address = reverse(name, args=[value(argument) for argument in arguments])
    row = TABLE[page][method == "post"]
    expected = dict(zip(WHO, row.split(), strict=True))

    # whoever may write comes last, so that no refusal is owed to a change made before it
    order = sorted(WHO, key=lambda who: expected[who] not in ("404", "405"))
    found = {who: str(getattr(client_as(who), method)(address).status_code) for who in order}

    assert " ".join(found[who] for who in WHO) == row
