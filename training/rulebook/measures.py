"""The quantities a clause may name: one function each, computing it from a case, with its unit."""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import NamedTuple

from training.rulebook.case import Case, EarlierRepair, Injury
from training.rulebook.geometry import CrownRule, InjuryGeometry, half_crown_mm, place_injury
from training.rulebook.quantity import UNITS, Quantity, length_mm, quantity
from training.rulebook.spacing import Spot, gap_between, injury_spot, repair_spot
from training.rulebook.units import RepairUnit
from training.rulebook.vocabulary import DOUBT, FINDINGS, WORDS


class Found(NamedTuple):
    """What a measure found. `sense`: "exact", or "at_least"/"at_most" where it is only known to be that much."""

    text: str
    measured: Quantity | None = None
    word: str | None = None
    value: Fraction | float | None = None
    sense: str = "exact"


class Apart(NamedTuple):
    """Two repairs on one liner, as the subject of a spacing rule."""

    first: Injury
    second: Injury | EarlierRepair


Reading = Found | None | str
"""None: not examined. NOT_HERE: the question does not arise for this subject."""
NOT_HERE = "not here"


class Facts:
    """A case with what is computed from it only once."""

    __slots__ = ("_placed", "case", "crown", "margin_mm", "units")

    def __init__(self, case: Case, crown: CrownRule | None, units: Sequence[RepairUnit], margin_mm: float) -> None:
        self.case, self.crown, self.units, self.margin_mm = case, crown, units, margin_mm
        self._placed: dict[str, InjuryGeometry] = {}

    def place(self, injury: Injury) -> InjuryGeometry:
        """Geometry of an injury, computed once."""
        placed = self._placed.get(injury.id)
        if placed is None:
            placed = self._placed[injury.id] = place_injury(self.case, injury, self.crown)
        return placed

    def spot(self, repair: Injury | EarlierRepair, basis: str) -> Spot | None:
        """Where the repair of an injury, or an earlier one, sits on the liner."""
        if isinstance(repair, EarlierRepair):
            return repair_spot(self.case, repair, basis, self.margin_mm)
        return injury_spot(self.case, repair, self.place(repair), self.units, basis, self.margin_mm)


Read = Callable[[Facts, object], Reading]


@dataclass(frozen=True, slots=True)
class Measure:
    """A quantity a clause may name. `about`: tire, injury, repair, pair, proposal, doubt or job."""

    name: str
    about: str
    dimension: str
    words: tuple[str, ...]
    meaning: str
    read: Read | None


MEASURES: dict[str, Measure] = {}


def _measure(name: str, about: str, dimension: str = "", words: Iterable[str] = ()) -> Callable[[Callable[..., Reading]], Read]:
    def keep(read: Callable[..., Reading]) -> Read:
        meaning = (read.__doc__ or "").split("\n")[0]
        MEASURES[name] = Measure(name, about, dimension, tuple(words), meaning, read)
        return read

    return keep


def _stated(measured: Quantity | None) -> Found | None:
    return None if measured is None else Found(measured.text, measured)


def _word(word: str | None) -> Found | None:
    return None if word is None else Found(word, word=word)


def _yes_no(answer: bool | str | None, yes: str, no: str) -> Found | None:
    if answer is None:
        return None
    return _word("in doubt" if answer == DOUBT else yes if answer else no)


# --- the tire


@_measure("tire.casing", "tire", words=WORDS["tire.casing"])
def _casing(facts: Facts, _: object) -> Reading:
    """Casing class, from the ply material on the sidewall."""
    return _word(facts.case.tire.casing)


@_measure("tire.build", "tire", words=WORDS["tire.build"])
def _build(facts: Facts, _: object) -> Reading:
    """Build of the tire."""
    return _word(facts.case.tire.build)


@_measure("tire.on_wheel", "tire", words=("on the wheel", "off the wheel"))
def _on_wheel(facts: Facts, _: object) -> Reading:
    """Whether the tire is still on its wheel."""
    return _yes_no(facts.case.on_wheel, "on the wheel", "off the wheel")


@_measure("tire.retread", "tire", words=("retreaded", "not retreaded"))
def _retread(facts: Facts, _: object) -> Reading:
    """Whether the tire is a retread."""
    return _yes_no(facts.case.tire.retreaded, "retreaded", "not retreaded")


