"""Facts that cannot both be true: what was stated twice, and differently.

Each gives NOT_HERE where they agree, and where one of the two was not stated: what nobody said contradicts nothing.
"""

from collections.abc import Callable
from datetime import date
from functools import lru_cache

from training.rulebook.case import EarlierRepair, Injury
from training.rulebook.case_words import UNREADABLE
from training.rulebook.dates import production_week
from training.rulebook.designation import designation_of, section_width_mm, size_of
from training.rulebook.measures.registry import NOT_HERE, Facts, Found, Read, Reading, measure, stated
from training.rulebook.quantities import Quantity

# Which casing a size marking speaks of. A trailer tire or a spare is built as one or the other; a size in inches, such
# as 7.50-16, is molded on many.
_CASINGS_OF = {
    "passenger": ("passenger",),
    "light-truck": ("light-truck", "light-truck-fabric", "light-truck-steel"),
    "commercial": ("light-truck", "light-truck-fabric", "light-truck-steel"),
    "truck": ("truck",),
    "motorcycle": ("motorcycle",),
}
_NOT_ON = {"motorcycle": ("passenger", "light-truck", "light-truck-fabric", "light-truck-steel", "truck"),
           "car": ("truck", "motorcycle")}  # fmt: skip
_CARRIES_NO_MOTORCYCLE_TIRE = ("light-truck", "truck", "bus", "minibus", "trailer")

_WORDS = ("disagree",)


def _disagree(told: str) -> Found:
    return Found(told, word="disagree")


def _contradiction(name: str, about: str = "tire") -> Callable[[Callable[..., Reading]], Read]:
    """Register a comparison: both facts in words where they disagree, else NOT_HERE: of what agrees nothing is said."""
    return measure(f"contradiction.{name}", about, words=_WORDS, is_rare=True)


@lru_cache(maxsize=4096)
def other_casing(casing: str, marking: str | None) -> str | None:
    """The casing that the size marking speaks of, where it is not the one stated; else None.

    >>> other_casing("light-truck-steel", "205/55R16 91V")
    'passenger'
    """
    size = size_of(marking) if marking not in (None, UNREADABLE) else None
    casings = _CASINGS_OF.get(size.kind, ()) if size is not None else ()
    return casings[0] if casings and casing not in casings and not _may_be_motorcycle(casing, marking) else None


def _may_be_motorcycle(casing: str, marking: str | None) -> bool:
    """Is a metric size without a prefix molded on this motorcycle tire? Motorcycle sizes are written like car sizes."""
    size = size_of(marking)
    return casing == "motorcycle" and size is not None and size.prefix is None and size.kind == "passenger"


@lru_cache(maxsize=4096)
def _section_mm(marking: str | None) -> float | None:
    width_mm = section_width_mm(marking)
    return None if width_mm is None else float(width_mm)


@_contradiction("class_and_size")
def _class_and_size(facts: Facts, _: object) -> Reading:
    """Whether the casing as stated is one that the size marking speaks of."""
    tire = facts.case.tire
    if tire.designation in (None, UNREADABLE):
        return NOT_HERE
    other = other_casing(tire.casing, tire.designation)
    return _disagree(f"casing {tire.casing}, marking {tire.designation}") if other else NOT_HERE


@_contradiction("build_and_size")
def _build_and_size(facts: Facts, _: object) -> Reading:
    """Whether the build as stated is the one that the size marking gives."""
    tire = facts.case.tire
    size = designation_of(tire.designation)
    if tire.build is None or size is None:
        return NOT_HERE
    is_bias = size.construction in ("D", "B")
    wrong = (tire.build == "radial" and (is_bias or size.is_self_supporting)) or (tire.build == "bias" and not is_bias)
    return _disagree(f"{tire.build} build, marking {tire.designation}") if wrong else NOT_HERE


@_contradiction("groove_and_width")
def _groove_and_width(facts: Facts, _: object) -> Reading:
    """Whether the outermost groove lies on the tread and within the section."""
    tire = facts.case.tire
    section = _section_mm(tire.designation)
    if tire.outer_groove is None or (tire.tread_width is None and section is None):
        return NOT_HERE
    if tire.tread_width is not None and tire.outer_groove.number * 2 > tire.tread_width.number:
        return _disagree(f"groove {tire.outer_groove} from the centerline, tread {tire.tread_width} wide")
    if section is not None and tire.outer_groove.number * 2 > section:
        return _disagree(f"groove {tire.outer_groove} from the centerline, marking {tire.designation}")
    return NOT_HERE


@_contradiction("tread_and_section")
def _tread_and_section(facts: Facts, _: object) -> Reading:
    """Whether the tread is narrower than the section."""
    tire = facts.case.tire
    section = _section_mm(tire.designation)
    if tire.tread_width is None or section is None:
        return NOT_HERE
    wide = tire.tread_width.number > section
    return _disagree(f"tread {tire.tread_width} wide, marking {tire.designation}") if wide else NOT_HERE


@_contradiction("place_and_width", "injury")
def _place_and_width(facts: Facts, injury: Injury) -> Reading:
    """Whether the injury lies on the tire at all."""
    tire, width = facts.case.tire, _section_mm(facts.case.tire.designation)
    if injury.lateral is None or width is None:
        return NOT_HERE
    return (
        _disagree(f"{injury.lateral} from the centerline, marking {tire.designation}")
        if _beyond(injury.lateral, width)
        else NOT_HERE
    )


def _beyond(lateral: Quantity, width_mm: float) -> bool:
    return abs(lateral.number) * 2 > width_mm


