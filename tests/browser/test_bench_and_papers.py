"""A trainer looks at the questions at the draw bench, and takes an assessment on paper from the printer to the mark."""

import re
from io import BytesIO
from typing import Any

import pytest
from playwright.sync_api import Page, expect
from pypdf import PdfReader

from tests.browser.server import Site
from tests.browser.watch import PASSWORD, SHOP, across, choose_unit, log_in, watch

pytestmark = pytest.mark.browser

# of three formats one
FAMILIES = ("proposals", "order-of-preparation", "nail-to-liner")


def test_a_trainer_looks_at_draws_flags_one_and_switches_a_family_off(page: Page, site: Site) -> None:
    log_in(page, "trainer@quarry-road.example", PASSWORD)
    page.get_by_role("link", name="Draw bench").click()
    watch(page, "bench")
    for name in FAMILIES:
        page.goto(f"{SHOP}/bench/{name}/")
        expect(page.get_by_role("article")).to_have_count(12)
        watch(page, f"bench {name}")

    page.goto(f"{SHOP}/bench/size-verdict/")
    first = page.get_by_role("article").first.inner_text()
    page.get_by_role("link", name="12 others").click()
    assert page.get_by_role("article").first.inner_text() != first
    page.get_by_role("link", name="Flag draw 3").click()
    page.get_by_role("button", name="Flag this draw").click()
    watch(page, "bench flag refused")
    page.get_by_label("What is wrong with it?").fill("The limit is hard to read.")
    page.get_by_role("button", name="Flag this draw").click()
    expect(page.get_by_role("article").nth(2)).to_contain_text("The limit is hard to read.")
    watch(page, "bench flagged")

    page.get_by_role("button", name="Switch off").click()
    watch(page, "bench off refused")
    page.get_by_label("Why is it switched off?").fill("We send these out.")
    page.get_by_role("button", name="Switch off").click()
    watch(page, "bench off")
    page.get_by_role("link", name="All families").click()
    expect(page.locator("main")).to_contain_text("for Do these holes pass")
    watch(page, "bench with flag and stand-in")
    page.get_by_role("button", name="Settled").first.click()
    page.goto(f"{SHOP}/bench/size-verdict/")
    page.get_by_role("button", name="Switch it on again").click()
    expect(page.locator("main")).to_contain_text("Switched")


def test_a_paper_is_made_printed_typed_in_and_marked(page: Page, site: Site) -> None:
    name = {390: "Dana Okafor", 1280: "Ilya Brandt"}[across(page)]
    log_in(page, "trainer@quarry-road.example", PASSWORD)
    page.get_by_role("link", name=name, exact=True).click()
    page.get_by_role("link", name="Paper", exact=True).click()
    watch(page, "paper choose")
    page.get_by_role("link", name="Passenger and fabric-body light truck tires").click()
    watch(page, "paper make")
    page.get_by_role("button", name="Make the paper").click()
    watch(page, "paper")
    reference = page.url.split("/papers/")[1].split("/")[0]

    for kind in ("Paper on A4", "Key on US Letter"):
        address = page.get_by_role("link", name=kind).get_attribute("href")
        printed = PdfReader(BytesIO(page.request.get(str(address)).body()))
        assert name in printed.pages[0].extract_text()

    page.get_by_role("link", name="Type the answers in").click()
    watch(page, "paper answers")
    for position, item in site.items_of(reference).items():
        type_in(page, position, item)
    page.locator("input[inputmode=decimal]").first.fill("7-5")
    page.get_by_role("button", name="Save and check").click()
    expect(page.get_by_role("alert").first).to_contain_text(re.compile(r"Question \d+\."))
    watch(page, "paper answers refused")
    for position, item in site.items_of(reference).items():
        type_in(page, position, item)
    page.get_by_role("button", name="Save and check").click()
    expect(page.get_by_role("heading", name="As it was typed in")).to_be_visible()
    expect(page.locator("main")).not_to_contain_text("left open")
    watch(page, "paper typed in")
    page.get_by_role("button", name="Hand in").click()
    expect(page.get_by_role("heading", name="Passed")).to_be_visible()
    expect(page.locator("main")).to_contain_text("60 of 60")
    watch(page, "paper handed in")


def type_in(page: Page, position: int, item: dict[str, Any]) -> None:
    """The right answer of one row, as it stands on the answer sheet."""
    key, name = item["key"], f"a{position}"
    match item["format"]:
        case "one":
            page.locator(f"input[name={name}][value='{key}']").check()
        case "several":
            for one in key:
                page.locator(f"input[name={name}][value='{one}']").check()
        case "number":
            value, unit = key.rsplit(" ", 1)
            page.locator(f"input[name={name}]").fill(value)
            choose_unit(page, name, unit)
        case "order":
            page.locator(f"input[name={name}]").fill("".join(chr(ord("A") + int(one) - 1) for one in key))
        case "place":
            for part, edges in enumerate((key["across"], key["up"])):
                page.locator(f"input[name={name}_{part}]").fill(f"{sum(edges) / 2:.1f} mm")
        case "fault":
            page.locator(f"select[name={name}_0]").select_option(key["step"][0])
            page.locator(f"select[name={name}_1]").select_option(key["reason"])
