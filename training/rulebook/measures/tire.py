"""Quantities of the whole tire: markings, position, pressure, tread depth and findings."""

from datetime import date

from training.rulebook.case_words import FINDINGS, UNREADABLE, WORDS
from training.rulebook.dates import leaves_decade_open, production_week, whole_years
from training.rulebook.designation import designation_of, section_width_mm
from training.rulebook.markings import load_capacity_kg
from training.rulebook.measures.registry import (
    MEASURES,
    NOT_HERE,
    Facts,
    Found,
    Measure,
    Read,
    Reading,
    a_word,
    measure,
    stated,
    yes_no,
)
from training.rulebook.quantities import UNITS, Quantity, length_mm, parse_quantity, quantity, read_off
from training.trade.speech import say, saying


@measure("tire.casing", "tire", words=WORDS["tire.casing"])
def _casing(facts: Facts, _: object) -> Reading:
    """Casing class, from the ply material on the sidewall."""
    return a_word(facts.case.tire.casing)


@measure("tire.build", "tire", words=WORDS["tire.build"])
def _build(facts: Facts, _: object) -> Reading:
    """Build of the tire."""
    return a_word(facts.case.tire.build)


@measure("tire.on_wheel", "tire", words=(saying("on the wheel"), saying("off the wheel")))
def _on_wheel(facts: Facts, _: object) -> Reading:
    """Whether the tire is still on its wheel."""
    return yes_no(facts.case.on_wheel, "on the wheel", "off the wheel")


@measure("tire.inside", "tire", words=(saying("looked at"), saying("not looked at")))
def _inside(facts: Facts, _: object) -> Reading:
    """Whether the inside was looked at for signs of running flat or soft: that can only be done off the wheel."""
    if facts.case.on_wheel is not False:
        return a_word("not looked at")
    return None if facts.case.findings.get("run-flat-damage") is None else a_word("looked at")


# Findings that are no damage to tire or wheel: markings, wear, what was left inside, valve and sensor.
_NO_DAMAGE = frozenset({"weather-checking", "excessive-wear", "wear-indicators-flush", "sealant-residue", "regrooved",
                        "restricted-use", "recalled", "tin-unreadable", "size-unreadable", "valve-damaged",
                        "sensor-damaged"})  # fmt: skip


@measure("tire.damage", "tire", words=(saying("seen or suspected"), saying("none seen")))
def _damage(facts: Facts, _: object) -> Reading:
    """Is damage to tire or wheel seen or suspected: a puncture, a cut that may reach cord, or a finding of damage?"""
    case = facts.case
    hurt = any(injury.kind == "puncture" or injury.reaches != "rubber" for injury in case.injuries or ())
    found = any(state and slug not in _NO_DAMAGE for slug, state in case.findings.items())
    return a_word("seen or suspected" if hurt or found else "none seen")


@measure("tire.retread", "tire", words=(saying("retreaded"), saying("not retreaded")))
def _retread(facts: Facts, _: object) -> Reading:
    """Whether the tire is a retread."""
    return yes_no(facts.case.tire.retreaded, "retreaded", "not retreaded")


@measure("tire.regroovable", "tire", words=(saying("marked regroovable"), saying("not marked regroovable")))
def _regroovable(facts: Facts, _: object) -> Reading:
    """Whether the sidewall says that the tire may be regrooved."""
    size = designation_of(facts.case.tire.designation)
    if size is not None and "REGROOVABLE" in size.marks:
        return a_word("marked regroovable")
    return yes_no(facts.case.tire.regroovable, "marked regroovable", "not marked regroovable")


def _is_marked(found: bool | None) -> Reading:
    return a_word("not said" if found is None else "marked" if found else "not marked")


@measure("tire.approval_mark", "tire", words=(saying("marked"), saying("not marked"), saying("not said")))
def _approval_mark(facts: Facts, _: object) -> Reading:
    """Approval mark on the sidewall; on a retread that of its retreading."""
    return _is_marked(facts.case.tire.approval_mark)


@measure("tire.part_worn_mark", "tire", words=(saying("marked"), saying("not marked"), saying("not said")))
def _part_worn_mark(facts: Facts, _: object) -> Reading:
    """Whether the tire is marked PART-WORN."""
    return _is_marked(facts.case.tire.part_worn_mark)


@measure("tire.date_code", "tire", words=(saying("readable"), saying("unreadable"), saying("in doubt")))
def _date_code(facts: Facts, _: object) -> Reading:
    """Whether the date code can be read; in doubt where it names a week that has not come yet."""
    code, on = facts.case.tire.date_code, facts.case.on
    if code is None or code == UNREADABLE:
        return a_word(code)
    return a_word("in doubt" if on is not None and production_week(code)[0] > on else "readable")


@measure("tire.size_marking", "tire", words=(saying("readable"), saying("unreadable")))
def _size_marking(facts: Facts, _: object) -> Reading:
    """Whether the size marking can be read."""
    size = facts.case.tire.designation
    return None if size is None else a_word("unreadable" if size == "unreadable" else "readable")


