"""Where two facts of a case cannot both be true: the case as it reads when the other of the two is believed.

Each takes a case in which a comparison of `measures.contradictions` failed and gives the cases that could be meant. A
comparison is not named here where both its facts are judged as they stand, so that the graver decides anyhow.
"""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import replace

from training.rulebook.case import Case
from training.rulebook.designation import section_width_mm
from training.rulebook.measures.contradictions import casings_on
from training.rulebook.quantities import length_mm
from training.rulebook.size_says import casings_of, marked_build, unsaid

Readings = Callable[[Case], Iterator[Case]]
_VEHICLES_OF = {"passenger": "car", "motorcycle": "motorcycle", "truck": "truck"}


def _tire(case: Case, **changed: object) -> Case:
    return replace(case, tire=replace(case.tire, **changed))  # type: ignore[arg-type]


def _position(case: Case, **changed: object) -> Case:
    return replace(case, position=replace(case.position, **changed))  # type: ignore[arg-type]


def _found(case: Case, slug: str) -> Case:
    return replace(case, findings={**case.findings, slug: True})


def _casing_of_the_marking(case: Case) -> Iterator[Case]:
    for casing in casings_of(case.tire.designation):
        if casing.startswith("light-truck-"):  # the ply material was not read: the stricter limit, by "light-truck"
            continue
        yield _tire(case, casing=casing)


def _build_of_the_marking(case: Case) -> Iterator[Case]:
    yield _tire(case, build=marked_build(case.tire.designation))


def _said_by_the_marking(case: Case) -> Iterator[Case]:
    for slug, _ in unsaid(case.tire, case.findings):
        yield _found(case, slug)


def _cord_shows(case: Case) -> Iterator[Case]:
    yield _found(case, "exposed-cord")


def _flat(case: Case) -> Iterator[Case]:
    yield _found(case, "audible-leak")


def _groove_within(case: Case) -> Iterator[Case]:
    """At most as far out as tread and section reach."""
    tire, section_mm = case.tire, section_width_mm(case.tire.designation)
    widths = [one for one in (tire.tread_width.value if tire.tread_width else None, section_mm) if one is not None]
    yield _tire(case, outer_groove=length_mm(min(widths) / 2))


def _tread_within(case: Case) -> Iterator[Case]:
    section_mm = section_width_mm(case.tire.designation)
    if section_mm is not None:
        yield _tire(case, tread_width=length_mm(section_mm))


def _larger_hole(case: Case) -> Iterator[Case]:
    injuries = [
        replace(one, diameter=one.before_removal)
        if one.before_removal and one.diameter and one.before_removal.value > one.diameter.value
        else one
        for one in case.injuries or ()
    ]
    yield replace(case, injuries=tuple(injuries))


def _long_hole(case: Case) -> Iterator[Case]:
    injuries = [
        replace(one, diameter=one.length)
        if one.kind == "puncture" and one.length and one.diameter and one.length.value > one.diameter.value
        else one
        for one in case.injuries or ()
    ]
    yield replace(case, injuries=tuple(injuries))


def _retread_or_not(case: Case) -> Iterator[Case]:
    yield _tire(case, retreaded=True)
    yield _tire(case, retreaded_on=None)


def _tire_of_the_vehicle(case: Case) -> Iterator[Case]:
    casing, vehicle = case.tire.casing, case.position.vehicle
    for own in casings_on(vehicle or "", casing):
        yield _tire(case, casing=own)
    yield _position(case, vehicle=_VEHICLES_OF.get(casing, "light-truck"))


def _axle_of_the_vehicle(case: Case) -> Iterator[Case]:
    is_trailer = case.position.vehicle == "trailer"
    for axle in ("trailer",) if is_trailer else ("front", "rear"):
        yield _position(case, axle=axle)
    yield _position(case, vehicle="truck" if is_trailer else "trailer")


def _single_or_behind(case: Case) -> Iterator[Case]:
    yield _position(case, dual=False)
    if case.position.axle == "front":
        yield _position(case, axle="drive")


def _one_of_a_pair(case: Case) -> Iterator[Case]:
    yield _position(case, dual=True)


OTHER_READINGS: Mapping[str, Readings] = {
    "contradiction.class_and_size": _casing_of_the_marking,
    "contradiction.vehicle_and_tire": _tire_of_the_vehicle,
    "contradiction.build_and_size": _build_of_the_marking,
    "contradiction.finding_and_size": _said_by_the_marking,
    "contradiction.cord_and_cut": _cord_shows,
    "contradiction.flat_and_pressure": _flat,
    "contradiction.tread_and_section": _tread_within,
    "contradiction.groove_and_width": _groove_within,
    "contradiction.before_and_after": _larger_hole,
    "contradiction.hole_and_length": _long_hole,
    "contradiction.retread_and_day": _retread_or_not,
    "contradiction.vehicle_and_axle": _axle_of_the_vehicle,
    "contradiction.dual_and_axle": _single_or_behind,
    "contradiction.single_and_mate": _one_of_a_pair,
}
