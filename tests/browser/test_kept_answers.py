"""Nothing is lost without a connection: answers wait in the browser, are sent once, and are seen by nobody else.

What may not be lost is the site's own rule; no published source. The connection is taken away in the browser, and the
server is killed.
"""

import re
import shutil
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any
from urllib.parse import urlsplit

import pytest
from playwright.sync_api import expect

from tests.browser.server import Site
from tests.browser.watch import PASSWORD, SHOP, log_in, watch

Page = Any
APPRENTICE, NOOR = "apprentice@quarry-road.example", "noor@quarry-road.example"
LESSON, UNOPENED = (f"{SHOP}/course/inspect-and-reject/{name}/" for name in ("reject-on-sight", "tread-and-wear"))
# the script that keeps pages answers for this one; a page without it would wait for ever
WORKS = """Promise.race([
    navigator.serviceWorker.ready.then(() => true),
    new Promise((_, refuse) => setTimeout(() => refuse(new Error("nothing keeps this page")), 10000)),
])"""
STORED = (
    "select r.position, r.answer, r.revision from assessments_response r join assessments_attempt a"
    " on a.id = r.attempt_id join assessments_form f on f.id = a.form_id where f.reference = ? and r.answer != ''"
)


@pytest.fixture
def own(prepared: Path, tmp_path: Path) -> Iterator[Site]:
    """A site of its own, so that it can be killed and the assessment begun anew."""
    site = Site(shutil.copytree(prepared, tmp_path / "demo", dirs_exist_ok=True))
    site.start()
    yield site
    site.kill()


@contextmanager
def device(chromium: Any, site: Site, **more: Any) -> Iterator[Page]:
    """A phone with nothing on it yet."""
    context = chromium.new_context(viewport={"width": 390, "height": 844}, base_url=site.address, **more)
    page = context.new_page()
    page.width_name = "phone"
    page.set_default_timeout(15_000)
    yield page
    context.close()


def begin(page: Page, site: Site, *, ahead: bool = True) -> tuple[str, list[int]]:
    """Begin the assessment; its address without a position, and its questions that ask for one of several lines."""
    log_in(page, APPRENTICE, PASSWORD)
    page.goto(f"{SHOP}/assessment/north-america-light/")
    page.get_by_label(re.compile("I am ready")).check()
    page.get_by_role("button", name="Start").click()
    page.wait_for_url("**/1/")
    if ahead:
        page.wait_for_selector("html[data-ahead]", state="attached", timeout=90_000)
    start = urlsplit(page.url).path.removesuffix("1/")
    items = site.items_of(start.rstrip("/").rsplit("/", 1)[1])
    return start, [position for position, item in items.items() if item["format"] == "one"]


def stored(site: Site, start: str) -> dict[int, tuple[str, int]]:
    reference = start.rstrip("/").rsplit("/", 1)[1].replace("-", "")
    return {row["position"]: (row["answer"], row["revision"]) for row in site.rows(STORED, [reference])}


def choose(page: Page, option: str = "2") -> None:
    page.locator(f"form[data-keeps] input[value='{option}']").check()


def test_twenty_answers_without_a_connection_are_kept_through_a_reload_and_sent_once(chromium: Any, own: Site) -> None:
    with device(chromium, own) as page:
        start, ones = begin(page, own)
        page.context.set_offline(True)
        for position in ones[:20]:
            page.goto(f"{start}{position}/")
            choose(page)
            expect(page.locator("#saved")).to_contain_text("Not sent yet: no connection, it is kept on this phone.")
        assert stored(own, start) == {}
        watch(page, "an answer that is not sent")
        page.reload()
        expect(page.locator("form[data-keeps] input:checked")).to_have_value("2")
        page.goto(f"{start}{ones[0]}/")
        expect(page.locator("form[data-keeps] input:checked")).to_have_value("2")

        page.context.set_offline(False)

        expect(page.locator("#saved")).to_contain_text("Answer saved", timeout=40_000)
        expect(page.locator("#kept")).to_be_hidden(timeout=40_000)
        assert stored(own, start) == dict.fromkeys(ones[:20], ('"2"', 1))


def test_the_button_goes_on_to_the_next_question_without_a_connection_by_the_keyboard_too(
    chromium: Any, own: Site
) -> None:
    with device(chromium, own) as page:
        start, ones = begin(page, own)
        position = next(one for one in ones if one > 1)
        page.goto(f"{start}{position}/")
        page.context.set_offline(True)
        page.locator("form[data-keeps] input[value='2']").focus()
        page.keyboard.press("Space")
        expect(page.locator("#saved")).to_contain_text("Not sent yet")
        page.locator("button[value=next]").focus()
        page.keyboard.press("Enter")

        page.wait_for_url(f"**{start}{position + 1}/")
        expect(page.locator("#kept")).to_contain_text(f"Not sent yet, by question: {position}.")
        page.get_by_role("link", name="Review and hand in").click()
        expect(page.locator("#kept")).to_contain_text("No connection, and this page is not kept.")


