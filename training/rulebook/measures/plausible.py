"""Single values that no tire and no vehicle has: what was stated, as the clauses hold it against their limits.

Each gives NOT_HERE where nothing was stated.
"""

from training.rulebook.case import EarlierRepair, Injury
from training.rulebook.designation import dimensions, section_width_mm, size_of
from training.rulebook.markings import load_capacity_kg
from training.rulebook.measures.registry import NOT_HERE, Facts, Found, Reading, measure, stated
from training.rulebook.quantities import quantity


@measure("plausible.gross_mass", "tire", "mass", needs="position.gross_mass")
def _plausible_mass(facts: Facts, _: object) -> Reading:
    """Gross mass of the vehicle, where it was stated [kg]."""
    found = facts.case.position.gross_mass
    return NOT_HERE if found is None else Found(found.text, found)


@measure("plausible.crown_thickness", "tire", "length", needs="tire.crown_thickness")
def _plausible_thickness(facts: Facts, _: object) -> Reading:
    """Crown thickness, where it was measured [mm]."""
    found = facts.case.tire.crown_thickness
    return NOT_HERE if found is None else Found(found.text, found)


@measure("plausible.tread_depth", "tire", "length", needs="tread_depths")
def _plausible_depth(facts: Facts, _: object) -> Reading:
    """Greatest tread depth measured [mm]."""
    readings = facts.case.tread_depths
    return stated(max((one.depth for one in readings), key=lambda depth: depth.value)) if readings else NOT_HERE


@measure("plausible.depth_at_flush_bars", "tire", "length", needs="tread_depths")
def _depth_at_flush_bars(facts: Facts, _: object) -> Reading:
    """Least tread depth measured although the wear bars are said to be level with the tread [mm]."""
    readings = facts.case.tread_depths
    if not readings or facts.case.findings.get("wear-indicators-flush") is not True:
        return NOT_HERE
    return stated(min((one.depth for one in readings), key=lambda depth: depth.value))


@measure("plausible.pressure_ratio", "tire", "percent", needs="pressure.found")
def _plausible_pressure(facts: Facts, _: object) -> Reading:
    """Pressure as found over the recommended pressure, where it is higher [%]."""
    pressure = facts.case.pressure
    if pressure.recommended is None or pressure.found is None or pressure.found.number <= pressure.recommended.number:
        return NOT_HERE
    return Found(f"{pressure.found}, {pressure.recommended} recommended",
                 value=pressure.found.value * 100 / pressure.recommended.value)  # fmt: skip


@measure("plausible.pressure_recommended", "tire", "pressure", needs="pressure.recommended")
def _plausible_recommended(facts: Facts, _: object) -> Reading:
    """Recommended pressure, where it was stated [kPa]."""
    found = facts.case.pressure.recommended
    return NOT_HERE if found is None else Found(found.text, found)


@measure("plausible.crown_below_tread", "tire", "length", needs="tire.crown_thickness")
def _crown_below_tread(facts: Facts, _: object) -> Reading:
    """What is left of the crown under the deepest groove measured [mm]: its thickness less the tread depth."""
    thickness, readings = facts.case.tire.crown_thickness, facts.case.tread_depths
    if thickness is None or not readings:
        return NOT_HERE
    deepest = max((one.depth for one in readings), key=lambda depth: depth.value)
    return Found(f"crown {thickness} thick, tread {deepest} deep", value=thickness.value - deepest.value)


@measure("plausible.dual_diameter", "tire", "percent", needs="dual_mate")
def _dual_diameter(facts: Facts, _: object) -> Reading:
    """The diameter of the pair that lies farthest from what the size gives, as a share of it [%]."""
    mate = facts.case.dual_mate
    size = dimensions(facts.case.tire.designation) if mate is not None else None
    if mate is None or size is None:
        return NOT_HERE
    design_mm = size.outer_diameter_mm
    farthest = max((mate.own_diameter, mate.diameter), key=lambda one: abs(one.number - design_mm))
    told = f"{farthest} across, marking {facts.case.tire.designation}"
    return Found(told, value=abs(farthest.value - design_mm) * 100 / design_mm)


