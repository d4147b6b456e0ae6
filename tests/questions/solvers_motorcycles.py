"""Someone who works on motorcycles, and sees only the open question: what may run, and whom they would ask.

Every limit is typed from its source. A solver returns the set of right option texts.
"""

import re

from assessments.questions.items.item import OpenItem
from tests.present import present
from tests.questions.solving import IN, REASONS, gauge_of, mm

ACCEPT, ADVISE, MAKER = (
    "Leave in service: nothing stands against it",
    "Leave in service, and tell the rider",
    "Ask the tire maker: it decides",
)
FIT, FIT_ADVISED = "Fit it: nothing stands against it", "Fit it, and tell the rider"
LOOK, OPEN = "Take the tire off the wheel and look at it from inside", "Open the cut first and look to its bottom"
OUT = "Out of service: "
IMPROPER, MISPLACED, UNSOUND = (
    OUT + "the earlier repair is improper",
    OUT + "the earlier repair is misplaced",
    OUT + "the earlier repair is not sound",
)
# Told to the rider, tire in use: Utah R714-160-8(1)(a)(i) for weather checking; the nick is common practice.
TOLD = ("Fine weather checking", "A nick in a tread block")
# No used tire without its number or its size, none with sealant over an open hole, none recalled: South Carolina
# 39-75-210, New Jersey A-3896, California Business and Professions Code 9889.30; where it is not law, common practice.
NOT_AS_USED = ("An identification number that", "A size that can", "Sealant inside")


def old_repair(line: str, used: bool = False) -> str | None:
    """What an earlier repair gives, in use or as used; None for a line that tells of none."""
    if not re.search("old|boot|section repair", line):
        return None
    if "sidewall" in line or "shoulder" in line:
        return MISPLACED  # Virginia 19VAC30-70-400 item 1, note: in the tread area only
    if "boot" in line:
        return IMPROPER  # common practice; Maryland COMAR 11.22.04.06(5) for other vehicles
    if "lifting" in line:
        return UNSOUND  # US association wall chart
    if "section repair" in line:
        return MAKER  # common practice
    if used and ("plug" in line or "on the liner alone" in line):
        return IMPROPER  # New Jersey A-3896: both sealed inside and filled
    return FIT if used else ACCEPT  # Virginia 19VAC30-70-400 item 1, note


def verdict_on(line: str, used: bool = False) -> str:
    """What one note gives."""
    if line in REASONS:
        return OUT + REASONS[line]
    if "nobody can say" in line or "may or may not" in line:
        return OUT + "what was found is in doubt"
    if "open nail hole" in line:
        return OUT + "the hole is still open"  # Virginia 19VAC30-70-400 item 1
    if line.startswith(NOT_AS_USED):
        return OUT if used else ADVISE
    if line.startswith(TOLD):
        return FIT_ADVISED if used else ADVISE
    found = old_repair(line[0].lower() + line[1:], used)
    assert found or "5/32 in of tread" in line, line
    return found or (FIT if used else ACCEPT)


def may_run(item: OpenItem) -> set[str]:
    found = [verdict_on(line.removesuffix(".")) for line in item.situation[1:]]
    against = [one for one in found if one.startswith(OUT) or one == MAKER]
    assert len(against) <= 1
    return {against[0] if against else ADVISE if ADVISE in found else ACCEPT}


def findings(item: OpenItem) -> set[str]:
    return {option.text for option in item.options if verdict_on(option.text).startswith(OUT)}


def used(item: OpenItem) -> set[str]:
    return {option.text for option in item.options if verdict_on(option.text, used=True).startswith("Fit")}


def earlier_repair(item: OpenItem) -> set[str]:
    line = item.situation[1].removeprefix("Found: ").partition(". Tread and rubber")[0]
    return {present(old_repair(line, used="is to be fitted" in item.situation[0]))}


