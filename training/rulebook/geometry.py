"""Where an injury and its repair lie on the unrolled crown and liner. Floats in mm and degrees.

Lateral is signed from the crown centerline; stations run around the tire from the identification number. On the liner
they are unrolled at the liner's own radius. Results are rounded to a millionth of a millimeter, so that a hole
that just touches a line is on it and not a rounding error away.
"""

from dataclasses import dataclass
from math import cos, hypot, pi, radians, sin, sqrt, tan

from training.rulebook.case import Case, Injury
from training.rulebook.citations import Cited
from training.rulebook.designation import dimensions, section_width_mm
from training.rulebook.quantities import Quantity

_PLACES = 6
_TURN_DEG = 360.0


@dataclass(frozen=True, slots=True)
class Rectangle:
    """A rectangle turned to the beads: `length_mm` across the tire, `width_mm` around it; center as offsets."""

    lateral_mm: float
    around_mm: float
    length_mm: float
    width_mm: float


@dataclass(frozen=True, slots=True)
class InjuryGeometry:
    """One injury in millimeters and degrees; None where a measurement is missing.

    `around` is measured on the unrolled liner, from the injury's own station. Where the azimuth is missing the exit is
    taken straight outwards, the worst direction for the crown, and `is_azimuth_assumed` says so.
    """

    lateral_mm: float | None
    station_deg: float | None
    angle_deg: float | None
    azimuth_deg: float | None
    is_azimuth_assumed: bool
    exit_lateral_mm: float | None
    exit_offset_around_mm: float | None
    diameter_mm: float | None
    ellipse_long_mm: float | None
    half_lateral_mm: float | None
    half_crown_mm: float | None
    crown_thickness_mm: float | None
    liner_circumference_mm: float | None
    unit: Rectangle | None = None
    outline: Rectangle | None = None


def lean_offset_mm(*, thickness_mm: float, angle_deg: float) -> float:
    """How far the channel travels sideways through the crown [mm]: t * tan(angle).

    >>> lean_offset_mm(thickness_mm=13, angle_deg=45)
    13.0
    """
    return round(thickness_mm * tan(radians(angle_deg)), _PLACES)


def ellipse_long_mm(*, diameter_mm: float, angle_deg: float) -> float:
    """Longer axis of the hole where a leaning channel meets the surface [mm]: d / cos(angle).

    >>> ellipse_long_mm(diameter_mm=5, angle_deg=60)
    10.0
    """
    return round(diameter_mm / cos(radians(angle_deg)), _PLACES)


def half_extent_lateral_mm(*, diameter_mm: float, angle_deg: float, azimuth_deg: float | None) -> float:
    """Half of what the hole takes up across the tire [mm]; without azimuth the longer axis lies across."""
    long_half = diameter_mm / cos(radians(angle_deg)) / 2
    if azimuth_deg is None:
        return round(long_half, _PLACES)
    turn = radians(azimuth_deg)
    return round(hypot(long_half * cos(turn), diameter_mm / 2 * sin(turn)), _PLACES)


def half_extent_around_mm(*, diameter_mm: float, angle_deg: float, azimuth_deg: float | None) -> float:
    """Half of what the hole takes up around the tire [mm]; without azimuth what it takes up at least."""
    if azimuth_deg is None:
        return round(diameter_mm / 2, _PLACES)
    long_half = diameter_mm / cos(radians(angle_deg)) / 2
    turn = radians(azimuth_deg)
    return round(hypot(long_half * sin(turn), diameter_mm / 2 * cos(turn)), _PLACES)


def liner_circumference_mm(case: Case) -> float | None:
    """Length of the unrolled liner at the crown [mm], pi * (D - 2 t); None without a metric size and a thickness."""
    size = dimensions(case.tire.designation)
    thickness = case.tire.crown_thickness
    if size is None or thickness is None or 2 * thickness.number >= size.outer_diameter_mm:
        return None
    return pi * (size.outer_diameter_mm - 2 * thickness.number)


def tread_circumference_mm(case: Case) -> float | None:
    """Length of the unrolled tread [mm], pi * D; None without a metric size."""
    size = dimensions(case.tire.designation)
    return None if size is None else pi * size.outer_diameter_mm


def station_deg(case: Case, station: Quantity | None) -> float | None:
    """A station as an angle from 0 to below 360; one given as a length along the tread needs the size."""
    if station is None:
        return None
    if station.dimension == "angle":
        return station.number % _TURN_DEG
    around_mm = tread_circumference_mm(case)
    return None if around_mm is None else station.number / around_mm * _TURN_DEG % _TURN_DEG


def apart_deg(first: float, second: float) -> float:
    """The shorter way around between two stations, signed from first to second, above -180 to 180.

    >>> apart_deg(350, 10)
    20.0
    """
    turn = (second - first) % _TURN_DEG
    return turn - _TURN_DEG if turn > _TURN_DEG / 2 else float(turn)