@_measure("tire.date_code", "tire", words=("readable", "unreadable"))
def _date_code(facts: Facts, _: object) -> Reading:
    """Whether the date code can be read."""
    code = facts.case.tire.date_code
    return None if code is None else _word("unreadable" if code == "unreadable" else "readable")


@_measure("tire.size_marking", "tire", words=("readable", "unreadable"))
def _size_marking(facts: Facts, _: object) -> Reading:
    """Whether the size marking can be read."""
    size = facts.case.tire.designation
    return None if size is None else _word("unreadable" if size == "unreadable" else "readable")


@_measure("position.vehicle", "tire", words=WORDS["position.vehicle"])
def _vehicle(facts: Facts, _: object) -> Reading:
    """Vehicle the tire runs on."""
    return _word(facts.case.position.vehicle)


@_measure("position.axle", "tire", words=WORDS["position.axle"])
def _axle(facts: Facts, _: object) -> Reading:
    """Axle the tire runs on."""
    return _word(facts.case.position.axle)


@_measure("position.wheel", "tire", words=WORDS["position.wheel"])
def _wheel(facts: Facts, _: object) -> Reading:
    """Kind of wheel."""
    return _word(facts.case.position.wheel)


@_measure("position.dual", "tire", words=("dual", "single"))
def _dual(facts: Facts, _: object) -> Reading:
    """Whether the tire runs in a dual pair."""
    return _yes_no(facts.case.position.dual, "dual", "single")


@_measure("position.gross_mass", "tire", "mass")
def _gross_mass(facts: Facts, _: object) -> Reading:
    """Gross mass of the vehicle [kg]."""
    return _stated(facts.case.position.gross_mass)


@_measure("jurisdiction", "tire", words=())
def _jurisdiction(facts: Facts, _: object) -> Reading:
    """Whose law the case names."""
    return _word(facts.case.jurisdiction)


@_measure("pressure.ratio", "tire", "percent")
def _pressure_ratio(facts: Facts, _: object) -> Reading:
    """Pressure as found over the recommended pressure [%]."""
    pressure = facts.case.pressure
    if pressure.recommended is None or pressure.found is None:
        return None
    ratio = pressure.found.value * 100 / pressure.recommended.value
    shown = quantity(ratio, "%", places=1)
    return Found(f"{shown} ({pressure.found} of {pressure.recommended})", value=ratio)


@_measure("dual.difference", "tire", "length")
def _dual_difference(facts: Facts, _: object) -> Reading:
    """Difference of the outer diameters of a dual pair [mm]."""
    mate = facts.case.dual_mate
    if mate is None:
        return None
    difference = abs(mate.diameter.value - mate.own_diameter.value)
    if mate.diameter.unit != mate.own_diameter.unit:
        return Found(f"{length_mm(difference)}", value=difference)
    unit = mate.diameter.unit
    shown = quantity(difference / UNITS["length"][unit], unit)
    return Found(shown.text, Quantity(shown.text, difference, unit, "length"))


# --- tread depth


def _shallowest(depths: Iterable[Quantity]) -> Found:
    least = min(depths, key=lambda depth: depth.value)
    return Found(least.text, least)


@_measure("tread.least_depth", "tire", "length")
def _least_depth(facts: Facts, _: object) -> Reading:
    """Least tread depth measured at any point [mm]."""
    readings = facts.case.tread_depths
    return _shallowest(reading.depth for reading in readings) if readings else None


@_measure("tread.greatest_depth", "tire", "length")
def _greatest_depth(facts: Facts, _: object) -> Reading:
    """Greatest tread depth measured at any point [mm]."""
    readings = facts.case.tread_depths
    if not readings:
        return None
    most = max((reading.depth for reading in readings), key=lambda depth: depth.value)
    return Found(most.text, most)


@_measure("tread.adjacent_depth", "tire", "length")
def _adjacent_depth(facts: Facts, _: object) -> Reading:
    """Tread depth by two adjacent grooves [mm]: the worst pair's best reading, else the least reading.

    A pair fails only where both grooves are below the limit at every place measured (49 CFR 570.9, from memory), so a
    pair counts with its greatest reading. A groove without a measured neighbor counts with its least.
    """
    readings = facts.case.tread_depths
    if not readings:
        return None
    grooves: dict[int, list[Quantity]] = {}
    counted: list[Quantity] = []
    for reading in readings:
        if reading.groove is None:
            counted.append(reading.depth)
        else:
            grooves.setdefault(reading.groove, []).append(reading.depth)
    for groove, depths in grooves.items():
        if groove + 1 in grooves:
            counted.append(max(depths + grooves[groove + 1], key=lambda depth: depth.value))
        elif groove - 1 not in grooves:
            counted.append(min(depths, key=lambda depth: depth.value))
    return _shallowest(counted)


