"""Quantities of what a tire is asked to do: load, speed, pressure at its upper end, and what its size marks it for."""

from fractions import Fraction

from training.rulebook.designation import designation_of
from training.rulebook.markings import load_capacity_kg, speed_limit
from training.rulebook.measures.registry import NOT_HERE, Facts, Found, Reading, a_word, measure
from training.rulebook.quantities import Quantity, quantity

# 49 CFR 571.110 S4.2.2.2 and 571.120 S5.1.2: a passenger car tire on any other vehicle carries its rating over 1.10
_OFF_THE_CAR = Fraction("1.10")
# What stands in or behind a size and limits where the tire runs.
_LIMITED_TO = {"FRT": "free-rolling axles", "NHS": "no highway service", "temporary-spare": "temporary use",
               "special-trailer": "trailers"}  # fmt: skip
_OTHER_VEHICLES = ("light-truck", "truck", "bus", "minibus", "trailer")


def _capacity_kg(facts: Facts) -> Fraction | None:
    """Load that the tire carries where it runs [kg]; None where the marking does not say."""
    size, position = designation_of(facts.case.tire.designation), facts.case.position
    if size is None:
        return None
    index = size.load_index_dual if position.dual and size.load_index_dual is not None else size.load_index_single
    if index is None:
        return None
    capacity = Fraction(load_capacity_kg(index))
    return capacity / _OFF_THE_CAR if size.kind == "passenger" and position.vehicle in _OTHER_VEHICLES else capacity


def _reserve(facts: Facts, load: Quantity | None, verb: str) -> Reading:
    if load is None:
        return NOT_HERE
    capacity = _capacity_kg(facts)
    if capacity is None:
        return None
    return Found(f"carries {quantity(capacity, 'kg', places=0)}, {verb} {load}", value=capacity - load.value)


@measure("tire.load_reserve", "tire", "mass", is_rare=True)
def _load_reserve(facts: Facts, _: object) -> Reading:
    """What the tire carries beyond what the placard asks of it [kg]; a car tire on another vehicle over 1.10."""
    return _reserve(facts, facts.case.position.asked_load, "asked")


@measure("tire.carried_reserve", "tire", "mass", is_rare=True)
def _carried_reserve(facts: Facts, _: object) -> Reading:
    """What the tire carries beyond what lies on it [kg]; a car tire on another vehicle over 1.10."""
    return _reserve(facts, facts.case.position.carried, "loaded with")


@measure("tire.speed_fit", "tire", words=("fast enough", "too slow"), is_rare=True)
def _speed_fit(facts: Facts, _: object) -> Reading:
    """Whether the speed symbol of the tire reaches that of the placard."""
    asked = facts.case.position.asked_speed
    if asked is None:
        return NOT_HERE
    size = designation_of(facts.case.tire.designation)
    if size is None or size.speed_symbol is None:
        return None
    word = "fast enough" if speed_limit(size.speed_symbol).km_h >= speed_limit(asked).km_h else "too slow"
    return Found(f"{size.speed_symbol} for {asked}", word=word)


@measure("tire.use", "tire", words=tuple(_LIMITED_TO.values()), is_rare=True)
def _use(facts: Facts, _: object) -> Reading:
    """What the size marking limits the tire to; NOT_HERE where it may run anywhere."""
    size = designation_of(facts.case.tire.designation)
    if size is None:
        return NOT_HERE
    mark = next((one for one in (*size.marks, size.kind) if one in _LIMITED_TO), None)
    return NOT_HERE if mark is None else Found(size.text, word=_LIMITED_TO[mark])


@measure("pressure.of_sidewall_max", "tire", "percent", is_rare=True)
def _of_sidewall_max(facts: Facts, _: object) -> Reading:
    """Pressure as found over the maximum molded on the sidewall [%]."""
    pressure = facts.case.pressure
    if pressure.sidewall_max is None or pressure.found is None:
        return NOT_HERE
    ratio = pressure.found.value * 100 / pressure.sidewall_max.value
    return Found(f"{pressure.found}, molded maximum {pressure.sidewall_max}", value=ratio)


@measure("pressure.sidewall_max_known", "tire", words=("read", "not read"))
def _sidewall_max_known(facts: Facts, _: object) -> Reading:
    """Whether the maximum pressure was read from the sidewall."""
    return a_word("not read" if facts.case.pressure.sidewall_max is None else "read")
