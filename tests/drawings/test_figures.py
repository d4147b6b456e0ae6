"""What every drawing keeps: valid XML, few plain elements, no hint, the same bytes every time, the same in words."""

import os
import re
import subprocess
import sys
from functools import cache
from pathlib import Path
from xml.etree import ElementTree

import pytest

from tests.drawings.cases import drawn_case, puncture
from tests.drawings.svg import read
from tests.present import present
from training.drawings import ILLUSTRATIONS, Figure, cross_section, crown_plan, gauge, illustration
from training.rulebook import FINDINGS, VERDICTS, edition_names, load_edition, parse_quantity

ELEMENTS = {"svg", "g", "path", "polygon", "polyline", "line", "rect", "circle", "ellipse", "text"}
ATTRIBUTES = {
    "viewBox",
    "role",
    "aria-label",
    "font-family",
    "font-weight",
    "font-size",
    "fill",
    "stroke",
    "stroke-width",
    "stroke-linejoin",
    "stroke-linecap",
    "stroke-dasharray",
    "d",
    "points",
    "x",
    "y",
    "x1",
    "y1",
    "x2",
    "y2",
    "cx",
    "cy",
    "r",
    "rx",
    "ry",
    "width",
    "height",
    "text-anchor",
    "transform",
}
ROOT = Path(__file__).parents[2]


@cache
def figures() -> dict[str, Figure]:
    """One drawing of each kind."""
    leaning = drawn_case(puncture("31 mm", "30 deg", "40 deg"), puncture("-12 mm", id="B", station="100 deg"))
    length, angle = parse_quantity("5 mm", "length"), parse_quantity("12 deg", "angle")
    edition = load_edition("north-america")
    drawn = {
        "cross-section": cross_section(leaning, show_liner_exit=True),
        "crown-plan": crown_plan(leaning, show_units=True, show_outline=True),
        "caliper": gauge("caliper", length),
        "tread-gauge": gauge("tread-gauge", length),
        "probe": gauge("probe", length),
        "protractor": gauge("probe", angle),
    }
    return drawn | {f"illustration {name}": illustration(name, edition) for name in ILLUSTRATIONS}


@pytest.fixture(params=sorted(figures()))
def figure(request):
    return figures()[request.param]


def test_only_plain_elements_and_presentation_attributes_are_used(figure) -> None:
    for element in ElementTree.fromstring(figure.svg).iter():
        assert element.tag.removeprefix("{http://www.w3.org/2000/svg}") in ELEMENTS
        assert (
            set(element.attrib) <= ATTRIBUTES
        )  # no id, class, style, title or data-: nothing that could tell or collide


def test_coordinates_have_at_most_two_decimals(figure) -> None:
    outside_words = re.sub(r'aria-label="[^"]*"|"#[0-9a-f]{6}"|>[^<]*<', "", figure.svg)

    assert not re.search(r"\d\.\d{3,}|\d[eE][+-]?\d|nan|inf\b", outside_words)


def test_the_description_is_the_spoken_name_of_the_drawing(figure) -> None:
    root = ElementTree.fromstring(figure.svg)

    assert root.get("role") == "img"
    assert root.get("aria-label") == figure.description
    assert len(figure.description) > 60
    assert figure.description.endswith(".")


def test_labels_stay_on_the_sheet(figure) -> None:
    drawing = read(figure.svg)

    for text, (left, top, right, low) in drawing.texts:
        if "transform" not in figure.svg:
            assert drawing.view[0] - 0.5 <= left, text
            assert right <= drawing.view[2] + 0.5, text
        assert drawing.view[1] - 0.5 <= top, text
        assert low <= drawing.view[3] + 0.5, text


def test_the_same_drawing_comes_out_byte_for_byte_in_another_process() -> None:
    program = (
        "import hashlib\n"
        "from tests.drawings.test_figures import figures\n"
        "print(hashlib.sha256(repr(sorted(figures().items())).encode()).hexdigest())\n"
    )
    digests = {
        subprocess.run(
            [sys.executable, "-c", program],
            cwd=ROOT,
            env={**os.environ, "PYTHONHASHSEED": seed},
            capture_output=True,
            text=True,
            check=True,
        ).stdout
        for seed in ("1", "2")
    }

    assert len(digests) == 1
    assert len(digests.pop().strip()) == 64


def test_what_is_asked_of_the_tire_and_what_else_was_found_change_nothing() -> None:
    plain = drawn_case(puncture("31 mm", "30 deg"))
    loaded = drawn_case(
        puncture("31 mm", "30 deg"),
        purpose="service",
        findings=["ozone-cracking"],
        proposed="string",
        jurisdiction="US-UT",
        on_wheel=True,
    )

    assert cross_section(plain) == cross_section(loaded)
    assert crown_plan(plain) == crown_plan(loaded)


@pytest.mark.parametrize("drawing", [cross_section, crown_plan])
def test_no_drawing_of_a_case_names_a_clause_a_verdict_or_a_finding(drawing) -> None:
    words = set(VERDICTS) | set(FINDINGS) | set(load_edition("north-america").clauses)
    for lateral in ("10 mm", "61 mm", "75 mm"):
        figure = drawing(drawn_case(puncture(lateral, "20 deg", diameter="9 mm")))

        for word in words:
            assert not re.search(rf"\b{re.escape(word)}\b", figure.svg), word


def test_a_name_with_markup_in_it_is_only_a_name() -> None:
    case = drawn_case(puncture(id='<a href="x">&\'q'), puncture("-20 mm", id="B"))

    for figure in (cross_section(case), crown_plan(case)):
        assert '<a href="x">&\'q: Ø 5 mm' in [text for text, _ in read(figure.svg).texts]


@pytest.mark.parametrize("name", sorted(ILLUSTRATIONS))
def test_each_illustration_can_be_drawn_from_every_edition(name) -> None:
    for edition in edition_names():
        assert read(illustration(name, load_edition(edition)).svg).texts


@pytest.mark.parametrize(
    ("name", "quantity", "stated", "printed"),
    [
        ("outline", "job.outline_margin", "3/4 in", "3/4 in"),
        ("stem-stands", "job.stem_stands", "3/16 in", "3/16 in"),
        ("one-piece-two-piece", "proposed.one_piece_angle", "15 deg", "15°"),
    ],
)
def test_the_numbers_of_an_illustration_are_the_editions(name, quantity, stated, printed) -> None:
    edition = load_edition("north-america")
    clause = present(edition.limit(quantity, "passenger"))

    altered = illustration(name, edition.altered(limits={clause.id: [stated]}))

    assert printed in altered.description
    assert printed in " ".join(text for text, _ in read(altered.svg).texts)
    assert printed not in illustration(name, edition).description


def test_an_unknown_illustration_is_refused_with_the_known_names() -> None:
    with pytest.raises(ValueError, match='illustration: "rainbow" is not accepted; choose off-the-wheel'):
        illustration("rainbow", load_edition("north-america"))
