"""Drawings on paper: curves against the worked figures of the SVG recommendation, places against hand calculation.

Source of the curves: W3C Recommendation SVG 1.1, sections 8.3.7 and 8.3.8, examples quad01 and arcs01 (from memory).
"""

import math
from io import BytesIO
from typing import Any

import numpy as np
import pytest
from pypdf import PdfReader
from pypdf.generic import ContentStream
from reportlab.pdfgen.canvas import Canvas
from shapely import LineString, Point

from assessments.questions import draw, family_names
from certificates.documents.shots import beside, in_rows
from certificates.documents.svg import NotDrawn, _trace_path, figure, read
from tests.homes import home
from training.pictures import render


class Recorder:
    """A path that keeps what is laid into it."""

    def __init__(self) -> None:
        self.calls: list[tuple[Any, ...]] = []

    def moveTo(self, *at: float) -> None:
        self.calls.append(("m", *at))

    def lineTo(self, *at: float) -> None:
        self.calls.append(("l", *at))

    def curveTo(self, *at: float) -> None:
        self.calls.append(("c", *at))

    def close(self) -> None:
        self.calls.append(("z",))


def traced(d: str) -> list[tuple[Any, ...]]:
    path = Recorder()
    _trace_path(path, d)
    return path.calls


def along(calls: list[tuple[Any, ...]]) -> list[tuple[float, float]]:
    """Points on the curves, by the Bezier formula, twenty a curve."""
    points, at = [], (0.0, 0.0)
    for name, *numbers in calls:
        if name == "c":
            x1, y1, x2, y2, x3, y3 = numbers
            for step in range(21):
                t, u = step / 20, 1 - step / 20
                weights = (u**3, 3 * u * u * t, 3 * u * t * t, t**3)
                points.append(
                    (
                        sum(w * x for w, x in zip(weights, (at[0], x1, x2, x3), strict=True)),
                        sum(w * y for w, y in zip(weights, (at[1], y1, y2, y3), strict=True)),
                    )
                )
        if numbers:
            at = (numbers[-2], numbers[-1])
    return points


def test_the_smooth_quadratic_curve_mirrors_its_control_point() -> None:
    # the recommendation draws the mirrored control point of the second half at (800, 550)
    _, first, second = traced("M200,300 Q400,50 600,300 T1000,300")

    assert first == pytest.approx(("c", 200 + 400 / 3, 300 - 500 / 3, 600 - 400 / 3, 300 - 500 / 3, 600, 300))
    assert second[1:3] == pytest.approx((600 + 400 / 3, 300 + 500 / 3))
    assert second[5:] == pytest.approx((1000, 300))


def test_the_large_arc_of_the_pie_runs_three_quarters_around_its_center() -> None:
    # a pie of radius 150 around (300, 200), its upper left quarter cut out
    points = along(traced("M300,200 h-150 a150,150 0 1,0 150,-150 z"))

    assert {round(math.dist(point, (300, 200))) for point in points} == {150}
    for edge in ((150, 200), (300, 350), (450, 200), (300, 50)):
        assert LineString(points).distance(Point(edge)) < 0.1
    assert not any(x < 290 and y < 190 for x, y in points)


def test_the_small_arc_fills_that_quarter() -> None:
    # the same figure's second pie: M275,175 v-150 a150,150 0 0,0 -150,150 z
    points = along(traced("M275,175 v-150 a150,150 0 0,0 -150,150 z"))

    assert {round(math.dist(point, (275, 175))) for point in points} == {150}
    assert all(x <= 275.01 and y <= 175.01 for x, y in points)


def test_an_ellipse_turned_by_a_quarter_swaps_its_radii() -> None:
    # a half ellipse of radii 50 and 20, turned by 90 degrees: 20 wide to the right, 100 high
    points = along(traced("M0 0A50 20 90 0 1 0 100"))

    assert max(x for x, _ in points) == pytest.approx(20, abs=0.1)
    assert (min(y for _, y in points), max(y for _, y in points)) == pytest.approx((0, 100), abs=0.1)


def on_the_page(svg: str) -> list[tuple[float, float]]:
    """Where the ends of the curves of a drawing come to lie on a page of 100 by 100 points."""
    out = BytesIO()
    canvas = Canvas(out, pagesize=(100, 100))
    figure(svg, width=100, height=100).drawOn(canvas, 0, 0)
    canvas.save()
    found, standing = [], [np.eye(3)]
    for numbers, operator in ContentStream(PdfReader(out).pages[0].get_contents(), None).operations:
        if operator == b"q":
            standing.append(standing[-1])
        elif operator == b"Q":
            standing.pop()
        elif operator == b"cm":
            a, b, c, d, e, f = (float(number) for number in numbers)
            standing[-1] = np.array([[a, b, 0], [c, d, 0], [e, f, 1]]) @ standing[-1]
        elif operator == b"c":
            x, y, _ = np.array([float(numbers[4]), float(numbers[5]), 1]) @ standing[-1]
            found.append((float(x), float(y)))
    return found