# --- findings


def _read_finding(slug: str) -> Read:
    def read(facts: Facts, _: object) -> Reading:
        return _yes_no(facts.case.findings.get(slug), "found", "not found")

    return read


for _slug in FINDINGS:
    MEASURES[f"finding.{_slug}"] = Measure(
        f"finding.{_slug}", "tire", "", ("found", "not found"), WORDS["findings"][_slug], _read_finding(_slug)
    )


@_measure("finding.doubt", "doubt", words=("in doubt",))
def _doubt(_facts: Facts, _slug: object) -> Reading:
    """A finding that was looked for and cannot be told."""
    return _word("in doubt")


# --- one injury


@_measure("injury.kind", "injury", words=WORDS["injury.kind"])
def _injury_kind(_: Facts, injury: Injury) -> Reading:
    """Kind of injury."""
    return _word(injury.kind)


@_measure("injury.build", "injury", words=WORDS["tire.build"])
def _injury_build(facts: Facts, _: object) -> Reading:
    """Build of the injured tire."""
    return _word(facts.case.tire.build)


@_measure("injury.on_wheel", "injury", words=("on the wheel", "off the wheel"))
def _injury_on_wheel(facts: Facts, _: object) -> Reading:
    """Whether the injured tire is still on its wheel."""
    return _on_wheel(facts, _)


@_measure("injury.zone", "injury", words=WORDS["injury.zone"])
def _injury_zone(_: Facts, injury: Injury) -> Reading:
    """Zone in words, where no position was measured."""
    if injury.zone is None:
        return NOT_HERE if injury.lateral is not None else None
    return _word(injury.zone)


@_measure("injury.reaches", "injury", words=WORDS["injury.reaches"])
def _injury_reaches(_: Facts, injury: Injury) -> Reading:
    """What a cut reaches."""
    return _word(injury.reaches)


@_measure("injury.reach_known", "injury", words=("looked into", "not looked into"))
def _injury_reach_known(_: Facts, injury: Injury) -> Reading:
    """Whether anyone has looked into the cut."""
    return _word("not looked into" if injury.reaches is None else "looked into")


@_measure("injury.cut_length", "injury", "length")
def _injury_length(_: Facts, injury: Injury) -> Reading:
    """Length of a cut [mm]."""
    return _stated(injury.length)


@_measure("injury.diameter", "injury", "length")
def _injury_diameter(_: Facts, injury: Injury) -> Reading:
    """Diameter of the injury after damage removal [mm]; before it, a hole can only grow."""
    before, after = injury.before_removal, injury.diameter
    if after is None:
        return None if before is None else Found(f"{before} before damage removal", before, sense="at_least")
    if before is not None and before.value > after.value:
        return Found(before.text, before)
    return Found(after.text, after)


@_measure("injury.before_removal", "injury", "length")
def _injury_before(_: Facts, injury: Injury) -> Reading:
    """Diameter of the injury before damage removal [mm]."""
    return _stated(injury.before_removal or injury.diameter)


@_measure("injury.angle", "injury", "angle")
def _injury_angle(_: Facts, injury: Injury) -> Reading:
    """Angle of the channel from the perpendicular to the tread [deg]."""
    return _stated(injury.angle)


def _margin(inside_mm: float, sense: str = "exact") -> Found:
    text = f"{length_mm(inside_mm)} inside" if inside_mm >= 0 else f"{length_mm(-inside_mm)} outside"
    return Found(text, value=inside_mm, sense=sense)


def _edge(facts: Facts, placed: InjuryGeometry) -> tuple[float | None, str]:
    """Half width of the crown, or of the whole tread as the most it can be."""
    if placed.half_crown_mm is not None:
        return placed.half_crown_mm, "exact"
    width = facts.case.tire.tread_width
    return (None, "") if width is None else (width.number / 2, "at_most")


@_measure("injury.crown_margin", "injury", "length")
def _crown_margin(facts: Facts, injury: Injury) -> Reading:
    """How far the whole hole lies inside the repairable crown at the tread [mm], below 0 outside."""
    placed = facts.place(injury)
    if placed.lateral_mm is None:
        return NOT_HERE if injury.zone is not None else None
    edge, sense = _edge(facts, placed)
    if edge is None:
        return None
    half = placed.half_lateral_mm
    if half is None:
        half, sense = (placed.diameter_mm or 0.0) / 2, "at_most"
    return _margin(round(edge - abs(placed.lateral_mm) - half, 6), sense)


