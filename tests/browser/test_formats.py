"""Every format answered by keyboard alone, by pointing and without a script: a whole case holds them all."""

import re
from fractions import Fraction
from typing import Any

import pytest
from playwright.sync_api import Page, expect

from assessments.questions import FORMATS
from tests.browser.conftest import WIDTHS
from tests.browser.server import Site
from tests.browser.watch import PASSWORD, SHOP, choose_unit, log_in, watch, width_of

pytestmark = pytest.mark.browser

# A case that was begun goes on, so each width has a learner of its own.
LEARNERS = {
    "phone": "apprentice@quarry-road.example",
    "desk": "ilya@quarry-road.example",
    "touch": "ilya@quarry-road.example",
}


def begin(page: Page, site: Site, width: str) -> dict[int, dict[str, Any]]:
    """Start the case, or go on with it from its first question."""
    log_in(page, LEARNERS[width], PASSWORD)
    page.goto(f"{SHOP}/practice/")
    page.get_by_role("button", name=re.compile(r": One tire from inspection to return$")).click()
    page.wait_for_url("**/practice/*/1/")
    return site.items_of(page.url.split("/practice/")[1].split("/")[0])


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
            page.locator("input[name=answer]").focus()
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
            page.keyboard.type(f"{sum(key['across']) / 2:.1f} mm")
            page.keyboard.press("Tab")
            page.keyboard.type(f"{sum(key['up']) / 2:.1f} mm")
        case "fault":
            press_on(page, f"input[name=answer_step][value='{key['step'][0]}']", "Space")
            if key["reason"]:
                press_on(page, f"input[name=answer_reason][value='{key['reason']}']", "Space")


def test_each_format_is_answered_by_keyboard_alone(page: Page, site: Site) -> None:
    items = begin(page, site, width_of(page))
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
    items = begin(page, site, width_of(page))
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

    each = 25.4 if item["units"] == ["in"] else 1
    for name, meant in (("x", across), ("y", up)):
        typed = page.locator(f"input[name=answer_{name}]").input_value()
        assert abs(sum(map(Fraction, typed.split())) * each - meant) <= 1
    watch(page, "format place pointed at")
    page.get_by_role("button", name="Answer", exact=True).click()
    expect(page.get_by_role("heading", name="Right", exact=True)).to_be_visible()


def order_asked(page: Page, site: Site) -> list[str]:
    """Go to the question that asks for an order; its steps in a right order."""
    items = begin(page, site, width_of(page))
    position, item = next((n, item) for n, item in items.items() if item["format"] == "order")
    page.goto(page.url.replace("/1/", f"/{position}/"))
    return list(item["key"])


def middle(page: Page, selector: str) -> tuple[float, float]:
    box = page.locator(selector).bounding_box()
    assert box is not None
    return box["x"] + box["width"] / 2, box["y"] + box["height"] / 2


def in_the_middle(page: Page) -> None:
    """Away from the edges of the window, where dragging scrolls."""
    page.locator(".steps").evaluate("one => one.scrollIntoView({block: 'center', behavior: 'instant'})")


def grip_of(step: str) -> str:
    return f".step:has(select[name=answer_{step}]) .step-grip"


def steps_shown(page: Page) -> list[str]:
    names: list[str] = page.locator(".step select").evaluate_all("all => all.map(one => one.name.split('_').pop())")
    return names


def test_steps_are_dragged_into_their_order(page: Page, site: Site) -> None:
    key = order_asked(page, site)
    moved = next(step for step, drawn in zip(key, steps_shown(page), strict=True) if step != drawn)
    button = page.locator(f".step:has(select[name=answer_{moved}]) button").last
    button.focus()
    for place, step in enumerate(key):
        above = steps_shown(page)[place]
        if step == above:
            continue
        in_the_middle(page)
        page.mouse.move(*middle(page, grip_of(step)))
        page.mouse.down()
        x, y = middle(page, grip_of(above))
        page.mouse.move(x, y + 20, steps=4)
        page.mouse.move(x, y - 18, steps=4)
        expect(page.locator(".step.is-dragged")).to_have_count(1)
        if place == 0:
            watch(page, "format order dragged")
        page.mouse.up()
        expect(page.locator("[data-steps-status]")).to_contain_text(f"place {place + 1} of 5")

    assert steps_shown(page) == key
    assert page.locator(".step select").evaluate_all("all => all.map(one => one.value)") == ["1", "2", "3", "4", "5"]
    expect(page.locator(".is-dragged")).to_have_count(0)
    expect(button).to_be_focused()  # though its row was put elsewhere
    small = page.locator(".step-grip").evaluate_all(
        "all => all.map(one => one.getBoundingClientRect()).filter(box => box.width < 44 || box.height < 44).length"
    )
    assert small == 0
    watch(page, "format order when dragged")  # not answered, so that it is still there without a script


