"""Gauges: the reading measured back from the drawing, and counted back from the description."""

import math
import re
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.drawings.svg import RUBBER, WHITE, read
from tests.present import present
from training.drawings import gauge
from training.rulebook import parse_quantity

INCH_MM = 25.4  # exact by definition (international yard and pound agreement, 1959)
MARKS_MM = {
    "one 32nd of an inch": INCH_MM / 32,
    "one 64th of an inch": INCH_MM / 64,
    "one 16th of an inch": INCH_MM / 16,
    "half a millimeter": 0.5,
    "a tenth of a millimeter": 0.1,
    "one millimeter": 1.0,
    "one degree": 1.0,
}

inch_readings = st.integers(2, 16).map(lambda n: f"{n}/32 in")
half_mm_readings = st.integers(2, 24).map(lambda n: f"{n / 2} mm")
lengths = st.one_of(inch_readings, half_mm_readings)


def as_length(text: str):
    return parse_quantity(text, "length")


def counted_mm(description: str, numbers_in: str) -> float:
    """What someone gets who follows the description mark by mark."""
    mark = next(value for words, value in MARKS_MM.items() if words in description)
    number = {"in": INCH_MM / 32, "mm": 1.0}[numbers_in]
    if match := re.search(r"(\d+) marks? below the number (\d+)", description):
        return int(match[2]) * number - int(match[1]) * mark
    if match := re.search(r"(\d+) marks? past the number (\d+)", description):
        return int(match[2]) * number + int(match[1]) * mark
    return int(present(re.search(r"on the number (\d+)", description))[1]) * number


@settings(max_examples=80, deadline=None)
@given(lengths, st.sampled_from(("tread-gauge", "caliper", "probe")))
def test_counting_the_marks_as_described_gives_the_reading(reading, kind) -> None:
    figure = gauge(kind, as_length(reading))

    assert counted_mm(figure.description, reading.split()[1]) == pytest.approx(float(as_length(reading).value))


@settings(max_examples=60, deadline=None)
@given(lengths)
def test_the_dial_pointer_stands_at_the_reading(reading) -> None:
    drawing = read(gauge("tread-gauge", as_length(reading)).svg)
    (pointer,) = [points for fill, points in drawing.polygons if len(points) == 3]
    tip_x, tip_y = max(pointer, key=lambda point: math.hypot(*point))
    turn = math.degrees(math.atan2(tip_x, -tip_y)) % 360

    # the numbers on the dial say how much a turn is: two neighbors of 0 are equally far from it
    numbers = {
        int(text): ((box[0] + box[2]) / 2, box[3] - drawing.size * 0.35)
        for text, box in drawing.texts
        if text.isdigit()
    }
    step = sorted(numbers)[1]
    x, y = numbers[step]
    per_number = (math.degrees(math.atan2(x, -y)) % 360) / step
    unit = INCH_MM / 32 if reading.endswith("in") else 1.0
    assert turn / per_number * unit == pytest.approx(float(as_length(reading).value), abs=0.05)


@settings(max_examples=60, deadline=None)
@given(lengths)
def test_the_caliper_jaws_stand_as_far_apart_as_its_scale_says(reading) -> None:
    figure = gauge("caliper", as_length(reading))
    plates = [points for fill, points in read(figure.svg).polygons if fill == RUBBER]

    gap = min(x for x, _ in plates[1]) - max(x for x, _ in plates[0])

    assert gap * present(figure.scale) == pytest.approx(float(as_length(reading).value), abs=0.01)


@settings(max_examples=60, deadline=None)
@given(lengths)
def test_the_tapered_probe_is_as_thick_as_the_hole_where_it_meets_the_tread(reading) -> None:
    drawing = read(gauge("probe", as_length(reading)).svg)
    blocks = [points for fill, points in drawing.polygons if fill == RUBBER]
    hole = min(x for x, _ in blocks[1]) - max(x for x, _ in blocks[0])

    (cone,) = [points for fill, points in drawing.polygons if fill == WHITE and len(points) == 5]
    (top_x, top_y), (low_x, low_y) = cone[1], cone[2]
    half = top_x + (low_x - top_x) * (0 - top_y) / (low_y - top_y)
    assert 2 * half == pytest.approx(hole, abs=0.05)
    assert hole / 2 == pytest.approx(float(as_length(reading).value), abs=0.01)  # drawn twice as wide as it is


@pytest.mark.parametrize("degrees", [0, 1, 12, 25, 37, 60])
def test_the_protractor_shows_the_angle(degrees) -> None:
    drawing = read(gauge("probe", parse_quantity(f"{degrees} deg", "angle")).svg)
    heavy = max(
        (element for element, _ in drawing.paths if element.get("fill") == "none"),
        key=lambda element: float(element.attrib["stroke-width"]),
    )
    (run,) = next(runs for element, runs in drawing.paths if element is heavy)

    assert math.degrees(math.atan2(run[0][0], -run[0][1])) == pytest.approx(degrees, abs=0.2)


@pytest.mark.parametrize("kind", ["tread-gauge", "caliper"])
def test_two_readings_on_one_scale_print_the_same_letters(kind) -> None:
    one, other = (gauge(kind, as_length(text)) for text in ("3 mm", "7.5 mm"))

    assert [text for text, _ in read(one.svg).texts] == [text for text, _ in read(other.svg).texts]


@settings(max_examples=80, deadline=None)
@given(lengths, st.sampled_from(("tread-gauge", "caliper", "probe")))
def test_the_reading_is_printed_nowhere(reading, kind) -> None:
    figure = gauge(kind, as_length(reading))

    assert reading not in figure.svg
    assert reading not in figure.description


def test_between_two_marks_is_said_so() -> None:
    # 4.3 mm lies between marks of half a millimeter on no scale that goes coarser; the dial turns to tenths
    assert "3 marks past the number 4" in gauge("tread-gauge", as_length("4.3 mm")).description
    assert "between" in gauge("tread-gauge", as_length("4.33 mm")).description


def test_the_small_scale_of_the_caliper_lines_up_at_the_tenths() -> None:
    figure = gauge("caliper", as_length("5.7 mm"))

    assert "with the number 5 and the next" in figure.description
    assert "mark 7 lines up" in figure.description
    # mark n of the small scale stands at reading + 0.9 n; only n = 7 falls on a millimeter, 5.7 + 6.3 = 12
    on_a_mark = [n for n in range(1, 11) if (Fraction("5.7") + n * Fraction("0.9")).denominator == 1]
    assert on_a_mark == [7]


@pytest.mark.parametrize(
    ("kind", "reading", "words"),
    [
        ("ruler", ("5 mm", "length"), 'kind: "ruler" is not accepted; choose tread-gauge, caliper or probe'),
        ("caliper", ("12 deg", "angle"), 'reading: "12 deg" is not accepted; a caliper reads a length'),
        ("caliper", ("200 mm", "length"), "up to 150 mm"),
        ("probe", ("30 mm", "length"), "the probe reads from 1 to 16 mm"),
        ("probe", ("75 deg", "angle"), "up to 60 deg"),
        ("tread-gauge", ("-1 mm", "length"), "a gauge reads 0 or more"),
    ],
)
def test_what_a_gauge_cannot_show_is_refused_with_words(kind, reading, words) -> None:
    with pytest.raises(ValueError, match=re.escape(words)):
        gauge(kind, parse_quantity(*reading))
