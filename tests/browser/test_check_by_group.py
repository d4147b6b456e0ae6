"""A tire is checked from an empty form to a decision: group by group, taken back once, led to what is still open."""

import re
from typing import Any

import pytest
from playwright.sync_api import Page, expect

from tests.browser.watch import PASSWORD, SHOP, log_in, watch

pytestmark = pytest.mark.browser
GROUPS = ("Inside", "Outside and beads", "Tread", "Wheel, valve and sensor", "Markings")


def open_things(page: Page) -> int:
    """How many things the page still wants looked at."""
    return page.locator(".look-list li").count()


def press(page: Page, group: str) -> None:
    page.get_by_role("button", name=re.compile(f"^{group}: I looked for all of these")).press("Enter")


def test_from_an_empty_form_to_a_decision(page: Page, site: Any) -> None:
    log_in(page, "apprentice@quarry-road.example", PASSWORD)
    page.goto(f"{SHOP}/check/")
    page.get_by_label("Casing", exact=True).select_option("passenger")
    page.get_by_role("button", name="Go on").click()
    page.get_by_role("button", name="Decide", exact=True).click()

    # nothing was looked at: no mark, no card, and the way to each field
    expect(page.get_by_role("heading", name="Not decided yet. Still to look at:")).to_be_visible()
    expect(page.locator(".verdict-word, .job-card")).to_have_count(0)
    watch(page, "group nothing looked at")
    first = open_things(page)
    page.get_by_role("link", name="Signs that it ran flat or soft").click()
    expect(page.get_by_label("Run-flat damage")).to_be_in_viewport()

    # one press a group, shown in the fields; it can be taken back
    press(page, "Inside")
    expect(page.get_by_label("Run-flat damage")).to_have_value("no")
    expect(page.get_by_label("Bulge")).to_have_value("")
    assert open_things(page) < first
    page.get_by_role("button", name="Inside: take that press back").press("Enter")
    expect(page.get_by_label("Run-flat damage")).to_have_value("")
    assert open_things(page) == first
    for group in GROUPS:
        press(page, group)
    watch(page, "group by group")
    expect(page.locator(".verdict-word")).to_have_count(0)

    # what no press can say is measured
    page.get_by_label("Where it is now").select_option("no")
    page.get_by_label("Build", exact=True).select_option("radial")
    page.get_by_label("Size", exact=True).fill("205/55R16 91V")
    page.get_by_label("Earlier repairs", exact=True).select_option("none")
    page.get_by_label("Tread depths in one groove").fill("6/32 in")
    page.get_by_role("button", name="Decide", exact=True).click()
    expect(page.get_by_text("No injury was given, so this says nothing of a repair.")).to_be_visible()
    watch(page, "group no injury")
    page.get_by_label("Centerline to outer groove").fill("2 7/16 in")
    page.get_by_label("Crown thickness").fill("1/2 in")
    page.get_by_label("Kind", exact=True).first.select_option("puncture")
    page.get_by_role("button", name="Decide", exact=True).click()
    # no size and no place: no unit, no way to repair it
    expect(page.get_by_role("link", name="The size of the hole after damage removal")).to_be_visible()
    expect(page.locator(".job-card")).to_have_count(0)
    page.get_by_role("link", name="The size of the hole after damage removal").click()
    page.get_by_label("Diameter, prepared").first.fill("3/16 in")
    page.get_by_label("Angle").first.fill("12 deg")
    page.get_by_label("Distance from the centerline").first.fill("3/4 in")
    page.get_by_label("Where the channel runs").first.fill("0 deg")
    page.get_by_role("button", name="Decide", exact=True).click()

    # US association puncture repair procedures (wall chart): at most 1/4 in (6 mm), in the crown
    expect(page.locator(".verdict-word")).to_have_text("Repair")
    expect(page.locator(".job-card")).to_have_count(1)
    watch(page, "group decided")

    # what was said by one press stands in the record
    page.get_by_label("Vehicle or ticket").fill("ticket 7")
    page.get_by_role("button", name="Keep this check").click()
    expect(page.get_by_text("Inside, by one press")).to_be_visible()
    narrow = page.locator(".facts dd").evaluate_all("all => Math.min(...all.map(one => one.clientWidth))")
    assert narrow > 120, "a value is squeezed beside its label"
    watch(page, "group kept")


def test_it_fits_the_narrowest_phone(page: Page, site: Any) -> None:
    log_in(page, "apprentice@quarry-road.example", PASSWORD)
    page.set_viewport_size({"width": 320, "height": 700})
    page.goto(f"{SHOP}/check/?casing=truck&purpose=service")
    watch(page, "group narrow")


def test_a_way_refused_and_facts_that_cannot_both_be_true(page: Page, site: Any) -> None:
    log_in(page, "apprentice@quarry-road.example", PASSWORD)
    refused = "casing=passenger&purpose=repair&injury_A_kind=puncture&injury_A_angle=32+deg&proposed=one-piece"
    page.goto(f"{SHOP}/check/?{refused}")
    expect(page.locator(".verdict-word")).to_have_text("Not this way")
    expect(page.locator(".verdict-meaning")).to_have_text(
        "A two-piece repair is allowed instead, if what was not looked at is in order."
    )
    expect(page.locator(".stop-box")).to_have_count(0)
    watch(page, "group way refused")
    page.goto(f"{SHOP}/check/?casing=passenger&purpose=service&tread_width=170+mm&outer_groove=90+mm")
    expect(page.locator(".verdict-meaning")).to_have_text("Look again: what was given cannot all be true.")
    watch(page, "group look again")