@dataclass(frozen=True, slots=True)
class CrownRule:
    """How an edition measures the repairable crown of some casings.

    `basis`: "outer-groove" (to the outermost groove), "shoulder" (half the tread width less `inset_mm`) or
    "section-width" (half of the printed width, or of a percentage of the nominal section width by `shares`). Who has
    the rulebook wrong may take that share of the tread ("tread-width"), or let a channel lean the other way (`lean` -1)
    or not at all (0).
    """

    basis: str
    inset_mm: float = 0.0
    shares: tuple[tuple[float, float], ...] = ()
    printed_mm: tuple[tuple[int, float], ...] = ()
    kind: str = ""
    source: str = ""
    lean: int = 1
    cited: Cited | None = None


def half_crown_mm(case: Case, rule: CrownRule | None) -> float | None:
    """Half width of the repairable crown [mm], by the edition's rule; None where a measurement is missing."""
    tire = case.tire
    if rule is None or rule.basis == "outer-groove":
        return tire.outer_groove.number if tire.outer_groove is not None else None
    if rule.basis == "shoulder":
        return None if tire.tread_width is None else round(tire.tread_width.number / 2 - rule.inset_mm, _PLACES)
    section_mm = section_width_mm(tire.designation)
    if section_mm is None:
        return None
    printed_mm = next((mark for width, mark in rule.printed_mm if width == section_mm), None)
    if printed_mm is not None:
        return printed_mm / 2
    percent = next(percent for up_to, percent in rule.shares if section_mm <= up_to)
    if rule.basis == "section-width":
        return round(float(section_mm) * percent / 200, _PLACES)
    return None if tire.tread_width is None else round(tire.tread_width.number * percent / 200, _PLACES)


def place_injury(case: Case, injury: Injury, rule: CrownRule | None = None) -> InjuryGeometry:
    """Where an injury starts on the tread and leaves at the liner."""
    thickness = case.tire.crown_thickness
    lateral = injury.lateral.number if injury.lateral is not None else None
    angle = injury.angle.number if injury.angle is not None else None
    azimuth = injury.azimuth.number % _TURN_DEG if injury.azimuth is not None else None
    diameter = injury.diameter.number if injury.diameter is not None else None
    assumed = bool(angle) and azimuth is None
    offset: float | None = None
    if angle == 0:
        offset = 0.0
    elif angle is not None and thickness is not None:
        offset = lean_offset_mm(thickness_mm=thickness.number, angle_deg=angle) * (1 if rule is None else rule.lean)
    exit_lateral = around = None
    if offset is not None:
        if azimuth is None:
            around = 0.0
            if lateral is not None:
                exit_lateral = round(lateral + (offset if lateral >= 0 else -offset), _PLACES)
        else:
            around = round(offset * sin(radians(azimuth)), _PLACES)
            if lateral is not None:
                exit_lateral = round(lateral + offset * cos(radians(azimuth)), _PLACES)
    long_mm = half_lateral = None
    if diameter is not None and angle is not None:
        long_mm = ellipse_long_mm(diameter_mm=diameter, angle_deg=angle)
        half_lateral = half_extent_lateral_mm(diameter_mm=diameter, angle_deg=angle, azimuth_deg=azimuth)
    return InjuryGeometry(
        lateral_mm=lateral,
        station_deg=station_deg(case, injury.station),
        angle_deg=angle,
        azimuth_deg=azimuth,
        is_azimuth_assumed=assumed,
        exit_lateral_mm=exit_lateral,
        exit_offset_around_mm=around,
        diameter_mm=diameter,
        ellipse_long_mm=long_mm,
        half_lateral_mm=half_lateral,
        half_crown_mm=half_crown_mm(case, rule),
        crown_thickness_mm=thickness.number if thickness is not None else None,
        liner_circumference_mm=liner_circumference_mm(case),
    )


def gap_mm(
    *, lateral_mm: float, around_mm: float | None, lengths_mm: float, widths_mm: float, lean_mm: float = 0.0
) -> float:
    """Free space between two rectangles on the liner [mm]; negative when they overlap.

    `lateral_mm`, `around_mm`: distances of their centers; `lengths_mm`, `widths_mm`: sums of their half sizes;
    `lean_mm`: how far an exit of unknown direction may still move toward the other. With `around_mm` None the gap
    across the tire alone is given, which is the least it can be.

    >>> gap_mm(lateral_mm=80.0, around_mm=0.0, lengths_mm=75.0, widths_mm=65.0)
    5.0
    """
    across = abs(lateral_mm) - lengths_mm
    if around_mm is None:
        return round(across - lean_mm, _PLACES)
    around = abs(around_mm) - widths_mm
    if not lean_mm:
        return round(max(across, around), _PLACES)
    # The worst lean shrinks the larger gap first, then both together; a shift beyond the center gains nothing.
    larger, smaller = max(across, around), min(across, around)
    if larger - smaller >= lean_mm:
        return round(larger - lean_mm, _PLACES)
    difference = larger - smaller
    both = sqrt(2 * lean_mm * lean_mm - difference * difference)
    return round((larger + smaller - both) / 2, _PLACES)
