"""Quantities as people misread them, registered beside the right ones; wrong rules measure them, no clause may."""

from collections.abc import Callable
from datetime import date, timedelta

from training.rulebook.case import Injury
from training.rulebook.dates import production_week
from training.rulebook.designation import designation_of
from training.rulebook.geometry import InjuryGeometry
from training.rulebook.markings import MarkingError, load_capacity_kg
from training.rulebook.measures.injury import edge, from_shoulder, margin
from training.rulebook.measures.registry import (
    NOT_HERE,
    Apart,
    Facts,
    Found,
    Reading,
    misreading,
    stated,
)
from training.rulebook.measures.repairs import gap
from training.rulebook.measures.tire import age, years
from training.rulebook.quantities import Quantity, in_unit, quantity
from training.rulebook.spacing import Spot

_RIGHT_ANGLE_DEG = 90
_HALF_A_YEAR = timedelta(weeks=26)


@misreading("injury.before_removal", of="injury.diameter")
def _injury_before(_: Facts, injury: Injury) -> Reading:
    """Diameter of the injury before damage removal [mm]."""
    return stated(injury.before_removal or injury.diameter)


@misreading("injury.angle_from_tread", of="injury.angle")
def _angle_from_tread(_: Facts, injury: Injury) -> Reading:
    """Angle of the channel from the tread [deg]."""
    angle = injury.angle
    return None if angle is None else stated(quantity(_RIGHT_ANGLE_DEG - angle.value, "deg"))


@misreading("proposed.one_piece_angle_from_tread", of="proposed.one_piece_angle")
def _proposed_from_tread(facts: Facts, _: object) -> Reading:
    """Greatest angle from the tread that a proposed one-piece unit would have to follow [deg]."""
    if facts.case.proposed != "one-piece":
        return NOT_HERE
    angles = [injury.angle for injury in facts.case.injuries or () if injury.kind == "puncture"]
    known = [angle for angle in angles if angle is not None]
    if not known:
        return None
    greatest = quantity(_RIGHT_ANGLE_DEG - min(angle.value for angle in known), "deg")
    return Found(greatest.printed, greatest, sense="exact" if len(known) == len(angles) else "at_least")


# -- how far in a hole lies --------------------------------------------------------------------------------------------

_Lateral = Callable[[InjuryGeometry], float | None]


def _at_tread(placed: InjuryGeometry) -> float | None:
    return placed.lateral_mm


def _at_liner(placed: InjuryGeometry) -> float | None:
    return placed.exit_lateral_mm


def _inside(name: str, of: str, at: _Lateral, halves: int, meaning: str, *, by_shoulder: bool = False) -> None:
    """Register how far a hole lies inside, so many halves of it taken off."""

    def read(facts: Facts, injury: Injury) -> Reading:
        placed, width = facts.place(injury), facts.case.tire.tread_width
        lateral, half = at(placed), placed.half_lateral_mm if halves else 0.0
        if placed.lateral_mm is None and injury.zone is not None:
            return NOT_HERE
        if lateral is None or half is None:
            return None
        if by_shoulder:
            return None if width is None else from_shoulder(facts, width.number, lateral, halves * half)
        half_crown, sense = edge(facts, placed.half_crown_mm)
        return None if half_crown is None else margin(facts, round(half_crown - abs(lateral) - halves * half, 6), sense)

    read.__doc__ = meaning
    misreading(name, of=of)(read)


for _end, _at, _where in (("", _at_tread, "at the tread"), ("exit_", _at_liner, "at the liner")):
    _margin, _distance = f"injury.{_end or 'crown_'}margin", f"injury.{_end}shoulder_distance"
    for _name, _halves, _what in (
        ("of_center", 0, "center of the hole"),
        ("less_whole_hole", 2, "center of the hole, less its whole width,"),
        ("plus_hole", -1, "center of the hole, plus half its width,"),
    ):
        _inside(f"{_margin}_{_name}", _margin, _at, _halves,
                f"How far the {_what} lies inside the repairable crown {_where} [mm].")  # fmt: skip
        _inside(f"{_distance}_{_name}", _distance, _at, _halves,
                f"Distance from the {_what} to the nearer shoulder, {_where} [mm].", by_shoulder=True)  # fmt: skip


