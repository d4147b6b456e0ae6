"""Whether this machine can play pages in a browser, and what is missing when it cannot."""

import importlib.util
import shutil

PROGRAMS = ("chromium", "chromium-browser", "google-chrome")


def program() -> str | None:
    """The path of a Chromium on this machine."""
    return next(filter(None, map(shutil.which, PROGRAMS)), None)


def missing() -> str:
    """What keeps the browser tests from being played; "" when nothing does."""
    has_extra = all(map(importlib.util.find_spec, ("playwright", "axe_playwright_python")))
    parts = []
    if not has_extra:
        parts.append("the dev extra (Playwright and axe)")
    if program() is None:
        parts.append("Chromium")
    return " and ".join(parts)
