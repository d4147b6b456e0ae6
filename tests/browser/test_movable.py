"""A hole moved in a lesson, by pointer, by keyboard and without a script: drawing, verdict and tracks follow."""

import io
import re
from typing import Any

import pytest
from playwright.sync_api import Page, expect
from pypdf import PdfReader

from tests.browser.test_lesson import AT_A_DESK, WHERE, box, right
from tests.browser.test_rulebook import APPRENTICE
from tests.browser.watch import PASSWORD, across, log_in, watch

pytestmark = pytest.mark.browser

SPOKEN, WORD = "#movable-said", "#movable-shown .verdict-word"
MOST_BYTES = 100_000
# place, lean, thickness and size of the hole: the ends of each, and some between
MOVES = [("1 9/16", "0", "5/16", "1/8"), ("2 27/32", "60", "25/32", "5/16"), ("2 27/32", "0", "1/2", "5/16"),
         ("2 1/4", "25", "25/32", "3/16"), ("2 3/8", "31", "3/8", "1/4"), ("2 1/4", "40", "9/16", "3/16")]  # fmt: skip
SETTLED = 400  # ms: a move waits a little for the next, and is then answered


@pytest.fixture
def movable(page: Page) -> Page:
    """The lesson, everything of it there."""
    log_in(page, APPRENTICE, PASSWORD)
    page.goto(WHERE)
    page.wait_for_load_state("networkidle")
    page.locator("#movable").scroll_into_view_if_needed()
    return page


def answered(page: Page) -> Any:
    """Wait for the answer to what is done inside."""
    return page.expect_response(lambda answer: "/moved/" in answer.url)


def slider(page: Page, name: str) -> Any:
    return page.get_by_role("slider", name=f"{name}, slider")


def test_a_slider_and_its_number_are_one_and_keep_the_focus(movable: Page) -> None:
    lean, number = slider(movable, "Lean, outward"), movable.get_by_label("Lean, outward", exact=True)
    expect(lean).to_have_value("400")
    expect(movable.locator(WORD)).to_have_text("Reject")
    expect(movable.locator(SPOKEN)).to_be_empty()

    lean.focus()
    with answered(movable):
        lean.press("ArrowLeft")
    expect(number).to_have_value("39")
    expect(movable.locator(WORD)).to_have_text("Reject")
    movable.wait_for_timeout(SETTLED)
    expect(movable.locator(SPOKEN)).to_be_empty()  # the word is the same

    with answered(movable):
        lean.press("ArrowLeft")
    expect(movable.locator(WORD)).to_have_text("Repair")
    expect(movable.locator(SPOKEN)).to_have_text("Repair")
    expect(lean).to_be_focused()
    expect(lean).to_have_attribute("aria-valuetext", "38°")

    with answered(movable):
        number.fill("24.5")
    expect(lean).to_have_value("250")  # the nearest a slider stops at; what counts is the number
    expect(movable.locator("#movable-shown .verdict-meaning")).to_have_text("one-piece unit or two-piece repair")
    expect(number).to_be_focused()
    watch(movable, "hole moved")

    place = movable.get_by_label("Hole, from the center", exact=True)
    with answered(movable):
        place.fill("2 5/8")
    expect(slider(movable, "Hole, from the center")).to_have_value("84")
    expect(movable.locator(WORD)).to_have_text("Reject")
    expect(movable.locator(SPOKEN)).to_have_text("Reject")


def test_a_pointer_drags_over_the_turn(movable: Page) -> None:
    lean = slider(movable, "Lean, outward")
    at = present_box(lean)
    y = at["y"] + at["height"] / 2
    movable.mouse.move(at["x"] + at["width"] * 2 / 3, y)
    movable.mouse.down()
    with answered(movable):
        movable.mouse.move(at["x"] + at["width"] / 4, y, steps=12)
    movable.mouse.up()

    expect(movable.locator(WORD)).to_have_text("Repair")
    assert 10 <= float(movable.get_by_label("Lean, outward", exact=True).input_value()) <= 18


def present_box(of: Any) -> Any:
    found = of.bounding_box()
    assert found is not None
    return found


def test_the_thumb_stands_where_its_value_lies_on_the_track(movable: Page) -> None:
    for name, part in (("Lean, outward", 40 / 60), ("Crown thickness", (9 / 16 - 5 / 16) / (25 / 32 - 5 / 16))):
        lies = slider(movable, name).evaluate(
            """(slider, part) => {
              const track = slider.parentElement.querySelector("svg").getBoundingClientRect();
              const own = slider.getBoundingClientRect();
              const thumb = own.left + 11 + (own.width - 22) * (slider.value - slider.min) / (slider.max - slider.min);
              return [thumb, track.left + track.width * part];
            }""",
            part,
        )
        assert lies[0] == pytest.approx(lies[1], abs=1)


def test_nothing_moves_while_the_hole_does(movable: Page) -> None:
    movable.evaluate(
        """() => { window.moved = 0; new PerformanceObserver((list) => list.getEntries().forEach((one) => {
             window.moved += one.value; })).observe({ type: "layout-shift" }); }"""
    )
    tops = places(movable)
    for values in MOVES:
        fields = ("Hole, from the center", "Lean, outward", "Crown thickness", "Hole, across")
        with answered(movable):
            for field, value in zip(fields, values, strict=True):
                movable.get_by_label(field, exact=True).fill(value)
        movable.wait_for_timeout(SETTLED)
        assert places(movable) == pytest.approx(tops, abs=1), values
    assert movable.evaluate("window.moved") < 0.01


