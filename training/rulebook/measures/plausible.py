"""Single values that no tire and no vehicle has: what was stated, as the clauses hold it against their limits.

Each gives NOT_HERE where nothing was stated.
"""

from training.rulebook.designation import dimensions
from training.rulebook.measures.registry import NOT_HERE, Facts, Found, Reading, measure, stated


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
    return Found(f"{pressure.found} found, {pressure.recommended} recommended",
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