def test_a_finger_drags_by_the_handle_and_a_drag_that_is_broken_off_changes_nothing(chromium: Any, site: Site) -> None:
    across, high = WIDTHS["phone"]
    context = chromium.new_context(
        viewport={"width": across, "height": high}, base_url=site.address, has_touch=True, is_mobile=True
    )
    page = context.new_page()
    page.width_name = "touch"
    order_asked(page, site)
    drawn = steps_shown(page)
    touch = context.new_cdp_session(page)

    def put(kind: str, *points: tuple[float, float]) -> None:
        at = [{"x": x, "y": y} for x, y in points]
        touch.send("Input.dispatchTouchEvent", {"type": kind, "touchPoints": at})

    def drag(selector: str, onto: str, *, end: str) -> None:
        x, y = middle(page, selector)
        to_x, to_y = middle(page, onto)
        put("touchStart", (x, y))
        for part in range(1, 9):
            put("touchMove", (x + (to_x - x) * part / 8, y + (to_y + 12 - y) * part / 8))
        put(end)

    in_the_middle(page)
    drag(grip_of(drawn[0]), grip_of(drawn[2]), end="touchEnd")
    expect(page.locator("[data-steps-status]")).to_contain_text("place 3 of 5")
    moved = [drawn[1], drawn[2], drawn[0], *drawn[3:]]
    assert steps_shown(page) == moved

    drag(grip_of(moved[0]), grip_of(moved[3]), end="touchCancel")
    assert steps_shown(page) == moved
    expect(page.locator(".is-dragged")).to_have_count(0)

    drag(f".step:has(select[name=answer_{moved[0]}]) label", grip_of(moved[1]), end="touchEnd")  # scrolls, as anywhere
    assert steps_shown(page) == moved
    context.close()


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
                page.locator("input[name=answer]").fill(value)
                choose_unit(page, "answer", unit)
            case "order":
                page.locator(f"select[name=answer_{key[0]}]").select_option("1")
                page.get_by_role("button", name="Answer", exact=True).click()
                expect(page.get_by_role("alert").first).to_contain_text("has no place; give each step a place")
                for place, step in enumerate(key, 1):
                    page.locator(f"select[name=answer_{step}]").select_option(str(place))
            case "place":
                page.locator("input[name=answer_x]").fill(f"{sum(key['across']) / 2:.1f} mm")
                page.locator("input[name=answer_y]").fill(f"{sum(key['up']) / 2:.1f} mm")
            case "fault":
                page.locator(f"input[name=answer_step][value='{key['step'][0]}']").check()
                if key["reason"]:
                    page.locator(f"input[name=answer_reason][value='{key['reason']}']").check()
        page.get_by_role("button", name="Answer", exact=True).click()
        expect(page.get_by_role("heading", name="Right", exact=True)).to_be_visible()
    context.close()


def test_a_button_stands_still_under_the_finger_while_an_answer_is_being_saved(page: Page, site: Site) -> None:
    email = {"phone": "noor@quarry-road.example", "desk": "wen@quarry-road.example"}[width_of(page)]
    log_in(page, email, PASSWORD)
    page.goto(f"{SHOP}/assessment/north-america-steel/")
    page.get_by_label(re.compile("I am ready")).check()
    page.get_by_role("button", name="Start").click()
    page.wait_for_url("**/1/")
    items = site.items_of(page.url.split("/assessment/")[1].split("/")[0])
    position, key = next((number, item["key"]) for number, item in items.items() if item["format"] == "place")
    page.goto(page.url.replace("/1/", f"/{position}/"))
    page.locator("input[name=answer_x]").fill(f"{sum(key['across']) / 2:.1f} mm")
    # the first reading alone is not an answer
    page.locator("input[name=answer_y]").fill(f"{sum(key['up']) / 2:.1f} mm")
    expect(page.locator("#saved")).to_contain_text("Not saved")
    page.evaluate("scrollTo(0, document.body.scrollHeight)")
    button = page.get_by_role("button", name=re.compile("Save and"))
    box = button.bounding_box()
    assert box is not None

    page.mouse.move(box["x"] + 20, box["y"] + box["height"] / 2)
    page.mouse.down()  # leaves the second reading: now it is saved, and the words get shorter
    expect(page.locator("#saved")).to_contain_text("Answer saved")
    now = button.bounding_box()
    assert now is not None
    assert now | {"y": box["y"]} == box
    assert abs(now["y"] - box["y"]) <= 3  # scrolled to its end a page rounds, and its words get shorter
    page.mouse.up()

    page.wait_for_url(re.compile(rf"/({position + 1}|review)/"))
