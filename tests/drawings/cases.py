"""Cases to draw: plain ones by hand, and strategies that build only cases whose measurements a crown can have."""

import math
from collections.abc import Mapping
from dataclasses import dataclass

from hypothesis import strategies as st

from tests.present import present
from training.rulebook import Case, mm, parse_case


def drawn_case(*injuries: dict[str, object], tire: Mapping[str, object] | None = None, **more: object) -> Case:
    """A passenger tire with these injuries; `tire` entries may be overridden by name."""
    usual = {
        "designation": "205/65R15 94V",
        "casing": "passenger",
        "tread_width": "170 mm",
        "outer_groove": "62 mm",
        "crown_thickness": "13 mm",
    }
    return parse_case(
        {
            "edition": "north-america",
            "purpose": "repair",
            "on": "2026-11-25",
            "tire": {name: value for name, value in {**usual, **(tire or {})}.items() if value is not None},
            "injuries": list(injuries),
            **more,
        }
    )


def puncture(
    lateral: str = "31 mm", angle: str | None = "0 deg", azimuth: str | None = "0 deg", **more: object
) -> dict[str, object]:
    """One puncture, its measurements as text."""
    found = {
        "id": "A",
        "kind": "puncture",
        "diameter": "5 mm",
        "lateral": lateral,
        "angle": angle,
        "azimuth": azimuth,
        "station": "90 deg",
        **more,
    }
    return {name: value for name, value in found.items() if value is not None}


@dataclass(frozen=True)
class Measured:
    """The first hole of a case and the crown it goes through, in millimeters and radians."""

    lateral_mm: float
    diameter_mm: float
    crown_mm: float
    groove_mm: float
    lean: float
    azimuth: float


def measured(case: Case) -> Measured:
    """What a drawing of the case is held to; every measurement must be stated."""
    hole = present(case.injuries)[0]
    lengths = (hole.lateral, hole.diameter, case.tire.crown_thickness, case.tire.outer_groove)
    angles = (hole.angle, hole.azimuth)
    return Measured(
        *(mm(present(length)) for length in lengths), *(math.radians(present(angle).number) for angle in angles)
    )


def halves(low: int, high: int) -> st.SearchStrategy[float]:
    """Half millimeters between two whole ones."""
    return st.integers(2 * low, 2 * high).map(lambda n: n / 2)


@st.composite
def measured_tires(draw: st.DrawFn) -> dict[str, str]:
    """Groove, tread and thickness that fit one another."""
    groove = draw(halves(38, 90))
    return {
        "outer_groove": f"{groove:g} mm",
        "tread_width": f"{2 * groove + draw(st.integers(24, 60)):g} mm",
        "crown_thickness": f"{draw(halves(9, 26)):g} mm",
    }


@st.composite
def punctures(
    draw: st.DrawFn,
    *,
    id: str = "A",
    azimuths: st.SearchStrategy[int] | None = None,
    reach: int = 80,
) -> dict[str, object]:
    """One puncture anywhere on the crown or beyond it, up to `reach` mm from the centerline."""
    return puncture(
        f"{draw(halves(-reach, reach)):g} mm",
        f"{draw(st.integers(0, 55))} deg",
        f"{draw(st.sampled_from((0, 180)) if azimuths is None else azimuths)} deg",
        id=id,
        diameter=f"{draw(halves(2, 12)):g} mm",
        station=f"{draw(st.integers(0, 359))} deg",
    )
