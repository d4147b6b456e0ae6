"""A real site and a real browser. Where they cannot be had, tests/conftest.py leaves these tests out and says so."""

import shutil
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from tests.browser.server import Site
from tests.browsers import program

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


@pytest.fixture(scope="module")
def chromium() -> Iterator[Any]:
    """One browser a module: while Playwright runs it keeps an event loop, beside which Django refuses the database."""
    from playwright.sync_api import sync_playwright

    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=program(), args=FLAGS)
        yield browser
        browser.close()


@pytest.fixture(scope="session")
def prepared(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The folder of a demo that nobody has visited."""
    folder = tmp_path_factory.mktemp("prepared")
    Site(folder).prepare()
    return folder


@pytest.fixture(scope="module")
def site(prepared: Path, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Site]:
    site = Site(shutil.copytree(prepared, tmp_path_factory.mktemp("demo"), dirs_exist_ok=True))
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
