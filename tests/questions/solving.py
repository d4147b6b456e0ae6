"""What those who know the trade have in common: limits typed from their sources, and how they read a question."""

import re
from collections.abc import Callable
from fractions import Fraction

from assessments.questions.items.item import OpenItem
from tests.present import present

IN = Fraction("25.4")  # international yard and pound agreement, 1959: exact
# US association, puncture repair procedures, passenger and light truck (wall chart).
LARGEST = {"in": Fraction(1, 4), "mm": Fraction(6)}
LARGEST_TEXT = {"in": "at most 1/4 in (6 mm)", "mm": "at most 6 mm (1/4 in)"}
# US association guidance for truck tires, as the trade press gives it: 3/8 in (10 mm) once the damaged cable is out.
LARGEST_STEEL = {"in": Fraction(3, 8), "mm": Fraction(10)}
LARGEST_STEEL_TEXT = {"in": "at most 3/8 in (10 mm)", "mm": "at most 10 mm (3/8 in)"}
# Recommended practice 2017: over 25 deg two-piece; some makers: over 35 deg. Nothing is asked between.
MILD, STEEP = 25, 35

EITHER = "Repair: one-piece unit, or stem and patch"
TWO_PIECE = "Repair: only a stem with a separate patch"
OUT, PLANT = "Out of service: ", "Send to a repair plant: "


def number(text: str) -> Fraction:
    whole, _, part = text.rpartition(" ")
    return Fraction(whole or 0) + Fraction(part)


def measure(text: str) -> tuple[Fraction, str]:
    """("7/32", "in") of a text such as "7/32 in"."""
    value, _, unit = text.rpartition(" ")
    return number(value), unit


def mm(text: str) -> Fraction:
    value, unit = measure(text)
    return value * (IN if unit == "in" else 1)


def first(pattern: str, text: str) -> str:
    found = re.search(pattern, text)
    assert found, f"{pattern!r} is not in {text!r}"
    return str(found[1])


LENGTH = r"((?:\d+ )?\d+(?:/\d+|\.\d+)? (?:in|mm))"


def of_notes(item: OpenItem, is_right: Callable[[str], bool]) -> set[str]:
    """Which of the two notes of a question is right, as its options say it in their usual words."""
    notes = [first(rf"(?m)^{name}: (.+)$", item.stem) for name in "AB"]
    one, other = (is_right(note) for note in notes)
    said = {True: "Right", False: "Wrong"}
    if one == other:
        return {f"{said[one]} for A and for B"}
    return {f"{said[one]} for A, {said[other].lower()} for B"}


def of_steel(item: OpenItem) -> bool:
    """Does the question tell of a steel body? Truck tires have one."""
    told = item.situation[0]
    return "steel body" in told or bool(re.search(r"(?<!light )truck tire", told))


def is_steel(item: OpenItem) -> bool:
    """Is it a steel body, by what the question says of the tire?"""
    told = re.search(r"steel body|(?<!light )truck tire|SIDEWALL PL(?:Y|IES) \d STEEL", item.stem, re.IGNORECASE)
    return told is not None


def fits(text: str, item: OpenItem) -> bool:
    value, unit = measure(text)
    return value <= (LARGEST_STEEL if is_steel(item) else LARGEST)[unit]


def limit_told(item: OpenItem) -> str:
    """The limit of this body, told in the unit in which the options tell theirs."""
    told = LARGEST_STEEL_TEXT if is_steel(item) else LARGEST_TEXT
    return told[first(LENGTH + r" \(", item.options[0].text).rpartition(" ")[2]]


def by_size(text: str, item: OpenItem) -> str:
    """The opening of an option that follows from this size alone."""
    if fits(text, item):
        return "Repair allowed: "
    return PLANT if is_steel(item) else OUT


def method(angle: int) -> str:
    return EITHER if angle <= MILD else TWO_PIECE


def metric(words: str) -> float:
    """The length in mm of "3/16 in (5 mm)" or "5 mm (3/16 in)": each is given in millimeters on one side."""
    return float(first(r"(\d+(?:\.\d+)?) mm", words))


def gauge_of(description: str) -> tuple[Fraction, str]:
    """What a gauge reads, by counting marks: (value, unit)."""
    worth = first(r"A mark is (.+?); a number stands at every", description)
    step, unit = {
        "one 32nd of an inch": (Fraction(1, 32), "in"),
        "half a millimeter": (Fraction(1, 2), "mm"),
        "one millimeter": (Fraction(1), "mm"),
    }[worth]
    counted = r"(?:stands|cuts it) (?:(?:(\d+) marks? (past|below))|on|at) the number (\d+)"
    past = present(re.search(counted, description))
    marks, printed = int(past.group(1) or 0) * (-1 if past.group(2) == "below" else 1), int(past.group(3))
    return marks * step + printed * (Fraction(1, 32) if unit == "in" else 1), unit


# Conditions that end the evaluation: published lists, see the facts of the trade. Weather checking without cord: Utah
# R714-160-8(1)(a)(i), advise.
REASONS = {
    "A gray ring rubbed into the liner, with rubber dust inside": "it was run flat",
    "A patch of the liner that lifts from the body": "the liner has come loose",
    "Two blisters in the liner": "the liner is blistered",
    "Open cracks in the liner near the bead": "the liner is cracked",
    "Plies that have come apart at the crown": "the body has come apart",
    "A tread edge that lifts from the body": "the tread has come loose",
    "Cord showing in a worn spot of the sidewall": "cord is exposed",
    "A kinked bead with wire showing": "the bead is damaged",
    "Deep ozone cracks in both sidewalls": "it is cracked by ozone",
    "A star-shaped break inside, from an impact": "it has impact damage",
    "A bulge in the sidewall": "it has a bulge",
    "Tread rubber swollen soft by oil": "the rubber is contaminated",
    "One spot of the tread worn low over a separation": "it has come apart under the tread",
}
