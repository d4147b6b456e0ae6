"""A photograph of the shop from a trainer's phone to the lesson: with and without script, by keyboard."""

import json
import re
import sqlite3
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Page, expect

from assessments.questions import Photo, draw
from tests.browser.server import Site
from tests.browser.test_lesson import REJECT
from tests.browser.test_pictures import LEARNERS, TRAINER, ask_pictures, widths
from tests.browser.watch import PASSWORD, SHOP, log_in, watch, width_of
from tests.photographs import a_photograph
from training.rulebook import load_edition
from training.stored import enveloped

pytestmark = pytest.mark.browser

SEEDS = {"phone": 11, "desk": 12, "plain": 13}
KEPT = "Photographs of your shop"


def file_of(tmp_path: Path, seed: int) -> str:
    place = tmp_path / "IMG_0001.jpg"
    place.write_bytes(a_photograph(seed, (1500, 2000), turned=6))
    return str(place)


def confirm_all(site: Site) -> None:
    """Let another trainer of the shop say the same of every photograph."""
    with sqlite3.connect(site.folder / "sound-casing.sqlite3", timeout=20) as database:
        database.execute(
            "update training_photograph set confirmed_at = kept_at,"
            " confirmed_by_id = (select max(id) from training_user where id != added_by_id) where confirmed_at is null"
        )


def test_a_trainer_brings_one_looks_at_it_and_keeps_it(page: Page, site: Site, tmp_path: Path) -> None:
    log_in(page, TRAINER, PASSWORD)
    page.goto(f"{SHOP}/course/")
    page.get_by_role("link", name=KEPT).click()
    watch(page, "photographs")
    page.get_by_role("link", name=re.compile("^Add (a|the first) photograph")).first.click()
    watch(page, "photograph to add")
    page.get_by_role("button", name="Show it as it will be").click()
    expect(page.get_by_role("alert")).to_contain_text("Photograph: nothing was chosen")
    watch(page, "photograph to add, nothing chosen")
    page.get_by_label("Photograph").set_input_files(file_of(tmp_path, SEEDS[width_of(page)]))
    page.get_by_label("What it shows").select_option("A bulge")
    page.get_by_label("On what tire").select_option("Passenger")
    page.get_by_role("button", name="Show it as it will be").focus()
    page.keyboard.press("Enter")

    expect(page.get_by_role("heading", name="Keep this photograph?")).to_be_visible(timeout=15_000)
    assert widths(page) == [960]
    watch(page, "photograph as it will be")
    page.get_by_label(re.compile("no face, no license plate and no name")).focus()
    page.keyboard.press("Space")
    page.get_by_role("button", name="Keep it", exact=True).focus()
    page.keyboard.press("Enter")

    expect(page.get_by_text("Kept this photograph: A bulge.")).to_be_visible()
    expect(page.get_by_text("One trainer says so").first).to_be_visible()
    shown = page.locator(".photograph img").first
    assert shown.evaluate("async one => { one.loading = 'eager'; await one.decode(); return one.naturalWidth; }") == 960
    watch(page, "photographs, one kept")


def test_a_learner_meets_it_in_the_lesson_once_two_say_so(page: Page, site: Site) -> None:
    log_in(page, LEARNERS[width_of(page)], PASSWORD)
    confirm_all(site)

    page.goto(REJECT)

    own = page.locator("figure.pair .shot", has_text="Photograph of your shop: passenger tire")
    expect(own.first).to_be_visible()
    assert set(widths(page)) == {640, 960}
    watch(page, "lesson with photographs")


def ask_photograph(site: Site, page: Page) -> str:
    """Begin a practice of which the first question shows a photograph that the shop keeps; the address of that one."""
    first = ask_pictures(site, page)
    form = first.split("/practice/")[1].split("/")[0].replace("-", "")
    with sqlite3.connect(site.folder / "sound-casing.sqlite3", timeout=20) as database:
        [kept] = database.execute("select reference from training_photograph where kept_at is not null").fetchone()
        both = [Photo(kept, "bulge", look_alike, "passenger", is_confirmed=False) for look_alike in (False, True)]
        rulebook = load_edition("north-america")
        items = (draw("picture-named", seed=f"{n}", edition=rulebook, photographs=both) for n in range(100))
        item = next(one for one in items if one.figure and one.figure.photo)
        stored = [json.dumps(enveloped(one, schema=3)) for one in (item.open().to_json(), item.to_json())]
        database.execute(
            "update assessments_formitem set open = ?, snapshot = ? where position = 1"
            " and form_id = (select id from assessments_form where reference = ?)",
            [*stored, form],
        )
    return first


def test_a_learner_is_asked_about_it_and_told_who_says_so(page: Page, site: Site) -> None:
    log_in(page, LEARNERS[width_of(page)], PASSWORD)
    first = ask_photograph(site, page)

    page.goto(first)
    expect(page.locator("figcaption").first).to_contain_text("A photograph of this shop.")
    assert widths(page) == [960]
    watch(page, "question on a photograph")
    page.locator("input[type=radio]").first.focus()
    page.keyboard.press("Space")
    page.get_by_role("button", name="Answer").focus()
    page.keyboard.press("Enter")

    expect(page.get_by_text("By your shop it shows:")).to_be_visible(timeout=15_000)
    assert widths(page) == [960]
    watch(page, "question on a photograph explained")


@pytest.mark.parametrize("page", ["phone"], indirect=True)
def test_without_script_it_is_kept_and_taken_back(page: Page, site: Site, chromium: Any, tmp_path: Path) -> None:
    log_in(page, TRAINER, PASSWORD)
    context = chromium.new_context(base_url=site.address, java_script_enabled=False)
    context.add_cookies(page.context.cookies())
    plain = context.new_page()

    plain.goto(f"{SHOP}/photographs/add/")
    plain.get_by_label("Photograph").set_input_files(file_of(tmp_path, SEEDS["plain"]))
    plain.get_by_label("What it shows").select_option("Blisters")
    plain.get_by_label("On what tire").select_option("Truck")
    plain.get_by_role("button", name="Show it as it will be").click()
    plain.get_by_label(re.compile("no face")).check()
    plain.get_by_role("button", name="Keep it", exact=True).click()
    expect(plain.get_by_text("Kept this photograph: Blisters.")).to_be_visible(timeout=15_000)
    plain.get_by_role("link", name=re.compile("Take back .*Blisters")).click()
    back = plain.url
    plain.get_by_label("Why it is taken back").fill("Drops, dried.")
    plain.get_by_role("button", name="Take it back").click()
    expect(plain.get_by_text(re.compile("Taken back by .*: Drops, dried."))).to_be_visible()
    context.close()

    page.goto(back)
    watch(page, "photograph taken back")
