"""An apprentice flags a practice question, a trainer reads it with its key, withdraws it and takes that back."""

import pytest
from playwright.sync_api import Page, expect

from tests.browser.server import Site
from tests.browser.watch import PASSWORD, SHOP, log_in, watch, width_of

pytestmark = pytest.mark.browser

LEARNERS = {"phone": "apprentice@quarry-road.example", "desk": "ilya@quarry-road.example"}


def test_a_question_is_flagged_withdrawn_and_taken_back(page: Page, site: Site) -> None:
    log_in(page, LEARNERS[width_of(page)], PASSWORD)
    page.goto(f"{SHOP}/practice/")
    page.get_by_role("button", name="Position").first.click()
    page.wait_for_url("**/practice/*/*/")
    page.get_by_role("button", name="Explain it to me").click()
    page.get_by_role("link", name="This question seems wrong").click()
    page.get_by_role("button", name="Flag the question").click()
    watch(page, "question flag refused")
    page.get_by_label("What seems wrong with it?").fill("The drawing does not fit the text.")
    page.get_by_role("button", name="Flag the question").click()
    expect(page.get_by_text("Your trainer looks at it.")).to_be_visible()
    watch(page, "question flagged")
    practiced = page.url

    log_in(page, "trainer@quarry-road.example", PASSWORD)
    page.goto(f"{SHOP}/bench/")
    watch(page, "bench with a flagged question")
    page.get_by_role("listitem").filter(has_text="The drawing does not fit the text.").get_by_role("link").first.click()
    expect(page.locator("main")).to_contain_text("No answer given")
    watch(page, "asked question")
    page.get_by_role("button", name="Withdraw this question").click()
    watch(page, "asked question withdraw refused")
    page.get_by_label("Why does it not count?").fill("The drawing was of another tire.")
    page.get_by_role("button", name="Withdraw this question").click()
    expect(page.locator("main")).to_contain_text("The drawing was of another tire.")
    watch(page, "asked question withdrawn")
    page.get_by_role("link", name="All questions asked").click()
    expect(page.locator("main")).to_contain_text("Withdrawn, does not count")
    watch(page, "asked questions")
    page.go_back()

    log_in(page, LEARNERS[width_of(page)], PASSWORD)
    page.goto(practiced)
    expect(page.locator("main")).to_contain_text("does not count.")
    watch(page, "practice question withdrawn")

    log_in(page, "trainer@quarry-road.example", PASSWORD)
    page.goto(practiced.replace("/practice/", "/asked/"))
    page.get_by_label("Why does it count again?").fill("It was the right drawing.")
    page.get_by_role("button", name="Take the withdrawal back").click()
    expect(page.locator("main")).to_contain_text("It was the right drawing.")
    watch(page, "asked question taken back")
