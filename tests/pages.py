"""What a test asks of a page: its address, what it says, and what it costs."""

import re
from collections.abc import Callable
from html import unescape

from django.db import connection
from django.http import HttpResponse
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from training.models import Shop, User


class Answer(HttpResponse):
    """An answer as a test's client hands it over; `url` is where a redirect leads."""

    url: str


ClientAs = Callable[[str | User], Client]
Visit = Callable[..., Answer]


def url(name: str, shop: Shop, *args: object) -> str:
    """The address of a page of a shop, by its name in the app: `url("assessments:item", shop, reference, 1)`."""
    return reverse(name, args=[shop.slug, *args])


def text_of(page: HttpResponse | str) -> str:
    """What a page says: no tags, no drawings, single spaces."""
    html = page if isinstance(page, str) else page.content.decode()
    words = re.sub(r"<(svg|style|script)\b.*?</\1>|<[^>]+>", " ", html, flags=re.DOTALL)
    return " ".join(unescape(words).split())


def queries_of(read: Callable[[], object]) -> int:
    """How many queries a reading costs."""
    with CaptureQueriesContext(connection) as captured:
        read()
    return len(captured)


def cost_of(client: Client, address: str) -> int:
    """How many queries a page costs that was opened before, so that sessions and the like are warm."""
    client.get(address)

    def again() -> None:
        assert client.get(address).status_code == 200

    return queries_of(again)
