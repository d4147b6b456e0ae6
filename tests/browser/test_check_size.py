"""How long Check a tire is on a phone, what unfolds when, and the sizes of the gauge that one press fills in.

The bounds are what a thumb and an eye can be asked for; they are no rules of the trade.
"""

import re
from typing import Any
from urllib.parse import quote_plus, urlencode

import pytest
from playwright.sync_api import Page, Route, expect

from tests.browser.watch import PASSWORD, SHOP, across, log_in, watch

pytestmark = pytest.mark.browser
SCREEN_PX = 844
PARTS = ("tire", "hole", "inside", "outside")
TIRE = {"casing": "passenger", "purpose": "repair"}
NAIL = {
    "on_wheel": "no", "build": "radial", "designation": "205/55R16 91V", "outer_groove": "2 7/16",
    "crown_thickness": "1/2", "injury_A_kind": "puncture", "injury_A_diameter": "3/16", "injury_A_angle": "10",
    "injury_A_lateral": "3/4", "injury_A_lean": "out", "depths_1": "6, 6/32, 5",
    "outer_groove_u": "in", "crown_thickness_u": "in", "injury_A_diameter_u": "in", "injury_A_angle_u": "deg",
    "injury_A_lateral_u": "in", "depths_1_u": "32nds",
}  # fmt: skip


@pytest.fixture(autouse=True)
def _as_apprentice(page: Page, site: Any) -> None:
    log_in(page, "apprentice@quarry-road.example", PASSWORD)


def height_of_form(page: Page) -> float:
    """From the head of the form to the foot of the button that goes on [px]."""
    return float(
        page.evaluate(
            "document.querySelector('.thumb-bar').getBoundingClientRect().bottom"
            " - document.querySelector('#check-form').getBoundingClientRect().top"
        )
    )


@pytest.mark.parametrize("found", [TIRE, TIRE | NAIL], ids=["empty", "filled in"])
def test_an_ordinary_puncture_is_three_screens_of_form_in_all(page: Page, found: dict[str, str]) -> None:
    heights = []
    for part in PARTS:
        page.goto(f"{SHOP}/check/?{urlencode(found)}&step={part}")
        heights.append(height_of_form(page))
        assert page.locator(".check-parts button:not(.button--quiet, .button--bare, .size):visible").count() <= (
            1 + page.locator(".part-bars button, .default-button").count()
        ), "one black button a part"
        watch(page, f"size {part} {len(found)}")
    print(f"{across(page)} px: {[round(one) for one in heights]}, {sum(heights):.0f} px in all")
    if across(page) < 400:
        assert max(heights) <= SCREEN_PX
        assert sum(heights) <= 3 * SCREEN_PX


def test_one_group_of_findings_stands_open_and_the_next_after_it(page: Page) -> None:
    page.goto(f"{SHOP}/check/?{urlencode(TIRE)}&step=outside")
    groups = page.locator("details.look-group")
    opened = page.locator("details.look-group[open]")
    expect(groups).to_have_count(4)
    expect(opened).to_have_count(1)
    expect(opened).to_have_attribute("id", "find-outside")
    page.locator("#find-tread > summary").press("Enter")
    expect(opened).to_have_attribute("id", "find-tread")
    expect(opened).to_have_count(1)

    # what a press said folds its group; what was found there stands in its head
    page.locator("#find-outside > summary").press("Enter")
    page.locator("input[name='find_bulge'][value='yes']").check()
    page.get_by_role("button", name=re.compile("^Outside and beads. I looked at all")).press("Enter")
    expect(opened).to_have_attribute("id", "find-tread")
    head = page.locator("#find-outside > summary")
    expect(head).to_contain_text("7 of 7 looked at")
    expect(head).to_contain_text("Bulge: Found")
    for left in ("find-tread", "find-wheel", "find-markings"):
        expect(page.locator(f"#{left} > summary")).to_contain_text("0 of ")
    watch(page, "size one group")


def test_a_size_of_the_gauge_is_filled_in_and_read_back_by_keyboard_too(page: Page) -> None:
    page.goto(f"{SHOP}/check/?{urlencode(TIRE)}&step=hole")
    address = page.url
    field = page.get_by_label("Diameter, prepared").first
    told = page.locator(".measured", has=page.locator("#id_injury_A_diameter")).locator("output")
    page.locator("#id_injury_A_diameter_unit input[value=mm]").check()
    size = page.get_by_role("button", name="3/16 in").first
    size.focus()
    page.keyboard.press("Space")
    expect(field).to_have_value("3/16")
    expect(page.locator("#id_injury_A_diameter_unit input[value=in]")).to_be_checked()
    expect(told).to_have_text("3/16 in (4.8 mm)")
    expect(size).to_have_class(re.compile("is-chosen"))
    assert page.url == address, "no page is loaded for it"

    field.fill("7/32")
    field.press("Tab")
    expect(told).to_have_text("7/32 in (5.6 mm)")
    expect(size).not_to_have_class(re.compile("is-chosen"))
    watch(page, "size gauge")


@pytest.mark.parametrize("typed", ["7-8", "7/32"], ids=["refused", "understood"])
def test_a_press_counts_though_it_is_told_meanwhile_how_a_number_was_read(page: Page, typed: str) -> None:
    waiting: list[Route] = []
    page.route("**/read/?name=*", lambda route: waiting.append(route))  # a built-in cannot be given
    page.goto(f"{SHOP}/check/?{urlencode(TIRE)}&step=hole")
    field = page.get_by_label("Diameter, prepared").first
    told = page.locator(".measured", has=page.locator("#id_injury_A_diameter")).locator("output")
    button = page.get_by_role("button", name="Decide with what is here")
    field.fill(typed)
    button.scroll_into_view_if_needed()
    box = button.bounding_box()
    assert box is not None
    page.mouse.move(box["x"] + box["width"] / 2, box["y"] + 4)
    page.mouse.down()  # which ends the typing and asks how it is read
    with page.expect_response("**/read/?name=*") as answer:
        while not waiting:
            page.wait_for_timeout(20)
        waiting.pop().continue_()
    answer.value.finished()
    page.wait_for_timeout(200)
    expect(told).to_be_empty()
    assert button.bounding_box() == box
    page.mouse.up()
    page.wait_for_url(f"**injury_A_diameter={quote_plus(typed)}**")


def test_how_a_number_is_read_comes_a_moment_after_the_pointer_is_up(page: Page) -> None:
    page.goto(f"{SHOP}/check/?{urlencode(TIRE)}&step=hole")
    told = page.locator(".measured", has=page.locator("#id_injury_A_diameter")).locator("output")
    page.get_by_label("Diameter, prepared").first.fill("7-8")
    page.mouse.move(2, 2)
    with page.expect_response("**/read/?name=*"):
        page.mouse.down()
    page.wait_for_timeout(200)
    expect(told).to_be_empty()
    page.mouse.up()
    expect(told).to_contain_text("7-8")
