"""Someone who knows the trade and sees only the open question: what they would answer, family by family.

Every number is typed from its source, never read from the rulebook, so that a key which the rulebook computes is held
against the source itself. A solver returns the set of right option texts, or for a number the value in mm, kPa or
years.
"""

import math
import re
from datetime import date
from fractions import Fraction

from tests.questions.solvers_bench import BENCH
from tests.questions.solvers_lists import LISTS
from tests.questions.solvers_markings import MARKINGS
from tests.questions.solvers_motorcycles import MOTORCYCLES
from tests.questions.solvers_steel import STEEL
from tests.questions.solvers_trucks import TRUCKS
from tests.questions.solvers_united_kingdom import UNITED_KINGDOM
from tests.questions.solving import (
    EITHER,
    IN,
    LARGEST_STEEL_TEXT,
    LARGEST_TEXT,
    LENGTH,
    MILD,
    OUT,
    OUTSIDE,
    OUTSIDE_WORDS,
    PLANT,
    REASONS,
    SHOULDER_ALL,
    STEEP,
    WORN,
    by_size,
    clear_of_shoulder,
    first,
    fits,
    gauge_of,
    in_crown,
    injuries_of,
    is_steel,
    method,
    metric,
    mm,
    of_steel,
)


def limit_for_casing(item):
    return {LARGEST_STEEL_TEXT if is_steel(item) else LARGEST_TEXT}


def holes_by_size(item):
    return {option.text for option in item.options if fits(option.text, item)}


def size_verdict(item):
    size = first(LENGTH + " across after damage removal", item.stem)
    return {f"{by_size(size, item)}the limit is {LARGEST_STEEL_TEXT if is_steel(item) else LARGEST_TEXT}"}


def before_and_after(item):
    size = re.findall(LENGTH, item.situation[-1])[-1]
    return {f"{by_size(size, item)}{size} counts"}


def gauge_reading(item):
    value, unit = gauge_of(item.figure.description)
    return value * (IN if unit == "in" else 1)


def tread_gauge(item):
    value, unit = gauge_of(item.figure.description)
    text = f"{value * 32}/32 in" if unit == "in" else f"{float(value):g} mm"
    # 49 CFR 393.75(b): front wheels of a truck at least 4/32 in.
    least = 2 * WORN if "from the steer axle" in item.stem else WORN
    enough = value * (IN if unit == "in" else 1) >= least
    return {f"{text}: enough tread to stay in service" if enough else f"{text}: worn out, so out of service"}


def stays(lateral, half, item, groove):
    """Does the whole hole lie in the crown: between the grooves, or in a steel body clear of the shoulders?"""
    if is_steel(item):
        return clear_of_shoulder(metric(first(r"tread is (.+?\)) wide", item.stem)) / 2 - abs(lateral) - half)
    return in_crown(lateral, half, groove)


def place_on_drawing(item):
    groove = metric(first(r"outermost groove begins (.+?) from", item.figure.description))
    holes = injuries_of(item.figure.description)
    inside = sorted(name for name, (lateral, across) in holes.items() if stays(lateral, across / 2, item, groove))
    names = {0: "None of them", 3: "All three"}
    return {names.get(len(inside), f"Only {' and '.join(inside)}")}


def lean_and_exit(item):
    words = item.figure.description
    groove = metric(first(r"outermost groove begins (.+?) from", words))
    thick = metric(first(r"The crown is (.+?) thick", words))
    side = -1 if " left of the centerline" in words else 1
    lateral = side * metric(first(r"enters the tread (.+?) (?:right|left) of", words))
    across = metric(first(r"centerline, is (.+?) across", words))
    angle, way = re.search(r"leans (\d+) deg to the (left|right)", words).groups()
    shift = thick * math.tan(math.radians(int(angle))) * (1 if way == "right" else -1)
    half = across / 2 / math.cos(math.radians(int(angle)))
    if not (stays(lateral, half, item, groove) and stays(lateral + shift, half, item, groove)):
        return {PLANT + OUTSIDE_WORDS if is_steel(item) else OUTSIDE}
    return {method(int(angle))}


