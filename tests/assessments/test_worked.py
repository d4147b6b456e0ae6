"""The way to where a channel came out: lengths beside trigonometry done here, and no drawing where nothing leans."""

import re
from fractions import Fraction
from math import cos, radians, tan

import pytest

from assessments.pages.worked import Worked, worked
from assessments.questions import Item, draw
from tests.examples import times
from tests.present import present
from training.rulebook import load_edition, parse_case

MM = {"in": 25.4, "mm": 1.0}
NEAR = {"in": 0.048, "mm": 0.16}  # three lengths, each rounded to the nearest 1/32 in or 1/10 mm


def read(text: str) -> Fraction:
    """A printed length, "+ 1 7/32 in" or "− 2.3 mm", as a number of its unit."""
    sign = -1 if "−" in text else 1
    return sign * sum(map(Fraction, re.sub(r"[+−]|in|mm", "", text).split()), Fraction(0))


def numbers(found: Worked) -> dict[str, float]:
    return {row.label: float(read(row.length)) for row in found.rows}


def told(item: Item, prefer: str) -> Worked | None:
    return worked(item, load_edition(item.edition), prefer=prefer, chosen=())


@pytest.mark.parametrize(("country", "prefer"), [("north-america", "in"), ("united-kingdom", "mm")])
def test_the_far_edge_is_where_trigonometry_puts_it(country: str, prefer: str) -> None:
    seen = 0
    for number in range(times(25)):
        item = draw("lean-and-exit", seed=f"way {number}", edition=load_edition(country), prefer=prefer)
        found = told(item, prefer)
        if found is None:
            continue
        case = parse_case({**present(item.case), "edition": country})
        (hole,) = present(case.injuries)
        at_mm, lean = present(hole.lateral).number, radians(present(hole.angle).number)
        turned = 0.0 if hole.azimuth is None else hole.azimuth.number
        outward = 1 if hole.azimuth is None or cos(radians(turned)) * at_mm >= 0 else -1
        exit_mm = abs(at_mm) + outward * present(case.tire.crown_thickness).number * tan(lean)
        edge_mm = abs(exit_mm) + present(hole.diameter).number / 2 / cos(lean)
        assert numbers(found)["Far edge at the liner"] == pytest.approx(edge_mm / MM[prefer], abs=NEAR[prefer])
        terms = [read(row.length) for row in found.rows]
        assert sum(terms[:3]) == terms[3]  # what is printed adds up
        seen += 1
    assert seen > 5


def test_inches_are_told_as_a_tape_reads_them() -> None:
    edition, seen = load_edition("north-america"), 0
    for number in range(times(15)):
        found = told(draw("lean-and-exit", seed=f"tape {number}", edition=edition, prefer="in"), "in")
        for row in found.rows if found else ():
            assert "." not in row.length, row
            assert 32 % read(row.length).denominator == 0, row
            seen += 1
    assert seen > 20


def test_the_last_line_says_on_which_side_of_the_line_it_lies() -> None:
    edition = load_edition("north-america")
    for number in range(times(25)):
        item = draw("holes-by-place", seed=f"side {number}", edition=edition, casings=["passenger"])
        found = told(item, "in")
        if found is None:
            continue
        rows = numbers(found)
        over = rows["Far edge at the liner"] - rows["Limit: outer groove"]
        label = "Past it by" if over > 0 else "Inside it by"
        assert rows[label] == pytest.approx(abs(over), abs=0.001)


def test_the_line_that_was_answered_wrongly_is_the_one_that_is_drawn() -> None:
    edition, seen = load_edition("north-america"), 0
    for number in range(times(25)):
        item = draw("holes-by-place", seed=f"line {number}", edition=edition)
        for option in item.options:
            if "lean" in item.line_of(option) and option.id not in item.key_ids:
                found = worked(item, edition, prefer="in", chosen=[*item.key_ids, option.id])
                assert found is not None
                assert found.line == item.line_of(option)
                assert "It comes out on the liner" in found.figure.description
                seen += 1
    assert seen


@pytest.mark.parametrize("family", ["size-verdict", "gauge-reading", "tire-age", "drying", "two-injuries"])
def test_nothing_is_worked_out_where_no_channel_decides(family: str) -> None:
    for number in range(times(4)):
        assert told(draw(family, seed=f"none {number}", edition=load_edition("north-america")), "in") is None
