"""A real site and a real browser.

Where Playwright or Chromium is missing the tests are left out and say so; CI refuses that.
"""

import os
import shutil
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from tests.browser.server import Site

FLAGS = [
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
]
WIDTHS = {"phone": (390, 844), "desk": (1280, 900)}


def _browser_path() -> str | None:
    return shutil.which("chromium") or shutil.which("chromium-browser") or shutil.which("google-chrome")


@pytest.fixture(scope="module")
def chromium() -> Iterator[Any]:
    """One browser a module: while Playwright runs it keeps an event loop, beside which Django refuses the database."""
    try:
        from playwright.sync_api import sync_playwright
    except ImportError:
        sync_playwright = None
    path = _browser_path()
    if sync_playwright is None or path is None:
        message = "browser tests left out: install the dev extra (Playwright) and Chromium to play them"
        if os.environ.get("SOUND_CASING_BROWSER") == "required":
            pytest.fail(message)
        pytest.skip(message)
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=path, args=FLAGS)
        yield browser
        browser.close()


@pytest.fixture(scope="module")
def site(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Site]:
    site = Site(Path(tmp_path_factory.mktemp("demo")))
    site.start()
    yield site
    site.kill()


@pytest.fixture(params=list(WIDTHS))
def page(request: pytest.FixtureRequest, chromium: Any, site: Site) -> Iterator[Any]:
    width, height = WIDTHS[request.param]
    context = chromium.new_context(viewport={"width": width, "height": height}, base_url=site.address)
    page = context.new_page()
    page.width_name = request.param
    page.set_default_timeout(15_000)
    yield page
    context.close()