@measure("plausible.sidewall_max", "tire", "pressure", needs="pressure.sidewall_max")
def _plausible_sidewall_max(facts: Facts, _: object) -> Reading:
    """Maximum pressure molded on the sidewall, where it was stated [kPa]."""
    found = facts.case.pressure.sidewall_max
    return NOT_HERE if found is None else Found(found.text, found)


@measure("plausible.mass_of_load", "tire", "percent", needs="position.gross_mass")
def _mass_of_load(facts: Facts, _: object) -> Reading:
    """Gross mass of the vehicle over the most that one such tire carries [%], by its load index or as molded on it."""
    mass, tire = facts.case.position.gross_mass, facts.case.tire
    size = size_of(tire.designation)
    index = size.load_index_single if size is not None else None
    loads = [load_capacity_kg(index)] if index is not None else []
    loads += [tire.max_load.value] if tire.max_load is not None else []
    if mass is None or not loads:
        return NOT_HERE
    carries = quantity(max(loads), "kg", places=0)
    return Found(f"{mass} gross mass, {carries} a tire", value=mass.value * 100 / max(loads))


@measure("plausible.groove_of_tread", "tire", "percent", needs="tire.outer_groove")
def _groove_of_tread(facts: Facts, _: object) -> Reading:
    """Distance between the outermost grooves over the tread width, or the section width where that is less [%]."""
    tire = facts.case.tire
    groove, tread, section_mm = tire.outer_groove, tire.tread_width, section_width_mm(tire.designation)
    widths_mm = [(tread.value, tread.text)] if tread is not None else []
    if section_mm is not None:
        widths_mm.append((section_mm, f"{float(section_mm):g} mm"))
    if groove is None or not widths_mm:
        return NOT_HERE
    wide_mm, told = min(widths_mm)
    return Found(f"groove {groove} from the centerline, {told} wide", value=groove.value * 200 / wide_mm)


@measure("plausible.molded_load", "tire", "percent", needs="tire.max_load")
def _molded_load(facts: Facts, _: object) -> Reading:
    """The load molded on the sidewall over that of the load index, both fitted singly [%]."""
    tire = facts.case.tire
    size = size_of(tire.designation)
    if tire.max_load is None or size is None or size.load_index_single is None:
        return NOT_HERE
    told = f"{tire.max_load} molded, load index {size.load_index_single}"
    return Found(told, value=tire.max_load.value * 100 / load_capacity_kg(size.load_index_single))


@measure("plausible.max_load", "tire", "mass", needs="tire.max_load")
def _plausible_load(facts: Facts, _: object) -> Reading:
    """Greatest load molded on the sidewall, where it was stated [kg]."""
    found = facts.case.tire.max_load
    return NOT_HERE if found is None else Found(found.text, found)


@measure("plausible.hole", "injury", "length", needs="diameter")
def _plausible_hole(_: Facts, injury: Injury) -> Reading:
    """Size of the hole after damage removal, where it was stated [mm]."""
    return NOT_HERE if injury.diameter is None else Found(injury.diameter.text, injury.diameter)


@measure("plausible.repaired_hole", "repair", "length", needs="injury")
def _plausible_repaired_hole(_: Facts, repair: EarlierRepair) -> Reading:
    """Size of the hole under an earlier repair, where it was stated [mm]."""
    return NOT_HERE if repair.injury is None else Found(repair.injury.text, repair.injury)


@measure("plausible.angle", "injury", "angle", needs="angle")
def _plausible_angle(_: Facts, injury: Injury) -> Reading:
    """Angle of the channel from the perpendicular, where it was stated [deg]."""
    return NOT_HERE if injury.angle is None else Found(injury.angle.text, injury.angle)
