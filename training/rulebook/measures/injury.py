"""Quantities of one injury: what it is, its size, its place and its lean."""

from fractions import Fraction

from training.rulebook.case import Injury
from training.rulebook.case_words import DOUBT, WORDS
from training.rulebook.measures.registry import NOT_HERE, Facts, Found, Reading, a_word, measure, stated, yes_no
from training.rulebook.quantities import read_off
from training.rulebook.spacing import hole_size
from training.trade.speech import say, saying

_MILLIONTHS = 10**6
_INSIDE, _OUTSIDE = saying("{length} inside"), saying("{length} outside")
_IN_DOUBT = Found(saying("in doubt"), word="shoulder")


@measure("injury.kind", "injury", words=WORDS["injury.kind"])
def _injury_kind(_: Facts, injury: Injury) -> Reading:
    """Kind of injury."""
    return a_word(injury.kind)


@measure("injury.build", "injury", words=WORDS["tire.build"])
def _injury_build(facts: Facts, _: object) -> Reading:
    """Build of the injured tire."""
    return a_word(facts.case.tire.build)


@measure("injury.on_wheel", "injury", words=(saying("on the wheel"), saying("off the wheel")))
def _injury_on_wheel(facts: Facts, _: object) -> Reading:
    """Whether the injured tire is still on its wheel."""
    return yes_no(facts.case.on_wheel, "on the wheel", "off the wheel")


def a_zone(zone: str) -> Reading:
    """A zone in words; where nobody can tell it counts as the nearest one outside the crown."""
    return _IN_DOUBT if zone == DOUBT else a_word(zone)


@measure("injury.zone", "injury", words=[zone for zone in WORDS["injury.zone"] if zone != DOUBT])
def _injury_zone(_: Facts, injury: Injury) -> Reading:
    """Zone in words, where no position was measured."""
    if injury.zone is None:
        return NOT_HERE if injury.lateral is not None else None
    return a_zone(injury.zone)


@measure("injury.reaches", "injury", words=WORDS["injury.reaches"])
def _injury_reaches(_: Facts, injury: Injury) -> Reading:
    """What a cut reaches."""
    return a_word(injury.reaches)


@measure("injury.reach_known", "injury", words=(saying("looked into"), saying("not looked into")))
def _injury_reach_known(_: Facts, injury: Injury) -> Reading:
    """Whether anyone has looked into the cut."""
    return a_word("not looked into" if injury.reaches is None else "looked into")


@measure("injury.cut_length", "injury", "length")
def _injury_length(_: Facts, injury: Injury) -> Reading:
    """Length of a cut [mm]."""
    return stated(injury.length)


@measure("injury.diameter", "injury", "length")
def _injury_diameter(_: Facts, injury: Injury) -> Reading:
    """Diameter of the injury after damage removal [mm]; before it, a hole can only grow."""
    size, is_sure = hole_size(injury)
    if size is None:
        return None
    return (
        Found(size.text, size)
        if is_sure
        else Found(say("{size} before damage removal", size=size), size, sense="at_least")
    )


@measure("injury.angle", "injury", "angle")
def _injury_angle(_: Facts, injury: Injury) -> Reading:
    """Angle of the channel from the perpendicular to the tread [deg]."""
    return stated(injury.angle)


def margin(facts: Facts, inside_mm: float, sense: str = "exact") -> Found:
    shown = read_off(inside_mm, facts.prefer).text
    text = say(_OUTSIDE if inside_mm < 0 else _INSIDE, length=shown.lstrip("-"))
    return Found(text, value=inside_mm, sense=sense)


def edge(facts: Facts, half_crown_mm: float | None) -> tuple[float | None, str]:
    """Half width of the crown, never beyond the tread's own edge; the edge alone is the most it can be."""
    width = facts.case.tire.tread_width
    if half_crown_mm is None:
        return (None, "") if width is None else (width.number / 2, "at_most")
    return (half_crown_mm if width is None else min(half_crown_mm, width.number / 2)), "exact"


@measure("injury.crown_margin", "injury", "length")
def _crown_margin(facts: Facts, injury: Injury) -> Reading:
    """How far the whole hole lies inside the repairable crown at the tread [mm], below 0 outside."""
    placed = facts.place(injury)
    if placed.lateral_mm is None:
        return NOT_HERE if injury.zone is not None else None
    half_crown, sense = edge(facts, placed.half_crown_mm)
    if half_crown is None:
        return None
    half = placed.half_lateral_mm
    if half is None:
        half, sense = _least_half_mm(injury), "at_most"
    return margin(facts, round(half_crown - abs(placed.lateral_mm) - half, 6), sense)


def _least_half_mm(injury: Injury) -> float:
    """Half of the least the hole can be [mm], where its size or its lean is not known."""
    size, _ = hole_size(injury)
    return 0.0 if size is None else size.number / 2


@measure("injury.exit_margin", "injury", "length")
def _exit_margin(facts: Facts, injury: Injury) -> Reading:
    """How far the whole hole lies inside the repairable crown at the liner [mm], below 0 outside."""
    placed = facts.place(injury)
    if placed.lateral_mm is None:
        return NOT_HERE if placed.angle_deg == 0 else None
    half_crown, sense = edge(facts, placed.half_crown_mm)
    if half_crown is None or placed.exit_lateral_mm is None:
        return None
    half = placed.half_lateral_mm
    if half is None:
        half, sense = _least_half_mm(injury), "at_most"
    return margin(facts, round(half_crown - abs(placed.exit_lateral_mm) - half, 6), sense)


def from_shoulder(
    facts: Facts, width_mm: float, lateral_mm: float, half_mm: float | None, sense: str = "exact"
) -> Found:
    """The edge of a hole to the nearer edge of the tread; without the hole's own size it can only be less."""
    distance_mm = round(width_mm / 2 - abs(lateral_mm) - (half_mm or 0.0), 6)
    shown = read_off(distance_mm, facts.prefer).text
    text = (
        say("{distance} from the shoulder", distance=shown)
        if distance_mm >= 0
        else say("{distance} beyond it", distance=shown.lstrip("-"))
    )
    exact = Fraction(round(distance_mm * _MILLIONTHS), _MILLIONTHS)  # the limits are no binary fractions
    return Found(text, value=exact, sense=sense if half_mm is not None else "at_most")


@measure("injury.shoulder_distance", "injury", "length")
def _shoulder_distance(facts: Facts, injury: Injury) -> Reading:
    """Distance from the edge of the hole to the nearer shoulder, at the tread [mm]: half the tread, less both."""
    placed, width = facts.place(injury), facts.case.tire.tread_width
    if placed.lateral_mm is None:
        return NOT_HERE if injury.zone is not None else None
    if width is None:
        return None
    half = placed.half_lateral_mm
    if half is None:
        return from_shoulder(facts, width.number, placed.lateral_mm, _least_half_mm(injury), "at_most")
    return from_shoulder(facts, width.number, placed.lateral_mm, half)


@measure("injury.exit_shoulder_distance", "injury", "length")
def _exit_shoulder_distance(facts: Facts, injury: Injury) -> Reading:
    """Distance from the hole's edge to the nearer shoulder, at the liner [mm]."""
    placed, width = facts.place(injury), facts.case.tire.tread_width
    if placed.lateral_mm is None:
        return NOT_HERE if placed.angle_deg == 0 else None
    if width is None or placed.exit_lateral_mm is None:
        return None
    half = placed.half_lateral_mm
    if half is None:
        return from_shoulder(facts, width.number, placed.exit_lateral_mm, _least_half_mm(injury), "at_most")
    return from_shoulder(facts, width.number, placed.exit_lateral_mm, half)
