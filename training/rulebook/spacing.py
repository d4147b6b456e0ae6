"""Free space between two repairs on the unrolled liner, around the tire across 0 deg too."""

from collections.abc import Callable, Sequence
from typing import NamedTuple

from training.rulebook.case import Case, EarlierRepair, Injury
from training.rulebook.designation import section_width_mm
from training.rulebook.geometry import (
    InjuryGeometry,
    apart_deg,
    gap_mm,
    half_extent_around_mm,
    half_extent_lateral_mm,
    station_deg,
    tread_circumference_mm,
)  # fmt: skip
from training.rulebook.quantities import Quantity
from training.rulebook.units import OnShelf, RepairUnit, fitting_units, largest_holes

_TURN_DEG = 360.0
UNIT_FOR = {"one-piece": "one-piece", "two-piece": "patch"}
_WITHOUT_UNIT = frozenset({"stem-only", "string"})  # kinds that lie in the channel alone
_OVER_NAIL_HOLE = frozenset({"one-piece", "two-piece", "patch-only"})


class Spot(NamedTuple):
    """Where a repair sits on the liner: center, station, half sizes, and how far its exit may still move [mm, deg].

    `lateral_mm` is None where nobody measured it; `is_least`: the repair may take more room than this, `is_most`: less.
    """

    lateral_mm: float | None
    station_deg: float | None
    station: Quantity | None
    around_mm: float
    half_length_mm: float
    half_width_mm: float
    lean_mm: float
    is_least: bool = False
    is_most: bool = False


class Gap(NamedTuple):
    """A gap in mm and whether it is exact, at least or at most that."""

    mm: float
    sense: str


class Taken(NamedTuple):
    """The unit an injury is planned with. Where none of the shelf fits it stands in for the larger one that is taken;
    `is_least`: so it is, or the hole may prove larger than is known."""

    unit: RepairUnit
    is_fitting: bool
    is_least: bool


def planned_kind(case: Case) -> str:
    """Kind of unit that will be used: one-piece where that is proposed, else a patch over a stem."""
    return "one-piece" if case.proposed == "one-piece" else "patch"


def hole_size(injury: Injury) -> tuple[Quantity | None, bool]:
    """Diameter of the hole, and whether it is sure: before damage removal it can only grow."""
    before, after = injury.before_removal, injury.diameter
    if after is None or (before is not None and before.value > after.value):
        return before, after is not None
    return after, True


def injury_spot(injury: Injury, placed: InjuryGeometry, taken: Taken | None, basis: str, margin_mm: float = 0.0,
                most_mm: float | None = None) -> Spot | None:  # fmt: skip
    """The planned repair of an injury around its exit: its unit ("units"), the "outlines" around it, the "holes" alone;
    or what it takes at "least" (without a unit the outline around the hole itself) or at "most" (then `most_mm`).

    None where position, lean or size is not known. Where only the lean is not, and no direction was measured, the worst
    one brings it no farther from another than straight through.
    """
    is_lean_open = placed.exit_offset_around_mm is None
    if is_lean_open and (placed.azimuth_deg is not None or basis not in ("units", "least")):
        return None
    if placed.lateral_mm is None and (is_lean_open or placed.is_azimuth_assumed):
        return None
    is_least = is_most = False
    if basis == "holes":
        if placed.diameter_mm is None:
            return None
        length = width = placed.ellipse_long_mm or placed.diameter_mm
    elif taken is not None and not (basis == "most" and taken.is_least):
        grown = 2 * margin_mm if basis == "outlines" else 0.0
        length, width = taken.unit.length.number + grown, taken.unit.width.number + grown
        is_least = taken.is_least
    elif basis == "least":
        across, around = _least_mm(injury, placed)
        length, width, is_least = across + 2 * margin_mm, around + 2 * margin_mm, True
    elif basis == "most" and most_mm is not None:
        length, width, is_most = most_mm, most_mm, True
    else:
        return None
    lateral, lean = placed.exit_lateral_mm, 0.0
    if placed.lateral_mm is not None and (is_lean_open or placed.is_azimuth_assumed):
        lean = 0.0 if lateral is None else abs(lateral - placed.lateral_mm)
        lateral = placed.lateral_mm
    station, offset = placed.station_deg, placed.exit_offset_around_mm or 0.0
    return Spot(
        lateral, station, injury.station, offset, length / 2, width / 2, lean, is_least or is_lean_open, is_most
    )


