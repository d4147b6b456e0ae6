"""Quantities of what a tire must carry and how fast: its rating against what the vehicle asks and what lies on it.

Ratings are of one tire, where it runs: single or one of a pair. A rating is compared in the unit of the load it is held
against, as tables print it: load index 91 is 615 kg, and 1,356 lb.
"""

from fractions import Fraction

from training.rulebook.designation import size_of
from training.rulebook.markings import load_capacity_kg, speed_limit
from training.rulebook.measures.registry import NOT_HERE, Facts, Found, Reading, a_word, measure
from training.rulebook.quantities import UNITS, Quantity, quantity
from training.trade.speech import say, saying

_ASKED = saying("carries {capacity}, asked {load}")
_LOADED = saying("carries {capacity}, loaded with {load}")
_POUND_KG = UNITS["mass"]["lb"]
_OTHER_VEHICLES = ("light-truck", "truck", "bus", "minibus", "trailer")
_SINGLE_CASINGS = ("passenger", "motorcycle")


def _as_printed(capacity_kg: Fraction, unit: str) -> Fraction:
    """The capacity of a load index in kg, or as the whole pounds that tables print beside it [kg]."""
    if unit != "lb":
        return capacity_kg
    pounds = capacity_kg / _POUND_KG
    return ((2 * pounds.numerator + pounds.denominator) // (2 * pounds.denominator)) * _POUND_KG


def _rating_kg(index: int | None, molded: Quantity | None, unit: str) -> Fraction | None:
    """The lower of what the load index and the load molded on the sidewall allow [kg]; None without either."""
    ratings = [] if index is None else [_as_printed(load_capacity_kg(index), unit)]
    if molded is not None:
        ratings.append(molded.value)
    return min(ratings, default=None)


def _carries_kg(facts: Facts, unit: str) -> tuple[Fraction, str] | None:
    """Greatest load where the tire runs [kg], and in which sense; None where no marking says.

    Where nobody said whether it runs in a pair, it carries at least what it does in one; a rating of its own for a pair
    that was not read is at most the one for single fitting.
    """
    tire, position = facts.case.tire, facts.case.position
    size = size_of(tire.designation)
    single = _rating_kg(size.load_index_single if size else None, tire.max_load, unit)
    paired = _rating_kg(size.load_index_dual if size else None, tire.max_load_dual, unit)
    runs_single = position.dual is False or (
        position.dual is None and (position.axle == "front" or tire.casing in _SINGLE_CASINGS)
    )
    if runs_single:
        return None if single is None else (single, "exact")
    if paired is not None:
        return paired, "exact" if position.dual else "at_least"
    return None if single is None else (single, "at_most")


def _share(facts: Facts, load: Quantity | None, told: str) -> Reading:
    if load is None:
        return NOT_HERE
    carries = _carries_kg(facts, load.unit)
    if carries is None:
        return None
    capacity_kg, sense = carries
    shown = quantity(capacity_kg / UNITS["mass"][load.unit], load.unit, places=0)
    return Found(
        say(told, capacity=shown, load=load),
        value=capacity_kg * 100 / load.value,
        sense=sense,
    )


@measure("load.of_asked", "tire", "percent", needs="position.asked_load")
def _of_asked(facts: Facts, _: object) -> Reading:
    """What the tire can carry, as a share of the load the vehicle asks of it there [%]."""
    return _share(facts, facts.case.position.asked_load, _ASKED)


@measure("load.of_carried", "tire", "percent", needs="position.carried")
def _of_carried(facts: Facts, _: object) -> Reading:
    """What the tire can carry, as a share of the load on it [%]."""
    return _share(facts, facts.case.position.carried, _LOADED)


def _asked_index(facts: Facts) -> int | None:
    position = facts.case.position
    size = size_of(position.asked_size)
    indices = [position.asked_load_index, size.load_index_single if size else None]
    return max((index for index in indices if index is not None), default=None)


@measure("load.of_asked_index", "tire", "percent", needs="position")
def _of_asked_index(facts: Facts, _: object) -> Reading:
    """What the load index of the tire allows over what the load index of the placard does, both fitted singly [%]."""
    asked = _asked_index(facts)
    if asked is None:
        return NOT_HERE
    tire = facts.case.tire
    size = size_of(tire.designation)
    asked_kg = load_capacity_kg(asked)
    carries_kg = _rating_kg(size.load_index_single if size else None, tire.max_load, "kg")
    if carries_kg is None:
        return None
    shown = [quantity(load_kg, "kg", places=0) for load_kg in (carries_kg, asked_kg)]
    return Found(
        say("carries {capacity}, asked {index} ({load})", capacity=shown[0], index=asked, load=shown[1]),
        value=carries_kg * 100 / asked_kg,
    )


def _is_car_tire(facts: Facts) -> bool:
    size = size_of(facts.case.tire.designation)
    return facts.case.tire.casing == "passenger" if size is None else size.kind == "passenger"


@measure("load.vehicle_class", "tire", words=(saying("car tire elsewhere"), saying("as built for")))
def _vehicle_class(facts: Facts, _: object) -> Reading:
    """Whether a passenger car tire runs on a light truck, truck, bus or trailer."""
    vehicle = facts.case.position.vehicle
    if vehicle is None and _is_car_tire(facts):
        return None
    return a_word("car tire elsewhere" if vehicle in _OTHER_VEHICLES and _is_car_tire(facts) else "as built for")


@measure(
    "load.asked_class",
    "tire",
    words=(saying("car tire for another"), saying("light truck tire for a car tire"), saying("same class")),
)
def _asked_class(facts: Facts, _: object) -> Reading:
    """Whether a passenger car tire stands in for one of another class, or another one for it, by the placard's size."""
    position = facts.case.position
    placard = size_of(position.asked_size)
    size = size_of(facts.case.tire.designation)
    if placard is not None and size is not None and placard.kind == "passenger" and size.kind == "light-truck":
        return a_word("light truck tire for a car tire")
    if not _is_car_tire(facts) or position.vehicle in ("car", "motorcycle"):
        return a_word("same class")
    return None if placard is None else a_word("same class" if placard.kind == "passenger" else "car tire for another")


def _fastness(symbol: str) -> tuple[int, bool]:
    limit = speed_limit(symbol)
    return limit.km_h, limit.is_above


@measure(
    "tire.size_fit", "tire", words=(saying("as on the placard"), saying("another size")), needs="position.asked_size"
)
def _size_fit(facts: Facts, _: object) -> Reading:
    """Whether width, height and rim are those of the size on the placard; what stands before and behind them aside."""
    sizes = [size_of(marking) for marking in (facts.case.tire.designation, facts.case.position.asked_size)]
    read = [
        (one.section_width_mm, one.section_code, one.aspect_percent, one.overall_diameter_code, one.rim_code)
        for one in sizes
        if one is not None
    ]
    if len(read) < len(sizes):
        return NOT_HERE
    fit = "as on the placard" if read[0] == read[1] else "another size"
    return Found(
        say(
            "{designation}, {asked_size} asked for",
            designation=facts.case.tire.designation,
            asked_size=facts.case.position.asked_size,
        ),
        word=fit,
    )


@measure("tire.speed_fit", "tire", words=(saying("fast enough"), saying("too slow")), needs="position")
def _speed_fit(facts: Facts, _: object) -> Reading:
    """Whether the speed symbol of the tire reaches that of the placard; not known of one that only says "above"."""
    position = facts.case.position
    placard = size_of(position.asked_size)
    symbols = (position.asked_speed, placard.speed_symbol if placard else None)
    asked = max((one for one in symbols if one is not None), key=_fastness, default=None)
    if asked is None:
        return NOT_HERE
    size = size_of(facts.case.tire.designation)
    if size is None or size.speed_symbol is None:
        return None
    is_enough = _fastness(size.speed_symbol) >= _fastness(asked)
    if not is_enough and speed_limit(size.speed_symbol).is_above:
        return None
    return Found(
        say("{symbol} for {asked}", symbol=size.speed_symbol, asked=asked),
        word="fast enough" if is_enough else "too slow",
    )