def test_a_turned_ellipse_is_turned_on_paper_too() -> None:
    # half axes 40 and 10 about (50, 60), 60 below the top; turned by a quarter the long one stands upright
    lying = '<svg viewBox="0 0 100 100" font-size="5"><ellipse cx="50" cy="60" rx="40" ry="10"{}/></svg>'
    points = on_the_page(lying.format(' transform="rotate(90 50 60)"'))

    assert {(round(x), round(y)) for x, y in points} == {(40, 40), (60, 40), (50, 0), (50, 80)}
    assert {(round(x), round(y)) for x, y in on_the_page(lying.format(""))} == {(10, 40), (90, 40), (50, 30), (50, 50)}


def test_relative_commands_go_on_from_where_the_pen_is() -> None:
    assert traced("m10 20l5 5h-5v10z") == [
        ("m", 10, 20),
        ("l", 15, 25),
        ("l", 10, 25),
        ("l", 10, 35),
        ("z",),
    ]


@pytest.fixture
def page() -> Any:
    """A square of 100 units set 200 pt wide at (40, 500): one unit is two points, and up is up."""
    svg = (
        '<svg xmlns="http://www.w3.org/2000/svg" viewBox="-10 -20 100 100" font-size="5" fill="#211f1d">'
        '<line x1="0" y1="0" x2="80" y2="70" stroke="#211f1d" stroke-width="1"/>'
        '<text x="20" y="30" text-anchor="middle">62 &amp; 63 mm</text></svg>'
    )
    out = BytesIO()
    canvas = Canvas(out, invariant=1)
    figure(svg, width=200, height=300).drawOn(canvas, 40, 500)
    canvas.save()
    return PdfReader(BytesIO(out.getvalue())).pages[0]


def on_page(matrix: list[float], x: float, y: float) -> tuple[float, float]:
    a, b, c, d, e, f = matrix
    return a * x + c * y + e, b * x + d * y + f


def test_a_line_lies_on_the_page_where_the_drawing_has_it(page: Any) -> None:
    ends = {}

    def note(operator: bytes, operands: list[Any], matrix: list[float], _: Any) -> None:
        if operator in (b"m", b"l"):
            ends[operator] = on_page(matrix, *map(float, operands))

    page.extract_text(visitor_operand_before=note)

    # by hand: x = 40 + 2 (x + 10), y = 500 + 200 - 2 (y + 20)
    assert ends[b"m"] == pytest.approx((60, 660))
    assert ends[b"l"] == pytest.approx((220, 520))


def test_a_label_stands_upright_around_its_anchor(page: Any) -> None:
    found = {}

    def note(text: str, matrix: list[float], letters: list[float], *_: Any) -> None:
        if text.strip():
            found[text.strip()] = (on_page(matrix, *letters[4:]), matrix[3] * letters[3])

    page.extract_text(visitor_text=note)

    (at, upright) = found["62 & 63 mm"]
    assert at[1] == pytest.approx(600)  # 500 + 200 - 2 (30 + 20)
    assert 60 < at[0] < 100  # centered on 40 + 2 (20 + 10)
    assert upright > 0


@pytest.mark.parametrize(
    ("svg", "words"),
    [
        ('<svg viewBox="0 0 9 9"><image href="x"/></svg>', "<image href>"),
        ('<svg viewBox="0 0 9 9"><g></g></svg>', "<g>"),
        ('<svg viewBox="0 0 9 9"><path d="M0 0" opacity="0.5"/></svg>', "<path opacity>"),
        ('<svg><path d="M0 0"/></svg>', "viewBox"),
        ("<p>no drawing</p>", "<p>"),
    ],
)
def test_what_is_not_drawn_is_refused_by_name(svg: str, words: str) -> None:
    with pytest.raises(NotDrawn, match=words):
        read(svg)


def test_an_unknown_path_command_is_refused() -> None:
    with pytest.raises(NotDrawn, match='"S'):
        traced("M0 0S1 1 2 2")


@pytest.mark.parametrize("name", family_names())
def test_every_drawing_of_a_family_can_be_drawn_on_paper(name: str) -> None:
    edition = home(name)
    canvas = Canvas(BytesIO())

    for number in range(10):
        item = draw(name, seed=f"paper/{number}", edition=edition, prefer="mm" if number % 2 else "in")
        if item.figure and item.figure.sights:
            if number > 1:  # pictures are all of one size and kind of file, and take long to compute
                continue
            files = [render(one.parameters) for one in item.figure.sights]
            for block in beside(files[0], 200) if len(files) == 1 else in_rows(files, 500):
                block.wrapOn(canvas, 500, 700)
                block.drawOn(canvas, 0, 0)
        elif item.figure:
            figure(item.figure.svg, width=200, height=200).drawOn(canvas, 0, 0)
