"""Tables of markings in a lesson: what they print is what public tables print, in the unit that the shop prefers."""

import csv
import re
from html import unescape

import pytest

from tests.course.lessons import lesson_of
from tests.published.tables import LOADS, PUBLISHED, SPEEDS
from training.course.lessons import CourseError
from training.course.render import render
from training.rulebook import Edition, load_edition


@pytest.fixture(scope="module")
def edition():
    return load_edition("north-america")


def rows_of(directive: str, edition: Edition, prefer: str = "in") -> list[tuple[str, str]]:
    """The rows of the table that a directive prints: what is molded, and what it says."""
    lesson = lesson_of(directive + "\n")
    html = render(lesson, edition=edition, prefer=prefer).html
    found = re.findall(r'<th scope="row">(.*?)</th><td data-label=".*?">(.*?)</td>', html)
    return [(unescape(sign), unescape(meaning)) for sign, meaning in found]


# Load-capacity index table of UN Regulations No. 30 and No. 54 (published).
def test_a_part_of_the_load_index_table_prints_its_lines_and_no_others(edition) -> None:
    rows = rows_of("::loads 88 94", edition, "mm")

    assert [sign for sign, _ in rows] == ["88", "89", "90", "91", "92", "93", "94"]
    assert [meaning.split(" kg")[0] for _, meaning in rows] == [f"{LOADS[index]}" for index in range(88, 95)]
    assert dict(rows)["91"] == "615 kg (1,356 lb)"
    assert dict(rows_of("::loads 88 94", edition))["91"] == "1,356 lb (615 kg)"


# Speed category table (published): H stands between U and V.
def test_speed_symbols_stand_in_the_order_of_their_speed(edition) -> None:
    rows = rows_of("::speeds Q Y", edition, "mm")

    assert [sign for sign, _ in rows] == ["Q", "R", "S", "T", "U", "H", "V", "W", "Y"]
    assert all(meaning.startswith(f"{SPEEDS[sign]} km/h (") for sign, meaning in rows)
    assert rows_of("::speeds (Y) (Y)", edition) == [("(Y)", "above 186 mph (300 km/h)")]


# Tables of the regulations (from memory): outer diameter of the new tire.
@pytest.mark.parametrize("size", ["195/65R15", "LT245/75R16", "295/80R22.5"])
def test_a_size_is_printed_with_the_diameter_of_the_tables(size, edition) -> None:
    with (PUBLISHED / "tire_sizes.csv").open(encoding="utf-8") as file:
        (diameter,) = (row["outer_diameter_mm"] for row in csv.DictReader(file) if row["designation"] == size)

    said = dict(rows_of(f"::size {size}", edition, "mm"))

    assert said[size].startswith(f"overall diameter of the new tire: {int(diameter):,} mm (")


def test_each_part_of_a_size_has_its_row(edition) -> None:
    # 75 % of 245 mm is 183.75 mm; index 120 is 1,400 kg and 116 is 1,250 kg; S is 180 km/h; E is rated 10 plies.
    assert rows_of("::size LT245/75R16 120/116S load range E", edition, "mm") == [
        ("LT", "built as: light truck"),
        ("245", "section width: 245 mm (9 21/32 in)"),
        ("75", "aspect ratio: the section height is 75% of the width, 184 mm (7 1/4 in)"),
        ("R", "build: radial"),
        ("16", "rim diameter: 406 mm (16 in)"),
        ("LT245/75R16", "overall diameter of the new tire: 774 mm (30 15/32 in)"),
        ("120", "load index, fitted alone: 1,400 kg (3,086 lb)"),
        ("116", "load index, each of a dual pair: 1,250 kg (2,756 lb)"),
        ("S", "speed symbol: 180 km/h (112 mph)"),
        ("load range E", "ply rating 10: a strength, not a count of plies"),
    ]


def test_sizes_in_inches_name_what_they_name_and_no_more(edition) -> None:
    assert rows_of("::size 31x10.50R15LT", edition)[:2] == [
        ("31", "overall diameter: 31 in (787.4 mm)"), ("10.50", "section width: 10 1/2 in (266.7 mm)"),
    ]  # fmt: skip
    assert [sign for sign, _ in rows_of("::size 11R22.5", edition)] == ["11", "R", "22.5"]
    assert dict(rows_of("::size 130/90-16 M/C 67H", edition))["-"] == "build: bias"


@pytest.mark.parametrize(
    ("directive", "message"),
    [
        ("::size 205/55", r"line 7: ::size 205/55: .*construction"),
        ("::loads 94 88", "::loads 94 88: give the first and the last line"),
        ("::loads 94", "::loads 94: give the first and the last line"),
        ("::loads 94 300", "::loads: '300' is not known; choose 0 to 180"),
        ("::speeds Q I", r"::speeds: 'I' is not known; choose A1 to \(Y\)"),
        ("::speeds", "::speeds needs a name after it"),
    ],
)
def test_a_table_that_there_is_not_is_refused(directive, message, edition) -> None:
    with pytest.raises(CourseError, match=message):
        rows_of(directive, edition)


def test_another_table_is_another_content_version(edition) -> None:
    lessons = [lesson_of(f"::loads 88 {last}\n") for last in (94, 95)]

    one, other = (render(lesson, edition=edition).content_version for lesson in lessons)

    assert one != other