def farthest_center(item):
    if "from each shoulder" in item.stem:
        assert "at least 1 1/2 in" in item.stem
        width, across = (
            metric(first(r"tread is (.+?\)) wide", item.stem)),
            metric(first(r"straight through and is (.+?\)) across", item.stem)),
        )
        return width / 2 - float(SHOULDER_ALL) - across / 2
    groove, across = (
        metric(words)
        for words in re.findall(LENGTH + r" \(" + LENGTH, item.stem)
        and [first(r"groove it is (.+?\))", item.stem), first(r"straight through and is (.+?\)) across", item.stem)]
    )
    return groove - across / 2


def two_injuries(item):
    apart = int(first(r"lie (\d+) mm apart", item.stem))
    length, width = re.search(r"are (\d+) mm long, toward the beads, and (\d+) mm wide", item.stem).groups()
    spare = apart - int(length if "across the tire, side by side" in item.stem else width)
    return {f"Repair both: {spare} mm to spare" if spare >= 0 else f"Out of service: {-spare} mm short"}


def unit_spacing(item):
    sizes = [(int(long), int(wide)) for long, wide in re.findall(r"is (\d+) mm long.*? and (\d+) mm\s*wide", item.stem)]
    side = 0 if "side by side across" in item.stem else 1
    return (sizes[0][side] + sizes[1][side]) / 2


def method_by_angle(item):
    leans = re.search(r"leans (\d+) deg from the perpendicular", item.stem)
    angle = int(leans.group(1)) if leans else 90 - int(first(r"stands (\d+) deg from the tread", item.stem))
    assert not MILD <= angle <= STEEP
    return {method(angle)}


def one_piece_list(item):
    angles = {option.text: int(option.text.removesuffix(" deg")) for option in item.options}
    assert not any(MILD <= angle <= STEEP for angle in angles.values())
    return {text for text, angle in angles.items() if angle <= MILD}


def proposals(item):
    # US association wall chart: no stem alone, no patch alone, no plug from outside; BS AU 159g: no tube.
    angle = int(first(r"the channel (\d+) deg", item.stem))
    right = {"A stem in the channel and a patch over it, from inside"}
    return right | ({"A one-piece unit pulled through from inside"} if angle <= MILD else set())


def ticket(item):
    """Each aspect on a ticket with the reason it gives against the tire, or None; and the lean of the channel."""
    found, lean = {}, 0
    for line in (text.removesuffix(".") for text in item.situation[1:]):
        if "across after damage removal" in line:
            found["The size of the hole"] = (
                None if fits(first(LENGTH + " across", line), item) else "the hole is too large"
            )
            across = float(mm(first(LENGTH + " across", line)))
        elif line.startswith("Its center"):
            place = tuple(map(int, re.findall(r"(\d+) mm", line)))
        elif line.startswith("The channel leans"):
            lean, *place = map(int, re.findall(r"(\d+) (?:deg|mm)", line))
        elif "of tread in" in line:
            found["The depth of the tread"] = None if mm(first(LENGTH, line)) >= WORN else "the tread is worn too far"
        elif line.startswith("An earlier repair"):
            proper = "stem and patch, in" in line or "one-piece unit, in" in line
            found["The earlier repair"] = None if proper else "the earlier repair is improper"
        else:
            found["The state of the rubber"] = REASONS.get(line)
            assert line in REASONS or line == "Fine weather checking in the sidewall, no cord showing"
    if is_steel(item):
        thick = place[1] if lean else 0
        away = place[0] - thick * math.tan(math.radians(lean)) - across / 2 / math.cos(math.radians(lean))
        clear = clear_of_shoulder(away)
        found["The lean of the channel" if lean else "The place of the hole"] = None if clear else OUTSIDE_WORDS
    elif lean:
        lateral, groove, thick = place
        half = across / 2 / math.cos(math.radians(lean))
        inside = in_crown(lateral + thick * math.tan(math.radians(lean)), half, groove)
        found["The lean of the channel"] = None if inside else "the hole leaves the repairable crown"
    else:
        inside = in_crown(place[0], across / 2, place[1])
        found["The place of the hole"] = None if inside else "the hole leaves the repairable crown"
    return found, lean