def _least_mm(injury: Injury, placed: InjuryGeometry) -> tuple[float, float]:
    """What the hole itself takes up across the tire and around it, at least."""
    size, _ = hole_size(injury)
    if size is None:
        return 0.0, 0.0
    angle = placed.angle_deg or 0.0
    across = size.number / 2 if placed.azimuth_deg is None else half_extent_lateral_mm(
        diameter_mm=size.number, angle_deg=angle, azimuth_deg=placed.azimuth_deg
    )  # fmt: skip
    around = half_extent_around_mm(diameter_mm=size.number, angle_deg=angle, azimuth_deg=placed.azimuth_deg)
    return 2 * across, 2 * around


def largest_unit_mm(case: Case) -> float | None:
    """The most that a unit over a nail hole can measure [mm]: none is longer or wider than the tire's section is wide.

    Common practice, no published source: such a unit lies in the crown, well clear of the beads.
    """
    section_mm = section_width_mm(case.tire.designation)
    if section_mm is not None:
        return float(section_mm)
    return None if case.tire.tread_width is None else case.tire.tread_width.number


def repair_spot(case: Case, repair: EarlierRepair, basis: str, margin_mm: float = 0.0) -> Spot | None:
    """An earlier repair's place on the liner; None where its size is not known. At "least" it takes the outline around
    its hole."""
    lateral = None if repair.lateral is None else repair.lateral.number
    hole_mm = None if repair.injury is None else repair.injury.number
    is_least = is_most = False
    if basis == "holes" or (repair.unit is None and repair.kind in _WITHOUT_UNIT):
        if hole_mm is None:
            return None
        length = width = hole_mm
    elif repair.unit is not None:
        grown = 2 * margin_mm if basis == "outlines" else 0.0
        length, width = repair.unit.length.number + grown, repair.unit.width.number + grown
    elif basis == "least":
        length = width = (hole_mm or 0.0) + 2 * margin_mm
        is_least = True
    elif basis == "most" and repair.kind in _OVER_NAIL_HOLE:
        most_mm = largest_unit_mm(case)
        if most_mm is None:
            return None
        length = width = most_mm
        is_most = True
    else:
        return None
    station = station_deg(case, repair.station)
    return Spot(lateral, station, repair.station, 0.0, length / 2, width / 2, 0.0, is_least, is_most)


def gap_between(case: Case, first: Spot, second: Spot, liner_mm: float | None) -> Gap | None:
    """Free space between two spots [mm], negative when they overlap; None where it cannot be told."""
    lengths, widths = first.half_length_mm + second.half_length_mm, first.half_width_mm + second.half_width_mm
    is_least = first.is_least or second.is_least
    lean = first.lean_mm + second.lean_mm
    offset = second.around_mm - first.around_mm
    turn = _turn(first, second)
    around = None
    if turn == 0 or (turn is not None and liner_mm is not None):
        around = turn / _TURN_DEG * (liner_mm or 0.0) + offset
        if liner_mm is not None:
            around = (around + liner_mm / 2) % liner_mm - liner_mm / 2
    if first.lateral_mm is None or second.lateral_mm is None:
        if around is None or is_least:
            return None
        beside = gap_mm(lateral_mm=around, around_mm=None, lengths_mm=widths, widths_mm=lengths, lean_mm=lean)
        return Gap(beside, "at_least") if beside >= 0 else None
    lateral = second.lateral_mm - first.lateral_mm
    if around is not None:
        mm = gap_mm(lateral_mm=lateral, around_mm=around, lengths_mm=lengths, widths_mm=widths, lean_mm=lean)
        if first.is_most or second.is_most:
            return Gap(mm, "at_least") if mm >= 0 and not is_least else None
        return Gap(mm, "at_most" if is_least else "exact")
    across = gap_mm(lateral_mm=lateral, around_mm=None, lengths_mm=lengths, widths_mm=widths, lean_mm=lean)
    if across >= 0:
        return None if is_least else Gap(across, "at_least")
    farthest = _farthest(case, first, second, turn)
    if farthest is None or first.is_most or second.is_most:
        return None
    most = gap_mm(
        lateral_mm=lateral, around_mm=farthest + abs(offset), lengths_mm=lengths, widths_mm=widths, lean_mm=lean
    )
    return Gap(most, "at_most") if most < 0 else None


