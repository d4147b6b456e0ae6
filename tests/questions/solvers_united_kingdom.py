"""Someone who knows the road law of the United Kingdom, and its repair area, and sees only the open question.

Every number is typed here from its source, never read from the rulebook. A solver returns the set of right option
texts, or for a number the value in mm.
"""

import re

from assessments.questions.items.item import OpenItem
from tests.present import present
from tests.questions.solving import LENGTH, first, mm, of_notes

# Construction and Use Regulations 1986, regulation 27: 1.6 mm up to 3,500 kg, 1 mm above.
LIGHT_MM, HEAVY_MM, HEAVY_OVER_KG = 1.6, 1.0, 3500
# Regulation 27(1): 25 mm or 10 % of the section width, whichever is greater.
CUT_MM, CUT_SHARE = 25.0, 0.10


def repair_area_mm(width: int) -> float:
    """BS AU 159g as summarised: 60 % up to 155, 65 % over 155 to 200, 70 % over 200; printed figures in between."""
    printed = {125: 75, 135: 81, 145: 87, 155: 93, 165: 107, 175: 114, 185: 120, 195: 127}
    return printed.get(width) or width * (0.60 if width <= 155 else 0.65 if width <= 200 else 0.70)


def section(text: str) -> int:
    return int(present(re.search(r"(\d{3})/\d{2}R", text))[1])


def tread_by_vehicle(item: OpenItem) -> set[str]:
    worn = set()
    for option in item.options:
        kg, depth = present(re.search(r" of ([\d,]+) kg, .*: ([\d.]+) mm$", option.text)).groups()
        # regulation 27(4), text from memory: 1.6 mm for up to eight passenger seats, and a minibus has more
        is_heavy = int(kg.replace(",", "")) > HEAVY_OVER_KG or option.text.startswith("Minibus")
        limit = HEAVY_MM if is_heavy else LIGHT_MM
        if float(depth) < limit:
            worn.add(option.text)
    return worn


def cut_on_road(item: OpenItem) -> set[str]:
    length, limit = mm(first(f"cut {LENGTH} long", item.stem)), cut_limit_mm(item.stem)
    if "Nobody has opened" in item.stem:  # MOT test practice: over the limit it is opened with a blunt tool
        return {"Open the cut first: see how deep it goes"}
    if "shows cord" not in item.stem:
        return {"Leave it on the road: tell the customer"}
    if length > limit:
        return {"Off the road: too long a cut down to the cord"}
    return {"Send it on: a full-service plant decides"}  # common practice, no published source


def cut_limit_mm(told: str) -> float:
    return max(CUT_MM, CUT_SHARE * section(told))


def cut_limit(item: OpenItem) -> set[str]:
    def is_right(note: str) -> bool:
        is_over = mm(first(f"a cut of {LENGTH}", note)) > cut_limit_mm(note)
        return is_over == ("the law takes the tire off" in note)

    return of_notes(item, is_right)


def repair_area(item: OpenItem) -> float:
    whole = repair_area_mm(section(item.stem))
    return whole / 2 if "from the crown centerline does" in item.stem or "Up to what" in item.stem else whole


UNITED_KINGDOM = {
    "tread-by-vehicle": tread_by_vehicle,
    "cut-on-road": cut_on_road,
    "cut-limit": cut_limit,
    "repair-area": repair_area,
}
