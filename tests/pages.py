"""What a test asks of a page: its address, what it says, and what it costs."""

import re
from collections.abc import Callable
from html import unescape
from html.parser import HTMLParser

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


class _Fields(HTMLParser):
    """What the fields of a page hold, by name; of several with one name a list."""

    def __init__(self, html: str) -> None:
        super().__init__()
        self.held: dict[str, list[str]] = {}
        self.select, self.area = "", ""
        self.feed(html)
        self.close()

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        given = {name: value or "" for name, value in attrs}
        name, is_box = given.get("name", ""), given.get("type") in {"checkbox", "radio"}
        if tag == "select":
            self.select = name
        elif tag == "option" and self.select and ("selected" in given or self.select not in self.held):
            self.held[self.select] = [given.get("value", "")]
        elif tag == "textarea":
            self.area, self.held[name] = name, [""]
        elif tag == "input" and name and ("checked" in given or not is_box):
            self.held.setdefault(name, []).append(given.get("value", "on" if is_box else ""))

    def handle_data(self, data: str) -> None:
        if self.area:
            self.held[self.area][0] += data

    def handle_endtag(self, tag: str) -> None:
        if tag == "select":
            self.select = ""
        elif tag == "textarea":
            self.area = ""


def fields_of(html: str) -> dict[str, list[str]]:
    """What the fields of a page hold, by name, as a browser would send them back."""
    return _Fields(html).held


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
