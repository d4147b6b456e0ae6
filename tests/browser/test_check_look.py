"""How Check a tire is laid out: what stands first, how far it is to the job card, what is folded, what it prints on.

The bounds are those of the sketches the pages were drawn after; they are no rules of the trade.
"""

from io import BytesIO
from typing import Any
from urllib.parse import urlencode

import pytest
from playwright.sync_api import Page, expect
from pypdf import PdfReader

from tests.browser.watch import PASSWORD, SHOP, across, log_in, watch
from training.rulebook import FINDINGS

pytestmark = pytest.mark.browser
SCREEN_PX = 844
TARGET_PX = 44
OPENED_PX = 6000
SPOKEN_PX = 20
NOT_FOUND = {f"find_{name}": "no" for name in FINDINGS}
HOLE = {
    "casing": "passenger", "purpose": "repair", "on_wheel": "no", "build": "radial", "designation": "205/55R16 91V",
    "outer_groove": "2 5/8 in", "crown_thickness": "1/2 in", "injury_A_kind": "puncture",
    "injury_A_diameter": "3/16 in", "injury_A_angle": "12 deg", "injury_A_lateral": "1 1/2 in", "injury_A_lean": "out",
    "depths_1": "7/32 in", "repairs": "none", "on": "2026-11-25",
}  # fmt: skip
THREE = HOLE | {
    "injury_A_station": "10 in",
    "injury_B_kind": "puncture", "injury_B_diameter": "1/8 in", "injury_B_angle": "5 deg", "injury_B_lateral": "-1 in",
    "injury_B_lean": "out", "injury_B_station": "40 in",
    "injury_C_kind": "puncture", "injury_C_diameter": "3/16 in", "injury_C_angle": "0 deg",
    "injury_C_lateral": "1/2 in", "injury_C_station": "60 in",
}  # fmt: skip
GREEN = "rgb(23, 97, 58)"  # of the verdicts that let a tire go


def check(page: Page, **found: str) -> None:
    page.goto(f"{SHOP}/check/?{urlencode(HOLE | NOT_FOUND | found)}")


def unfold(page: Page) -> None:
    page.evaluate("document.querySelectorAll('main details').forEach(one => { one.open = true; })")
    for box in page.locator(".show-later").all():
        box.evaluate("one => { one.checked = true; }")


def height(page: Page) -> int:
    return int(page.evaluate("document.documentElement.scrollHeight"))


def box(one: Any) -> dict[str, float]:
    """Where something stands on the page [px]."""
    at = one.bounding_box()
    assert at is not None
    return dict(at)


def sheets(page: Page, paper: str) -> list[str]:
    pdf = page.pdf(format=paper, prefer_css_page_size=False)
    return [sheet.extract_text() for sheet in PdfReader(BytesIO(pdf)).pages]


@pytest.fixture(autouse=True)
def _as_apprentice(page: Page, site: Any) -> None:
    log_in(page, "apprentice@quarry-road.example", PASSWORD)


# Source of the limit: US association puncture repair procedures (wall chart), at most 1/4 in (6 mm)
def test_a_decision_says_first_what_decided_and_the_job_card_is_near(page: Page) -> None:
    check(page)
    order = page.locator(".verdict, .measures, .figure, .next-thing, .job-card, .in-order, .sources")
    assert [one.split()[0] for one in order.evaluate_all("all => all.map(one => one.className)")] == [
        "verdict", "measures", "figure", "next-thing", "job-card", "in-order", "sources",
    ]  # fmt: skip
    row = page.locator(".measures > div", has_text="Size of the hole")
    found, limit = row.locator(".measure-found"), row.locator(".measure-limit")
    expect(found).to_have_text("3/16 in")
    expect(limit).to_have_text("at most 1/4 in (6 mm)")
    assert box(found)["x"] < box(limit)["x"]
    card = page.locator(".job-card")
    if across(page) < 400:
        assert box(card)["y"] < 2 * SCREEN_PX
    expect(page.locator(".names")).to_be_hidden()
    expect(page.locator(".sources .rulings").first).to_be_hidden()

    # the later lines of the card fold and come by the keyboard
    lines = card.locator("ol > li")
    assert lines.count() == 32
    expect(lines.nth(14)).to_be_hidden()
    card.locator(".show-later").focus()
    page.keyboard.press("Space")
    expect(lines.nth(31)).to_be_visible()
    cutter = card.locator("li", has_text="Cut the damage out")
    expect(cutter.locator(".job-brief")).to_contain_text("at most 1,200 rpm")
    right = box(cutter)["x"] + box(cutter)["width"]
    limit_box = box(cutter.locator(".job-brief span").first)
    assert abs(right - limit_box["x"] - limit_box["width"]) < 2, "the limit stands at the right margin"

    unfold(page)
    if across(page) < 400:
        assert height(page) <= OPENED_PX
    watch(page, "look decided, everything open")