@measure("tire.section_width", "tire", "length")
def _section_width(facts: Facts, _: object) -> Reading:
    """Nominal section width from the size marking [mm]."""
    width_mm = section_width_mm(facts.case.tire.designation)
    return None if width_mm is None else stated(length_mm(width_mm))


@measure("tire.load_capacity", "tire", "mass")
def _load_capacity(facts: Facts, _: object) -> Reading:
    """Greatest load of the tire fitted singly, from the load index [kg]."""
    size = designation_of(facts.case.tire.designation)
    if size is None or size.load_index_single is None:
        return None
    capacity = quantity(load_capacity_kg(size.load_index_single), "kg")
    return stated(capacity)


def years(count: int, sense: str = "exact") -> Found | None:
    """So many years, where they are over."""
    if count < 0:
        return None
    measured = parse_quantity(f"{count} years", "years")
    return Found(say("1 year") if count == 1 else measured.text, measured, sense=sense)


def age(facts: Facts, code: str | None) -> Reading:
    on = facts.case.on
    if code is None or code == UNREADABLE or on is None:
        return None
    is_day = "-" in code
    since = date.fromisoformat(code) if is_day else production_week(code)[0]
    return years(whole_years(since, on), sense="exact" if is_day or not leaves_decade_open(code) else "at_least")


@measure("tire.age", "tire", "years")
def _tire_age(facts: Facts, _: object) -> Reading:
    """Completed years since the first day of the production week; a retread counts from retreading."""
    tire = facts.case.tire
    return age(facts, tire.retreaded_on or tire.date_code)


@measure("position.vehicle", "tire", words=WORDS["position.vehicle"])
def _vehicle(facts: Facts, _: object) -> Reading:
    """Vehicle the tire runs on."""
    return a_word(facts.case.position.vehicle)


@measure("position.axle", "tire", words=WORDS["position.axle"])
def _axle(facts: Facts, _: object) -> Reading:
    """Axle the tire runs on."""
    return a_word(facts.case.position.axle)


@measure("position.wheel", "tire", words=WORDS["position.wheel"])
def _wheel(facts: Facts, _: object) -> Reading:
    """Kind of wheel."""
    return a_word(facts.case.position.wheel)


@measure("position.dual", "tire", words=(saying("dual"), saying("single")))
def _dual(facts: Facts, _: object) -> Reading:
    """Whether the tire runs in a dual pair."""
    return yes_no(facts.case.position.dual, "dual", "single")


@measure("position.gross_mass", "tire", "mass")
def _gross_mass(facts: Facts, _: object) -> Reading:
    """Gross mass of the vehicle [kg]."""
    return stated(facts.case.position.gross_mass)


@measure("jurisdiction", "tire", words=())
def _jurisdiction(facts: Facts, _: object) -> Reading:
    """Whose law the case names."""
    return a_word(facts.case.jurisdiction)


@measure("jurisdiction.country", "tire", words=(), needs="jurisdiction")
def _country(facts: Facts, _: object) -> Reading:
    """The country whose law the case names; nothing where it names none."""
    place = facts.case.jurisdiction
    return NOT_HERE if place is None else a_word(place.partition("-")[0])


@measure("pressure.ratio", "tire", "percent")
def _pressure_ratio(facts: Facts, _: object) -> Reading:
    """Pressure as found over the recommended pressure [%]."""
    pressure = facts.case.pressure
    if pressure.recommended is None or pressure.found is None:
        return None
    ratio = pressure.found.value * 100 / pressure.recommended.value
    shown = quantity(ratio, "%", places=1)
    return Found(
        say("{ratio} ({found} of {recommended})", ratio=shown, found=pressure.found, recommended=pressure.recommended),
        value=ratio,
    )


@measure("dual.difference", "tire", "length")
def _dual_difference(facts: Facts, _: object) -> Reading:
    """Difference of the outer diameters of a dual pair [mm]."""
    mate = facts.case.dual_mate
    if mate is None:
        position = facts.case.position
        may_be_paired = position.dual is None and facts.case.tire.casing == "truck" and position.axle != "front"
        return None if position.dual or may_be_paired else NOT_HERE
    difference = abs(mate.diameter.value - mate.own_diameter.value)
    if mate.diameter.unit != mate.own_diameter.unit:
        least = read_off(-difference, facts.prefer).text  # at most so much is allowed: rounded up
        return Found(least.lstrip("-"), value=difference)
    unit = mate.diameter.unit
    shown = quantity(difference / UNITS["length"][unit], unit)
    return Found(shown.text, Quantity(shown.text, difference, unit, "length"))


# --- findings


def _read_finding(slug: str) -> Read:
    def read(facts: Facts, _: object) -> Reading:
        return yes_no(facts.case.findings.get(slug), "found", "not found")

    return read


for _slug in FINDINGS:
    MEASURES[f"finding.{_slug}"] = Measure(
        f"finding.{_slug}", "tire", "", ("found", saying("not found")), WORDS["findings"][_slug], _read_finding(_slug)
    )


@measure("finding.doubt", "doubt", words=(saying("in doubt"),))
def _doubt(_facts: Facts, _slug: object) -> Reading:
    """A finding that was looked for and cannot be told."""
    return a_word("in doubt")
