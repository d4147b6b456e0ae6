"""Facts that cannot both be true: what was stated twice, and differently.

Each gives NOT_HERE where they agree, and where one of the two was not stated: what nobody said contradicts nothing.
"""

from collections.abc import Callable
from datetime import date
from functools import lru_cache

from training.rulebook.case import EarlierRepair, Injury
from training.rulebook.case_words import UNREADABLE
from training.rulebook.dates import production_week
from training.rulebook.designation import section_width_mm
from training.rulebook.measures.registry import NOT_HERE, Facts, Found, Read, Reading, measure
from training.rulebook.size_says import marked_build, other_casing, unsaid
from training.trade.days import written_day
from training.trade.speech import say
from training.trade.words import BUILD_WORDS, CASING_WORDS, written

_TRUCKS = ("truck", "bus")
_WHAT_RUNS_ON = {"car": "passenger", "motorcycle": "motorcycle"}
_RUNS_ON = {"truck": "truck", "motorcycle": "motorcycle"}

_WORDS = ("disagree",)


def _disagree(told: str) -> Found:
    return Found(told, word="disagree")


def _contradiction(name: str, about: str = "tire", *, needs: str) -> Callable[[Callable[..., Reading]], Read]:
    """Register a comparison: both facts in words where they disagree, else NOT_HERE: of what agrees nothing is said."""
    return measure(f"contradiction.{name}", about, words=_WORDS, needs=needs)


@lru_cache(maxsize=4096)
def _section_mm(marking: str | None) -> float | None:
    width_mm = section_width_mm(marking)
    return None if width_mm is None else float(width_mm)


@_contradiction("class_and_size", needs="tire.designation")
def _class_and_size(facts: Facts, _: object) -> Reading:
    """Whether the casing as stated is one that the size marking speaks of."""
    tire = facts.case.tire
    if tire.designation in (None, UNREADABLE):
        return NOT_HERE
    other = other_casing(tire.casing, tire.designation)
    return (
        _disagree(
            say("{tire}, marking {designation}", tire=CASING_WORDS[tire.casing].one, designation=tire.designation)
        )
        if other
        else NOT_HERE
    )


@_contradiction("build_and_size", needs="tire.build")
def _build_and_size(facts: Facts, _: object) -> Reading:
    """Whether the build as stated is the one that the size marking gives."""
    tire = facts.case.tire
    marked = marked_build(tire.designation) if tire.build is not None else None
    is_wrong = marked is not None and (
        (tire.build in ("radial", "bias") and tire.build != marked)
        or (tire.build in ("self-supporting", "self-sealing", "foam-lined") and marked == "bias")
        or (tire.build == "tubed" and marked == "self-supporting")
    )
    if not is_wrong:
        return NOT_HERE
    built = BUILD_WORDS.get(tire.build or "") or say("{build} build", build=written(tire.build or ""))
    return _disagree(say("{built}, marking {designation}", built=built, designation=tire.designation))


@_contradiction("finding_and_size", needs="tire.designation")
def _finding_and_size(facts: Facts, _: object) -> Reading:
    """Whether the size marking says what the findings deny."""
    told = unsaid(facts.case.tire, facts.case.findings)
    return _disagree(told[0][1]) if told else NOT_HERE


@_contradiction("cord_and_cut", needs="injuries")
def _cord_and_cut(facts: Facts, _: object) -> Reading:
    """Whether cord shows in a worn or torn place although none was found to show; a cut hides what it reaches."""
    case = facts.case
    if not case.injuries or case.findings.get("exposed-cord") is not False:
        return NOT_HERE
    for one in case.injuries:
        if one.kind == "surface" and one.reaches == "cord":
            return _disagree(say("no cord showing, {id} reaches cord", id=one.id))
    return NOT_HERE


@_contradiction("flat_and_pressure", needs="pressure.found")
def _flat_and_pressure(facts: Facts, _: object) -> Reading:
    """Whether a tire without air was found not to be flat."""
    case = facts.case
    if case.pressure.found is None or case.pressure.found.value > 0:
        return NOT_HERE
    return (
        _disagree(say("not flat, {found} found", found=case.pressure.found))
        if case.findings.get("audible-leak") is False
        else NOT_HERE
    )


@_contradiction("groove_and_width", needs="tire.outer_groove")
def _groove_and_width(facts: Facts, _: object) -> Reading:
    """Whether the outermost groove lies on the tread and within the section."""
    tire = facts.case.tire
    section = _section_mm(tire.designation)
    if tire.outer_groove is None or (tire.tread_width is None and section is None):
        return NOT_HERE
    if tire.tread_width is not None and tire.outer_groove.number * 2 > tire.tread_width.number:
        return _disagree(
            say(
                "groove {outer_groove} from the centerline, tread {tread_width} wide",
                outer_groove=tire.outer_groove,
                tread_width=tire.tread_width,
            )
        )
    if section is not None and tire.outer_groove.number * 2 > section:
        return _disagree(
            say(
                "groove {outer_groove} from the centerline, marking {designation}",
                outer_groove=tire.outer_groove,
                designation=tire.designation,
            )
        )
    return NOT_HERE