@_contradiction("zone_and_place", "injury")
def _zone_and_place(facts: Facts, injury: Injury) -> Reading:
    """Whether zone and distance from the centerline name the same place: the crown is never beyond the tread."""
    width = facts.case.tire.tread_width
    if injury.zone is None or injury.lateral is None or width is None:
        return NOT_HERE
    outside = _beyond(injury.lateral, width.number)
    wrong = outside if injury.zone == "crown" else not outside and injury.zone in ("sidewall", "bead")
    return (
        _disagree(f"zone {injury.zone}, {injury.lateral} from the centerline of a tread {width} wide")
        if wrong
        else NOT_HERE
    )


@_contradiction("before_and_after", "injury")
def _before_and_after(_: Facts, injury: Injury) -> Reading:
    """Whether the hole grew when the damage was removed: it cannot shrink."""
    before, after = injury.before_removal, injury.diameter
    if before is None or after is None:
        return NOT_HERE
    return _disagree(f"{before} before damage removal, {after} after") if before.number > after.number else NOT_HERE


@_contradiction("unit_and_hole", "repair")
def _unit_and_hole(_: Facts, repair: EarlierRepair) -> Reading:
    """Whether the unit of an earlier repair covers the hole it was put on."""
    if repair.unit is None or repair.injury is None:
        return NOT_HERE
    small = min(repair.unit.length.number, repair.unit.width.number) <= repair.injury.number
    return _disagree(f"unit {repair.unit.length} by {repair.unit.width}, hole {repair.injury}") if small else NOT_HERE


@_contradiction("retread_and_day")
def _retread_and_day(facts: Facts, _: object) -> Reading:
    """Whether the day of retreading fits the tire and the day of the check."""
    tire, on = facts.case.tire, facts.case.on
    if tire.retreaded_on is None:
        return NOT_HERE
    if tire.retreaded is False:
        return _disagree(f"not a retread, retreaded {tire.retreaded_on}")
    day = date.fromisoformat(tire.retreaded_on) if "-" in tire.retreaded_on else production_week(tire.retreaded_on)[0]
    if on is not None and day > on:
        return _disagree(f"retreaded {tire.retreaded_on}, today {on.isoformat()}")
    if tire.date_code not in (None, UNREADABLE) and day < production_week(tire.date_code)[0]:
        return _disagree(f"date code {tire.date_code}, retreaded {tire.retreaded_on}")
    return NOT_HERE


@_contradiction("date_code_and_day")
def _date_code_and_day(facts: Facts, _: object) -> Reading:
    """Whether the week of manufacture has come."""
    code, on = facts.case.tire.date_code, facts.case.on
    if code is None or code == UNREADABLE or on is None:
        return NOT_HERE
    return _disagree(f"date code {code}, today {on.isoformat()}") if production_week(code)[0] > on else NOT_HERE


@_contradiction("vehicle_and_tire")
def _vehicle_and_tire(facts: Facts, _: object) -> Reading:
    """Whether such a vehicle can carry such a tire."""
    casing, vehicle = facts.case.tire.casing, facts.case.position.vehicle
    if vehicle is None:
        return NOT_HERE
    wrong = casing in _NOT_ON.get(vehicle, ()) or (casing == "motorcycle" and vehicle in _CARRIES_NO_MOTORCYCLE_TIRE)
    return _disagree(f"{casing} tire on a {vehicle}") if wrong else NOT_HERE


@_contradiction("dual_and_axle")
def _dual_and_axle(facts: Facts, _: object) -> Reading:
    """Whether a pair stands where pairs can stand: a front axle runs singles."""
    position = facts.case.position
    if position.dual is None or position.axle is None:
        return NOT_HERE
    return _disagree("one of a pair, on the front axle") if position.dual and position.axle == "front" else NOT_HERE


# --- single values that no tire or vehicle has; the limits stand in the clauses


def _or_not_here(found: Found | None) -> Reading:
    return NOT_HERE if found is None else found


@measure("plausible.gross_mass", "tire", "mass", is_rare=True)
def _plausible_mass(facts: Facts, _: object) -> Reading:
    """Gross mass of the vehicle, where it was stated [kg]."""
    return _or_not_here(stated(facts.case.position.gross_mass))


@measure("plausible.crown_thickness", "tire", "length", is_rare=True)
def _plausible_thickness(facts: Facts, _: object) -> Reading:
    """Crown thickness, where it was measured [mm]."""
    return _or_not_here(stated(facts.case.tire.crown_thickness))


@measure("plausible.tread_depth", "tire", "length", is_rare=True)
def _plausible_depth(facts: Facts, _: object) -> Reading:
    """Greatest tread depth measured [mm]."""
    readings = facts.case.tread_depths
    return stated(max((one.depth for one in readings), key=lambda depth: depth.value)) if readings else NOT_HERE


@measure("plausible.depth_at_flush_bars", "tire", "length", is_rare=True)
def _depth_at_flush_bars(facts: Facts, _: object) -> Reading:
    """Least tread depth measured although the wear bars are said to be level with the tread [mm]."""
    readings = facts.case.tread_depths
    if not readings or facts.case.findings.get("wear-indicators-flush") is not True:
        return NOT_HERE
    return stated(min((one.depth for one in readings), key=lambda depth: depth.value))


@measure("plausible.pressure_ratio", "tire", "percent", is_rare=True)
def _plausible_pressure(facts: Facts, _: object) -> Reading:
    """Pressure as found over the recommended pressure, where it is higher [%]."""
    pressure = facts.case.pressure
    if pressure.recommended is None or pressure.found is None or pressure.found.number <= pressure.recommended.number:
        return NOT_HERE
    return Found(f"{pressure.found} found, {pressure.recommended} recommended",
                 value=pressure.found.value * 100 / pressure.recommended.value)  # fmt: skip
