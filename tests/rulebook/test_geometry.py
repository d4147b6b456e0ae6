"""Geometry against an independent library: shapely draws the holes, units and outlines and measures them itself."""

import math
from typing import Any

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from shapely import affinity
from shapely.geometry import LineString, Point, Polygon, box

from tests.examples import times
from tests.rulebook.cases import an_examined_case, decide_with_units, ruling_of
from training.rulebook import injury_geometry, parse_case
from training.rulebook.designation import dimensions
from training.rulebook.geometry import gap_mm
from training.rulebook.units import units_from

CLOSE_MM = 0.02  # what a polygon of 4 x 64 corners may miss of an ellipse this small
UNITS = units_from([{"kind": "patch", "length": "75 mm", "width": "65 mm"}], "test")


def hole(lateral: float, diameter: float, angle: float, azimuth: float) -> Polygon:
    """The ellipse a leaning round channel makes on a surface, by turning and stretching a circle."""
    circle = Point(0, 0).buffer(diameter / 2, quad_segs=64)
    stretched = affinity.scale(circle, xfact=1 / math.cos(math.radians(angle)), origin=(0, 0))
    return affinity.translate(affinity.rotate(stretched, azimuth, origin=(0, 0)), xoff=lateral)


measured = st.fixed_dictionaries(
    {
        "lateral": st.integers(-800, 800).map(lambda tenths: tenths / 10),
        "diameter": st.integers(10, 63).map(lambda tenths: tenths / 10),
        "angle": st.integers(0, 60),
        "azimuth": st.integers(0, 359),
        "groove": st.integers(400, 750).map(lambda tenths: tenths / 10),
        "thickness": st.integers(80, 200).map(lambda tenths: tenths / 10),
    }
)


def leaning_case(at: dict[str, Any], **rest: Any) -> dict[str, Any]:
    return an_examined_case(
        tire={"outer_groove": f"{at['groove']} mm", "crown_thickness": f"{at['thickness']} mm", "tread_width": None},
        injury={
            "lateral": f"{at['lateral']} mm",
            "diameter": f"{at['diameter']} mm",
            "angle": f"{at['angle']} deg",
            "azimuth": f"{at['azimuth']} deg",
        },
        **rest,
    )


@settings(max_examples=times(300), deadline=None)
@given(measured)
def test_the_whole_hole_is_inside_the_crown_exactly_where_shapely_says_so(at: dict[str, Any]) -> None:
    crown = box(-at["groove"], -500, at["groove"], 500)
    start = hole(at["lateral"], at["diameter"], at["angle"], at["azimuth"])
    # The channel as a line in the plane it leans in: shapely finds where it meets the liner.
    fall = LineString([(0, 0), (500 * math.sin(math.radians(at["angle"])), 500 * math.cos(math.radians(at["angle"])))])
    meets = fall.intersection(LineString([(-1000, at["thickness"]), (1000, at["thickness"])]))
    turn = math.radians(at["azimuth"])
    leaves = affinity.translate(start, xoff=meets.x * math.cos(turn), yoff=meets.x * math.sin(turn))

    decision = decide_with_units(leaning_case(at))

    for clause, drawn in (("crown-at-tread", start), ("crown-at-liner", leaves)):
        margin = at["groove"] - max(abs(drawn.bounds[0]), abs(drawn.bounds[2]))
        if abs(margin) > CLOSE_MM:
            assert ruling_of(decision, clause).holds == crown.covers(drawn), (clause, margin)


@settings(max_examples=times(200), deadline=None)
@given(measured)
def test_the_outline_reaches_half_an_inch_beyond_the_unit(at: dict[str, Any]) -> None:
    case = parse_case(leaning_case(at))
    assert case.injuries is not None

    placed = injury_geometry(case, case.injuries[0], units=UNITS)

    assert placed.unit is not None
    assert placed.outline is not None
    unit, outline = (
        box(
            one.lateral_mm - one.length_mm / 2,
            one.around_mm - one.width_mm / 2,
            one.lateral_mm + one.length_mm / 2,
            one.around_mm + one.width_mm / 2,
        )
        for one in (placed.unit, placed.outline)
    )
    grown = unit.buffer(12.7, join_style="mitre")  # 1/2 in on each side: our reading of the common practice
    assert outline.symmetric_difference(grown).area < 1e-6
    exit_point = Point(placed.exit_lateral_mm, placed.exit_offset_around_mm)
    assert unit.centroid.distance(exit_point) < 1e-6