@_contradiction("tread_and_section", needs="tire.tread_width")
def _tread_and_section(facts: Facts, _: object) -> Reading:
    """Whether the tread is narrower than the section."""
    tire = facts.case.tire
    section = _section_mm(tire.designation)
    if tire.tread_width is None or section is None:
        return NOT_HERE
    wide = tire.tread_width.number > section
    return (
        _disagree(
            say(
                "tread {tread_width} wide, marking {designation}",
                tread_width=tire.tread_width,
                designation=tire.designation,
            )
        )
        if wide
        else NOT_HERE
    )


def _off_the_tire(facts: Facts, one: Injury | EarlierRepair) -> Reading:
    if one.lateral is None:
        return NOT_HERE
    tire = facts.case.tire
    width = _section_mm(tire.designation)
    if width is None or abs(one.lateral.number) * 2 <= width:
        return NOT_HERE
    return _disagree(
        say("{lateral} from the centerline, marking {designation}", lateral=one.lateral, designation=tire.designation)
    )


def _other_place(facts: Facts, one: Injury | EarlierRepair) -> Reading:
    """The crown is never beyond the tread, side and bead never within it; a place with no zone is on the tread."""
    width = facts.case.tire.tread_width
    if one.lateral is None or width is None:
        return NOT_HERE
    is_outside = abs(one.lateral.number) * 2 > width.number
    if one.zone is None:
        if not is_outside:
            return NOT_HERE
        return _disagree(say("{lateral} from the centerline of a tread {width} wide", lateral=one.lateral, width=width))
    wrong = is_outside if one.zone == "crown" else not is_outside and one.zone in ("sidewall", "bead")
    if not wrong:
        return NOT_HERE
    return _disagree(
        say(
            "zone {zone}, {lateral} from the centerline of a tread {width} wide",
            zone=written(one.zone),
            lateral=one.lateral,
            width=width,
        )
    )


@_contradiction("place_and_width", "injury", needs="lateral")
def _place_and_width(facts: Facts, injury: Injury) -> Reading:
    """Whether the injury lies on the tire at all."""
    return _off_the_tire(facts, injury)


@_contradiction("zone_and_place", "injury", needs="lateral")
def _zone_and_place(facts: Facts, injury: Injury) -> Reading:
    """Whether zone and distance from the centerline name the same place."""
    return _other_place(facts, injury)


@_contradiction("repair_and_width", "repair", needs="lateral")
def _repair_and_width(facts: Facts, repair: EarlierRepair) -> Reading:
    """Whether the earlier repair lies on the tire at all."""
    return _off_the_tire(facts, repair)


@_contradiction("repair_zone_and_place", "repair", needs="lateral")
def _repair_zone_and_place(facts: Facts, repair: EarlierRepair) -> Reading:
    """Whether zone and distance from the centerline of an earlier repair name the same place."""
    return _other_place(facts, repair)


@_contradiction("before_and_after", "injury", needs="before_removal")
def _before_and_after(_: Facts, injury: Injury) -> Reading:
    """Whether the hole grew when the damage was removed: it cannot shrink."""
    before, after = injury.before_removal, injury.diameter
    if before is None or after is None:
        return NOT_HERE
    return (
        _disagree(say("{before} before damage removal, {after} after", before=before, after=after))
        if before.number > after.number
        else NOT_HERE
    )


@_contradiction("hole_and_length", "injury", needs="length")
def _hole_and_length(_: Facts, injury: Injury) -> Reading:
    """Whether a hole is longer than it is large."""
    if injury.kind != "puncture" or injury.length is None or injury.diameter is None:
        return NOT_HERE
    longer = injury.length.number > injury.diameter.number
    return (
        _disagree(say("{diameter} large, {length} long", diameter=injury.diameter, length=injury.length))
        if longer
        else NOT_HERE
    )


@_contradiction("unit_and_hole", "repair", needs="unit")
def _unit_and_hole(_: Facts, repair: EarlierRepair) -> Reading:
    """Whether the unit of an earlier repair covers the hole it was put on."""
    if repair.unit is None or repair.injury is None:
        return NOT_HERE
    small = min(repair.unit.length.number, repair.unit.width.number) <= repair.injury.number
    return (
        _disagree(
            say(
                "unit {length} by {width}, hole {injury}",
                length=repair.unit.length,
                width=repair.unit.width,
                injury=repair.injury,
            )
        )
        if small
        else NOT_HERE
    )


def _when(day_or_code: str) -> str:
    return (
        written_day(date.fromisoformat(day_or_code))
        if "-" in day_or_code
        else say("by its date code {code}", code=day_or_code)
    )


