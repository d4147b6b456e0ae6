"""What a question shows to the eye, read off its stem, its options and its drawing: sizes, tables, figures in words."""

from __future__ import annotations

import re
from typing import NamedTuple

from assessments.questions.items.item import Item
from tests.proof.readback import gauge_reading
from training.rulebook import parse_quantity

INCH_MM = 25.4
_LENGTH = r"((?:\d+ )?\d+(?:/\d+|\.\d+)? (?:in|mm))"
# Wheel nuts of a car, from memory: 60 to 150 ft-lb, 80 to 200 N·m.
_CAR_TORQUE_NM = (80.0, 205.0)


class Marked(NamedTuple):
    """A size as it is molded: its numbers as they stand there, lengths in mm, and its letters."""

    first_mm: float
    section_mm: float
    aspect: int
    build: str
    rim_mm: float
    prefix: str
    suffix: str


_METRIC = re.compile(r"^(P|LT|T|ST)?(\d{2,3})/(\d{2,3}) ?(?:Z?([RBD])|(-)) ?(\d{2}(?:\.5)?)(LT|C)?(?: ?(M/C))?")
_FLOTATION = re.compile(r"^(\d{2}(?:\.\d+)?)x(\d{1,2}(?:\.\d+)?)(?:([RBD])|(-))(\d{2}(?:\.5)?)(LT)?")
_IN_INCHES = re.compile(r"^(\d{1,2}(?:\.\d+)?)(?:([RBD])|(-))(\d{2}(?:\.5)?)(LT)?(?: ?(M/C))?")


def marked(marking: str) -> Marked:
    """A molded size taken apart by its signs. Raises ValueError."""
    if found := _METRIC.match(marking):
        prefix, width, aspect, letter, dash, rim, suffix, cycle = found.groups()
        section = float(width)
        return Marked(section, section, int(aspect), letter or dash, _in(rim), prefix or "", suffix or cycle or "")
    if found := _FLOTATION.match(marking):
        overall, width, letter, dash, rim, suffix = found.groups()
        return Marked(_in(overall), _in(width), 0, letter or dash, _in(rim), "", suffix or "")
    if found := _IN_INCHES.match(marking):
        width, letter, dash, rim, suffix, cycle = found.groups()
        return Marked(_in(width), _in(width), 0, letter or dash, _in(rim), "", suffix or cycle or "")
    raise ValueError(f"{marking!r} is no size")


def _in(text: str) -> float:
    return float(text) * INCH_MM


_SERVICE = re.compile(r" (\d{2,3})(?:/(\d{2,3}))?([A-Z])\b")


def service(marking: str) -> tuple[int, int, str]:
    """The load indexes for single and for dual fitting and the speed symbol. Raises ValueError."""
    found = _SERVICE.search(marking)
    if found is None:
        raise ValueError(f"{marking!r} has no service")
    return int(found[1]), int(found[2] or found[1]), found[3]


def length_mm(pattern: str, text: str) -> float:
    """The length [mm] that stands where `pattern` has {}. Raises ValueError."""
    found = re.search(pattern.replace("{}", _LENGTH), text)
    if found is None:
        raise ValueError(f"{pattern!r} is not in {text!r}")
    return float(parse_quantity(found[1], "length").value)


def mark_mm(item: Item) -> float:
    """What a mark of the drawn gauge is worth."""
    told = "" if item.figure is None else item.figure.description.replace("millimetre", "millimeter")
    worth = {"one 32nd of an inch": INCH_MM / 32, "half a millimeter": 0.5, "one millimeter": 1.0}
    found = re.search(r"A mark is (.+?);", told)
    return worth[found[1]] if found else 0.0


def reading_mm(item: Item) -> float:
    """What the drawn gauge shows, measured in the drawing. Raises ValueError."""
    found = None if item.figure is None else gauge_reading(item.figure.svg, item.figure.description)
    if found is None:
        raise ValueError("no gauge is drawn")
    mark = mark_mm(item) or 1.0
    return round(found / mark) * mark


def is_torque_of_a_car(text: str) -> bool:
    """Would that do for the wheel nuts of a car?"""
    low, high = _CAR_TORQUE_NM
    return low <= float(parse_quantity(text, "torque").value) <= high


_FILLED = re.compile(r"shows (\d+(?:\.\d+)?) (psi|kPa|bar).*? lets in (\d+(?:\.\d+)?) (?:psi|kPa|bar) more")
_MOLDED = re.compile(r"marked for (\d+(?:\.\d+)?) (psi|kPa|bar) at most")
# 8 CCR 3325(e): 40 psi; 275 kPa beside it from memory.
_SEATING = {"psi": 40.0, "kPa": 275.0, "bar": 2.75}


def seated(value: str, stem: str, names: frozenset[str]) -> str:
    """Whether what a tire is filled to is "right" or "wrong" to who takes the limit for what may still go in, or the
    sidewall's figure for the limit; "" where nobody of these is asked, or the stem tells no such filling."""
    molded = _MOLDED.search(stem)
    for there, unit, more in _FILLED.findall(stem):
        end, filled = float(there) + float(more), parse_quantity(value, "pressure")
        if molded and abs(float(parse_quantity(f"{end:g} {unit}", "pressure").value) - float(filled.value)) < 1e-6:
            taken = {
                "limit-not-what-is-left": float(more) <= _SEATING[unit],
                "running-pressure-seats": end <= float(molded[1]),
            }
            held = [is_right for name, is_right in taken.items() if name in names]
            return ("right" if all(held) else "wrong") if held else ""
    return ""


def is_far_out(stem: str, option: str) -> bool:
    """Does what an option speaks of lie away from the middle of the tread, farther than half way to its edge?"""
    try:
        away, width = length_mm("{} from its middle", option), length_mm("tread {} wide", stem)
    except ValueError:
        return False
    return away * 2 > width / 2