def test_an_answer_whose_confirmation_was_lost_is_kept_once_and_the_one_after_it_too(chromium: Any, own: Site) -> None:
    with device(chromium, own, service_workers="block") as page:
        start, ones = begin(page, own, ahead=False)
        page.goto(f"{start}{ones[0]}/")
        heard = {"all": False}

        def lose(route: Any) -> None:
            answer = route.fetch()  # the server has it
            if heard["all"]:
                route.fulfill(response=answer)
            else:
                route.abort()

        page.route("**/keep/", lose)
        choose(page, "2")
        expect(page.locator("#saved")).to_contain_text("Not sent yet")
        choose(page, "1")
        heard["all"] = True
        expect(page.locator("#saved")).to_contain_text("Answer saved")
        assert stored(own, start) == {ones[0]: ('"1"', 2)}


def test_the_server_dies_and_comes_back(chromium: Any, own: Site) -> None:
    with device(chromium, own) as page:
        start, ones = begin(page, own, ahead=False)
        page.goto(f"{start}{ones[0]}/")
        own.kill()
        choose(page)
        expect(page.locator("#saved")).to_contain_text("Not sent yet")
        own.start()
        expect(page.locator("#saved")).to_contain_text("Answer saved", timeout=40_000)
        assert stored(own, start) == {ones[0]: ('"2"', 1)}


def test_of_two_devices_none_overwrites_the_other_unasked(chromium: Any, own: Site) -> None:
    with device(chromium, own) as page, device(chromium, own) as other:
        start, ones = begin(page, own, ahead=False)
        log_in(other, APPRENTICE, PASSWORD)
        for number, deed in enumerate(("The one chosen here", "The other one")):
            at = ones[number]
            page.goto(f"{start}{at}/")
            page.context.set_offline(True)
            choose(page, "1")
            expect(page.locator("#saved")).to_contain_text("Not sent yet")
            other.goto(f"{start}{at}/")
            choose(other, "3")
            expect(other.locator("#saved")).to_contain_text("Answer saved")
            page.context.set_offline(False)
            expect(page.locator("#kept")).to_contain_text("Which one counts?", timeout=40_000)
            assert stored(own, start)[at] == ('"3"', 1)
            watch(page, "two answers to choose from")

            page.get_by_role("button", name=deed).click()
            expect(page.locator("#kept")).to_be_hidden()
            kept = {0: "1", 1: "3"}[number]
            expect(page.locator("form[data-keeps] input:checked")).to_have_value(kept)
            assert stored(own, start)[at] == (f'"{kept}"', 2 - number)


def test_a_session_that_ended_is_said_and_the_answer_sent_after_the_login(chromium: Any, own: Site) -> None:
    with device(chromium, own) as page:
        start, ones = begin(page, own, ahead=False)
        page.goto(f"{start}{ones[0]}/")
        page.context.clear_cookies()
        choose(page)
        expect(page.locator("#kept")).to_contain_text("you are logged out")
        assert stored(own, start) == {}
        page.get_by_role("link", name="Log in").click()
        page.get_by_label("Email").fill(APPRENTICE)
        page.get_by_label("Password", exact=True).fill(PASSWORD)
        page.get_by_role("button", name="Log in").click()
        page.wait_for_url(f"**{start}{ones[0]}/")
        expect(page.locator("#saved")).to_contain_text("Answer saved")
        assert stored(own, start) == {ones[0]: ('"2"', 1)}


def test_nothing_is_handed_in_without_what_is_not_sent(chromium: Any, own: Site) -> None:
    with device(chromium, own, service_workers="block") as page:
        start, ones = begin(page, own, ahead=False)
        page.goto(f"{start}{ones[0]}/")
        page.route("**/keep/", lambda route: route.abort())
        choose(page)
        expect(page.locator("#saved")).to_contain_text("Not sent yet")
        page.goto(f"{start}review/")
        page.get_by_role("button", name="Hand in", exact=True).click()
        expect(page.locator("#kept")).to_contain_text(f"not sent yet are the answers to {ones[0]}")
        assert "/review/" in page.url
        watch(page, "handing in waits")
        page.unroute("**/keep/")
        page.get_by_role("button", name="Hand in", exact=True).click()
        page.wait_for_url("**/result/")
        assert stored(own, start) == {ones[0]: ('"2"', 1)}