def test_several_injuries_are_told_one_after_the_other_with_one_card_on_the_screen(page: Page) -> None:
    check(page, **THREE)
    expect(page.locator(".verdict-word")).to_have_text("Repair")
    parts = page.locator(".decided-of")
    assert [one.strip() for one in parts.locator("> summary").all_text_contents()] == [
        "Injury A", "Injury B", "Injury C", "Between them",
    ]  # fmt: skip
    expect(page.locator(".decided-of[open]")).to_have_count(1)
    row = parts.nth(0).locator(".measures > div", has_text="Size of the hole")
    expect(row.locator("dt")).to_have_text("Size of the hole")
    card = page.locator(".job-card")
    expect(card).to_have_count(1)
    expect(card.locator("h2")).to_have_text("Job cards: injuries A, B and C, two-piece repair")
    assert card.locator("h3").all_text_contents() == ["Injury A", "Injury B", "Injury C"]
    if across(page) < 400:
        assert box(card)["y"] < 2 * SCREEN_PX
    watch(page, "look several injuries")
    unfold(page)
    for fold in page.locator(".outcome details[name]").all():  # of these one stands open at a time
        fold.evaluate("one => { one.open = true; }")
        expect(page.locator(".outcome details[name][open]")).to_have_count(1)
        if across(page) < 400:
            assert height(page) <= OPENED_PX, fold.locator("> summary").text_content()
    for paper in ("A4", "Letter"):
        (sheet,) = sheets(page, paper)
        assert all(words in sheet for words in ("Injury A", "Injury B", "Injury C", "Between them", "What was found"))
    check(page, **THREE, card="1")
    for paper in ("A4", "Letter"):
        cards = sheets(page, paper)
        assert ["Job card: injury " + one in card for one, card in zip("ABC", cards, strict=True)] == [True] * 3


@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_a_decision_and_a_job_card_are_one_sheet_each(page: Page, paper: str) -> None:
    check(page)
    (sheet,) = sheets(page, paper)
    assert "Liner separation" in sheet, "what is folded on a screen is printed"
    check(page, find_bulge="yes", injury_A_diameter="3/8 in")
    assert len(sheets(page, paper)) == 1
    left = dict.fromkeys(("find_liner-cracked", "find_bead-damage"), "")
    page.goto(f"{SHOP}/check/?{urlencode({name: v for name, v in (HOLE | NOT_FOUND | left).items() if v})}")
    assert len(sheets(page, paper)) == 1
    check(page, card="1")
    (card,) = sheets(page, paper)
    assert "Outline to buff" in card
    assert " mm by " not in card.split("Outline to buff")[1].split("Stem")[0], "the outline in the unit of the shop"
    for words in ("Let the air out", "Relearn the pressure monitor", "Eyewash"):
        assert words in card


def test_what_is_open_is_answered_right_there_and_nothing_lets_the_tire_go(page: Page) -> None:
    left = ("find_liner-cracked", "find_bead-damage")
    open_case = {name: value for name, value in (HOLE | NOT_FOUND).items() if name not in left}
    page.goto(f"{SHOP}/check/?{urlencode(open_case)}")

    expect(page.locator(".verdict--inspect .verdict-word")).to_have_text("Look inside first")
    expect(page.locator(".verdict--repair, .verdict--accept, .job-card")).to_have_count(0)
    colors = page.locator("main *").evaluate_all("all => all.map(one => getComputedStyle(one).color)")
    assert GREEN not in colors
    spoken = page.get_by_text("2 things are still to be looked at. If they are in order: repair.")
    assert float(spoken.evaluate("one => parseFloat(getComputedStyle(one).fontSize)")) >= SPOKEN_PX
    assert page.locator(".not-there").evaluate("one => getComputedStyle(one).borderTopStyle") == "dashed"
    if across(page) < 400:
        assert box(page.locator(".open-rows .look-row").last)["y"] < SCREEN_PX
    watch(page, "look open")
    for name in left:
        page.locator(f"input[name='{name}'][value='no']").focus()
        page.keyboard.press("Space")
    page.keyboard.press("Enter")
    expect(page.locator(".verdict-word")).to_have_text("Repair")


@pytest.mark.parametrize("part", ["tire", "hole", "inside", "outside"])
def test_everything_to_press_is_large_enough_for_a_glove(page: Page, part: str) -> None:
    page.goto(f"{SHOP}/check/?{urlencode(HOLE)}&step={part}")
    small = page.locator("main :is(.target, button:not(.default-button), summary, select, input[type=text], a.alone)")
    sizes = small.evaluate_all(
        "all => all.filter(one => one.checkVisibility()).map(one => [one.textContent.trim() || one.id, "
        "one.getBoundingClientRect().width, one.getBoundingClientRect().height])"
    )
    assert sizes
    assert not [one for one in sizes if min(one[1:]) < TARGET_PX]
    for group in page.locator(".look-group--findings").all():
        assert group.locator(".target").count() == 3 * group.locator(".look-row").count()
        assert group.locator("button").count() == 1


def test_the_return_key_in_a_field_says_nothing_of_a_group(page: Page) -> None:
    page.goto(f"{SHOP}/check/?casing=passenger&purpose=repair&step=outside")
    page.get_by_label("Tread depths in one groove").fill("7/32 in")
    page.keyboard.press("Enter")
    page.wait_for_url("**depths_1=**")

    assert "find_bulge" not in page.url