def tire_verdict(item):
    found, lean = ticket(item)
    against = [reason for reason in found.values() if reason]
    assert len(against) <= 1
    if not against:
        return {method(lean)}
    # What is more than a nail hole, a plant may mend in a steel body; what has come apart or worn out, nobody.
    plant = is_steel(item) and against[0] in ("the hole is too large", OUTSIDE_WORDS)
    return {(PLANT if plant else OUT) + against[0]}


def deciding_finding(item):
    return {aspect for aspect, reason in ticket(item)[0].items() if reason}


def earlier_repair(item):
    new, old = item.situation[1], item.situation[2]
    assert fits(first(LENGTH + " across", new), item)
    if "string plug" in old or "without a patch" in old or "open channel" in old:
        return {OUT + "the earlier repair is improper"}
    if "shoulder" in old or "sidewall" in old:
        return {OUT + "the earlier repair is misplaced"}
    if "lifting" in old or "cracked" in old:
        return {OUT + "the earlier repair is not sound"}
    return {EITHER}


def rejecting_list(item):
    return {option.text for option in item.options if option.text in REASONS}


def date_code(item):
    code = first(r"(\d{4})\.", item.stem)  # 49 CFR 574.5: week, then year
    return {f"In week {int(code[:2])} of 20{code[2:]}"}


def tire_age(item):
    code = first(r"(\d{4})\. Today", item.stem)
    week, year = int(code[:2]), 2000 + int(code[2:])
    month, day, now = re.search(r"Today is (\w+) (\d+), (\d{4})", item.stem).groups()
    months = ["January", "February", "March", "April", "May", "June"]
    months += ["July", "August", "September", "October", "November", "December"]
    today = date(int(now), months.index(month) + 1, int(day))
    made = date(year, 1, 1).toordinal() + week * 7  # within ten days of the week, whatever day the year begins with
    return math.floor((today.toordinal() - made) / 365.25)


def casing_class(item):
    # 49 CFR 571.139 S5.5 (from memory): the ply material molded on the sidewall; the sidewall plies are the body.
    body = first(r"SIDEWALL PL(?:Y|IES) \d (\w+)", item.stem)
    return {f"{'Steel' if body == 'STEEL' else 'Fabric'} body, by its sidewall plies"}


def first_thing(item):
    if "still on its wheel" in item.stem:
        return {"Take the tire off the wheel and look at it from inside"}
    if "liner that lifts" in item.stem:
        return {"Take it out of service, as its liner is loose"}
    return {"Prepare and repair it from inside, by stem and patch"}


def doubt(item):
    assert fits(first(LENGTH + " after damage", item.stem), item)
    sure = "who is sure that it is a mold mark" in item.stem
    return {EITHER if sure else OUT + "what was found is in doubt"}


def nail_to_liner(item):
    words = item.figure.description
    enters = float(first(r"enters the tread at ([\d.]+)", words))
    liner, tread = re.search(r"the liner lies at ([\d.]+) and the tread at ([\d.]+)", words).groups()
    angle, way = re.search(r"leans (\d+) deg to the (left|right) on its way in", words).groups()
    shift = (float(tread) - float(liner)) * math.tan(math.radians(int(angle)))
    return enters + (shift if way == "right" else -shift), float(liner)


