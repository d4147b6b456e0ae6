"""The stylesheet keeps its promises: contrast, fonts with their license, nothing the content policy refuses."""

import re
from pathlib import Path

import pytest
from django.apps import apps

pytestmark = pytest.mark.walk  # over everything of a kind: what the README adds passes it too

STATIC = Path(__file__).parents[2] / "training" / "static" / "training"
CSS = (STATIC / "site.css").read_text(encoding="utf-8")
TOKENS = dict(re.findall(r"--([a-z]+): (#[0-9a-f]{6});", CSS.split("@layer base {")[0]))


def luminance(color: str) -> float:
    """Relative luminance as WCAG 2.2 defines it for sRGB."""
    channels = [int(color[i : i + 2], 16) / 255 for i in (1, 3, 5)]
    linear = [c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in channels]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def contrast(one: str, other: str) -> float:
    light, dark = sorted((luminance(one), luminance(other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


# Source: WCAG 2.2, "contrast ratio" (black on white is 21:1); #767676 on white as the lightest gray that passes AA,
# 4.54:1, and pure red on white 4.0:1 are widely published values (from memory).
@pytest.mark.parametrize(("color", "ratio"), [("#000000", 21.0), ("#767676", 4.54), ("#ff0000", 4.0), ("#ffffff", 1.0)])
def test_the_contrast_formula_gives_the_published_ratios_on_white(color, ratio) -> None:
    assert contrast(color, "#ffffff") == pytest.approx(ratio, abs=0.005)


# Source: WCAG 2.2 success criterion 1.4.3, text needs 4.5:1.
@pytest.mark.parametrize(
    ("text", "ground"),
    [
        *[(text, ground) for text in ("rubber", "worn", "ink", "go", "ask", "stop") for ground in ("floor", "sheet")],
        ("rubber", "crayon"),  # the number in the current tread block
        ("sheet", "rubber"),  # header, main button
        ("hairline", "rubber"),  # the person's name in the header
        ("crayon", "rubber"),  # brand under the pointer
        ("sheet", "worn"),  # main button under the pointer
        ("sheet", "stop"),  # danger button under the pointer
    ],
)
def test_text_stands_out_from_its_ground(text, ground) -> None:
    assert contrast(TOKENS[text], TOKENS[ground]) >= 4.5


# Source: WCAG 2.2 success criterion 1.4.11 (and 2.4.7 for the ring), what one must see to use a control needs 3:1.
@pytest.mark.parametrize(
    ("mark", "ground"),
    [
        ("edge", "sheet"),  # border of a field, an option, an open tread block
        ("edge", "floor"),
        ("ink", "sheet"),  # focus ring
        ("ink", "floor"),
        ("ink", "crayon"),  # focus ring around the current tread block
        ("sheet", "rubber"),  # focus ring in the header
        ("crayon", "rubber"),  # underline of the current page
        ("rubber", "sheet"),  # chosen radio, answered block
    ],
)
def test_what_a_person_must_see_to_act_stands_out(mark, ground) -> None:
    assert contrast(TOKENS[mark], TOKENS[ground]) >= 3


def test_every_font_is_shipped_with_the_license_beside_it() -> None:
    names = set(re.findall(r'url\("(fonts/[^"]+)"\)', CSS))

    assert names == {f"fonts/{path.name}" for path in (STATIC / "fonts").glob("*.woff2")}
    assert all((STATIC / name).read_bytes().startswith(b"wOF2") for name in names)
    license_text = (STATIC / "fonts" / "OFL.txt").read_text(encoding="utf-8")
    assert "SIL OPEN FONT LICENSE Version 1.1" in license_text
    assert "The Barlow Project Authors" in license_text


def test_the_stylesheet_takes_nothing_from_elsewhere() -> None:
    addresses = re.findall(r"""url\(\s*["']?([^"')]+)""", CSS)

    assert addresses
    assert all(address.startswith(("fonts/", "data:image/svg+xml,")) for address in addresses)
    assert "@import" not in CSS
    assert re.sub(r'xmlns="http://www\.w3\.org/2000/svg"', "", CSS).count("//") == 0


def templates() -> list[Path]:
    ours = [apps.get_app_config(label).path for label in ("training", "assessments", "certificates")]
    return sorted(file for folder in ours for file in (Path(folder) / "templates").rglob("*.html"))


# The content policy refuses them, silently: the page would come without that style or act.
@pytest.mark.parametrize(
    ("what", "pattern"),
    [
        ("a style attribute", r"<[^>]*\sstyle\s*="),
        ("a style element", r"<style\b"),
        ("a script in the page", r"<script\b(?![^>]*\bsrc=)"),
        ("an event attribute", r"<[^>]*\son[a-z]+\s*="),
        ("a script address", r"javascript:"),
        ("an address elsewhere", r"""(?:src|href|action)\s*=\s*["'](?:https?:)?//"""),
    ],
)
def test_no_template_holds_what_the_content_policy_refuses(what, pattern) -> None:
    found = [str(file) for file in templates() if re.search(pattern, file.read_text(encoding="utf-8"))]

    assert len(templates()) > 20
    assert found == [], what
