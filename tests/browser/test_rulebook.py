"""Anyone in the shop reads the rulebook; a shop on another country's rulebook learns and checks by it."""

import sqlite3
from typing import Any

import pytest
from playwright.sync_api import Page, expect

from tests.browser.watch import PASSWORD, log_in, watch

pytestmark = pytest.mark.browser

APPRENTICE = "apprentice@quarry-road.example"


def test_the_rulebook_is_read_from_the_course(page: Page) -> None:
    log_in(page, APPRENTICE, PASSWORD)
    page.goto("/shop/quarry-road/course/")

    page.get_by_role("link", name="Read the rulebook that the lessons print from").click()

    expect(page.get_by_role("heading", level=1)).to_have_text("Rulebook: North America")
    watch(page, "rulebook north america")
    page.get_by_role("link", name="To be checked").click()
    expect(page.locator("#from-memory")).to_be_in_viewport()


def test_a_rule_is_found_by_search_and_by_subject(page: Page) -> None:
    log_in(page, APPRENTICE, PASSWORD)
    page.goto("/shop/quarry-road/rulebook/")
    search = page.get_by_role("searchbox", name="Look for a rule")
    top = search.bounding_box()
    assert top is not None
    assert top["y"] < 250

    # by subject: the title opens to its sources, by keyboard too
    page.get_by_role("navigation", name="On this page").get_by_role("link", name="The injury").press("Enter")
    expect(page.get_by_role("heading", name="The injury", exact=True)).to_be_in_viewport()
    rule = page.locator("#rule-injury-size")
    expect(rule).to_be_hidden()
    page.locator("summary", has=page.get_by_role("heading", name="Size of the hole", exact=True)).first.press("Enter")
    expect(rule.get_by_text("wall chart").first).to_be_visible()

    search.fill("buffer 5000")
    search.press("Enter")
    expect(page.get_by_role("heading", level=2).first).to_have_text("1 rule says “buffer 5000”")
    expect(page.get_by_text("A faster buffer scorches the liner.")).to_be_visible()
    watch(page, "rulebook search")
    page.goto("/shop/quarry-road/rulebook/?q=parachute")
    watch(page, "rulebook search finds nothing")
    page.get_by_role("link", name="All rules").click()
    # a link to a rule opens it
    page.goto("/shop/quarry-road/rulebook/#rule-buffer-speed")
    expect(page.get_by_text("A faster buffer scorches the liner.")).to_be_in_viewport()
    page.set_viewport_size({"width": 320, "height": 700})
    assert page.evaluate("document.documentElement.scrollWidth") == 320


def join_a_british_shop(site: Any) -> None:
    """A second shop beside the demo's, on the other rulebook, with the demo's apprentice in it, who is logged in."""
    with sqlite3.connect(site.folder / "sound-casing.sqlite3", timeout=20) as connection:
        columns = [row[1] for row in connection.execute("PRAGMA table_info(training_shop)") if row[1] != "id"]
        changed = {"slug": "canal-street", "name": "Canal Street Tyres", "edition": "united-kingdom", "units": "mm"}
        chosen = ", ".join(f"'{changed[name]}'" if name in changed else name for name in columns)
        connection.execute(
            f"INSERT OR IGNORE INTO training_shop ({', '.join(columns)}) "
            f"SELECT {chosen} FROM training_shop WHERE slug = 'quarry-road'"
        )
        connection.execute(
            "INSERT INTO training_membership (user_id, shop_id, role, since_at) "
            "SELECT u.id, s.id, 'apprentice', '2026-01-01' FROM training_user u, training_shop s "
            "WHERE u.email = ? AND s.slug = 'canal-street' AND NOT EXISTS "
            "(SELECT 1 FROM training_membership m WHERE m.user_id = u.id AND m.shop_id = s.id)",
            [APPRENTICE],
        )


def leave_the_british_shop(site: Any) -> None:
    """The apprentice is in one shop again."""
    with sqlite3.connect(site.folder / "sound-casing.sqlite3", timeout=20) as connection:
        connection.execute("DELETE FROM training_membership WHERE since_at = '2026-01-01'")


def test_a_shop_in_the_united_kingdom_learns_and_checks_by_its_own_rulebook(page: Page, site: Any) -> None:
    leave_the_british_shop(site)  # one shop at the login
    log_in(page, APPRENTICE, PASSWORD)
    join_a_british_shop(site)
    shop = "/shop/canal-street"

    page.goto(f"{shop}/rulebook/")
    expect(page.get_by_role("heading", level=1)).to_have_text("Rulebook: United Kingdom")
    watch(page, "rulebook united kingdom")

    page.goto(f"{shop}/course/measure-and-choose/where-it-may-be/")
    expect(page.get_by_text("The grooves have no say")).to_be_visible()
    watch(page, "lesson united kingdom")

    # 185 mm wide: area T is 120 mm as printed, so a hole of 6 mm lies outside from 57 mm on
    page.goto(
        f"{shop}/check/?casing=passenger&purpose=repair&designation=185%2F65R15&injury_A_kind=puncture"
        "&injury_A_diameter=6+mm&injury_A_angle=0+deg&injury_A_lateral=58+mm"
    )
    expect(page.locator(".verdict-word").first).to_have_text("Reject")
    watch(page, "check united kingdom")

    page.goto(f"{shop}/practice/")
    watch(page, "practice united kingdom")
    page.goto(f"{shop}/assessment/")
    watch(page, "assessment united kingdom")
