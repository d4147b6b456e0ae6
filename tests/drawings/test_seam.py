"""Every word of a drawing is said in the language spoken, and longer words keep to the sheet."""

import re
from collections.abc import Iterator
from xml.etree import ElementTree

import pytest

from tests.drawings.cases import drawn_case, puncture
from tests.drawings.svg import read
from tests.rulebook.cases import SHELF
from tests.speaking import bracketed, outside
from training.drawings import (
    ILLUSTRATIONS,
    KINDS,
    Figure,
    Ruled,
    cross_section,
    crown_plan,
    gauge,
    illustration,
    level_plan,
    nail_section,
    repair_plan,
)
from training.rulebook import Case, edition_names, load_edition, parse_quantity

pytestmark = pytest.mark.walk  # over everything of a kind: what the README adds passes it too

# Letters on a sidewall are read as they were molded, in every language.
MOLDED = re.compile(
    r"\b(?:DOT|A1B2|C3D4|MAX|LOAD|PRESSURE|TREAD|SIDEWALL|PLY|PLIES|STEEL|POLYESTER|55R16|91V)\b|205/55R16 91V"
)
UNIT = {"kind": "two-piece", "unit": {"length": "75 mm", "width": "65 mm"}}


def cases() -> Iterator[Case]:
    """Channels that lean each way or not at all, whose direction or lean is known or not, alone and together."""
    for lateral in ("0 mm", "31 mm", "-31 mm", "3/4 in"):
        for angle in (None, "0 deg", "30 deg"):
            for azimuth in (None, "0 deg", "180 deg", "90 deg", "40 deg"):
                yield drawn_case(puncture(lateral, angle, azimuth))
    yield drawn_case(puncture(), puncture("-12 mm", "30 deg", id="B", station="220 mm"))
    yield drawn_case(puncture(station=None), tire={"outer_groove": None, "crown_thickness": None})
    yield drawn_case({"id": "A", "kind": "cut", "length": "8 mm", "lateral": "20 mm", "reaches": "cord"})
    yield drawn_case(puncture(), earlier_repairs=[{"id": "R", "lateral": "-20 mm", "station": "10 deg", **UNIT}])
    yield drawn_case(puncture(diameter=None), tire={"casing": "motorcycle"})
    yield drawn_case()


def figures() -> Iterator[tuple[str, Figure | Ruled]]:
    """Drawings of every kind, each with a name."""
    for name in edition_names():
        for illustrated in ILLUSTRATIONS:
            yield f"{illustrated}, {name}", illustration(illustrated, load_edition(name))
    for number, case in enumerate(cases()):
        for prefer in ("in", "mm"):
            yield f"section {number}", cross_section(case, prefer=prefer, show_liner_exit=prefer == "mm")
            yield (
                f"plan {number}",
                crown_plan(case, prefer=prefer, show_units=True, show_outline=prefer == "mm", units=SHELF),
            )
    for lateral in ("9 mm", "30 mm", "-41 mm"):
        for lean in ("0 deg", "30 deg"):
            for azimuth in ("0 deg", "180 deg"):
                yield f"nail {lateral} {lean}", nail_section(drawn_case(puncture(lateral, lean, azimuth)))
    yield "level", level_plan(drawn_case(puncture("0 mm")))
    yield "level, left", level_plan(drawn_case(puncture("0 mm")), side=-1)
    yield "repair", repair_plan((75, 65), at=(60, 50), size=(120, 100))
    for kind in KINDS:
        for reading in (
            "2/32 in",
            "3/32 in",
            "5/64 in",
            "7/32 in",
            "1/2 in",
            "4 mm",
            "4.5 mm",
            "4.3 mm",
            "6 mm",
            "12 mm",
        ):
            yield f"{kind} {reading}", gauge(kind, parse_quantity(reading, "length"))
    for lean in ("0 deg", "7 deg", "10 deg", "21 deg"):
        yield f"probe {lean}", gauge("probe", parse_quantity(lean, "angle"))


def texts(figure: Figure | Ruled) -> Iterator[str]:
    """What one reads or hears of a drawing."""
    yield figure.description
    root = ElementTree.fromstring(figure.svg)
    yield root.attrib["aria-label"]
    # a text that is broken into lines begins in one element and ends in another
    yield " ".join(element.text or "" for element in root.iter("{http://www.w3.org/2000/svg}text"))


def test_every_word_of_a_drawing_passes_the_seam() -> None:
    with bracketed():
        left = {
            (name, word)
            for name, figure in figures()
            for text in texts(figure)
            for word in outside(MOLDED.sub("", text))
        }

    assert left == set()


def test_a_drawing_that_was_made_in_one_language_is_made_anew_in_another() -> None:
    edition = load_edition("north-america")
    before = illustration("date-code", edition)

    with bracketed():
        other = illustration("date-code", edition)

    assert "week 32" in before.svg
    assert "⟦week 32⟧" in other.svg
    assert illustration("date-code", edition) is before


def test_words_that_run_longer_in_another_language_keep_to_the_sheet() -> None:
    """The brackets make every label longer by two letters, which no label of ours is given room for."""
    with bracketed():
        drawn = [(name, read(figure.svg)) for name, figure in figures()]

    for name, drawing in drawn:
        left, top, right, low = drawing.view
        for text, (x1, y1, x2, y2) in drawing.texts:
            assert left <= x1 + 0.5, (name, text)
            assert x2 <= right + 0.5, (name, text)
            assert top <= y1 + 0.5, (name, text)
            assert y2 <= low + 0.5, (name, text)
