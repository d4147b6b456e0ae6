"""A lesson at a desk, on a phone and on paper: what stands beside what, in which order, and on how many pages."""

import io
from typing import Any

import pytest
from playwright.sync_api import Page, expect
from pypdf import PdfReader

from tests.browser.conftest import WIDTHS
from tests.browser.test_rulebook import APPRENTICE, join_a_british_shop, leave_the_british_shop
from tests.browser.watch import PASSWORD, across, log_in, watch, width_of
from training.course import modules

pytestmark = pytest.mark.browser

COURSE = "/shop/quarry-road/course"
# with drawings, worked examples, limits and boxes; with long tables; with job cards
WHERE = f"{COURSE}/measure-and-choose/where-it-may-be/"
REJECT = f"{COURSE}/inspect-and-reject/reject-on-sight/"
INSTALL = f"{COURSE}/prepare-install-return/install-and-stitch/"
# those that print longest
LONGEST = ("prepare-install-return/install-and-stitch", "prepare-install-return/return-to-service",
           "steel-bodies/repair-a-steel-body", "inspect-and-reject/reject-on-sight")  # fmt: skip
# the most that a shop prints for one lesson; Letter is the shorter sheet, A4 the narrower
PAGES, SHEETS = 4, ("A4", "Letter")
# a last sheet with less than this is paper for nothing [words]
FEW_WORDS = 40
# The desk of LOOK.md: rail 184, bench 562, gaps 36, all of it 1184 [px]
SCREEN = {name: height for name, (_, height) in WIDTHS.items()}
RAIL, BENCH, GAP, DESK = 184, 562, 36, 1184
AT_A_DESK = pytest.mark.parametrize("page", ["desk"], indirect=True)
ON_A_PHONE = pytest.mark.parametrize("page", ["phone"], indirect=True)


def box(page: Page, selector: str) -> dict[str, float]:
    """Where the first such element lies [px]."""
    found = page.locator(selector).first.bounding_box()
    assert found is not None, selector
    return {"x": found["x"], "y": found["y"], "width": found["width"], "height": found["height"]}


def right(of: dict[str, float]) -> float:
    return of["x"] + of["width"]


@pytest.fixture
def reader(page: Page) -> Page:
    log_in(page, APPRENTICE, PASSWORD)
    return page


@pytest.mark.parametrize("address", [WHERE, REJECT, INSTALL])
def test_a_lesson_holds_to_the_rules_of_every_page(reader, address) -> None:
    reader.goto(address)
    watch(reader, address.rstrip("/").rpartition("/")[2])
    reader.locator("details").evaluate_all("all => all.forEach(one => { one.open = true; })")
    watch(reader, f"{address.rstrip('/').rpartition('/')[2]} opened")


def test_the_course_and_a_module_offer_the_next_lesson_first(reader) -> None:
    for name, address in (("course", f"{COURSE}/"), ("module", f"{COURSE}/measure-and-choose/")):
        reader.goto(address)
        watch(reader, f"{name} at the desk")
        onward = box(reader, ".next-band .button")
        assert onward["y"] + onward["height"] < SCREEN[width_of(reader)]
        assert onward["y"] < box(reader, ".lesson-list")["y"]
    reader.set_viewport_size({"width": 320, "height": 700})
    assert reader.evaluate("document.documentElement.scrollWidth") == 320


@AT_A_DESK
def test_at_a_desk_the_rail_the_text_and_the_bench_stand_side_by_side(reader) -> None:
    reader.goto(WHERE)

    desk, rail = box(reader, ".desk"), box(reader, ".rail")
    text, bench = box(reader, ".scene > .scene-text"), box(reader, ".scene > .bench")
    assert desk["width"] == pytest.approx(DESK, abs=1)
    assert rail["x"] == pytest.approx(desk["x"], abs=3)
    assert rail["width"] == pytest.approx(RAIL, abs=3)
    assert text["x"] - right(rail) == pytest.approx(GAP, abs=1)
    assert bench["x"] - right(text) == pytest.approx(GAP, abs=1)
    assert bench["width"] == pytest.approx(BENCH, abs=1)
    assert right(bench) == pytest.approx(right(desk), abs=1)
    assert bench["y"] == pytest.approx(text["y"], abs=1)
    # a worked example with little text beside it: its own words left of its drawing, which lies where the bench lies
    drawing = box(reader, ".scene--across .figure")
    words = box(reader, ".scene--across .worked-told")
    assert bench["x"] < drawing["x"] < right(drawing) <= right(bench)
    assert right(words) < drawing["x"]
    assert words["y"] < drawing["y"] + drawing["height"] / 3


@ON_A_PHONE
def test_on_a_phone_a_drawing_stands_where_it_is_met(reader) -> None:
    reader.goto(WHERE)

    tops = reader.locator(".scene-text > :is(p, h2), .bench, .limit-card").evaluate_all(
        "all => all.map(one => one.getBoundingClientRect().top)"
    )
    assert len(tops) > 20
    assert tops == sorted(tops)
    assert box(reader, ".bench")["width"] == across(reader)
    for narrow in (360, 320):
        reader.set_viewport_size({"width": narrow, "height": 700})
        assert reader.evaluate("document.documentElement.scrollWidth") == narrow


