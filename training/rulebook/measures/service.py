"""Quantities of how a tire is used: pressure at its upper end and for the load, what its marking limits it to, and what
it went through on the road."""

from training.rulebook.case_words import WORDS
from training.rulebook.designation import size_of
from training.rulebook.markings import speed_limits
from training.rulebook.measures.registry import NOT_HERE, Facts, Found, Reading, a_word, measure, stated, yes_no
from training.rulebook.quantities import Quantity
from training.trade.speech import say, saying

# What stands in or behind a size and limits where the tire runs.
_LIMITED_TO = {"FRT": saying("free-rolling axles"), "NHS": saying("no highway "
                                                          "service"), "temporary-spare": saying("temporary use"),
               "special-trailer": saying("trailers")}  # fmt: skip


@measure("tire.use", "tire", words=tuple(_LIMITED_TO.values()), needs="tire.designation")
def _use(facts: Facts, _: object) -> Reading:
    """What the size marking limits the tire to; nothing where it may run anywhere."""
    size = size_of(facts.case.tire.designation)
    if size is None:
        return NOT_HERE
    for mark in (*size.marks, size.kind):
        if mark in _LIMITED_TO:
            return Found(size.text, word=_LIMITED_TO[mark])
    return NOT_HERE


@measure("tire.tube", "tire", words=(saying("tube in a tubeless tire"), saying("perhaps tubeless")), needs="tire.build")
def _tube(facts: Facts, _: object) -> Reading:
    """Whether a tire that runs with a tube is built to run without one.

    Marked TUBELESS, or made for 15-degree rims, it is; a radial not marked TUBE TYPE may be.
    """
    tire = facts.case.tire
    size = size_of(tire.designation)
    if tire.build != "tubed" or size is None or "TUBE TYPE" in size.marks:
        return NOT_HERE
    if "TUBELESS" in size.marks or size.rims == "15-degree":
        return Found(say("a tube in {size}", size=size.text), word="tube in a tubeless tire")
    return (
        Found(say("a tube in {size}", size=size.text), word="perhaps tubeless")
        if size.construction == "R"
        else NOT_HERE
    )


# --- pressure


_MOLDED = saying("{pressure}, molded maximum {whole}")
_FOR_LOAD = saying("{pressure}, for this load {whole}")


def _over(pressure: Quantity | None, whole: Quantity | None, told: str) -> Reading:
    if pressure is None or whole is None:
        return NOT_HERE
    return Found(say(told, pressure=pressure, whole=whole), value=pressure.value * 100 / whole.value)


@measure("pressure.of_sidewall_max", "tire", "percent", needs="pressure.sidewall_max")
def _of_sidewall_max(facts: Facts, _: object) -> Reading:
    """Pressure as found over the maximum molded on the sidewall [%]."""
    pressure = facts.case.pressure
    return _over(pressure.found, pressure.sidewall_max, _MOLDED)


@measure("pressure.sidewall_max_known", "tire", words=(saying("read"), saying("not read")))
def _sidewall_max_known(facts: Facts, _: object) -> Reading:
    """Whether the maximum pressure was read from the sidewall."""
    return a_word("not read" if facts.case.pressure.sidewall_max is None else "read")


@measure("pressure.needed_of_sidewall_max", "tire", "percent", needs="pressure.sidewall_max")
def _needed_of_sidewall_max(facts: Facts, _: object) -> Reading:
    """The higher of what vehicle maker and load table ask for, as a share of the maximum on the sidewall [%]."""
    pressure = facts.case.pressure
    asked = [one for one in (pressure.recommended, pressure.for_load) if one is not None]
    return _over(max(asked, key=lambda one: one.value, default=None), pressure.sidewall_max, _MOLDED)


@measure("pressure.of_load_table", "tire", "percent", needs="pressure.for_load")
def _of_load_table(facts: Facts, _: object) -> Reading:
    """Pressure as found over what the maker's table asks for the load that lies on the tire [%]."""
    pressure = facts.case.pressure
    if pressure.for_load is not None and pressure.found is None:
        return None
    return _over(pressure.found, pressure.for_load, _FOR_LOAD)


# --- on the road


@measure("tire.self_supporting_run", "tire", words=(saying("ran without air"), saying("kept its air")), needs="tire")
def _self_supporting_run(facts: Facts, _: object) -> Reading:
    """Whether a self-supporting tire ran without air: nothing need show, so that only who drove it can say so."""
    tire = facts.case.tire
    size = size_of(tire.designation)
    if tire.build != "self-supporting" and not (size is not None and size.is_self_supporting):
        return NOT_HERE
    return yes_no(tire.ran_without_air, "ran without air", "kept its air")


@measure("tire.run_without_air", "tire", words=(saying("ran without air"),), needs="tire.ran_without_air")
def _run_without_air(facts: Facts, _: object) -> Reading:
    """Whether a tire that is not self-supporting ran without air; nothing where nobody says so."""
    tire = facts.case.tire
    size = size_of(tire.designation)
    is_built_for_it = tire.build == "self-supporting" or (size is not None and size.is_self_supporting)
    return a_word("ran without air") if tire.ran_without_air and not is_built_for_it else NOT_HERE


@measure("roadside.means", "tire", words=WORDS["roadside.means"], needs="roadside")
def _roadside_means(facts: Facts, _: object) -> Reading:
    """What was put in at the roadside to hold the air; nothing without such a repair."""
    roadside = facts.case.roadside
    return NOT_HERE if roadside is None else a_word(roadside.means)


@measure("roadside.driven", "tire", "distance", needs="roadside")
def _roadside_driven(facts: Facts, _: object) -> Reading:
    """How far the tire ran since a roadside repair [km]; nothing without one, or where nobody knows."""
    roadside = facts.case.roadside
    return NOT_HERE if roadside is None or roadside.driven is None else stated(roadside.driven)


@measure("repaired.speed_symbol", "tire", words=[limit.symbol for limit in speed_limits()], needs="tire.designation")
def _repaired_speed_symbol(facts: Facts, _: object) -> Reading:
    """Speed symbol of a tire that is repaired, or has been; nothing for any other, or where none was read."""
    case = facts.case
    is_repaired = bool(case.earlier_repairs)
    for injury in case.injuries or () if case.purpose == "repair" else ():
        is_repaired = is_repaired or injury.kind == "puncture"
    size = size_of(case.tire.designation) if is_repaired else None
    return NOT_HERE if size is None or size.speed_symbol is None else a_word(size.speed_symbol)