places = st.fixed_dictionaries(
    {
        "lateral": st.integers(-600, 600).map(lambda tenths: tenths / 10),
        "station": st.integers(0, 3599).map(lambda tenths: tenths / 10),
        "angle": st.integers(0, 30),
        "azimuth": st.integers(0, 359),
    }
)


@settings(max_examples=times(400), deadline=None)
@given(places, places)
def test_two_units_overlap_exactly_where_shapely_says_so_across_zero_too(
    one: dict[str, Any], other: dict[str, Any]
) -> None:
    thickness, diameter = 13, 5
    size = "205/55R16"
    # UN Regulation No. 30 (rounding order from memory): D = 406 + 2 * round(205 * 0.55) = 406 + 2 * 113 = 632 mm.
    liner = math.pi * (632 - 2 * thickness)

    def rectangle(at: dict[str, Any]) -> Polygon:
        away = thickness * math.tan(math.radians(at["angle"]))
        x = at["lateral"] + away * math.cos(math.radians(at["azimuth"]))
        y = at["station"] / 360 * liner + away * math.sin(math.radians(at["azimuth"]))
        return box(x - 37.5, y - 32.5, x + 37.5, y + 32.5)

    first, second = rectangle(one), rectangle(other)
    laps = [affinity.translate(second, yoff=turns * liner) for turns in (-1, 0, 1)]
    overlap = max(first.intersection(lap).area for lap in laps)
    nearest = min(first.distance(lap) for lap in laps)
    assume(overlap > 1e-3 or nearest > 1e-6)  # not exactly edge to edge
    case = an_examined_case(tire={"designation": size, "crown_thickness": f"{thickness} mm", "tread_width": None})
    case["injuries"] = [
        {
            "diameter": f"{diameter} mm",
            "lateral": f"{at['lateral']} mm",
            "station": f"{at['station']} deg",
            "angle": f"{at['angle']} deg",
            "azimuth": f"{at['azimuth']} deg",
        }
        for at in (one, other)
    ]

    ruling = ruling_of(decide_with_units(case, units=UNITS), "repair-overlap")

    assert ruling.holds == (overlap <= 1e-3)


@settings(max_examples=times(300), deadline=None)
@given(
    st.integers(-100, 100), st.integers(-100, 100), st.integers(10, 60), st.integers(10, 60), st.integers(0, 20),
    st.integers(0, 359),
)  # fmt: skip
def test_no_direction_of_an_unknown_lean_is_worse_than_the_assumed_one(
    x: int, y: int, lengths: int, widths: int, lean: int, direction: int
) -> None:
    assumed = gap_mm(lateral_mm=x, around_mm=y, lengths_mm=lengths, widths_mm=widths, lean_mm=lean)

    moved_x = x + lean * math.cos(math.radians(direction))
    moved_y = y + lean * math.sin(math.radians(direction))
    actual = gap_mm(lateral_mm=moved_x, around_mm=moved_y, lengths_mm=lengths, widths_mm=widths)

    assert assumed <= actual + 1e-5


def two_punctures(
    *stations: str, tire: dict[str, Any] | None = None, laterals: tuple[str, str] = ("0 mm", "0 mm")
) -> dict[str, Any]:
    case = an_examined_case(tire=tire)
    case["injuries"] = [
        {"diameter": "5 mm", "angle": "0 deg", "lateral": lateral, "station": station}
        for station, lateral in zip(stations, laterals, strict=True)
    ]
    return case


