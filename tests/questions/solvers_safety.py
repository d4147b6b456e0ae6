"""Someone who knows how to work without getting hurt, seeing only the open question.

Every figure is typed here from its source, never read from the rulebook.
"""

import re
from collections.abc import Callable
from fractions import Fraction
from typing import Any

from assessments.questions.items.item import OpenItem
from tests.questions.solving import first, of_notes

# OSHA's page on the NIOSH equation: about 51 lb; NIOSH publication 94-110: 23 kg.
LIFTED = {"lb": 51, "kg": 23}
# ANSI/ISEA Z358.1, as summarized: an eyewash runs 15 minutes; 29 CFR 1910.151(c): within the work area.
RINSED_MIN = 15
# Recommended practice 2017, from memory: buffer at most 5,000 rpm. Common practice: no air line on a buffed liner.
BUFFER_RPM = 5000
# 8 CCR 3325(e): 40 psi; 275 kPa beside it from memory.
SEATED = {"psi": Fraction(40), "kPa": Fraction(275), "bar": Fraction("2.75")}
# US Consumer Product Safety Commission on tire inflators: inflated and deflated four times.
AIRED = 4


def off_the_ground(item: OpenItem) -> set[str]:
    """29 CFR 1910.244(a)(2)(iii): secured at once after a jack has lifted it."""

    def is_right(line: str) -> bool:
        if weight := re.search(r"(\d+) (lb|kg)", line):
            return int(weight[1]) <= LIFTED[weight[2]]
        return any(words in line for words in ("stands at its lift points", "a rated stand goes under", " locks "))

    return {option.text for option in item.options if is_right(option.text)}


# 29 CFR 1910.106(e)(6), 1910.1200(g)(8), 1910.151(c), 1910.157(c)(1); International Chemical Safety Card 0081.
OF_SOLVENT = (
    "lid stays off", "heater warms the floor", "a drill runs", "still hot", "clear of the tap", "held away from the",
    "on a rubber mat", "goes on beside it", "beside the heater", "in the office", "across the yard", "behind the tires",
)  # fmt: skip


def open_solvent(item: OpenItem) -> set[str]:
    return {option.text for option in item.options if not any(words in option.text for words in OF_SOLVENT)}


# Health and Safety Executive, Hot work on wheels: the tire off first, air or not; lead: California, Health and Safety
# Code 25215.6(a), common practice elsewhere.
OF_HEAT = ("the core is taken out before that", "after all air was let out", "nitrogen alone", "goes away flat",
           "still hold, and go back", "are used up")  # fmt: skip


def heat_gas_and_lead(item: OpenItem) -> set[str]:
    def is_right(line: str) -> bool:
        if times := re.search(r"(\d+) times", line):
            return int(times[1]) >= AIRED
        return not any(words in line for words in OF_HEAT)

    return {option.text for option in item.options if is_right(option.text)}


def splashed_eye(item: OpenItem) -> set[str]:
    def is_right(note: str) -> bool:
        near = "beside the repair bench" in note or "on the wall of the bay" in note
        return near and int(first(r"(\d+) min", note)) >= RINSED_MIN

    return of_notes(item, is_right)


def eyes_and_dust(item: OpenItem) -> set[str]:
    def is_right(note: str) -> bool:
        speed = int(first(r"([\d,]+) rpm", note).replace(",", ""))
        covered = "glasses on" in note or "goggles" in note
        return speed <= BUFFER_RPM and covered and "vacuum" in note

    return of_notes(item, is_right)


def beads_being_seated(item: OpenItem) -> set[str]:
    """29 CFR 1910.177(g)(8), for large vehicles: nobody leans or stands over a tire that is filled."""

    def is_right(note: str) -> bool:
        there, more = (Fraction(one) for one in re.findall(r"([\d.]+) (?:psi|kPa|bar)", note))
        unit = first(r"[\d.]+ (psi|kPa|bar)", note)
        return there + more <= SEATED[unit] and "over " not in note

    return of_notes(item, is_right)


SAFETY: dict[str, Callable[[OpenItem], Any]] = {
    "off-the-ground": off_the_ground,
    "open-solvent": open_solvent,
    "heat-gas-and-lead": heat_gas_and_lead,
    "splashed-eye": splashed_eye,
    "eyes-and-dust": eyes_and_dust,
    "beads-being-seated": beads_being_seated,
}
