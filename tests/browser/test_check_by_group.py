"""A tire is checked from an empty form to a decision: part by part, taken back once, open things answered there."""

import re
from typing import Any

import pytest
from playwright.sync_api import Page, expect

from tests.browser.watch import PASSWORD, SHOP, log_in, watch

pytestmark = pytest.mark.browser
OPEN = re.compile("^Decide again$")


def open_rows(page: Page) -> int:
    """How many things the page still wants looked at."""
    return page.locator(".open-rows :is(.look-row, .field)").count()


def unfold(page: Page, group: str) -> None:
    page.get_by_role("group", name=group, exact=True).locator("> summary").press("Enter")


def press(page: Page, group: str) -> None:
    page.get_by_role("button", name=re.compile(f"^{group}. I looked at all")).press("Enter")
    page.wait_for_load_state("load")


def radio(page: Page, field: str, value: str) -> Any:
    return page.locator(f"input[name='{field}'][value='{value}']")


def decide(page: Page) -> None:
    page.get_by_role("button", name=re.compile("^Decide( again| with what is here)?$")).last.click()


def test_from_an_empty_form_to_a_decision(page: Page, site: Any) -> None:
    log_in(page, "apprentice@quarry-road.example", PASSWORD)
    page.goto(f"{SHOP}/check/")
    page.get_by_label("Casing", exact=True).select_option("passenger")
    page.get_by_role("button", name="Go on").last.click()
    decide(page)

    # nothing was looked at: no card, no word that lets it go, and the place to answer everything that is open
    expect(page).to_have_title(re.compile("Not decided yet"))
    expect(page.locator(".verdict--repair, .verdict--accept, .job-card")).to_have_count(0)
    watch(page, "group nothing looked at")
    first = open_rows(page)

    # one press a group, shown in its rows; it can be taken back
    page.goto(f"{SHOP}/check/?casing=passenger&purpose=repair&step=inside")
    press(page, "Inside")
    expect(radio(page, "find_run-flat-damage", "no")).to_be_checked()
    expect(page.get_by_text("8 of 8 looked at")).to_be_visible()
    unfold(page, "Inside")
    page.get_by_role("button", name="Inside. Take that press back").press("Enter")
    expect(radio(page, "find_run-flat-damage", "no")).not_to_be_checked()
    press(page, "Inside")
    radio(page, "repairs", "none").check()
    page.get_by_role("button", name=re.compile("^Go on: ")).click()
    expect(radio(page, "find_bulge", "no")).not_to_be_checked()
    for group in ("Outside and beads", "Tread", "Wheel, valve and sensor", "Markings"):
        press(page, group)
    watch(page, "group by group")

    # what no press can say is measured
    page.get_by_label("Tread depths in one groove").fill("6/32 in")
    page.get_by_role("button", name="Decide", exact=True).click()
    assert 0 < open_rows(page) < first
    page.get_by_label("Off the wheel", exact=True).first.check()
    page.get_by_label("Build", exact=True).select_option("radial")
    page.get_by_role("button", name=OPEN).click()
    page.get_by_role("link", name="The hole").click()
    page.get_by_label("Centerline to outer groove").fill("2 7/16 in")
    page.get_by_label("Crown thickness").fill("1/2 in")
    page.get_by_label("Puncture", exact=True).first.check()
    decide(page)
    # no size and no place: no unit, no way to repair it
    expect(page.locator(".job-card")).to_have_count(0)
    expect(page.locator(".verdict-word")).to_have_text("Measure the hole first")
    page.get_by_label("Diameter, prepared").first.fill("3/16 in")
    page.get_by_label("Angle").first.fill("12 deg")
    page.get_by_label("Distance from the centerline").first.fill("3/4 in")
    page.get_by_role("button", name=OPEN).click()

    # US association puncture repair procedures (wall chart): at most 1/4 in (6 mm), in the crown
    expect(page.locator(".verdict-word")).to_have_text("Repair")
    expect(page.locator(".job-card")).to_have_count(1)
    watch(page, "group decided")

    # what was said by one press stands in the record
    page.get_by_role("link", name="Keep this check").click()
    page.get_by_label("Vehicle or ticket").fill("ticket 7")
    page.get_by_role("button", name="Keep this check").click()
    page.get_by_text("What was found", exact=True).click()
    expect(page.get_by_text("Inside, by one press")).to_be_visible()
    narrow = page.locator(".facts dd").evaluate_all("all => Math.min(...all.map(one => one.clientWidth))")
    assert narrow > 120, "a value is squeezed beside its label"
    watch(page, "group kept")


def test_it_fits_the_narrowest_phone(page: Page, site: Any) -> None:
    log_in(page, "apprentice@quarry-road.example", PASSWORD)
    page.set_viewport_size({"width": 320, "height": 700})
    for part in ("tire", "hole", "inside", "outside", "all"):
        page.goto(f"{SHOP}/check/?casing=truck&purpose=service&step={part}")
        watch(page, f"group narrow {part}")


def test_no_injury_given_says_nothing_of_a_repair(page: Page, site: Any) -> None:
    log_in(page, "apprentice@quarry-road.example", PASSWORD)
    page.goto(f"{SHOP}/check/?casing=passenger&purpose=repair&find_bulge=no")
    expect(page.get_by_text("No injury was given, so this says nothing about a repair.")).to_be_visible()
    watch(page, "group no injury")


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
