"""Someone who reads sidewalls, and sees only the open question: sizes, loads and speeds.

Loads and speeds come from the published tables in tests/published, never from the rulebook. A solver returns the set of
right option texts, or for a number the value in mm or kg.
"""

import csv
import re
from fractions import Fraction
from pathlib import Path

from assessments.questions.items.item import OpenItem
from tests.present import present

PUBLISHED = Path(__file__).parent.parent / "published"
# UN Regulation No. 30 / No. 54: load-capacity index table and speed category table.
LOADS = {
    int(row["load_index"]): Fraction(row["max_load_kg"])
    for row in csv.DictReader((PUBLISHED / "load_index.csv").open(encoding="utf-8"))
}
SPEEDS = {
    row["symbol"]: int(row["km_h"])
    for row in csv.DictReader((PUBLISHED / "speed_symbols.csv").open(encoding="utf-8"))
    if row["km_h"].isdigit()
}
# Owner's manuals and trade tables (published): the letters around a size; C and M/C from UN Regulations No. 54 and 75.
USES = {
    "P": "Built for passenger cars", "LT": "Built for light trucks", "C": "Built for delivery vans",
    "M/C": "Built for motorcycles", "ST": "Built for trailers", "T": "Built as a temporary spare",
}  # fmt: skip
PLIES = {"R": "radially", "D": "on the bias", "dash": "on the bias", "B": "on the bias, under belts"}
SIZE = re.compile(r"(?:[A-Z]+)?(\d{3})/(\d{2})([RDB]|-)([\d.]+)(?: ?M/C|C)?(?: (\d+)(?:/(\d+))?([A-Z]))?")


def size_in(text: str) -> tuple[int, int, str, int, int, str]:
    """Width [mm], aspect ratio, rim code, load indexes and symbol of the size in a stem."""
    found = SIZE.search(text)
    assert found, text
    width, aspect, _, rim, single, dual, symbol = found.groups()
    return int(width), int(aspect), rim, int(single), int(dual or 0), symbol


def height_mm(width: int, aspect: int) -> int:
    # UN Regulation No. 30 (rounding order from memory): rounded half up to 1 mm.
    return int(Fraction(width * aspect, 100) + Fraction(1, 2))


def said(item: OpenItem, pattern: str, value: Fraction | int) -> set[str]:
    """The options that state this number in the unit of the pattern."""
    figures = {option.text: re.search(rf"([\d.,]+) {pattern}", option.text) for option in item.options}
    return {text for text, found in figures.items() if found and Fraction(found[1].replace(",", "")) == value}


def read_size(item: OpenItem) -> set[str]:
    sign = present(re.search(r"the (\S+) in (?:this|the) size", item.stem))[1]
    molded = item.situation[0].removeprefix("Molded on a sidewall: ")
    if sign in USES:
        return {USES[sign]}
    if sign in PLIES:
        return {f"Its body plies run {PLIES[sign]}"}
    if re.search(rf"/{sign}\D", molded):
        return {f"Its height is {sign} % of its width"}
    if re.match(rf"[A-Z]*{re.escape(sign)}/", molded):
        return {f"{sign} mm is the width of the section"}
    if re.match(rf"{re.escape(sign)}x", molded):
        return {f"{sign} in is the diameter of the tire"}
    if re.match(rf"{re.escape(sign)}R|\d+x{re.escape(sign)}R", molded):
        return {f"{sign} in is the width of the section"}
    return {f"{sign} in is the diameter of the rim"}


def section_height(item: OpenItem) -> set[str]:
    width, aspect, *_ = size_in(item.stem)
    return said(item, "mm", height_mm(width, aspect))


def overall_diameter(item: OpenItem) -> int:
    width, aspect, rim, *_ = size_in(item.stem)
    # The rim code is its diameter in inches, to the nearest millimeter in the tables of the regulations.
    return int(Fraction(rim) * Fraction("25.4") + Fraction(1, 2)) + 2 * height_mm(width, aspect)


def load_by_index(item: OpenItem) -> set[str]:
    *_, single, dual, _ = size_in(item.stem)
    return said(item, "kg", LOADS[dual if "dual pair" in item.stem else single])


def axle_load(item: OpenItem) -> Fraction:
    *_, single, dual, _ = size_in(item.stem)
    return 4 * LOADS[dual] if "side by side" in item.stem else 2 * LOADS[single]


def speed_by_symbol(item: OpenItem) -> set[str]:
    return said(item, "km/h", SPEEDS[size_in(item.stem)[-1]])


def replacement_service(item: OpenItem) -> set[str]:
    *_, index, _, symbol = size_in(item.stem)
    # Published tire advice of a motoring association: more than the car asks for is allowed, less is not.
    offered = {option.text: present(re.fullmatch(r"(\d+)([A-Z])", option.text)).groups() for option in item.options}
    return {
        text
        for text, (own, letter) in offered.items()
        if LOADS[int(own)] >= LOADS[index] and SPEEDS[letter] >= SPEEDS[symbol]
    }


MARKINGS = {
    "read-size": read_size,
    "size-letters": read_size,
    "section-height": section_height,
    "overall-diameter": overall_diameter,
    "load-by-index": load_by_index,
    "axle-load": axle_load,
    "speed-by-symbol": speed_by_symbol,
    "replacement-service": replacement_service,
}
