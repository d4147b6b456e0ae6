"""A question of every family as a learner sees it: open on a phone, explained on a desk."""

import json
import re
import sqlite3

import pytest
from playwright.sync_api import Page, expect

from assessments.questions import draw, family_names
from tests.browser.server import Site
from tests.browser.watch import PASSWORD, SHOP, log_in, watch, width_of
from tests.homes import home
from training.stored import enveloped

pytestmark = pytest.mark.browser

LEARNERS = {"phone": "apprentice@quarry-road.example", "desk": "ilya@quarry-road.example"}


def ask_everything(site: Site, reference: str) -> None:
    """Put a question of every family into a practice that was just begun, instead of those that were drawn."""
    with sqlite3.connect(site.folder / "sound-casing.sqlite3", timeout=20) as database:
        [form] = database.execute(
            "select id from assessments_form where reference = ?", [reference.replace("-", "")]
        ).fetchone()
        database.execute("delete from assessments_formitem where form_id = ?", [form])
        for position, name in enumerate(family_names(), 1):
            item = draw(name, seed=f"seen {position}", edition=home(name))
            database.execute(
                "insert into assessments_formitem (form_id, position, family, skill, lesson, digest, family_version,"
                " template, casing, format, traits, open, snapshot)"
                " values (?, ?, ?, ?, ?, '', '', '', '', '', ?, ?, ?)",
                [
                    form,
                    position,
                    name,
                    item.skill,
                    item.lesson,
                    json.dumps(enveloped({}, schema=1)),
                    json.dumps(enveloped(item.open().to_json(), schema=2)),
                    json.dumps(enveloped(item.to_json(), schema=3)),
                ],
            )
        database.execute("update assessments_form set size = ? where id = ?", [len(family_names()), form])


def test_a_question_of_every_family_can_be_read(page: Page, site: Site) -> None:
    width = width_of(page)
    log_in(page, LEARNERS[width], PASSWORD)
    page.goto(f"{SHOP}/practice/")
    page.get_by_role("button", name=re.compile("practicing all skills mixed")).click()
    page.wait_for_url("**/practice/*/1/")
    ask_everything(site, page.url.split("/practice/")[1].split("/")[0])
    first = page.url
    for position, name in enumerate(family_names(), 1):
        page.goto(re.sub(r"/1/$", f"/{position}/", first))
        if width == "desk":
            page.get_by_role("button", name="Explain it to me").click()
            expect(page.get_by_role("button", name="Explain it to me")).to_have_count(0)
        watch(page, f"family {name} {'explained' if width == 'desk' else 'open'}")
