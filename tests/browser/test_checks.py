"""A tire is checked, the check kept, corrected and printed; a repair audited; anyone checks where that is allowed."""

import re
from io import BytesIO
from typing import Any

import pytest
from playwright.sync_api import Page, expect
from pypdf import PdfReader

from tests.browser.watch import PASSWORD, SHOP, across, log_in, watch

pytestmark = pytest.mark.browser


def pages_on_paper(page: Page, paper: str) -> list[str]:
    """The text of each sheet that the open page prints on."""
    pdf = page.pdf(format=paper, prefer_css_page_size=False, print_background=False)
    return [sheet.extract_text() for sheet in PdfReader(BytesIO(pdf)).pages]


def press_all(page: Page) -> None:
    """Say of each group on the page that all of it was looked at and nothing found."""
    while (buttons := page.get_by_role("button", name=re.compile("I looked at all"))).count():
        with page.expect_navigation():  # else the page that is being left is asked for its buttons
            buttons.first.click()


def go_on(page: Page) -> None:
    with page.expect_navigation():
        page.get_by_role("button", name=re.compile("^Go on")).last.click()


def fill_in(page: Page, diameter: str) -> None:
    page.goto(f"{SHOP}/check/")
    page.get_by_label("Casing", exact=True).select_option("passenger")
    page.get_by_label("Off the wheel", exact=True).first.check()
    page.get_by_label("Build", exact=True).select_option("radial")
    page.get_by_label("Size", exact=True).fill("205/55R16 91V")
    go_on(page)
    page.get_by_label("Centerline to outer groove").fill("62 mm")
    page.get_by_label("Crown thickness").fill("13 mm")
    page.get_by_label("Diameter, prepared").first.fill(diameter)
    page.get_by_label("Angle").first.fill("12 deg")
    page.get_by_label("Distance from the centerline").first.fill("20 mm")
    page.get_by_label("Outward", exact=True).first.check()


def test_a_check_is_kept_corrected_and_printed(page: Page, site: Any) -> None:
    width = across(page)
    log_in(page, "trainer@quarry-road.example", PASSWORD)
    page.goto(f"{SHOP}/checks/")
    watch(page, "records at first")
    page.goto(f"{SHOP}/check/")
    watch(page, "check first step")

    # a small hole: a plan, and one job card that prints on one sheet of its own
    fill_in(page, "5 mm")
    watch(page, "check asked")
    go_on(page)
    press_all(page)
    page.get_by_label("Looked all over: none").check()
    watch(page, "check inside")
    go_on(page)
    press_all(page)
    page.get_by_label("Tread depths in one groove").fill("6/32 in")
    watch(page, "check outside")
    page.get_by_role("button", name="Decide", exact=True).click()
    expect(page.locator(".verdict-word")).to_have_text("Repair")
    watch(page, "check repair")
    decision = page.url
    for paper in ("A4", "Letter"):
        (sheet,) = pages_on_paper(page, paper)
        for words in ("Repair", "at most 1/4 in (6 mm)", "Checked and in order", "wall chart", "Crown thickness"):
            assert words in " ".join(sheet.split()), (words, paper)
    page.get_by_role("link", name="Print the job card").click()
    watch(page, "job card")
    for paper in ("A4", "Letter"):
        (card,) = pages_on_paper(page, paper)
        for words in ("Job card", "Let the air out", "Relearn the pressure monitor", "tire maker", "at most 1,200 rpm"):
            assert words in card, (words, paper)

    # nothing to find it by is refused; then it is kept
    page.goto(decision)
    page.get_by_role("link", name="Keep this check").click()
    watch(page, "keep")
    page.get_by_role("button", name="Keep this check").click()
    watch(page, "keep refused")
    expect(page.get_by_role("alert").first).to_contain_text("Vehicle or ticket: it is empty")
    page.get_by_label("Vehicle or ticket").fill(f"plate {width}")
    page.get_by_label("Tire identification number").fill("DOT 1AB CDEFHJ 3219")
    page.get_by_role("button", name="Keep this check").click()
    expect(page.get_by_role("heading", level=1)).to_contain_text(f"plate {width}")
    watch(page, "kept check")
    for paper in ("A4", "Letter"):
        assert len(pages_on_paper(page, paper)) == 1

    # the correction is a new entry
    page.get_by_role("link", name="Correct this entry").click()
    watch(page, "correction begun")
    # Source: US association puncture repair procedures (wall chart): at most 1/4 in (6 mm) after damage removal
    page.get_by_label("Diameter, prepared").first.fill("9 mm")
    page.get_by_role("button", name="Decide with what is here").click()
    expect(page.locator(".verdict-word")).to_have_text("Reject")
    watch(page, "correction decided")
    assert len(pages_on_paper(page, "Letter")) == 1
    page.get_by_role("link", name="Keep the correction").click()
    page.get_by_label("What was wrong with the entry").fill("Measured before the last pass.")
    page.get_by_label("The customer took the tire along").check()
    page.get_by_role("button", name="Keep the correction").click()
    watch(page, "kept correction")
    page.get_by_role("link", name="Customer's statement").click()
    watch(page, "statement reject")
    for paper in ("A4", "Letter"):
        sheets = pages_on_paper(page, paper)
        assert len(sheets) == 1, paper
        for words in ("must not go back on the road", "9 mm", "1/4 in (6 mm)", "against our advice", "3219"):
            assert words in " ".join(sheets[0].split()), (words, paper)

    page.goto(f"{SHOP}/checks/?q=plate+{width}")
    expect(page.locator("tbody tr")).to_have_count(2)
    expect(page.locator("tbody tr").last).to_contain_text("Corrected later")
    watch(page, "records found")


