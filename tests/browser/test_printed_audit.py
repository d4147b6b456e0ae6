"""An audited repair on paper: what came out and the sheet of the work, together on two sheets at the most."""

import io

import pytest
from playwright.sync_api import Page, expect
from pypdf import PdfReader

from tests.browser.watch import PASSWORD, SHOP, log_in

pytestmark = pytest.mark.browser

SHEETS = ("A4", "Letter")  # Letter is the shorter one, A4 the narrower
MOST = 2


def printed(page: Page) -> list[str]:
    """The number of sheets for each size of paper where there are too many."""
    lengths = {sheet: len(PdfReader(io.BytesIO(page.pdf(format=sheet))).pages) for sheet in SHEETS}
    return [f"{sheet}: {length}" for sheet, length in lengths.items() if length > MOST]


@pytest.mark.parametrize("page", ["desk"], indirect=True)  # paper has one width, whatever the screen
def test_a_sheet_prints_on_two_pages_blank_and_with_a_fault_in_every_number(page: Page) -> None:
    log_in(page, "trainer@quarry-road.example", PASSWORD)
    page.goto(f"{SHOP}/audit/?casing=passenger&method=two-piece")
    assert printed(page) == []

    for done in page.locator(".look-group--done input[value=yes]").all():
        done.check(force=True)
    for first in page.locator(".sheet-how .targets").all():
        first.locator("input").first.check(force=True)
    for number in page.locator(".sheet-how input:not([type=radio], [type=checkbox])").all():
        number.fill("3")
    page.get_by_role("button", name="Audit", exact=True).click()

    expect(page.locator("#outcome")).to_contain_text("Not sound")
    assert page.locator(".ruling").count() > 8
    assert printed(page) == []