@misreading("injury.shoulder_distance_by_whole_tread", of="injury.shoulder_distance")
def _by_whole_tread(facts: Facts, injury: Injury) -> Reading:
    """The whole width of the tread less lateral and half of the hole [mm]."""
    placed, width = facts.place(injury), facts.case.tire.tread_width
    if width is None or placed.lateral_mm is None:
        return None
    return from_shoulder(facts, 2 * width.number, placed.lateral_mm, placed.half_lateral_mm)


@misreading("injury.tread_edge_margin", of="injury.crown_margin")
def _tread_edge_margin(facts: Facts, injury: Injury) -> Reading:
    """How far the center of the hole lies inside the edge of the tread [mm]."""
    width = facts.case.tire.tread_width
    if injury.lateral is None or width is None:
        return None
    return margin(facts, round(width.number / 2 - abs(injury.lateral.number), 6))


def _inside_groove(facts: Facts, lateral_mm: float | None, half_mm: float | None) -> Reading:
    groove = facts.case.tire.outer_groove
    if lateral_mm is None or groove is None:
        return None
    return margin(
        facts, round(groove.number - abs(lateral_mm) - (half_mm or 0.0), 6), "exact" if half_mm else "at_most"
    )


@misreading("injury.groove_distance", of="injury.shoulder_distance")
@misreading("injury.groove_margin", of="injury.crown_margin")
def _groove_margin(facts: Facts, injury: Injury) -> Reading:
    """How far the whole hole lies inside the outermost groove at the tread [mm], whatever bounds the crown."""
    placed = facts.place(injury)
    return _inside_groove(facts, placed.lateral_mm, placed.half_lateral_mm)


@misreading("injury.exit_groove_distance", of="injury.exit_shoulder_distance")
@misreading("injury.exit_groove_margin", of="injury.exit_margin")
def _exit_groove_margin(facts: Facts, injury: Injury) -> Reading:
    """How far the whole hole lies inside the outermost groove at the liner [mm], whatever bounds the crown."""
    placed = facts.place(injury)
    return _inside_groove(facts, placed.exit_lateral_mm, placed.half_lateral_mm)


# -- space between two repairs -----------------------------------------------------------------------------------------


@misreading("repairs.gap_of_holes", of="repairs.gap")
def _gap_of_holes(facts: Facts, apart: Apart) -> Reading:
    """Free space between two holes on the liner [mm]."""
    return gap(facts, apart, "holes")


@misreading("repairs.gap_of_outlines", of="repairs.gap")
def _gap_of_outlines(facts: Facts, apart: Apart) -> Reading:
    """Free space between two buffed outlines on the liner [mm]."""
    return gap(facts, apart, "outlines")


def _as_large(times: float) -> Callable[[Spot], Spot]:
    return lambda spot: spot._replace(
        half_length_mm=times * spot.half_length_mm, half_width_mm=times * spot.half_width_mm
    )


@misreading("repairs.gap_of_half_units", of="repairs.gap")
def _gap_of_half_units(facts: Facts, apart: Apart) -> Reading:
    """Free space between two units of half their size on the liner [mm]."""
    return gap(facts, apart, sized=_as_large(0.5))


@misreading("repairs.gap_of_double_units", of="repairs.gap")
def _gap_of_double_units(facts: Facts, apart: Apart) -> Reading:
    """Free space between two units of twice their size on the liner [mm]."""
    return gap(facts, apart, sized=_as_large(2))


@misreading("repairs.gap_of_turned_units", of="repairs.gap")
def _gap_of_turned_units(facts: Facts, apart: Apart) -> Reading:
    """Free space between two units on the liner, their lengths taken for their widths [mm]."""
    return gap(
        facts,
        apart,
        sized=lambda spot: spot._replace(half_length_mm=spot.half_width_mm, half_width_mm=spot.half_length_mm),
    )


# -- tread and pressure ------------------------------------------------------------------------------------------------