def test_what_comes_after_the_end_is_told_as_late(chromium: Any, own: Site) -> None:
    with device(chromium, own) as page, device(chromium, own) as other:
        start, ones = begin(page, own, ahead=False)
        log_in(other, APPRENTICE, PASSWORD)
        page.goto(f"{start}{ones[0]}/")
        page.context.set_offline(True)
        choose(page)
        expect(page.locator("#saved")).to_contain_text("Not sent yet")
        other.goto(f"{start}review/")
        other.get_by_role("button", name="Hand in", exact=True).click()
        other.wait_for_url("**/result/")
        page.context.set_offline(False)
        expect(page.locator("#saved")).to_contain_text("does not count; it is kept", timeout=40_000)
        other.reload()
        expect(other.locator("main")).to_contain_text(f"An answer to question {ones[0]} arrived after the end")
        assert stored(own, start) == {}


def test_after_logging_out_the_next_person_finds_nothing_and_the_first_loses_nothing(chromium: Any, own: Site) -> None:
    with device(chromium, own, service_workers="block") as page:
        start, ones = begin(page, own, ahead=False)
        page.goto(f"{start}{ones[0]}/")
        page.route("**/keep/", lambda route: route.abort())
        choose(page)
        expect(page.locator("#saved")).to_contain_text("Not sent yet")
        asked: list[str] = []

        def stay(dialog: Any) -> None:
            asked.append(dialog.message)
            dialog.dismiss()

        page.once("dialog", stay)
        page.get_by_role("button", name="Log out").click()
        assert "not sent yet" in asked[0]
        assert page.url.endswith(f"{start}{ones[0]}/")
        page.once("dialog", lambda dialog: dialog.accept())
        page.get_by_role("button", name="Log out").click()
        page.wait_for_url("**/login/")
        page.unroute("**/keep/")

        log_in(page, NOOR, PASSWORD)
        kept = page.evaluate("Object.entries(localStorage).filter(([name]) => name.startsWith('kept/'))")
        assert kept
        assert all(re.fullmatch(r"[\w+/=]+\.[\w+/=]+", text) for _, text in kept)
        expect(page.locator("main")).not_to_contain_text("not sent yet")
        assert page.goto(f"{start}{ones[0]}/").status == 404

        log_in(page, APPRENTICE, PASSWORD)
        page.goto(f"{SHOP}/assessment/north-america-light/")
        page.get_by_role("link", name="Send it").click()
        page.wait_for_url("**/review/")
        expect(page.locator("#kept")).to_be_hidden()
        page.goto(f"{start}{ones[0]}/")
        expect(page.locator("form[data-keeps] input:checked")).to_have_value("2")
        assert stored(own, start) == {ones[0]: ('"2"', 1)}


def test_without_script_answers_are_saved_by_the_button(chromium: Any, own: Site) -> None:
    with device(chromium, own, java_script_enabled=False) as page:
        start, ones = begin(page, own, ahead=False)
        page.goto(f"{start}{ones[0]}/")
        choose(page)
        page.locator("button[value=next]").click()
        assert stored(own, start) == {ones[0]: ('"2"', 1)}


def test_a_lesson_that_was_opened_is_read_without_a_connection_and_no_other_page(chromium: Any, own: Site) -> None:
    with device(chromium, own) as page:
        log_in(page, NOOR, PASSWORD)
        page.goto(LESSON)
        page.evaluate(WORKS)
        page.reload()
        expect(page.locator("[data-kept-line]")).to_be_hidden()
        page.context.set_offline(True)
        page.reload()
        expect(page.locator("[data-kept-line]")).to_contain_text("limits may have changed")
        expect(page.locator("[data-kept-line]")).to_be_visible()
        watch(page, "a lesson without a connection")
        for address in (UNOPENED, f"{SHOP}/course/", f"{SHOP}/practice/"):
            with pytest.raises(Exception, match=r"ERR_INTERNET_DISCONNECTED|ERR_FAILED"):
                page.goto(address)


def test_while_an_assessment_is_open_no_lesson_is_shown_from_what_was_kept(chromium: Any, own: Site) -> None:
    with device(chromium, own) as page:
        log_in(page, APPRENTICE, PASSWORD)
        page.goto(LESSON)
        page.evaluate(WORKS)
        page.reload()
        begin(page, own, ahead=False)
        page.context.set_offline(True)
        with pytest.raises(Exception, match=r"ERR_INTERNET_DISCONNECTED|ERR_FAILED"):
            page.goto(LESSON)
