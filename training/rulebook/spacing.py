"""Free space between two repairs on the unrolled liner, around the tire across 0 deg too."""

from collections.abc import Sequence
from typing import NamedTuple

from training.rulebook.case import Case, EarlierRepair, Injury
from training.rulebook.geometry import (
    InjuryGeometry,
    apart_deg,
    gap_mm,
    station_deg,
    tread_circumference_mm,
)  # fmt: skip
from training.rulebook.quantities import Quantity
from training.rulebook.units import RepairUnit, smallest_unit

_TURN_DEG = 360.0
UNIT_FOR = {"one-piece": "one-piece", "two-piece": "patch"}


class Spot(NamedTuple):
    """Where a repair sits on the liner: center, station, half sizes, and how far its exit may still move [mm, deg].

    `is_least`: no unit is known, so the size is that of the hole with its outline to buff, which every unit covers.
    """

    lateral_mm: float
    station_deg: float | None
    station: Quantity | None
    around_mm: float
    half_length_mm: float
    half_width_mm: float
    lean_mm: float
    is_least: bool = False  # whatever unit is taken covers at least this


class Gap(NamedTuple):
    """A gap in mm and whether it is exact, at least or at most that."""

    mm: float
    sense: str


def planned_kind(case: Case) -> str:
    """Kind of unit that will be used: one-piece where that is proposed, else a patch over a stem."""
    return "one-piece" if case.proposed == "one-piece" else "patch"


def planned_unit(case: Case, injury: Injury, units: Sequence[RepairUnit]) -> RepairUnit | None:
    """The smallest unit that fits an injury, or None where the shelf has none."""
    diameter = injury.diameter or injury.before_removal
    return smallest_unit(units, kind=planned_kind(case), casing=case.tire.casing, diameter=diameter)


def _covered(case: Case, units: Sequence[RepairUnit], hole_mm: float, margin_mm: float) -> tuple[float, float]:
    """What a repair covers at least [mm] where no unit fits: the largest there is, the hole and its outline to buff."""
    least = hole_mm + 2 * margin_mm
    known = [unit for unit in units if unit.kind == planned_kind(case) and case.tire.casing in unit.casings]
    lengths, widths = [unit.length.number for unit in known], [unit.width.number for unit in known]
    return max([least, *lengths]), max([least, *widths])


def injury_spot(case: Case, injury: Injury, placed: InjuryGeometry, units: Sequence[RepairUnit], basis: str,
                margin_mm: float) -> Spot | None:  # fmt: skip
    """The planned repair of an injury around its exit; None where position, lean or unit is not known."""
    if placed.lateral_mm is None or placed.exit_lateral_mm is None or placed.exit_offset_around_mm is None:
        return None
    is_least = False
    if basis == "holes":
        if placed.diameter_mm is None:
            return None
        length = width = placed.ellipse_long_mm or placed.diameter_mm
    else:
        unit = planned_unit(case, injury, units)
        if unit is not None:
            grown = 2 * margin_mm if basis == "outlines" else 0.0
            length, width = unit.length.number + grown, unit.width.number + grown
        elif placed.diameter_mm is not None:
            is_least = True
            length, width = _covered(case, units, placed.ellipse_long_mm or placed.diameter_mm, margin_mm)
        else:
            return None
    lateral, lean = placed.exit_lateral_mm, 0.0
    if placed.is_azimuth_assumed:
        lateral, lean = placed.lateral_mm, abs(placed.exit_lateral_mm - placed.lateral_mm)
    around = placed.exit_offset_around_mm
    return Spot(lateral, placed.station_deg, injury.station, around, length / 2, width / 2, lean, is_least)


def repair_spot(case: Case, repair: EarlierRepair, basis: str, margin_mm: float) -> Spot | None:
    """An earlier repair's place on the liner; None where position or size is not known."""
    if repair.lateral is None:
        return None
    station = station_deg(case, repair.station)
    if basis == "holes":
        if repair.injury is None:
            return None
        half = repair.injury.number / 2
        return Spot(repair.lateral.number, station, repair.station, 0.0, half, half, 0.0)
    if repair.unit is None:
        if repair.injury is None:
            return None
        half = repair.injury.number / 2 + margin_mm
        return Spot(repair.lateral.number, station, repair.station, 0.0, half, half, 0.0, is_least=True)
    grown = 2 * margin_mm if basis == "outlines" else 0.0
    length, width = repair.unit.length.number + grown, repair.unit.width.number + grown
    return Spot(repair.lateral.number, station, repair.station, 0.0, length / 2, width / 2, 0.0)


def gap_between(case: Case, first: Spot, second: Spot, liner_mm: float | None) -> Gap | None:
    """Free space between two spots [mm], negative when they overlap; None where it cannot be told."""
    lateral = second.lateral_mm - first.lateral_mm
    lengths, widths = first.half_length_mm + second.half_length_mm, first.half_width_mm + second.half_width_mm
    lean = first.lean_mm + second.lean_mm
    offset = second.around_mm - first.around_mm
    turn = _turn(first, second)
    if turn == 0 or (turn is not None and liner_mm is not None):
        around = turn / _TURN_DEG * (liner_mm or 0.0) + offset
        if liner_mm is not None:
            around = (around + liner_mm / 2) % liner_mm - liner_mm / 2
        return Gap(
            gap_mm(lateral_mm=lateral, around_mm=around, lengths_mm=lengths, widths_mm=widths, lean_mm=lean), "exact"
        )
    across = gap_mm(lateral_mm=lateral, around_mm=None, lengths_mm=lengths, widths_mm=widths, lean_mm=lean)
    if across >= 0:
        return Gap(across, "at_least")
    farthest = _farthest(case, first, second, turn)
    if farthest is None:
        return None
    most = gap_mm(
        lateral_mm=lateral, around_mm=farthest + abs(offset), lengths_mm=lengths, widths_mm=widths, lean_mm=lean
    )
    return Gap(most, "at_most") if most < 0 else None


def _turn(first: Spot, second: Spot) -> float | None:
    if first.station_deg is None or second.station_deg is None:
        same = first.station is not None and second.station is not None and first.station.value == second.station.value
        return (
            0.0
            if same and first.station and second.station and first.station.dimension == second.station.dimension
            else None
        )
    return apart_deg(first.station_deg, second.station_deg)


def _farthest(case: Case, first: Spot, second: Spot, turn: float | None) -> float | None:
    """The most two stations can be apart on the liner: their distance along the tread, which is longer."""
    around = tread_circumference_mm(case)
    if turn is not None and around is not None:
        return abs(turn) / _TURN_DEG * around
    one, other = first.station, second.station
    if one is not None and other is not None and one.dimension == other.dimension == "length":
        return abs(one.number - other.number)
    return None