@misreading("tread.greatest_depth", of="tread.least_depth")
def _greatest_depth(facts: Facts, _: object) -> Reading:
    """Greatest tread depth measured at any point [mm]."""
    depths = [reading.depth for reading in facts.case.tread_depths or ()]
    return stated(max(depths, key=lambda depth: depth.value)) if depths else None


@misreading("pressure.points_left", of="pressure.ratio")
def _points_left(facts: Facts, _: object) -> Reading:
    """What is left of 100 when every unit of pressure that is missing counts as a percent [%]."""
    wanted, found = facts.case.pressure.recommended, facts.case.pressure.found
    if wanted is None or found is None:
        return None
    left = quantity(100 - in_unit(wanted, wanted.unit) + in_unit(found, wanted.unit), "%", places=1)
    return Found(left.text, value=left.value)


# -- markings ----------------------------------------------------------------------------------------------------------


@misreading("tire.age_of_casing", of="tire.age")
def _tire_age_of_casing(facts: Facts, _: object) -> Reading:
    """Completed years since the first day of the production week, retreaded or not."""
    return age(facts, facts.case.tire.date_code)


def _aged(name: str, made: Callable[[str], date], meaning: str) -> None:
    """Register the age by another reading of a date code of four digits."""

    def read(facts: Facts, _: object) -> Reading:
        code = facts.case.tire.retreaded_on or facts.case.tire.date_code
        if code is None or len(code) != 4 or not code.isdigit():
            return age(facts, code)
        try:
            return age(facts, made(code).isoformat())
        except (MarkingError, ValueError):
            return None  # read like this, the code names no day

    read.__doc__ = meaning
    misreading(name, of="tire.age")(read)


def _another_decade(year: str) -> str:
    return f"{int(year) + (-10 if int(year) > 15 else 10):02d}"


_aged("tire.age_by_month", lambda code: date(2000 + int(code[2:]), int(code[:2]), 1),
      "Completed years since the month that the first two digits name.")  # fmt: skip
_aged("tire.age_by_year_first", lambda code: production_week(code[2:] + code[:2])[0],
      "Completed years since the week of the last two digits in the year of the first two.")  # fmt: skip
_aged("tire.age_by_another_decade", lambda code: production_week(code[:2] + _another_decade(code[2:]))[0],
      "Completed years since that week of another decade.")  # fmt: skip
_aged("tire.age_from_midyear", lambda code: production_week(code)[0] + _HALF_A_YEAR,
      "Completed years since as many weeks after midsummer.")  # fmt: skip


@misreading("tire.age_in_calendar_years", of="tire.age")
def _age_in_calendar_years(facts: Facts, _: object) -> Reading:
    """This year less the year in the date code."""
    code, on = facts.case.tire.retreaded_on or facts.case.tire.date_code, facts.case.on
    if on is None or code is None or len(code) != 4 or not code.isdigit():
        return age(facts, code)
    return years(on.year - 2000 - int(code[2:]))


def _carrying(name: str, kilograms: Callable[[int, int | None], Quantity], meaning: str) -> None:
    """Register the load of one tire by another reading of its load index, and of the one for duals."""

    def read(facts: Facts, _: object) -> Reading:
        size = designation_of(facts.case.tire.designation)
        if size is None or size.load_index_single is None:
            return None
        return stated(kilograms(size.load_index_single, size.load_index_dual))

    read.__doc__ = meaning
    misreading(name, of="tire.load_capacity")(read)


_carrying("tire.load_index_in_kilograms", lambda index, _: quantity(index, "kg"), "The load index in kilograms [kg].")
_carrying("tire.load_capacity_in_pounds", lambda index, _: quantity(load_capacity_kg(index), "lb"),
          "The load of the load index, its kilograms taken for pounds [kg].")  # fmt: skip
_carrying("tire.load_capacity_of_next_line", lambda index, _: quantity(load_capacity_kg(index + 1), "kg"),
          "The load in the next line of the table of load indexes [kg].")  # fmt: skip
_carrying("tire.load_capacity_as_dual", lambda index, dual: quantity(load_capacity_kg(dual or index), "kg"),
          "Greatest load of the tire as one of a dual pair, wherever it runs [kg].")  # fmt: skip
