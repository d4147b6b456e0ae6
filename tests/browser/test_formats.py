"""Every format answered by keyboard alone, by pointing and without a script: a whole case holds them all."""

import re
from typing import Any

import pytest
from playwright.sync_api import Page, expect

from assessments.scenarios import FORMATS
from tests.browser.conftest import WIDTHS
from tests.browser.server import Site
from tests.browser.test_story import PASSWORD, SHOP, items_of
from tests.browser.watch import log_in, watch

pytestmark = pytest.mark.browser

# A case that was begun goes on, so each width has a learner of its own.
LEARNERS = {"phone": "apprentice@quarry-road.example", "desk": "ilya@quarry-road.example"}


def begin(page: Page, site: Site, width: str) -> dict[int, dict[str, Any]]:
    """Start the case, or go on with it from its first question."""
    log_in(page, LEARNERS[width], PASSWORD)
    page.goto(f"{SHOP}/practice/")
    page.get_by_role("button", name=re.compile(r": One tire from inspection to return$")).click()
    page.wait_for_url("**/practice/*/1/")
    return items_of(site, page.url.split("/practice/")[1].split("/")[0])


def press_on(page: Page, selector: str, key: str) -> None:
    """Put the focus where a keyboard can, and press a key there."""
    field = page.locator(selector)
    field.focus()
    expect(field).to_be_focused()
    page.keyboard.press(key)


def by_keyboard(page: Page, item: dict[str, Any]) -> None:
    key = item["key"]
    match item["format"]:
        case "one":
            press_on(page, f"input[name=answer][value='{key}']", "Space")
        case "several":
            for one in key:
                press_on(page, f"input[name=answer][value='{one}']", "Space")
        case "number":
            value, unit = key.rsplit(" ", 1)
            page.locator("input[name=answer_0]").focus()
            page.keyboard.type(value)
            page.keyboard.press("Tab")
            page.keyboard.type(unit)
        case "order":
            for place, step in enumerate(key):
                up = page.locator(".step", has=page.locator(f"select[name=answer_{step}]")).locator("button").first
                names = page.locator(".step select").evaluate_all("all => all.map(one => one.name)")
                up.focus()
                for _ in range(names.index(f"answer_{step}") - place):
                    page.keyboard.press("Enter")
                    expect(up).to_be_focused()
            expect(page.locator("[data-steps-status]")).to_contain_text("of 5")
        case "place":
            page.locator("input[name=answer_x]").focus()
            page.keyboard.type(f"{sum(key['across']) / 2:.1f}")
            page.keyboard.press("Tab")
            page.keyboard.type(f"{sum(key['up']) / 2:.1f}")
        case "fault":
            press_on(page, f"input[name=answer_step][value='{key['step'][0]}']", "Space")
            if key["reason"]:
                press_on(page, f"input[name=answer_reason][value='{key['reason']}']", "Space")


def test_each_format_is_answered_by_keyboard_alone(page: Page, site: Site) -> None:
    items = begin(page, site, page.width_name)  # type: ignore[attr-defined]
    assert {item["format"] for item in items.values()} == set(FORMATS)
    for position, item in sorted(items.items()):
        watch(page, f"format {item['format']}")
        small = (
            page.locator("main")
            .locator("button, .option, select:visible, input[type=text]")
            .evaluate_all("all => all.filter(one => one.getBoundingClientRect().height < 44).map(one => one.outerHTML)")
        )
        assert not small, small
        by_keyboard(page, item)
        press_on(page, "button[name=go][value=answer]", "Enter")

        expect(page.get_by_role("heading", name="Right", exact=True)).to_be_visible()
        watch(page, f"format {item['format']} explained")
        if position < len(items):
            page.get_by_role("link", name="Next question").click()
    page.get_by_role("link", name="See what it showed").click()
    expect(page.locator("main")).to_contain_text("6 of 6 right.")


def test_a_point_on_the_drawing_fills_in_both_readings(page: Page, site: Site) -> None:
    items = begin(page, site, page.width_name)  # type: ignore[attr-defined]
    position, item = next((n, item) for n, item in items.items() if item["format"] == "place")
    page.goto(page.url.replace("/1/", f"/{position}/"))
    key, frame = item["key"], item["frame"]
    across, up = sum(key["across"]) / 2, sum(key["up"]) / 2
    svg = page.locator(".question .figure svg")
    left, top, width, _ = map(float, svg.get_attribute("viewBox").split())  # type: ignore[union-attr]
    box = svg.bounding_box()
    assert box is not None
    scale = box["width"] / width

    svg.click(position={"x": (frame["left"] + across - left) * scale, "y": (frame["low"] - up - top) * scale})

    assert abs(float(page.locator("input[name=answer_x]").input_value()) - across) <= 1
    assert abs(float(page.locator("input[name=answer_y]").input_value()) - up) <= 1
    watch(page, "format place pointed at")
    page.get_by_role("button", name="Answer", exact=True).click()
    expect(page.get_by_role("heading", name="Right", exact=True)).to_be_visible()


@pytest.mark.parametrize("width", WIDTHS)
def test_each_format_is_answered_without_a_script(chromium: Any, site: Site, width: str) -> None:
    across, high = WIDTHS[width]
    context = chromium.new_context(
        viewport={"width": across, "height": high}, base_url=site.address, java_script_enabled=False
    )
    page = context.new_page()
    items = begin(page, site, width)
    address = page.url
    for position, item in sorted(items.items()):
        page.goto(address.replace("/1/", f"/{position}/"))
        if page.get_by_role("button", name="Answer", exact=True).count() == 0:
            continue  # answered when it was pointed at
        key = item["key"]
        match item["format"]:
            case "one" | "several":
                for one in [key] if isinstance(key, str) else key:
                    page.locator(f"input[name=answer][value='{one}']").check()
            case "number":
                value, unit = key.rsplit(" ", 1)
                page.locator("input[name=answer_0]").fill(value)
                page.locator("select[name=answer_1]").select_option(unit)
            case "order":
                page.locator(f"select[name=answer_{key[0]}]").select_option("1")
                page.get_by_role("button", name="Answer", exact=True).click()
                expect(page.get_by_role("alert").first).to_contain_text("has no place; give each step a place")
                for place, step in enumerate(key, 1):
                    page.locator(f"select[name=answer_{step}]").select_option(str(place))
            case "place":
                page.locator("input[name=answer_x]").fill(f"{sum(key['across']) / 2:.1f}")
                page.locator("input[name=answer_y]").fill(f"{sum(key['up']) / 2:.1f}")
            case "fault":
                page.locator(f"input[name=answer_step][value='{key['step'][0]}']").check()
                if key["reason"]:
                    page.locator(f"input[name=answer_reason][value='{key['reason']}']").check()
        page.get_by_role("button", name="Answer", exact=True).click()
        expect(page.get_by_role("heading", name="Right", exact=True)).to_be_visible()
    context.close()
