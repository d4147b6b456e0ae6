"""An owner sets a stricter limit and a shelf of units; lessons and Check a tire follow; then all is taken back."""

from typing import Any
from urllib.parse import urlencode

import pytest
from playwright.sync_api import Page, expect

from tests.browser.watch import PASSWORD, SHOP, log_in, watch
from tests.kept_checks import SMALL_HOLE

pytestmark = pytest.mark.browser

HOLE = {"injury_A_diameter": "5.5 mm", "on": "2026-11-25"}
CHECK = f"{SHOP}/check/?{urlencode(SMALL_HOLE | HOLE)}"


def test_house_rules_are_set_read_and_taken_back(page: Page, site: Any) -> None:
    log_in(page, "owner@quarry-road.example", PASSWORD)
    page.goto(f"{SHOP}/settings/")
    page.get_by_role("link", name="House rules").click()
    watch(page, "house rules at first")

    # a looser limit is refused beside its field, with both values
    page.get_by_text("The injury", exact=True).first.click()
    page.get_by_label("Size of the hole", exact=True).fill("7 mm")
    page.get_by_role("button", name="Show what changes").click()
    told = "Size of the hole: 7 mm is looser than at most 1/4 in (6 mm); give at most 6 mm."
    expect(page.get_by_role("alert")).to_contain_text(told)
    watch(page, "house rules refused")
    page.get_by_role("link", name=told).click()
    expect(page.get_by_label("Size of the hole", exact=True)).to_be_focused()

    # a stricter one is read in words before it counts
    page.get_by_label("Size of the hole", exact=True).fill("3/16 in; 5 mm")
    page.get_by_role("button", name="Show what changes").click()
    expect(page.get_by_role("heading", name="What changes")).to_be_visible()
    watch(page, "house rules what changes")
    page.get_by_label("Why").fill("Two comebacks this fall.")
    page.get_by_role("button", name="Set these house rules").click()
    expect(page.get_by_text("House rules set: 1 house rule in force.")).to_be_visible()
    watch(page, "house rules in force")

    # lesson and Check a tire follow at once
    page.goto(f"{SHOP}/course/measure-and-choose/measure-the-injury/")
    expect(page.locator(".limit-value", has_text="At most 3/16 in (5 mm)").first).to_be_visible()
    watch(page, "lesson under a house rule")
    page.goto(CHECK)
    expect(page.locator(".verdict-word").first).to_have_text("Reject")
    page.get_by_text("Why, with sources").click()
    expect(page.get_by_text("house rule of the shop").first).to_be_visible()
    watch(page, "check under a house rule")

    # the set is there to read, and goes as a file
    page.goto(f"{SHOP}/house-rules/")
    page.get_by_role("link", name="Set", exact=False).first.click()
    watch(page, "house rules one set")
    page.goto(f"{SHOP}/house-rules/file/")
    watch(page, "house rules from a file")
    page.get_by_label("Or its text").fill('[[rule]]\nclause = "injury-size"\nat_least = "5 mm"\n')
    page.get_by_role("button", name="Show what changes").click()
    expect(page.get_by_role("alert")).to_contain_text("so give at_most")
    watch(page, "house rules file refused")

    # taken back, the rulebook's own limit counts again
    page.goto(f"{SHOP}/house-rules/")
    page.get_by_role("link", name="Take all house rules back").click()
    watch(page, "house rules taken back")
    page.get_by_role("button", name="Set these house rules").click()
    expect(page.get_by_text("no house rule in force any more")).to_be_visible()
    page.goto(CHECK)
    expect(page.locator(".verdict-word").first).to_have_text("Repair")


def test_units_go_on_the_shelf_and_off_it(page: Page, site: Any) -> None:
    log_in(page, "owner@quarry-road.example", PASSWORD)
    page.goto(f"{SHOP}/settings/")
    watch(page, "shop with its rules")
    page.get_by_role("link", name="Repair units").click()
    watch(page, "units at first")
    page.get_by_role("link", name="Add a unit").click()
    watch(page, "unit to add")
    page.get_by_label("Name").fill("patch, short")
    page.get_by_label("Patch, for a two-piece repair").check()
    page.get_by_label("Length, toward the beads").fill("61-62")
    page.get_by_label("Width, around the tire").fill("65 mm")
    page.get_by_label("Largest injury").fill("6 mm")
    page.get_by_label("Passenger").check()
    page.get_by_role("button", name="Put it on the shelf").click()
    expect(page.get_by_role("alert")).to_contain_text('"61-62" is not a length')
    watch(page, "unit refused")
    page.get_by_label("Length, toward the beads").fill("61 mm")
    page.get_by_role("button", name="Put it on the shelf").click()
    expect(page.get_by_text('"patch, short" is on the shelf.')).to_be_visible()
    watch(page, "units on the shelf")

    page.goto(CHECK.replace("5.5+mm", "5+mm"))
    expect(page.get_by_text("(61 mm by 65 mm)", exact=False).first).to_be_visible()

    page.goto(f"{SHOP}/repair-units/")
    page.get_by_role("button", name="Take off the shelf: patch, short").click()
    expect(page.get_by_text('"patch, short" is taken off the shelf.')).to_be_visible()
    watch(page, "units taken off")