@_contradiction("retread_and_day", needs="tire.retreaded_on")
def _retread_and_day(facts: Facts, _: object) -> Reading:
    """Whether the day of retreading fits the tire and the day of the check."""
    tire, on = facts.case.tire, facts.case.on
    if tire.retreaded_on is None:
        return NOT_HERE
    if tire.retreaded is False:
        return _disagree(say("not a retread, retreaded {when}", when=_when(tire.retreaded_on)))
    day = date.fromisoformat(tire.retreaded_on) if "-" in tire.retreaded_on else production_week(tire.retreaded_on)[0]
    if on is not None and day > on:
        return _disagree(say("retreaded {when}, today {today}", when=_when(tire.retreaded_on), today=written_day(on)))
    if tire.date_code not in (None, UNREADABLE) and day < production_week(tire.date_code)[0]:
        return _disagree(
            say("date code {date_code}, retreaded {when}", date_code=tire.date_code, when=_when(tire.retreaded_on))
        )
    return NOT_HERE


@_contradiction("date_code_and_day", needs="tire.date_code")
def _date_code_and_day(facts: Facts, _: object) -> Reading:
    """Whether the week of manufacture has come."""
    code, on = facts.case.tire.date_code, facts.case.on
    if code is None or code == UNREADABLE or on is None:
        return NOT_HERE
    return (
        _disagree(say("date code {code}, today {today}", code=code, today=written_day(on)))
        if production_week(code)[0] > on
        else NOT_HERE
    )


def casings_on(vehicle: str, casing: str) -> tuple[str, ...]:
    """What the vehicle would carry instead, where it cannot carry such a casing."""
    if vehicle in _WHAT_RUNS_ON:
        own = _WHAT_RUNS_ON[vehicle]
        only = vehicle == "motorcycle" or casing in _RUNS_ON  # a van's tire is also fitted to cars
        return (own,) if casing != own and only else ()
    return (("truck",) if vehicle in _TRUCKS else ("light-truck",)) if casing == "motorcycle" else ()


@_contradiction("vehicle_and_tire", needs="position.vehicle")
def _vehicle_and_tire(facts: Facts, _: object) -> Reading:
    """Whether such a vehicle can carry such a tire."""
    casing, vehicle = facts.case.tire.casing, facts.case.position.vehicle
    if vehicle is None or not casings_on(vehicle, casing):
        return NOT_HERE
    return _disagree(
        say(
            "{tire} on a {vehicle}",
            tire=CASING_WORDS[casing].one,
            vehicle=written(vehicle),
        )
    )


@_contradiction("vehicle_and_axle", needs="position.axle")
def _vehicle_and_axle(facts: Facts, _: object) -> Reading:
    """Whether the vehicle has such an axle: a trailer drives none, and a truck alone is taken with one."""
    vehicle, axle = facts.case.position.vehicle, facts.case.position.axle
    if vehicle is None or axle is None:
        return NOT_HERE
    is_wrong = axle == "drive" if vehicle == "trailer" else axle == "trailer" and vehicle != "truck"
    return (
        _disagree(say("{axle} axle of a {vehicle}", axle=written(axle), vehicle=written(vehicle)))
        if is_wrong
        else NOT_HERE
    )


@_contradiction("dual_and_axle", needs="position.dual")
def _dual_and_axle(facts: Facts, _: object) -> Reading:
    """Whether a pair stands where pairs can stand: never on a front axle, never on a motorcycle or a car."""
    position = facts.case.position
    if not position.dual:
        return NOT_HERE
    if position.vehicle in ("motorcycle", "car"):
        return _disagree(say("one of a pair, on a {vehicle}", vehicle=written(position.vehicle)))
    return _disagree(say("one of a pair, on the front axle")) if position.axle == "front" else NOT_HERE


@_contradiction("single_and_mate", needs="dual_mate")
def _single_and_mate(facts: Facts, _: object) -> Reading:
    """Whether a tire that runs single has a mate beside it."""
    if facts.case.position.dual is not False or facts.case.dual_mate is None:
        return NOT_HERE
    return _disagree(say("runs single, mate {diameter} across", diameter=facts.case.dual_mate.diameter))


@_contradiction("pressure_and_maximum", needs="pressure.sidewall_max")
def _pressure_and_maximum(facts: Facts, _: object) -> Reading:
    """Whether the recommended pressure is one that the sidewall allows."""
    pressure = facts.case.pressure
    if pressure.sidewall_max is None or pressure.recommended is None:
        return NOT_HERE
    if pressure.recommended.value <= pressure.sidewall_max.value:
        return NOT_HERE
    return _disagree(
        say(
            "{recommended} recommended, molded maximum {sidewall_max}",
            recommended=pressure.recommended,
            sidewall_max=pressure.sidewall_max,
        )
    )


@_contradiction("load_and_mass", needs="position.gross_mass")
def _load_and_mass(facts: Facts, _: object) -> Reading:
    """Whether no tire carries more than the whole vehicle weighs."""
    position = facts.case.position
    if position.gross_mass is None or (position.carried is None and position.asked_load is None):
        return NOT_HERE
    for load in (position.carried, position.asked_load):
        if load is not None and load.value > position.gross_mass.value:
            return _disagree(
                say("{load} on one tire, {gross_mass} gross mass", load=load, gross_mass=position.gross_mass)
            )
    return NOT_HERE