@_measure("injury.crown_margin_of_center", "injury", "length")
def _crown_margin_of_center(facts: Facts, injury: Injury) -> Reading:
    """How far the center of the hole lies inside the repairable crown at the tread [mm]."""
    placed = facts.place(injury)
    if placed.lateral_mm is None:
        return NOT_HERE if injury.zone is not None else None
    edge, sense = _edge(facts, placed)
    return None if edge is None else _margin(round(edge - abs(placed.lateral_mm), 6), sense)


@_measure("injury.tread_edge_margin", "injury", "length")
def _tread_edge_margin(facts: Facts, injury: Injury) -> Reading:
    """How far the center of the hole lies inside the edge of the tread [mm]."""
    width = facts.case.tire.tread_width
    if injury.lateral is None or width is None:
        return None
    return _margin(round(width.number / 2 - abs(injury.lateral.number), 6))


@_measure("injury.exit_margin", "injury", "length")
def _exit_margin(facts: Facts, injury: Injury) -> Reading:
    """How far the whole hole lies inside the repairable crown at the liner [mm], below 0 outside."""
    placed = facts.place(injury)
    if placed.lateral_mm is None:
        return NOT_HERE if placed.angle_deg == 0 else None
    edge, sense = _edge(facts, placed)
    if edge is None or placed.exit_lateral_mm is None:
        return None
    half = placed.half_lateral_mm
    if half is None:
        half, sense = 0.0, "at_most"
    return _margin(round(edge - abs(placed.exit_lateral_mm) - half, 6), sense)


@_measure("injury.exit_margin_of_center", "injury", "length")
def _exit_margin_of_center(facts: Facts, injury: Injury) -> Reading:
    """How far the center of the hole lies inside the repairable crown at the liner [mm]."""
    placed = facts.place(injury)
    edge, sense = _edge(facts, placed)
    if edge is None or placed.exit_lateral_mm is None:
        return None
    return _margin(round(edge - abs(placed.exit_lateral_mm), 6), sense)


# --- two repairs, by the units' rectangles


def _gap(basis: str) -> Callable[..., Reading]:
    def read(facts: Facts, apart: Apart) -> Reading:
        sized = "units" if basis == "no-wrap" else basis
        first, second = facts.spot(apart.first, sized), facts.spot(apart.second, sized)
        if first is None or second is None:
            return None
        liner = facts.place(apart.first).liner_circumference_mm
        gap = gap_between(facts.case, first, second, liner, wraps=basis != "no-wrap")
        if gap is None:
            return None
        text = f"{length_mm(gap.mm)} apart" if gap.mm >= 0 else f"overlap of {length_mm(-gap.mm)}"
        return Found(text, value=gap.mm, sense=gap.sense)

    return read


for _name, _basis, _meaning in (
    ("repairs.gap", "units", "Free space between two repair units on the liner [mm], below 0 where they overlap."),
    ("repairs.gap_of_holes", "holes", "Free space between two holes on the liner [mm]."),
    ("repairs.gap_of_outlines", "outlines", "Free space between two buffed outlines on the liner [mm]."),
    ("repairs.gap_without_wrap", "no-wrap", "Free space between two units as if the liner ended at 0 deg [mm]."),
):
    MEASURES[_name] = Measure(_name, "pair", "length", (), _meaning, _gap(_basis))


# --- an earlier repair


@_measure("repair.kind", "repair", words=WORDS["earlier_repair.kind"])
def _repair_kind(_: Facts, repair: EarlierRepair) -> Reading:
    """Kind of an earlier repair."""
    return _word(repair.kind)


@_measure("repair.zone", "repair", words=WORDS["earlier_repair.zone"])
def _repair_zone(_: Facts, repair: EarlierRepair) -> Reading:
    """Zone of an earlier repair."""
    if repair.zone is None:
        return NOT_HERE if repair.lateral is not None else None
    return _word(repair.zone)


@_measure("repair.sound", "repair", words=("sound", "not sound", "in doubt"))
def _repair_sound(_: Facts, repair: EarlierRepair) -> Reading:
    """Whether an earlier repair is sound."""
    return _yes_no(repair.sound, "sound", "not sound")