def test_a_repair_is_audited(page: Page, site: Any) -> None:
    log_in(page, "trainer@quarry-road.example", PASSWORD)
    page.goto(f"{SHOP}/audit/")
    watch(page, "audit")
    page.get_by_label("Casing").select_option("passenger")
    page.get_by_label("Method").select_option("two-piece")
    page.get_by_role("button", name="Open the sheet").click()
    watch(page, "audit sheet")
    expect(page.locator("input:checked:not([name$=_u])")).to_have_count(0)  # a unit is shown, nothing is said
    expect(page.get_by_label("Speed of the drill with the carbide cutter")).to_be_hidden()
    page.get_by_role("button", name="Audit", exact=True).click()
    expect(page.locator("#outcome")).to_have_text("Not decided")
    cut = page.get_by_role("group", name="Cut the damage out", exact=True)
    cut.get_by_label("Done", exact=True).check()
    watch(page, "audit a step done")
    # Source: trade press, carbide cutter in a low-speed drill at most 1,200 rpm
    page.get_by_label("Speed of the drill with the carbide cutter").fill("1500 turns")
    page.get_by_role("button", name="Audit", exact=True).click()
    expect(page.get_by_role("alert").first).to_contain_text('"1500 turns"')
    watch(page, "audit refused")
    page.get_by_label("Speed of the drill with the carbide cutter").fill("1500 rpm")
    page.get_by_role("button", name="Audit", exact=True).click()
    expect(page.locator("main")).to_contain_text("Not sound")
    expect(page.locator(".rulings")).to_contain_text("1,500 rpm")
    watch(page, "audit faults")


def test_anyone_checks_where_the_owner_allows_it(page: Page, site: Any) -> None:
    address = f"{site.address}/check/quarry-road/"
    log_in(page, "owner@quarry-road.example", PASSWORD)
    page.goto(f"{SHOP}/settings/")
    page.get_by_label("Anyone may use Check a tire without logging in").check()
    watch(page, "settings")
    page.get_by_role("button", name="Save the settings").click()
    page.context.clear_cookies()

    page.goto(f"{address}?casing=passenger&purpose=repair&injury_A_diameter=9+mm")

    expect(page.locator(".verdict-word")).to_have_text("Reject")
    expect(page.get_by_role("button", name="Keep this check")).to_have_count(0)
    watch(page, "public check")

    # begun, with little looked at, with facts that cannot both be true, with what cannot be read
    page.goto(address)
    expect(page.get_by_role("heading", level=1)).to_have_text("Check a tire")
    expect(page.locator("main")).to_contain_text("By the rulebook of Quarry Road Tire. Nothing is kept.")
    watch(page, "public begun")
    page.goto(f"{address}?casing=passenger&purpose=repair")
    expect(page).to_have_title(re.compile("Not decided yet"))
    expect(page.locator(".verdict--repair, .verdict--accept, .job-card")).to_have_count(0)
    watch(page, "public nothing looked at")
    page.goto(f"{address}?casing=passenger&purpose=service&tread_width=170+mm&outer_groove=90+mm")
    expect(page.locator(".verdict-meaning")).to_have_text("Look again: what was given cannot all be true.")
    watch(page, "public contradictory")
    page.goto(f"{address}?casing=passenger&purpose=repair&injury_A_diameter=thick")
    expect(page.get_by_role("alert").first).to_contain_text('"thick"')
    watch(page, "public refused")
