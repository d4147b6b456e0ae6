"""Someone who knows trucks and steel bodies, seeing only the open question.

Every number is typed here from its source, never read from the rulebook. A solver returns the set of right options, or
a number in mm or kPa.
"""

from fractions import Fraction

from assessments.questions.items.item import OpenItem
from tests.questions.solving import first

# 29 CFR 1910.177(f)(2) and (4): at 80 percent or less deflated before anything else, above it filled by remote control.
LOW = Fraction(80, 100)


def run_low(item: OpenItem) -> set[str]:
    is_let_down = []
    for name in "AB":
        line = first(rf"(?m)^{name}: (.+)$", item.stem)
        found, wanted = int(first(r"axle: (\d+)", line)), int(first(r"should have (\d+)", line))
        is_let_down.append("nail" in line or found <= LOW * wanted)
    match is_let_down:
        case [True, True]:
            return {"Let all the air out of both, take them off and look inside"}
        case [True, False]:
            return {"Let the air out of A and look inside; fill B by remote control"}
        case [False, True]:
            return {"Let the air out of B and look inside; fill A by remote control"}
    return {"Fill both where they stand, by remote control"}


def repairs_by_axle(item: OpenItem) -> set[str]:
    # 49 CFR 570.62(d) (from memory): no repair that reinforces the cord body on a front wheel. Common practice: a stem
    # and patch or a one-piece unit in the crown, a section repair by a plant anywhere else; nothing that has lifted.
    right = set()
    for option in item.options:
        if "lifting" in option.text:
            continue
        section = "section repair" in option.text and not option.text.startswith("Steer")
        proper = (
            any(word in option.text for word in ("stem under a patch", "one-piece unit")) and "crown" in option.text
        )
        if section or proper:
            right.add(option.text)
    return right


TRUCKS = {
    "run-low": run_low,
    "repairs-by-axle": repairs_by_axle,
}