def farthest_on_drawing(item):
    words = item.figure.description
    center, groove = (
        float(first(rf"{what} (?:stands )?at ([\d.]+)", words)) for what in ("centerline", "outermost groove")
    )
    if is_steel(item):  # the edge of the crown is as far inside that of the tread as the stem states
        tread = float(first(r"edge of the tread at ([\d.]+)", words))
        groove = tread - float(SHOULDER_ALL) if tread > center else tread + float(SHOULDER_ALL)
    half = metric(first(r"A hole (.+?) across", words)) / 2
    return groove - half if groove > center else groove + half, float(first(r"level line at ([\d.]+)", words))


def nearest_unit(item):
    words = item.figure.description
    spans = re.findall(r"from ([\d.]+) to ([\d.]+) on the one", words)
    (left, right), (low, high) = ((float(a), float(b)) for a, b in spans)
    long, wide = map(float, re.search(r"it is (\d+) mm long, toward the beads, and (\d+) mm wide", item.stem).groups())
    middle = (left + right) / 2, (low + high) / 2
    if "to the right of it" in item.stem:
        return right + long / 2, middle[1]
    if "to the left of it" in item.stem:
        return left - long / 2, middle[1]
    return (middle[0], high + wide / 2) if "above it" in item.stem else (middle[0], low - wide / 2)


def whole_case_method(item):
    return {method(int(first(r"leans (\d+) deg", item.stem)))}


def tread_by_axle(item):
    # 49 CFR 393.75(b) and (c): front wheels of a truck 4/32 in, all other wheels 2/32 in.
    worn = set()
    for option in item.options:
        least = 4 if option.text.startswith("Steer") else 2
        if int(first(r"(\d+)/32 in", option.text)) < least:
            worn.add(option.text)
    return worn


def dual_pairs(item):
    # 49 CFR 570.62(b) (from memory); Maryland COMAR 11.14.05.05(g): at most 1/2 in of difference in diameter.
    pairs = {option.text: re.findall(r"(\d+\.\d) in", option.text) for option in item.options}
    return {text for text, (one, two) in pairs.items() if abs(Fraction(one) - Fraction(two)) <= Fraction(1, 2)}


def unit_from_shelf(item):
    size = mm(first(LENGTH + " across", item.stem))
    kind = "one-piece unit" if "one-piece" in item.situation[0] else "patch"
    fitting = {
        mm(first("for holes up to " + LENGTH, line)): line.partition(":")[0]
        for line in item.situation
        if f": {kind} for" in line and f"{'steel' if of_steel(item) else 'fabric'} body" in line
    }
    return {fitting[min(most for most in fitting if most >= size)]}


SOLVERS = {
    "tread-by-axle": tread_by_axle,
    "dual-pairs": dual_pairs,
    "unit-from-shelf": unit_from_shelf,
    "whole-case-inspection": rejecting_list,
    "whole-case-exit": nail_to_liner,
    "whole-case-method": whole_case_method,
    "nail-to-liner": nail_to_liner,
    "farthest-on-drawing": farthest_on_drawing,
    "nearest-unit": nearest_unit,
    "limit-for-casing": limit_for_casing,
    "holes-by-size": holes_by_size,
    "size-verdict": size_verdict,
    "before-and-after": before_and_after,
    "gauge-reading": gauge_reading,
    "tread-gauge": tread_gauge,
    "place-on-drawing": place_on_drawing,
    "lean-and-exit": lean_and_exit,
    "farthest-center": farthest_center,
    "two-injuries": two_injuries,
    "unit-spacing": unit_spacing,
    "method-by-angle": method_by_angle,
    "one-piece-list": one_piece_list,
    "proposals": proposals,
    "tire-verdict": tire_verdict,
    "deciding-finding": deciding_finding,
    "earlier-repair": earlier_repair,
    "rejecting-list": rejecting_list,
    "date-code": date_code,
    "tire-age": tire_age,
    "casing-class": casing_class,
    "first-thing": first_thing,
    "doubt": doubt,
    **BENCH,
    **LISTS,
    **MARKINGS,
    **TRUCKS,
    **STEEL,
    **MOTORCYCLES,
    **UNITED_KINGDOM,
}