def test_the_rail_says_where_one_is_and_leads_to_each_section(reader) -> None:
    reader.goto(WHERE)
    rail = reader.locator(".rail-parts a")
    titles = [title.strip() for title in rail.all_inner_texts()]
    assert "The whole hole" in titles
    assert titles[:-1] == [one.strip() for one in reader.locator(".lesson-part > .scene > .scene-text > h2, "
                           ".lesson-part > .scene-text > h2").all_inner_texts()]  # fmt: skip
    expect(reader.locator("h1")).to_have_text("Where it may be")
    expect(reader.locator(".rail > .secondary")).to_contain_text("in Measure and choose")

    reader.get_by_role("navigation", name="In this lesson").get_by_role("link", name="The whole hole").press("Enter")

    expect(reader.get_by_role("heading", name="The whole hole")).to_be_in_viewport()
    here = reader.locator(".rail-parts [aria-current=location]")
    expect(here).to_have_count(1)
    expect(here).to_have_text("The whole hole")
    expect(reader.locator(".rail-parts .is-read")).to_have_count(titles.index("The whole hole"))
    if width_of(reader) == "desk":
        expect(here).to_be_in_viewport()
        others = reader.get_by_role("navigation", name="Measure and choose")
        expect(others.get_by_role("link")).to_have_count(1 + len(modules()[1].lessons))
        expect(others.locator("[aria-current=page]")).to_have_text("Where it may be")


def test_the_mark_of_the_section_moves_nothing(reader) -> None:
    reader.goto(WHERE)
    reader.wait_for_load_state("networkidle")
    heights = reader.locator(".rail-parts li").evaluate_all("all => all.map(one => one.offsetHeight)")
    shifted = reader.evaluate(
        """async () => {
          let sum = 0;
          new PerformanceObserver(list => list.getEntries().forEach(one => { sum += one.value; }))
            .observe({ type: "layout-shift", buffered: true });
          for (let y = 0; y < document.documentElement.scrollHeight; y += 400) {
            scrollTo({ top: y, behavior: "instant" });
            await new Promise(done => setTimeout(done, 30));
          }
          return sum;
        }"""
    )
    assert shifted < 0.01
    assert reader.locator(".rail-parts li").evaluate_all("all => all.map(one => one.offsetHeight)") == heights


def test_a_worked_example_shows_drawing_verdict_reason_and_then_what_was_measured(reader) -> None:
    reader.goto(WHERE)
    worked = reader.locator(".worked", has_text="Same place, leaning out")

    order = worked.locator("h3, .figure, .verdict, .worked-reasons, .worked-facts").evaluate_all(
        "all => all.map(one => one.className || one.localName)"
    )
    assert order == ["h3", "figure", "verdict verdict--reject", "worked-reasons", "worked-facts"]
    expect(worked.locator(".verdict svg")).to_be_visible()
    expect(worked.locator(".worked-reasons strong")).to_have_text("Injury A, place of the hole at the liner")
    measured = worked.get_by_text("From the centerline", exact=True)
    expect(measured).to_be_hidden()
    worked.locator(".worked-facts > summary").press("Enter")
    expect(measured).to_be_visible()


def test_a_limit_leads_to_its_source_in_the_fold_at_the_end(reader) -> None:
    reader.goto(WHERE)
    source = reader.locator("#sources").get_by_text("wall chart").first
    expect(source).to_be_hidden()

    reader.get_by_role("link", name="Source: Place of the hole at the tread").press("Enter")

    expect(source).to_be_in_viewport()


def test_a_lesson_is_whole_without_javascript(chromium, site) -> None:
    context = chromium.new_context(viewport={"width": 1280, "height": 900}, base_url=site.address,
                                   java_script_enabled=False)  # fmt: skip
    page = context.new_page()
    log_in(page, APPRENTICE, PASSWORD)
    page.goto(WHERE)

    assert box(page, ".scene > .bench")["x"] > right(box(page, ".scene > .scene-text"))
    page.get_by_role("link", name="Source: Place of the hole at the tread").press("Enter")
    expect(page.locator("#sources").get_by_text("wall chart").first).to_be_visible()
    page.get_by_role("navigation", name="In this lesson").get_by_role("link", name="Rubber only").press("Enter")
    expect(page.get_by_role("heading", name="Rubber only")).to_be_in_viewport()
    context.close()


@AT_A_DESK  # paper has one width, whatever the screen
def test_a_lesson_prints_on_a_few_sheets_with_its_sources(reader, site: Any) -> None:
    join_a_british_shop(site)
    for address in [f"/shop/{shop}/course/{lesson}/" for shop in ("quarry-road", "canal-street") for lesson in LONGEST]:
        reader.goto(address)
        for sheet in SHEETS:
            paper = PdfReader(io.BytesIO(reader.pdf(format=sheet)))
            texts = [one.extract_text() for one in paper.pages]
            assert len(texts) <= PAGES, f"{address}, {sheet}"
            assert "Where the limits come from" in "".join(texts)
            assert "Checked on" in "".join(texts)
            assert len(texts[-1].split()) > FEW_WORDS, f"{address}, {sheet}: {texts[-1]}"
    leave_the_british_shop(site)
