"""Tread depth by the readings taken: at any point, in any groove, and by two adjacent grooves."""

from collections.abc import Iterable, Mapping, Sequence
from fractions import Fraction

from training.rulebook.case import TreadReading
from training.rulebook.measures.registry import Facts, Found, Reading, measure
from training.rulebook.quantities import Quantity

Place = tuple[str, Fraction | int]
Groove = Mapping[Place, Quantity]  # the least reading of each place around the tire
_AROUND = 360  # [deg]


def _least(depths: Iterable[Quantity]) -> Quantity:
    return min(depths, key=lambda depth: depth.value)


def _found(depth: Quantity) -> Found:
    return Found(depth.text, depth)


def _place(station: Quantity) -> Place:
    """Where around the tire; once around is the same place again."""
    return station.dimension, station.value % _AROUND if station.dimension == "angle" else station.value


def _grooves(readings: Sequence[TreadReading]) -> tuple[dict[int, dict[Place, Quantity]], list[Quantity]]:
    """The readings by groove and place, and those of a groove nobody numbered."""
    grooves: dict[int, dict[Place, Quantity]] = {}
    alone: list[Quantity] = []
    for reading in readings:
        if reading.groove is None:
            alone.append(reading.depth)
            continue
        places = grooves.setdefault(reading.groove, {})
        station = reading.station
        place = ("", len(places)) if station is None else _place(station)
        known = places.get(place)
        places[place] = reading.depth if known is None else _least((known, reading.depth))
    return grooves, alone


def _at_places(depths: Sequence[Quantity], places: int) -> Quantity:
    """What at least so many places around the tire come to; with fewer measured the least counts."""
    ordered = sorted(depths, key=lambda depth: depth.value)
    return ordered[places - 1] if len(ordered) >= places else ordered[0]


def _best(first: Groove, second: Groove) -> list[Quantity]:
    """The better of two adjacent grooves at each place; where one alone was measured it counts."""
    both = [[one[place] for one in (first, second) if place in one] for place in dict.fromkeys((*first, *second))]
    return [max(depths, key=lambda depth: depth.value) for depths in both]


def _adjacent(readings: Sequence[TreadReading] | None, places: int) -> Reading:
    if not readings:
        return None
    grooves, counted = _grooves(readings)
    for number, groove in grooves.items():
        if number + 1 in grooves:
            counted.append(_at_places(_best(groove, grooves[number + 1]), places))
        elif number - 1 not in grooves:
            counted.append(_least(groove.values()))
    return _found(_least(counted))


@measure("tread.least_depth", "tire", "length")
def _least_depth(facts: Facts, _: object) -> Reading:
    """Least tread depth measured at any point [mm]."""
    readings = facts.case.tread_depths
    return _found(_least(reading.depth for reading in readings)) if readings else None


@measure("tread.adjacent_depth", "tire", "length")
def _adjacent_depth(facts: Facts, _: object) -> Reading:
    """Tread depth by two adjacent grooves at three places around the tire [mm].

    A pair fails only where both grooves are below the limit at three places (Utah R714-160-8(1)(g)(ii)(A), 49 CFR
    570.9 from memory), so a pair counts with the third lowest place, and each place with the better groove. With fewer
    places, and for a groove without a measured neighbor, the least counts.
    """
    return _adjacent(facts.case.tread_depths, 3)


@measure("tread.adjacent_depth_at_two_places", "tire", "length")
def _adjacent_depth_at_two_places(facts: Facts, _: object) -> Reading:
    """Tread depth by two adjacent grooves at two places around the tire [mm] (North Carolina GS 20-122.1(a))."""
    return _adjacent(facts.case.tread_depths, 2)


@measure("tread.groove_depth", "tire", "length")
def _groove_depth(facts: Facts, _: object) -> Reading:
    """Tread depth of the worst groove at three places around the tire [mm] (Maryland COMAR 11.14.05.05)."""
    readings = facts.case.tread_depths
    if not readings:
        return None
    grooves, counted = _grooves(readings)
    return _found(_least([*counted, *(_at_places(list(groove.values()), 3) for groove in grooves.values())]))
