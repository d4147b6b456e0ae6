"""Every text of the program is a whole one: no piece to be glued, no doubled word, no place without a meaning."""

import re
from collections.abc import Iterator

import pytest

from certificates.management.commands.catalogue import read_all
from training.management.catalogue import said

# What a reason follows, for each text that may keep a shape.
EXCEPTIONS = {
    "Hello,": "a mail greets with a comma",
    "Hello %(person)s,": "a mail greets with a comma",
    "1  tread, all the way around": "two spaces set a number off in a drawing",
    "2  both sidewalls": "two spaces set a number off in a drawing",
    "3  both beads": "two spaces set a number off in a drawing",
    "4  inside: all of the liner": "two spaces set a number off in a drawing",
    "to   {rulebook}": "stands below 'From' in a table of plain text",
    "{shop} is open at {address}  (Ctrl+C stops it)": "two spaces in the line of a terminal",
}  # fmt: skip
NAMELESS = {"value", "text", "more", "piece", "rest", "tail", "it", "x", "a", "b"}
FORM_PLACES = {"value", "limit_value", "show_value"}  # Django fills these in the errors of a field
SHAPES = {
    "a space or a comma at an end": re.compile(r"^[\s,;:.]|[\s,]$"),
    "a doubled word": re.compile(r"\b([A-Za-z]+) \1\b", re.IGNORECASE),
    "two places side by side": re.compile(r"(?:(?<!\})\}|\)s)(?:\{(?!\{)|%\()"),
    "a plural in brackets": re.compile(r"\w\(s\)"),
    "a unit as files spell it": re.compile(r"\d ?deg\b|\} deg\b|\blbf|\bN\.m\b"),
    "two spaces, or one before a stop": re.compile(r"  |\s[,;:!?](?:\s|$)"),
    "a name of the code": re.compile(r"\b[A-Z]{2,}_[A-Z]{2,}\b"),
}
PLACE = re.compile(r"(?<!\{)\{([a-z_]*?)(\d*)(?::[^}]*)?\}|%\(([a-z_]*?)(\d*)\)s")


@pytest.fixture(scope="module")
def texts() -> tuple[str, ...]:
    read_all()
    return tuple(_each(said()))


def _each(found: set[str | tuple[str, str]]) -> Iterator[str]:
    for text in found:
        yield from (text,) if isinstance(text, str) else text


@pytest.mark.parametrize("shape", SHAPES)
def test_no_text_has_the_shape_of_a_piece(texts: tuple[str, ...], shape: str) -> None:
    wrong = [text for text in texts if SHAPES[shape].search(text) and text not in EXCEPTIONS]

    assert not wrong


def test_each_place_says_what_it_holds(texts: tuple[str, ...]) -> None:
    wrong = []
    for text in texts:
        for braced, braced_number, signed, signed_number in PLACE.findall(text):
            name, number = braced or signed, braced_number or signed_number
            if (name in NAMELESS and not (signed and name in FORM_PLACES)) or number:
                wrong.append(text)

    assert not wrong


def test_an_exception_is_still_said_and_still_needed(texts: tuple[str, ...]) -> None:
    for text, reason in EXCEPTIONS.items():
        assert text in texts, text
        assert any(shape.search(text) for shape in SHAPES.values()), reason