@_measure("repair.injury", "repair", "length")
def _repair_injury(_: Facts, repair: EarlierRepair) -> Reading:
    """Diameter of the injury that was repaired [mm]."""
    return _stated(repair.injury)


@_measure("repair.crown_margin", "repair", "length")
def _repair_margin(facts: Facts, repair: EarlierRepair) -> Reading:
    """How far an earlier repair's hole lies inside the repairable crown [mm]."""
    if repair.lateral is None:
        return NOT_HERE
    edge, sense = half_crown_mm(facts.case, facts.crown), "exact"
    if edge is None:
        width = facts.case.tire.tread_width
        if width is None:
            return None
        edge, sense = width.number / 2, "at_most"
    half = repair.injury.number / 2 if repair.injury is not None else 0.0
    return _margin(round(edge - abs(repair.lateral.number) - half, 6), sense)


@_measure("repairs.proper", "tire", words=("properly repaired", "not properly repaired"))
def _repairs_proper(facts: Facts, _: object) -> Reading:
    """Whether a later sound one-piece or two-piece repair is there."""
    repairs = facts.case.earlier_repairs
    if repairs is None:
        return _word("not properly repaired")
    proper = any(repair.kind in ("one-piece", "two-piece") and repair.sound is True for repair in repairs)
    return _word("properly repaired" if proper else "not properly repaired")


# --- a repair someone means to do


@_measure("proposed.kind", "proposal", words=WORDS["proposed"])
def _proposed(facts: Facts, _: object) -> Reading:
    """The repair someone means to do."""
    return _word(facts.case.proposed)


@_measure("proposed.one_piece_angle", "proposal", "angle")
def _proposed_angle(facts: Facts, _: object) -> Reading:
    """Steepest channel angle a proposed one-piece unit would have to follow [deg]."""
    if facts.case.proposed != "one-piece":
        return NOT_HERE
    angles = [injury.angle for injury in facts.case.injuries or () if injury.kind == "puncture"]
    known = [angle for angle in angles if angle is not None]
    if not known:
        return None
    steepest = max(known, key=lambda angle: angle.value)
    return Found(steepest.text, steepest, sense="exact" if len(known) == len(angles) else "at_least")


# --- the work itself: limits that lessons, plans and the audit of a job read

for _name, _dimension, _job_words, _meaning in (
    ("job.liner_cleaning", "count", (), "How often the liner is cleaned and scraped."),
    ("job.cutter_speed", "speed", (), "Speed of the drill with the carbide cutter."),
    ("job.cutter_direction", "", ("clockwise", "counterclockwise"), "Turning direction of the cutter."),
    ("job.cutter_start", "", ("inside", "outside"), "Side the cutter goes in first."),
    ("job.passes_each_way", "count", (), "Passes of the cutter from each side."),
    ("job.channel_turns", "count", (), "How often fluid is worked into the channel with the spiral tool."),
    ("job.stem_stands", "length", (), "How far the stem stands above the liner."),
    ("job.outline_margin", "length", (), "How far the outline lies beyond the unit, on each side."),
    ("job.buffer_speed", "speed", (), "Speed of the buffer."),
    ("job.buff_texture", "", ("No. 1", "No. 2", "No. 3", "No. 4", "No. 5", "No. 6"), "Texture of the buffed liner."),
    ("job.brush_times", "count", (), "How often the buffed area is brushed."),
    ("job.dust_removal", "", ("vacuum", "compressed-air", "brush"), "How the buffing dust is taken away."),
    ("job.drying", "time", (), "Drying time of the vulcanizing fluid."),
    ("job.drying_heat", "", ("no heat", "forced heat"), "Whether heat is used to dry the fluid."),
    ("job.arrows", "", ("to the beads", "around the tire"), "Where the arrows of a radial unit point."),
    ("job.stitching", "", ("from the center outward", "from the edge inward"), "How the unit is stitched."),
    ("job.seating_pressure", "pressure", (), "Pressure at which the beads are seated."),
    ("job.torque_recheck", "distance", (), "Driving distance after which the wheel torque is checked again."),
    ("job.torque_threads", "", ("clean and dry", "oiled"), "Threads at tightening."),
    ("job.pressure_warning", "percent", (), "Drop below the recommended pressure at which the monitor must warn."),
    ("job.pressure_warning_time", "time", (), "Time within which the monitor must warn."),
):  # fmt: skip
    MEASURES[_name] = Measure(_name, "job", _dimension, tuple(_job_words), _meaning, None)
