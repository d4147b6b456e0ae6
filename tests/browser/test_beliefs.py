"""An apprentice practices with a wrong rule in mind; the end of the practice and the trainer's page say which."""

import json
from itertools import count
from random import Random

import pytest
from playwright.sync_api import Page, expect

from assessments.questions import Item
from tests.browser.server import Site
from tests.browser.watch import across, log_in, watch
from tests.simulations.learners import intended

pytestmark = pytest.mark.browser

PASSWORD, SHOP = "crayon-on-rubber", "/shop/quarry-road"
BELIEF, STATEMENT = "stricter-size", "Anything larger than 1/8 in is too large to repair."


def snapshot(site: Site, reference: str, position: int) -> Item:
    """The stored question, key and all, from under the server."""
    [[text]] = site.rows(
        "SELECT i.snapshot FROM assessments_formitem i JOIN assessments_form f ON f.id = i.form_id "
        "WHERE f.reference = ? AND i.position = ?",
        (reference.replace("-", ""), position),
    )
    return Item.from_json(json.loads(text)["content"])


def size(site: Site, reference: str) -> int:
    """How many questions a practice has by now: what was mistaken alike is asked again before it ends."""
    [[asked]] = site.rows("SELECT size FROM assessments_form WHERE reference = ?", (reference.replace("-", ""),))
    return int(asked)


def practice_once(page: Page, site: Site) -> None:
    page.goto(f"{SHOP}/practice/")
    page.get_by_role("row").filter(has_text="Size limits").get_by_role("button").click()
    reference = page.url.split("/practice/")[1].split("/")[0]
    for position in count(1):
        if position > size(site, reference):
            break
        page.goto(f"{SHOP}/practice/{reference}/{position}/")
        if page.url.endswith("/taught/"):  # two like mistakes: practice stops to teach before it asks again
            page.get_by_role("button", name="Read, ask me again").click()
            page.wait_for_url(f"**/{position}/")
        answer = intended(snapshot(site, reference, position), {BELIEF}, Random(1))
        for chosen in [answer] if isinstance(answer, str) else answer or ["1"]:
            page.locator(f"main input[value='{chosen}']").check()
        page.get_by_role("button", name="Answer").click()
        expect(page.get_by_role("button", name="Answer")).to_have_count(0)
    page.goto(f"{SHOP}/practice/{reference}/end/")


def test_what_wrong_answers_have_in_common_is_said_to_both(page: Page, site: Site) -> None:
    name, email = {
        390: ("Dana Okafor", "apprentice@quarry-road.example"),
        1280: ("Ilya Brandt", "ilya@quarry-road.example"),
    }[across(page)]
    log_in(page, email, PASSWORD)
    for _ in range(3):
        practice_once(page, site)

    expect(page.get_by_role("heading", name="What your latest answers say you think")).to_be_visible()
    expect(page.locator("main")).to_contain_text(STATEMENT)
    watch(page, "practice end with a belief")

    log_in(page, "trainer@quarry-road.example", PASSWORD)
    page.get_by_role("link", name=name, exact=True).click()
    expect(page.locator("main")).to_contain_text(STATEMENT)
    watch(page, "person with a belief")