def units_taken(case: Case, place: Callable[[Injury], InjuryGeometry], shelf: Sequence[OnShelf],
                liner_mm: float | None, free_mm: float) -> dict[str, Taken]:  # fmt: skip
    """The unit for each puncture, by its id: the smallest that fits, or larger ones where only those leave room.

    Without such units the smallest of each. A hole beyond all units takes at least one of those for the largest holes.
    """
    punctures = [injury for injury in case.injuries or () if injury.kind == "puncture"]
    choices = {injury.id: _choices(case, injury, shelf) for injury in punctures}
    planned = [injury for injury in punctures if choices[injury.id]]
    smallest = {injury.id: choices[injury.id][0] for injury in planned}
    repairs = [repair_spot(case, repair, "units") for repair in case.earlier_repairs or ()]
    if len(planned) + len(repairs) < 2 or all(len(choices[injury.id]) == 1 for injury in planned):
        return smallest

    def is_clear(first: Spot | None, second: Spot | None) -> bool:
        if first is None or second is None:
            return True
        gap = gap_between(case, first, second, liner_mm)
        return gap is None or gap.sense == "at_least" or gap.mm >= free_mm

    options = [
        [(taken, injury_spot(injury, place(injury), taken, "units")) for taken in choices[injury.id]]
        for injury in planned
    ]
    free = [[one for one in option if all(is_clear(one[1], repair) for repair in repairs)] for option in options]
    arranged = _arranged(free, is_clear)
    if arranged is None:
        return smallest
    return {injury.id: taken for injury, (taken, _) in zip(planned, arranged, strict=True)}


def _choices(case: Case, injury: Injury, shelf: Sequence[OnShelf]) -> list[Taken]:
    """The units that can be taken for a hole, the smallest first."""
    size, is_sure = hole_size(injury)
    kind, casing = planned_kind(case), case.tire.casing
    fitting = fitting_units(shelf, kind=kind, casing=casing, diameter=size)
    if fitting:
        return [Taken(unit, True, not is_sure) for unit in fitting]
    return [Taken(unit, False, True) for unit in largest_holes(shelf, kind=kind, casing=casing)]


_Option = tuple[Taken, Spot | None]


def _arranged(
    options: Sequence[Sequence[_Option]], is_clear: Callable[[Spot | None, Spot | None], bool]
) -> list[_Option] | None:
    """One option for each injury, so that all are clear of one another; None where there is no such choice."""
    left, found = _MOST_TRIES, list[_Option]()

    def is_placed() -> bool:
        nonlocal left
        if len(found) == len(options):
            return True
        for option in options[len(found)]:
            left -= 1
            if left < 0:
                return False
            if all(is_clear(before, option[1]) for _, before in found):
                found.append(option)
                if is_placed():
                    return True
                found.pop()
        return False

    return found if is_placed() else None


_MOST_TRIES = 2000  # more than any drawer has


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
