"""A bare number taken in the unit beside it when the other was meant: no tire is released by it.

What no reading can tell apart is left out: three quarters of an inch typed as 0.75 under millimeters is a place on the
centerline, and 6 under millimeters is a tread as deep as many. Both are shown back as they were understood.
"""

from collections.abc import Iterator
from copy import deepcopy
from typing import Any

import pytest

from training.rulebook import FINDINGS, decide, parse_case, typed_quantity

RELEASED = ("accept", "advise", "repair")
HOLE: dict[str, Any] = {"kind": "puncture", "azimuth": "0 deg", "station": "90 deg", "zone": "crown"}
# (place in the case, what is typed, the unit meant, the unit shown by mistake)
FIELDS = (
    ("tire.outer_groove", "62", "mm", "in"),
    ("tire.crown_thickness", "13", "mm", "in"),
    ("tire.crown_thickness", ".5", "in", "mm"),
    ("tire.tread_width", "170", "mm", "in"),
    ("tire.tread_width", "6.7", "in", "mm"),
    ("injuries.0.diameter", "5", "mm", "in"),
    ("injuries.0.diameter", ".1875", "in", "mm"),
    ("injuries.0.before_removal", "4", "mm", "in"),
    ("injuries.0.lateral", "20", "mm", "in"),
    ("pressure.recommended", "220", "kPa", "psi"),
    ("pressure.recommended", "32", "psi", "bar"),
    ("pressure.found", "220", "kPa", "psi"),
    ("pressure.found", "32", "psi", "bar"),
    ("pressure.sidewall_max", "300", "kPa", "psi"),
    ("position.gross_mass", "4000", "lb", "t"),
    ("tire.max_load", "1356", "lb", "kg"),
    ("tread_depths.0", "8", "32nds", "in"),
)
DIMENSIONS = {"kPa": "pressure", "psi": "pressure", "bar": "pressure", "lb": "mass", "kg": "mass", "t": "mass"}


def tire() -> dict[str, Any]:
    """A sound car tire with a small hole in the middle of its tread, all of it looked at."""
    return {
        "on": "2026-11-25",
        "purpose": "repair",
        "tire": {
            "casing": "passenger", "build": "radial", "designation": "205/55R16 91T", "date_code": "3225",
            "outer_groove": "62 mm", "crown_thickness": "13 mm", "tread_width": "170 mm", "max_load": "1356 lb",
        },
        "position": {"vehicle": "car", "axle": "front", "gross_mass": "4000 lb", "dual": False},
        "pressure": {"recommended": "220 kPa", "found": "220 kPa", "sidewall_max": "300 kPa"},
        "on_wheel": False,
        "injuries": [{**HOLE, "diameter": "5 mm", "before_removal": "4 mm", "angle": "12 deg", "lateral": "20 mm"}],
        "tread_depths": ["8/32 in"],
        "earlier_repairs": [],
        "findings": dict.fromkeys(FINDINGS, False),
    }  # fmt: skip


def with_typed(path: str, text: str, shown: str) -> dict[str, Any]:
    """The tire with one fact as it was typed and read."""
    data = deepcopy(tire())
    *above, last = [int(part) if part.isdigit() else part for part in path.split(".")]
    target: Any = data
    for part in above:
        target = target[part]
    target[last] = typed_quantity(text, shown, DIMENSIONS.get(shown, "length")).text
    return data


def verdicts(path: str, text: str, units: tuple[str, str]) -> Iterator[str]:
    for unit in units:
        yield decide(parse_case(with_typed(path, text, unit))).verdict


@pytest.mark.parametrize(("path", "text", "meant", "shown"), FIELDS)
def test_a_number_taken_in_the_other_unit_releases_no_tire(path, text, meant, shown) -> None:
    right, wrong = verdicts(path, text, (meant, shown))

    assert right == "repair"
    assert wrong not in RELEASED
