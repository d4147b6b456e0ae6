"""What every page of a browser test is held to: WCAG 2.2 AA by axe-core, no sideways scroll; a picture on request."""

import os
import re
from pathlib import Path
from typing import Any

from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import expect

RULES = {"runOnly": {"type": "tag", "values": ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"]}}
_AXE = Axe()
# of the demo
PASSWORD, SHOP = "crayon-on-rubber", "/shop/quarry-road"
# cookies of those who have logged in, by site and address
_KEPT: dict[str, dict[str, Any]] = {}


def width_of(page: Any) -> str:
    """What the width of a page is called: "phone" or "desk"."""
    return str(page.width_name)


def across(page: Any) -> int:
    """How wide a page is [px]."""
    return int(page.viewport_size["width"])


def watch(page: Any, name: str) -> None:
    """Hold the page that is open to the rules above; `name` is that of its picture."""
    page.wait_for_load_state("load")
    expect(page.locator("h1"), f"{name}: a page has one h1").to_have_count(1)
    width = page.evaluate("document.documentElement.scrollWidth - document.documentElement.clientWidth")
    assert width <= 0, f"{name}: scrolls sideways by {width} px at {page.viewport_size['width']} px"
    if folder := os.environ.get("SOUND_CASING_SCREENS"):
        Path(folder).mkdir(parents=True, exist_ok=True)
        page.screenshot(
            path=f"{folder}/{page.viewport_size['width']}-{re.sub(r'[^a-z0-9]+', '-', name.lower())}.png",
            full_page=True,
        )
    found = _AXE.run(page, options=RULES).response["violations"]
    told = [f"{one['id']}: {one['help']}: {[node['html'][:160] for node in one['nodes'][:3]]}" for one in found]
    assert not told, f"{name} at {page.url}:\n" + "\n".join(told)


def choose_unit(page: Any, field: str, unit: str) -> None:
    """Choose the unit beside a number; where there is only one, it is printed."""
    if (units := page.locator(f"select[name={field}_u]")).count():
        units.select_option(unit)


def log_in(page: Any, email: str, password: str) -> None:
    """Log in as somebody of the demo shop, from wherever the page is; by the cookies of the last time if they hold."""
    page.context.clear_cookies()
    page.goto("/accounts/login/")
    kept = _KEPT.setdefault(page.url, {})
    if email in kept:
        page.context.add_cookies(kept[email])
        page.goto("/")
        if "/shop/" in page.url:
            return
    page.get_by_label("Email").fill(email)
    page.get_by_label("Password", exact=True).fill(password)
    page.get_by_role("button", name="Log in").click()
    page.wait_for_url("**/shop/**")
    kept[email] = page.context.cookies()