@pytest.mark.parametrize(
    ("stations", "verdict"),
    [
        # Liner of 205/55R16 with a 13 mm crown: pi * 606 = 1903.8 mm, 5.288 mm a degree. Units are 65 mm wide.
        (("0 deg", "12.2 deg"), "reject"),  # 64.5 mm
        (("0 deg", "12.4 deg"), "repair"),  # 65.6 mm
        (("354 deg", "6 deg"), "reject"),  # 12 deg across 0
        (("353 deg", "6 deg"), "repair"),  # 13 deg across 0
        (
            ("0 mm", "67 mm"),
            "reject",
        ),  # along the tread, pi * 632 = 1985.5 mm: 67 mm are 12.15 deg, 64.2 mm on the liner
        (("0 mm", "69 mm"), "repair"),  # 12.51 deg, 66.2 mm
    ],
)
def test_units_around_the_tire_are_spaced_on_the_liner(stations: tuple[str, str], verdict: str) -> None:
    assert decide_with_units(two_punctures(*stations)).verdict == verdict


def test_far_across_the_tire_no_size_is_needed_to_see_that_units_are_clear() -> None:
    case = two_punctures(
        "0 deg", "5 deg", tire={"designation": None, "outer_groove": "80 mm"}, laterals=("-40 mm", "40 mm")
    )

    assert ruling_of(decide_with_units(case), "repair-overlap").holds


def test_without_a_size_two_near_units_are_not_called_clear() -> None:
    decision = decide_with_units(two_punctures("0 deg", "40 deg", tire={"designation": None}))

    assert "repair-overlap" in decision.unexamined


def test_at_one_station_no_size_is_needed_to_see_an_overlap() -> None:
    case = two_punctures("10 deg", "10 deg", tire={"designation": None}, laterals=("0 mm", "30 mm"))

    assert decide_with_units(case).verdict == "reject"


def test_lengths_along_the_tread_show_an_overlap_without_a_size() -> None:
    assert decide_with_units(two_punctures("100 mm", "150 mm", tire={"designation": None})).verdict == "reject"


def test_an_earlier_repair_keeps_its_room() -> None:
    repair = {"kind": "two-piece", "zone": "crown", "injury": "4 mm", "sound": True, "lateral": "0 mm",
              "station": "95 deg", "unit": {"length": "75 mm", "width": "65 mm"}}  # fmt: skip

    near = decide_with_units(an_examined_case(earlier_repairs=[repair]))
    far = decide_with_units(an_examined_case(earlier_repairs=[{**repair, "station": "120 deg"}]))

    assert ruling_of(near, "repair-overlap", "A+R1").holds is False
    assert ruling_of(far, "repair-overlap", "A+R1").holds is True


@pytest.mark.parametrize(
    ("designation", "diameter"),
    [
        ("205/65R15 94V", 647),  # printed in a public size table
        ("205/55R16 91V", 632),  # 406 + 2 * 113, UN Regulation No. 30 (rounding order from memory)
        ("P215/60R16 94T", 664),  # 406 + 2 * 129
        ("LT245/75R16 120/116S", 774),  # 406 + 2 * 184
    ],
)
def test_a_metric_size_gives_the_outer_diameter(designation: str, diameter: int) -> None:
    size = dimensions(designation)

    assert size is not None
    assert size.outer_diameter_mm == diameter


@pytest.mark.parametrize(
    ("designation", "diameter_mm"),
    [
        ("11R22.5", 1050),  # UN Regulation No. 54, annex: printed, never derived from an aspect ratio
        ("31x10.50R15LT", 787),  # 31 in as the size names it, 787.4 mm
        ("205/55R16 91V as good as new", 632),  # what stands behind the size cannot be read; the size can
    ],
)
def test_a_size_that_is_no_metric_one_is_read_from_print_or_from_its_name(designation: str, diameter_mm: int) -> None:
    size = dimensions(designation)

    assert size is not None
    assert size.outer_diameter_mm == diameter_mm


@pytest.mark.parametrize("designation", ["12R99", "unreadable", None])
def test_a_size_nobody_can_read_has_no_dimensions(designation: str | None) -> None:
    assert dimensions(designation) is None
