"""Quantities of repairs: the room between two, what an earlier one is, and what someone means to do."""

from collections.abc import Callable

from training.rulebook.case import EarlierRepair
from training.rulebook.case_words import DOUBT, WORDS
from training.rulebook.geometry import half_crown_mm
from training.rulebook.measures.injury import a_zone, edge, from_shoulder, margin
from training.rulebook.measures.registry import (
    NOT_HERE,
    Apart,
    Facts,
    Found,
    Reading,
    a_word,
    measure,
    stated,
    yes_no,
)
from training.rulebook.quantities import read_off
from training.rulebook.spacing import Gap, Spot, gap_between
from training.trade.speech import say, saying

_APART, _AT_LEAST_APART = saying("{distance} apart"), saying("at least {distance} apart")
_OVERLAP, _AT_LEAST_OVERLAP = saying("overlap of {distance}"), saying("overlap of at least {distance}")


def gap(facts: Facts, apart: Apart, basis: str = "units", sized: Callable[[Spot], Spot] = lambda spot: spot) -> Reading:
    """Free space between two repairs of some kind, each put to size [mm], below 0 where they overlap."""
    between = _between(facts, apart, basis, sized)
    return None if between is None else _apart(facts, between)


def _between(facts: Facts, apart: Apart, basis: str, sized: Callable[[Spot], Spot] = lambda spot: spot) -> Gap | None:
    first, second = facts.spot(apart.first, basis), facts.spot(apart.second, basis)
    if first is None or second is None:
        return None
    return gap_between(facts.case, sized(first), sized(second), facts.liner_mm)


def _apart(facts: Facts, between: Gap) -> Found:
    shown = read_off(between.mm, facts.prefer).text
    if between.mm >= 0:
        pattern = _AT_LEAST_APART if between.sense == "at_least" else _APART
        text = say(pattern, distance=shown)
    else:
        pattern = _AT_LEAST_OVERLAP if between.sense == "at_most" else _OVERLAP
        text = say(pattern, distance=shown.lstrip("-"))
    return Found(text, value=between.mm, sense=between.sense)


@measure("repairs.gap", "pair", "length")
def _gap(facts: Facts, apart: Apart) -> Reading:
    """Free space between two repair units on the liner [mm], below 0 where they overlap.

    Where a unit is not known, no unit leaves room once the hole, or the outline to buff around the hole itself, meets
    that of the other or its unit; and every unit does where even the largest would.
    """
    found = gap(facts, apart)
    if isinstance(found, Found) and (found.sense != "at_most" or (found.value or 0) < facts.free_mm):
        return found
    least = _between(facts, apart, "least")
    if least is not None and least.mm < 0:
        return _apart(facts, least._replace(sense="at_most"))
    most = _between(facts, apart, "most")
    return _apart(facts, most) if most is not None and most.mm >= facts.free_mm else found


# --- an earlier repair


@measure("repair.kind", "repair", words=WORDS["earlier_repair.kind"])
def _repair_kind(_: Facts, repair: EarlierRepair) -> Reading:
    """Kind of an earlier repair."""
    return a_word(repair.kind)


@measure("repair.zone", "repair", words=[zone for zone in WORDS["earlier_repair.zone"] if zone != DOUBT])
def _repair_zone(_: Facts, repair: EarlierRepair) -> Reading:
    """Zone of an earlier repair."""
    if repair.zone is None:
        return NOT_HERE if repair.lateral is not None else None
    return a_zone(repair.zone)


@measure("repair.sound", "repair", words=(saying("sound"), saying("not sound"), saying("in doubt")))
def _repair_sound(_: Facts, repair: EarlierRepair) -> Reading:
    """Whether an earlier repair is sound."""
    return yes_no(repair.sound, "sound", "not sound")


@measure("repair.injury", "repair", "length")
def _repair_injury(_: Facts, repair: EarlierRepair) -> Reading:
    """Diameter of the injury that was repaired [mm]."""
    return stated(repair.injury)


@measure("repair.crown_margin", "repair", "length")
def _repair_margin(facts: Facts, repair: EarlierRepair) -> Reading:
    """How far an earlier repair's hole lies inside the repairable crown [mm]."""
    if repair.lateral is None:
        return NOT_HERE
    half_crown, sense = edge(facts, half_crown_mm(facts.case, facts.crown))
    if half_crown is None:
        return None
    if repair.injury is None:  # how far its edge reaches is not known
        return margin(facts, round(half_crown - abs(repair.lateral.number), 6), "at_most")
    return margin(facts, round(half_crown - abs(repair.lateral.number) - repair.injury.number / 2, 6), sense)


@measure("repair.shoulder_distance", "repair", "length")
def _repair_shoulder_distance(facts: Facts, repair: EarlierRepair) -> Reading:
    """Distance from an earlier repair's hole to the nearer shoulder [mm]: half the tread, less lateral and hole."""
    width = facts.case.tire.tread_width
    if repair.lateral is None:
        return NOT_HERE if repair.zone is not None else None
    if width is None:
        return None
    half = repair.injury.number / 2 if repair.injury is not None else None
    return from_shoulder(facts, width.number, repair.lateral.number, half)


@measure("repairs.proper", "tire", words=(saying("properly repaired"), saying("not properly repaired")))
def _repairs_proper(facts: Facts, _: object) -> Reading:
    """Whether a later sound one-piece or two-piece repair is there."""
    repairs = facts.case.earlier_repairs
    if repairs is None:
        return a_word("not properly repaired")
    proper = any(repair.kind in ("one-piece", "two-piece") and repair.sound is True for repair in repairs)
    return a_word("properly repaired" if proper else "not properly repaired")


# --- a repair someone means to do


@measure("proposed.kind", "proposal", words=WORDS["proposed"])
def _proposed(facts: Facts, _: object) -> Reading:
    """The repair someone means to do."""
    return a_word(facts.case.proposed)


@measure("proposed.one_piece_angle", "proposal", "angle")
def _proposed_angle(facts: Facts, _: object) -> Reading:
    """Steepest channel angle a proposed one-piece unit would have to follow [deg]."""
    if facts.case.proposed != "one-piece":
        return NOT_HERE
    angles = [injury.angle for injury in facts.case.injuries or () if injury.kind == "puncture"]
    known = [angle for angle in angles if angle is not None]
    if not known:
        return None
    steepest = max(known, key=lambda angle: angle.value)
    return Found(steepest.printed, steepest, sense="exact" if len(known) == len(angles) else "at_least")