def places(page: Page) -> list[float]:
    parts = page.locator("#movable-shown .figure > svg, .slide, .slide-track > svg, .movable-moves > a")
    return list(parts.evaluate_all("all => all.map((one) => one.getBoundingClientRect().top + scrollY)"))


def test_the_verdict_leaves_room_for_the_longest_it_says(movable: Page) -> None:
    with answered(movable):
        movable.get_by_label("Hole, across", exact=True).fill("5/16")
    movable.wait_for_timeout(SETTLED)

    room, words = box(movable, ".movable-verdict"), box(movable, ".movable-verdict > p:last-child")
    assert words["y"] >= room["y"]
    assert words["y"] + words["height"] <= room["y"] + room["height"]


def test_a_ready_move_fills_the_numbers_in_and_starting_over_brings_them_back(movable: Page) -> None:
    asked: list[str] = []
    movable.on("request", lambda one: asked.append(one.url))
    with answered(movable):
        movable.get_by_role("link", name="Make it thinner").press("Enter")
    expect(movable.get_by_label("Crown thickness", exact=True)).to_have_value("1/2")
    expect(movable.locator(WORD)).to_have_text("Repair")

    with answered(movable):
        movable.get_by_role("link", name="Start over").click()
    expect(movable.get_by_label("Crown thickness", exact=True)).to_have_value("9/16")
    expect(movable.locator(WORD)).to_have_text("Reject")
    assert "?" not in movable.url
    host = re.match(r"\w+://[^/]+/", movable.url)
    assert host is not None
    assert all(one.startswith((host[0], "data:")) for one in asked)


def test_what_cannot_be_is_named_and_the_last_that_could_stays(movable: Page) -> None:
    number = movable.get_by_label("Lean, outward", exact=True)
    with answered(movable):
        number.fill("20")
    expect(movable.locator(WORD)).to_have_text("Repair")
    drawing = movable.locator("#movable-shown .figure svg").get_attribute("aria-label")

    with answered(movable):
        number.fill("200")
    problem = movable.locator("#movable-problem")
    expect(problem).to_contain_text('Lean, outward: "200" is out of reach here; give 0° to 60°.')
    expect(number).to_have_attribute("aria-invalid", "true")
    assert movable.locator("#movable-shown .figure svg").get_attribute("aria-label") == drawing
    watch(movable, "hole moved out of reach")

    with answered(movable):
        number.fill("30")
    expect(problem).to_be_empty()
    expect(number).not_to_have_attribute("aria-invalid", "true")


@AT_A_DESK
def test_at_a_desk_it_fits_beside_its_text_and_into_few_bytes(movable: Page) -> None:
    text, bench = box(movable, ".scene:has(.movable) > .scene-text"), box(movable, ".bench:has(.movable)")
    assert right(text) < bench["x"]
    assert bench["y"] == pytest.approx(text["y"], abs=2) or bench["y"] > text["y"]
    sent = movable.evaluate(
        """() => [...performance.getEntriesByType("navigation"), ...performance.getEntriesByType("resource")]
             .filter((one) => one.initiatorType === "navigation").map((one) => one.transferSize)"""
    )
    assert 0 < sum(sent) < MOST_BYTES


@AT_A_DESK
def test_on_paper_the_ready_moves_stand_as_they_come_out(movable: Page) -> None:
    texts = " ".join(one.extract_text() for one in PdfReader(io.BytesIO(movable.pdf(format="Letter"))).pages)

    assert all(one in texts for one in ("Lean it 38°", "Make it thinner", "Move it inward"))
    assert "Start over" not in texts


@pytest.mark.parametrize("size", [(1280, 900), (390, 844)])
def test_without_a_script_the_numbers_are_a_form_and_the_moves_are_links(chromium: Any, site: Any, size: Any) -> None:
    context = chromium.new_context(viewport={"width": size[0], "height": size[1]}, base_url=site.address,
                                   java_script_enabled=False)  # fmt: skip
    page = context.new_page()
    log_in(page, APPRENTICE, PASSWORD)
    page.goto(WHERE)

    expect(page.get_by_role("slider")).to_have_count(0)
    expect(page.locator(".movable-variant").first).to_be_visible()
    page.get_by_label("Lean, outward", exact=True).fill("30")
    page.get_by_role("button", name="Show it").click()
    expect(page.locator(WORD)).to_have_text("Repair")
    expect(page.locator("#movable")).to_be_in_viewport()
    page.get_by_label("Lean, outward", exact=True).fill("steep")
    page.get_by_role("button", name="Show it").click()
    expect(page.locator("#movable-problem")).to_contain_text('"steep" is not an angle')
    expect(page.locator(WORD)).to_have_text("Repair")
    page.get_by_role("link", name="Start over").click()
    expect(page.locator(WORD)).to_have_text("Reject")
    page.get_by_role("link", name="Move it inward").click()
    expect(page.locator(WORD)).to_have_text("Repair")
    assert page.viewport_size is not None
    assert across(page) == size[0]
    context.close()
