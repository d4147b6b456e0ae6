"""Someone who knows steel bodies and truck wheels, and sees only the open question.

Every number is typed here from its source, never read from the rulebook. A solver returns the set of right option
texts, a list of steps in order, or for a number the value in kPa.
"""

import re

from assessments.questions.items.item import OpenItem
from tests.present import present
from tests.questions.solving import LENGTH, first, mm, of_notes

KPA = {"psi": 6.894757, "kPa": 1.0}
# 29 CFR 1910.177(d)(3): a restraining device withstands at least 150 % of the maximum pressure.
STANDS = 1.5
# US association guidance for truck tires: at most 3/8 in (10 mm) after damaged cable is out; nothing is asked between.
SURELY_SMALL_MM, SURELY_LARGE_MM = 9.525, 10
PASSES = 5  # common practice, no published source


def _whole(printed: str) -> int:
    return int(printed.replace(",", ""))


def cage_setup(item: OpenItem) -> set[str]:
    # 29 CFR 1910.177(d)(4): clip-on chuck, in-line gauge, a hose long enough to stand outside the trajectory.
    most = _whole(present(re.search(r"maximum pressure ([\d,]+)", item.stem))[1])
    sound = {
        option.text
        for option in item.options
        if "clip-on chuck" in option.text and "gauge in the line" in option.text and "standing aside" in option.text
    }
    return {text for text in sound if _whole(present(re.search(r"([\d,]+) (?:psi|kPa)", text))[1]) >= STANDS * most}


def restraint_rating(item: OpenItem) -> float:
    most, unit = present(re.search(r"marked for ([\d,]+) (psi|kPa) at most", item.stem)).groups()
    return _whole(most) * STANDS * KPA[unit]


def after_the_cutter(item: OpenItem) -> set[str]:
    def is_right(note: str) -> bool:
        size = mm(first(f"is now {LENGTH}", note))
        assert not SURELY_SMALL_MM < size < SURELY_LARGE_MM
        clean = "slides in clean" in note or "finds nothing" in note
        enough = int(present(re.search(r"through (\d+) times", note))[1]) >= PASSES
        if size > SURELY_LARGE_MM:
            return "sent to a full-service plant" in note
        return ("Fluid goes into the channel" if clean and enough else "It is cut again") in note

    return of_notes(item, is_right)


# 29 CFR 1910.177(f) and (g): out of the trajectory and all air out before anything is loosened, off and looked at,
# filled in the device. The wire through the valve: common practice, no published source.
SOFT = (
    "Send everybody", "Take the valve core", "Push a wire", "Loosen the wheel nuts", "Break the beads", "Look and feel",
    "Mount it", "Close the restraining device", "Seat the beads", "Fill it",
)  # fmt: skip


def soft_tire_in_order(item: OpenItem) -> list[str]:
    place = {text: n for n, opening in enumerate(SOFT) for text in texts(item) if text.startswith(opening)}
    return sorted(texts(item), key=place.__getitem__)


def texts(item: OpenItem) -> list[str]:
    return [option.text for option in item.options]


STEEL = {
    "cage-setup": cage_setup,
    "restraint-rating": restraint_rating,
    "after-the-cutter": after_the_cutter,
    "soft-tire-in-order": soft_tire_in_order,
}
