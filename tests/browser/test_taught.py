"""Practice that stops to teach, as an apprentice meets it: on a phone, at a desk by keyboard, and without script."""

import json
import sqlite3
from collections.abc import Iterator
from typing import Any

import pytest
from playwright.sync_api import Page, expect

from assessments.questions import Item, asks_about, draw
from tests.browser.server import Site
from tests.browser.watch import PASSWORD, SHOP, log_in, watch, width_of
from training.rulebook import load_edition
from training.stored import enveloped

pytestmark = pytest.mark.browser

LEARNERS = {"phone": "apprentice@quarry-road.example", "desk": "ilya@quarry-road.example"}
BELIEF = "size-does-not-matter"


def of_the_belief(count: int) -> list[Item]:
    """Questions that whoever thinks so answers otherwise."""
    drawn = (
        draw("size-verdict", seed=f"taught {number}", edition=load_edition("north-america")) for number in range(99)
    )
    return [item for item in drawn if BELIEF in asks_about(item)][:count]


def ask(site: Site, reference: str, items: list[Item]) -> None:
    """Put these questions into a practice that was just begun, instead of the one that was drawn."""
    with sqlite3.connect(site.folder / "sound-casing.sqlite3", timeout=20) as database:
        [form] = database.execute(
            "select id from assessments_form where reference = ?", [reference.replace("-", "")]
        ).fetchone()
        database.execute("delete from assessments_formitem where form_id = ?", [form])
        for position, item in enumerate(items, 1):
            database.execute(
                "insert into assessments_formitem (form_id, position, family, skill, lesson, digest, family_version,"
                " template, casing, format, traits, open, snapshot)"
                " values (?, ?, ?, ?, ?, '', '', '', '', '', ?, ?, ?)",
                [
                    form,
                    position,
                    item.family,
                    item.skill,
                    item.lesson,
                    json.dumps(enveloped({}, schema=1)),
                    json.dumps(enveloped(item.open().to_json(), schema=2)),
                    json.dumps(enveloped(item.to_json(), schema=3)),
                ],
            )


def believed(item: Item) -> str:
    """The answer of whoever thinks so."""
    return next(answer for answer, names in item.distractors.items() if BELIEF in names)


def begin(page: Page, site: Site) -> list[Item]:
    page.goto(f"{SHOP}/practice/")
    page.get_by_role("button", name="Size limits").first.click()
    page.wait_for_url("**/practice/*/*/")
    items = of_the_belief(3)
    ask(site, page.url.split("/practice/")[1].split("/")[0], items)
    page.reload()
    return items


def answer(page: Page, item: Item) -> None:
    page.locator(f"input[name=answer][value='{believed(item)}']").check()
    page.get_by_role("button", name="Answer").first.click()
    expect(page.get_by_role("heading", name="Not right")).to_be_visible()


def test_after_two_like_mistakes_practice_stops_to_teach_and_asks_again(page: Page, site: Site) -> None:
    log_in(page, LEARNERS[width_of(page)], PASSWORD)
    first, second, _ = begin(page, site)
    answer(page, first)
    page.get_by_role("link", name="Next question").click()
    page.wait_for_url("**/2/")
    answer(page, second)
    watch(page, "explanation before what is taught")
    page.goto(page.url.replace("/2/", "/3/"))  # the address of the next question leads to it as well
    expect(page.get_by_role("heading", level=1)).to_have_text("Read this before the next question")
    expect(page.get_by_role("row")).to_have_count(3)
    expect(page.locator("main")).to_contain_text("How to measure a hole in rubber")
    watch(page, "taught")

    button = page.get_by_role("button", name="Read, ask me again")
    button.focus()
    page.keyboard.press("Enter")
    page.wait_for_url("**/3/")
    expect(page.get_by_role("heading", level=1)).to_contain_text("Practice question 3")


@pytest.fixture
def plain(chromium: Any, site: Site) -> Iterator[Any]:
    """A phone without script."""
    context = chromium.new_context(
        viewport={"width": 390, "height": 844}, base_url=site.address, java_script_enabled=False
    )
    yield context.new_page()
    context.close()


def test_it_teaches_without_script(plain: Any, site: Site) -> None:
    log_in(plain, "wen@quarry-road.example", PASSWORD)
    first, second, _ = begin(plain, site)
    answer(plain, first)
    plain.get_by_role("link", name="Next question").click()
    answer(plain, second)
    plain.get_by_role("link", name="Read this before the next question").click()
    expect(plain.get_by_role("row")).to_have_count(3)
    plain.get_by_role("button", name="Read, ask me again").click()
    expect(plain.get_by_role("heading", level=1)).to_contain_text("Practice question 3")
