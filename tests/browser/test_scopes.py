"""A shop that works in two scopes: its owner turns one off and on, its people see each scope by itself."""

import re
from typing import Any

import pytest
from playwright.sync_api import Page, expect

from tests.browser.watch import PASSWORD, SHOP, log_in, watch

pytestmark = pytest.mark.browser

LIGHT = "Passenger and fabric-body light truck tires"
STEEL = "Steel-body light truck and truck tires"


def test_an_owner_turns_a_scope_off_and_on(page: Page, site: Any) -> None:
    log_in(page, "owner@quarry-road.example", PASSWORD)
    page.goto(f"{SHOP}/settings/")
    page.get_by_role("link", name="Scopes").click()
    watch(page, "scopes")
    for box in page.get_by_role("checkbox").all():
        box.uncheck()
    page.get_by_role("button", name="Save the scopes").click()
    expect(page.get_by_role("alert").first).to_contain_text("at least one stays on")
    watch(page, "scopes refused")

    page.get_by_label(LIGHT).check()
    page.get_by_role("button", name="Save the scopes").click()
    expect(page.get_by_text("The shop works on passenger and fabric-body light truck tires")).to_be_visible()
    watch(page, "scopes one off")
    page.goto(f"{SHOP}/roster/")
    expect(page.locator("tr", has_text="Ines Kovar").get_by_text("Valid", exact=True)).to_have_count(2)

    page.goto(f"{SHOP}/scopes/")
    page.get_by_label(STEEL).check()
    page.get_by_role("button", name="Save the scopes").click()
    expect(page.locator("tr", has_text=STEEL)).to_contain_text("on since")


def test_everybody_sees_each_scope_by_itself(page: Page, site: Any) -> None:
    log_in(page, "owner@quarry-road.example", PASSWORD)
    page.goto(f"{SHOP}/roster/")
    steel = page.get_by_role("heading", name=STEEL).locator("xpath=following-sibling::p[1]")
    expect(steel).to_have_text("Ines Kovar")
    watch(page, "roster of two scopes")

    log_in(page, "trainer@quarry-road.example", PASSWORD)
    watch(page, "floor of two scopes")
    page.get_by_role("link", name="Ines Kovar", exact=True).click()
    watch(page, "person of two scopes")
    page.get_by_role("link", name="Record hands-on").click()
    watch(page, "hands-on of which tires")
    page.get_by_role("link", name=STEEL).click()
    expect(page.get_by_text("Inflates in a cage", exact=False).first).to_be_visible()
    watch(page, "hands-on of steel bodies")
    page.goto(f"{SHOP}/floor/")
    page.get_by_role("link", name="Tomas Vidal", exact=True).click()
    page.get_by_role("link", name="Paper", exact=True).click()
    watch(page, "paper of which tires")
    page.get_by_role("link", name=STEEL).click()
    watch(page, "paper of steel bodies")

    log_in(page, "tomas@quarry-road.example", PASSWORD)
    page.goto(f"{SHOP}/bay/")
    expect(page.get_by_role("heading", name="Nothing is due")).to_be_visible()
    watch(page, "bay of two scopes certified in one")
    page.get_by_role("link", name=re.compile("steel-body")).first.click()
    watch(page, "assessment of steel bodies")

    log_in(page, "apprentice@quarry-road.example", PASSWORD)
    watch(page, "bay of two scopes")
    page.goto(f"{SHOP}/assessment/")
    watch(page, "assessments of two scopes")
    page.goto(f"{SHOP}/practice/")
    page.get_by_role("link", name=STEEL).click()
    expect(page.get_by_role("link", name=STEEL)).to_have_attribute("aria-current", "page")
    watch(page, "practice of steel bodies")
    page.goto(f"{SHOP}/course/")
    watch(page, "course of two scopes")
