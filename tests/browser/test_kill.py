"""Pull the plug in the middle of an assessment: what was acknowledged is there afterwards, and the clock has gone on.

Needs no browser: a plain HTTP client keeps the cookies and reads the forms.
"""

import http.client
import http.cookiejar
import json
import re
import shutil
import threading
import time
import urllib.error
import urllib.parse
import urllib.request
from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.browser.server import Site
from tests.browser.watch import SHOP

CLOSES_AT = "select closes_at from assessments_attempt order by id desc limit 1"


class Person:
    """Somebody at a keyboard without a browser."""

    def __init__(self, site: Site) -> None:
        self.site = site
        self.open = urllib.request.build_opener(urllib.request.HTTPCookieProcessor(http.cookiejar.CookieJar())).open

    def get(self, path: str) -> tuple[str, str]:
        with self.open(self.site.address + path, timeout=20) as answer:
            return answer.url, answer.read().decode()

    def post(self, path: str, **fields: str) -> tuple[str, str]:
        """Send the form of the page at `path`, with its token."""
        _, page = self.get(path)
        token = re.search(r'name="csrfmiddlewaretoken" value="([^"]+)"', page)
        assert token, path
        action = fields.pop("action", path)
        data = urllib.parse.urlencode({"csrfmiddlewaretoken": token[1], **fields}).encode()
        with self.open(self.site.address + action, data, timeout=20) as answer:
            return answer.url, answer.read().decode()


@pytest.fixture
def own_site(prepared: Path, tmp_path: Path) -> Iterator[Site]:
    site = Site(shutil.copytree(prepared, tmp_path, dirs_exist_ok=True))
    site.start()
    yield site
    site.kill()


def test_every_acknowledged_answer_survives_the_death_of_the_server_and_the_clock_goes_on(own_site: Site) -> None:
    person = Person(own_site)
    person.post("/accounts/login/", login="apprentice@quarry-road.example", password="crayon-on-rubber")
    start = f"{SHOP}/assessment/north-america-light/"
    url, _ = person.post(start, action=f"{start}start/", is_ready="on")
    reference = url.split("/assessment/")[1].split("/")[0]
    items = {
        row["position"]: json.loads(row["snapshot"])["content"]
        for row in own_site.rows(
            "select position, snapshot from assessments_formitem i join assessments_form f on f.id = i.form_id"
            " where f.reference = ?",
            [reference.replace("-", "")],
        )
    }
    choices = [position for position, item in items.items() if item["format"] == "one"]
    assert len(choices) > 10
    acknowledged: dict[int, str] = {}
    closes_at = own_site.rows(CLOSES_AT)[0]["closes_at"]

    def answer_until_the_line_goes_dead() -> None:
        for position in choices:
            try:
                answered, _ = person.post(
                    f"{SHOP}/assessment/{reference}/{position}/", answer="2", revision="0", go="next"
                )
            except (OSError, urllib.error.URLError, http.client.HTTPException):
                return
            if f"/{position}/" not in answered:  # sent on to the next question: acknowledged
                acknowledged[position] = "2"

    answering = threading.Thread(target=answer_until_the_line_goes_dead)
    answering.start()
    while len(acknowledged) < 5:
        time.sleep(0.005)
    own_site.kill()  # SIGKILL to the whole process group, somewhere inside the next answer
    answering.join(timeout=60)
    own_site.start()

    stored = {
        row["position"]: json.loads(row["answer"])
        for row in own_site.rows(
            "select r.position, r.answer from assessments_response r join assessments_attempt a on a.id = r.attempt_id"
            " join assessments_form f on f.id = a.form_id where f.reference = ?",
            [reference.replace("-", "")],
        )
    }
    assert len(acknowledged) >= 5
    assert acknowledged.items() <= stored.items()
    assert own_site.rows("pragma integrity_check")[0][0] == "ok"
    assert own_site.rows(CLOSES_AT)[0]["closes_at"] == closes_at
    _, page = person.get(f"{SHOP}/assessment/{reference}/{choices[0]}/")
    assert re.search(r'value="2"[^>]*checked|checked[^>]*value="2"', page)
