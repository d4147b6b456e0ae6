"""Single values that no tire and no vehicle has: what was stated, as the clauses hold it against their limits.

Each gives NOT_HERE where nothing was stated.
"""

from operator import attrgetter

from training.rulebook.designation import dimensions, section_width_mm, size_of
from training.rulebook.markings import load_capacity_kg
from training.rulebook.measures.registry import NOT_HERE, Facts, Found, Reading, measure, stated
from training.rulebook.quantities import quantity
from training.trade.speech import say, saying


def _as_stated(name: str, about: str, dimension: str, field: str, meaning: str) -> None:
    """Register what a field of the case, or of an injury or earlier repair, states."""
    value = attrgetter(field)

    def read(facts: Facts, subject: object) -> Reading:
        found = value(facts.case if subject is None else subject)
        return NOT_HERE if found is None else Found(found.printed, found)

    read.__doc__ = meaning
    measure(f"plausible.{name}", about, dimension, needs=field)(read)


for _row in (
    ("gross_mass", "tire", "mass", "position.gross_mass", saying("Gross mass of the vehicle, as stated [kg].")),
    ("crown_thickness", "tire", "length", "tire.crown_thickness", saying("Crown thickness, as stated [mm].")),
    (
        "pressure_recommended",
        "tire",
        "pressure",
        "pressure.recommended",
        saying("Recommended pressure, as stated [kPa]."),
    ),
    (
        "sidewall_max",
        "tire",
        "pressure",
        "pressure.sidewall_max",
        saying("Maximum pressure molded on the sidewall [kPa]."),
    ),
    ("max_load", "tire", "mass", "tire.max_load", saying("Greatest load molded on the sidewall [kg].")),
    ("hole", "injury", "length", "diameter", saying("Size of the hole after damage removal, as stated [mm].")),
    (
        "repaired_hole",
        "repair",
        "length",
        "injury",
        saying("Size of the hole under an earlier repair, as stated [mm]."),
    ),
    ("angle", "injury", "angle", "angle", saying("Angle of the channel from the perpendicular, as stated [deg].")),
):
    _as_stated(*_row)


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
    return Found(say("{found}, {recommended} recommended", found=pressure.found, recommended=pressure.recommended),
                 value=pressure.found.value * 100 / pressure.recommended.value)  # fmt: skip


@measure("plausible.crown_below_tread", "tire", "length", needs="tire.crown_thickness")
def _crown_below_tread(facts: Facts, _: object) -> Reading:
    """What is left of the crown under the deepest groove measured [mm]: its thickness less the tread depth."""
    thickness, readings = facts.case.tire.crown_thickness, facts.case.tread_depths
    if thickness is None or not readings:
        return NOT_HERE
    deepest = max((one.depth for one in readings), key=lambda depth: depth.value)
    return Found(
        say("crown {thickness} thick, tread {deepest} deep", thickness=thickness, deepest=deepest),
        value=thickness.value - deepest.value,
    )


@measure("plausible.dual_diameter", "tire", "percent", needs="dual_mate")
def _dual_diameter(facts: Facts, _: object) -> Reading:
    """The diameter of the pair that lies farthest from what the size gives, as a share of it [%]."""
    mate = facts.case.dual_mate
    size = dimensions(facts.case.tire.designation) if mate is not None else None
    if mate is None or size is None:
        return NOT_HERE
    design_mm = size.outer_diameter_mm
    farthest = max((mate.own_diameter, mate.diameter), key=lambda one: abs(one.number - design_mm))
    told = say("{farthest} across, marking {designation}", farthest=farthest, designation=facts.case.tire.designation)
    return Found(told, value=abs(farthest.value - design_mm) * 100 / design_mm)


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
    return Found(
        say("{mass} gross mass, {carries} a tire", mass=mass, carries=carries), value=mass.value * 100 / max(loads)
    )


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
    return Found(
        say("groove {groove} from the centerline, {told} wide", groove=groove, told=told),
        value=groove.value * 200 / wide_mm,
    )


@measure("plausible.molded_load", "tire", "percent", needs="tire.max_load")
def _molded_load(facts: Facts, _: object) -> Reading:
    """The load molded on the sidewall as a share of that of the load index, both for single fitting [%]."""
    tire = facts.case.tire
    size = size_of(tire.designation)
    if tire.max_load is None or size is None or size.load_index_single is None:
        return NOT_HERE
    told = say(
        "{max_load} molded, load index {load_index_single}",
        max_load=tire.max_load,
        load_index_single=size.load_index_single,
    )
    return Found(told, value=tire.max_load.value * 100 / load_capacity_kg(size.load_index_single))