def cut(item: OpenItem) -> set[str]:
    told = item.situation[0]
    shows = "cord" if "shows cord" in told else "rubber" if "rubber only" in told else ""
    if shows == "cord" or "is inspected in Virginia" in item.stem:
        return {OUT + "the cut ends it"}  # Virginia 19VAC30-70-400 item 1: any cut; cord: every code
    assert "is inspected in Maryland" in item.stem
    return {ADVISE if shows else OPEN}  # Maryland COMAR 11.14.03.05 B: deep enough to expose cords


def method(item: OpenItem) -> set[str]:
    # No published rule on repair; outside the tread area none: Virginia 19VAC30-70-400 item 1, note.
    outside = "in the sidewall" in item.stem or "in the shoulder" in item.stem
    return {OUT + "the hole is outside the tread" if outside else MAKER}


def hole_size(item: OpenItem) -> set[str]:
    # US association wall chart: passenger 1/4 in (6 mm); it does not speak of motorcycles.
    return {
        option.text
        for option in item.options
        if option.text.startswith("A passenger") and mm(option.text.partition("hole of ")[2]) <= 6
    }


def places(item: OpenItem) -> set[str]:
    return {option.text for option in item.options if "in the tread" not in option.text}


def comes_in(item: OpenItem) -> set[str]:
    if "still on its wheel" in item.stem:
        return {LOOK}
    return {"Take it out of service, as its liner is loose" if "liner that lifts" in item.stem else MAKER}


def pressure(item: OpenItem) -> set[str]:
    # Common practice; law for cars in Utah, R714-160-8(1)(c): below half of the recommended pressure. Common practice,
    # no published source, the line of 29 CFR 1910.177(f) for large vehicles: at 80 % or less it is looked at inside.
    found, asked = map(
        int, present(re.search(r"shows (\d+) \w+\. The motorcycle maker gives (\d+)", item.stem)).groups()
    )
    if found * 2 < asked:
        return {OUT + "it ran on too little air"}
    return {LOOK if found * 100 <= asked * 80 else ACCEPT}


def markings(item: OpenItem) -> set[str]:
    if "the size is scuffed off" in item.stem:
        return {OUT + "its size cannot be read"}
    fitted = "is to be fitted" in item.stem
    return {OUT + "its date cannot be read" if fitted else ADVISE}


# Virginia 19VAC30-70-400 item 5; Maryland COMAR 11.14.03.05 A(1) and Transportation Code 22-405.5(b)(2); South Carolina
# 39-75-210(A)(1): more than 2/32 in; New Jersey A-3896: 1/16 in. In 32nds, and whether just so much is enough.
TREAD = {
    ("stay", "Virginia"): (2, True),
    ("stay", "Maryland"): (1, True),
    ("be", "South Carolina"): (2, False),
    ("be", "New Jersey"): (2, True),
    ("be", "Maryland"): (1, True),
}


def tread(item: OpenItem) -> set[str]:
    value, unit = gauge_of(present(item.figure).description)
    depth = value * (IN if unit == "in" else 1) / IN * 32
    enough = []
    for name, use, place in re.findall(
        r"^([ABC]): to (stay|be) .*? in ([A-Z][a-z]+(?: [A-Z][a-z]+)?), ", item.stem, re.M
    ):
        least, just_so = TREAD[use, place]
        if depth > least or (just_so and depth == least):
            enough.append(name)
    text = " and ".join([", ".join(enough[:-1]), enough[-1]] if len(enough) > 1 else enough)
    return {{0: "None of them", 3: "All three"}.get(len(enough), f"Only {text}")}


MOTORCYCLES = {
    "motorcycle-may-run": may_run,
    "motorcycle-findings": findings,
    "motorcycle-used": used,
    "motorcycle-earlier-repair": earlier_repair,
    "motorcycle-cut": cut,
    "motorcycle-method": method,
    "motorcycle-hole-size": hole_size,
    "motorcycle-places": places,
    "motorcycle-comes-in": comes_in,
    "motorcycle-pressure": pressure,
    "motorcycle-markings": markings,
    "motorcycle-tread": tread,
}
