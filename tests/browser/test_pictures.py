"""Questions on pictures as a learner and a trainer see them: by eye, by keyboard, without script, and in the lesson."""

import json
import re
import sqlite3
from typing import Any

import pytest
from playwright.sync_api import Page, expect

from assessments.questions import draw
from tests.browser.server import Site
from tests.browser.test_lesson import REJECT
from tests.browser.watch import PASSWORD, SHOP, log_in, watch, width_of
from training.rulebook import load_edition
from training.stored import enveloped

pytestmark = pytest.mark.browser

LEARNERS = {"phone": "apprentice@quarry-road.example", "desk": "ilya@quarry-road.example"}
TRAINER = "trainer@quarry-road.example"
FAMILIES = ("picture-named", "picture-verdict", "picture-odd")
# Every picture that is seen, once it has come; one that does not come has no width.
COME = "async all => { for (const one of all) { one.loading = 'eager'; await one.decode(); } }"
WIDTHS = "all => all.map(one => one.naturalWidth)"
SEEN = "What is to be seen"


def ask_pictures(site: Site, page: Page) -> str:
    """Begin a practice in which the questions are those on pictures; the address of its first one."""
    page.goto(f"{SHOP}/practice/")
    page.get_by_role("button", name=re.compile("practicing all skills mixed")).click()
    page.wait_for_url("**/practice/*/*/")
    first = re.sub(r"/\d+/$", "/1/", page.url)
    reference = first.split("/practice/")[1].split("/")[0].replace("-", "")
    with sqlite3.connect(site.folder / "sound-casing.sqlite3", timeout=20) as database:
        [form] = database.execute("select id from assessments_form where reference = ?", [reference]).fetchone()
        for position, name in enumerate(FAMILIES, 1):
            item = draw(name, seed=f"seen {position}", edition=load_edition("north-america"))
            stored = [json.dumps(enveloped(one, schema=2)) for one in (item.open().to_json(), item.to_json())]
            database.execute(
                "insert or replace into assessments_formitem (form_id, position, family, skill, lesson, digest,"
                " family_version, template, casing, format, traits, open, snapshot)"
                " values (?, ?, ?, ?, ?, '', '', '', '', '', ?, ?, ?)",
                [form, position, name, item.skill, item.lesson, json.dumps(enveloped({}, schema=1)), *stored],
            )
    return first


def widths(page: Page) -> list[int]:
    images = page.locator("main figure img")
    images.evaluate_all(COME)
    found: list[int] = images.evaluate_all(WIDTHS)
    return found


def test_a_question_on_pictures_is_asked_answered_by_keyboard_and_explained(page: Page, site: Site) -> None:
    log_in(page, LEARNERS[width_of(page)], PASSWORD)
    first = ask_pictures(site, page)
    for position, (name, count) in enumerate(zip(FAMILIES, (1, 1, 6), strict=True), 1):
        page.goto(first.replace("/1/", f"/{position}/"))
        assert widths(page) == [640] * count
        expect(page.locator("figcaption").first).to_contain_text(re.compile("Computed, not|none photographed"))
        watch(page, f"{name} open")
        page.locator("input[type=radio]").first.focus()
        page.keyboard.press("Space")
        page.keyboard.press("ArrowDown")
        page.get_by_role("button", name="Answer").focus()
        page.keyboard.press("Enter")
        expect(page.get_by_text(SEEN, exact=True)).to_be_visible(timeout=15_000)
        assert widths(page) == [640] * count
        expect(page.locator("main figcaption details p").first).to_be_visible()  # open, without a press
        watch(page, f"{name} explained")


@pytest.mark.parametrize("page", ["phone"], indirect=True)
def test_without_script_the_pictures_are_there_too(page: Page, site: Site, chromium: Any) -> None:
    log_in(page, "noor@quarry-road.example", PASSWORD)  # who has answered none of them yet
    first = ask_pictures(site, page)
    context = chromium.new_context(base_url=site.address, java_script_enabled=False)
    context.add_cookies(page.context.cookies())
    plain = context.new_page()

    answers = []
    plain.on("response", lambda got: answers.append((got.status, got.url)) if "/picture/" in got.url else None)
    plain.goto(first)
    plain.wait_for_load_state("networkidle")

    assert answers == [(200, f"{first}picture/1/")]
    plain.get_by_role("radio").first.check()
    plain.get_by_role("button", name="Answer").click()
    expect(plain.get_by_text(SEEN, exact=True)).to_be_visible(timeout=15_000)
    context.close()


@pytest.mark.parametrize("page", ["desk"], indirect=True)
def test_a_trainer_sees_them_at_the_bench(page: Page) -> None:
    log_in(page, TRAINER, PASSWORD)
    page.goto(f"{SHOP}/bench/picture-odd/draw/?seed=1/1")

    assert widths(page) == [640] * 6
    watch(page, "picture-odd at the bench")


def test_the_lesson_shows_each_condition_beside_what_is_taken_for_it(page: Page) -> None:
    log_in(page, LEARNERS[width_of(page)], PASSWORD)
    page.goto(REJECT)

    assert set(widths(page)) == {640}
    assert page.locator("figure.pair").count() >= 8
    watch(page, "lesson of pictures")
