"""Someone who knows the trade and sees only the open question: what they would answer, family by family.

Every number is typed here from its source, never read from the rulebook, so that a key which the rulebook computes is
held against the source itself. A solver returns the set of right option texts, or for a number the value in mm, kPa or
years.
"""

import itertools
import math
import re
from datetime import date
from fractions import Fraction

from tests.scenarios.solvers_lists import LISTS
from tests.scenarios.solvers_markings import MARKINGS
from tests.scenarios.solvers_motorcycles import MOTORCYCLES
from tests.scenarios.solvers_steel import STEEL
from tests.scenarios.solvers_trucks import TRUCKS
from tests.scenarios.solvers_united_kingdom import UNITED_KINGDOM

IN = Fraction("25.4")  # international yard and pound agreement, 1959: exact
# US association, puncture repair procedures, passenger and light truck (wall chart).
LARGEST = {"in": Fraction(1, 4), "mm": Fraction(6)}
LARGEST_TEXT = "at most 1/4 in (6 mm)"
# US association guidance for truck tires, as the trade press gives it: 3/8 in (10 mm) once the damaged cable is out.
LARGEST_STEEL, LARGEST_STEEL_TEXT = {"in": Fraction(3, 8), "mm": Fraction(10)}, "at most 3/8 in (10 mm)"
# Trade press: 1 in from each shoulder; association article 2008: 1 to 1.5 in. Nothing is asked between.
SHOULDER_ALL, SHOULDER_NONE = Fraction(3, 2) * IN, IN
# Recommended practice 2017: over 25 deg two-piece; some makers: over 35 deg. Nothing is asked between.
MILD, STEEP = 25, 35
# 49 CFR 570.9 (from memory): less than 2/32 in is worn out.
WORN = Fraction(2, 32) * IN
# Trade press: carbide cutter at most 1,200 rpm; common practice, no published source: three passes each way in fabric.
CUTTER_RPM, PASSES = (0, 1200), 3
# In a steel body: trade press, 500 to 700 rpm; common practice, no published source: five passes each way.
STEEL_RPM, STEEL_PASSES = (500, 700), 5
# Common practice, no published source: outline half an inch beyond the unit; fluid dries 3 to 5 minutes.
MARGIN, DRY_MIN = Fraction(1, 2) * IN, 3
# Guidance, and law in California (8 CCR 3325(e)): beads seated at no more than 40 psi (275 kPa).
SEATING = {"psi": 40, "kPa": 275}
# Guidance and trade press: torque checked again after 50 to 100 miles.
RECHECK = (50, 100)

EITHER = "Repair: one-piece unit, or stem and patch"
TWO_PIECE = "Repair: only a stem with a separate patch"
OUT, PLANT = "Out of service: ", "Send to a repair plant: "
TOO_LARGE, OUTSIDE_WORDS = OUT + "the hole is too large", "the hole leaves the repairable crown"
OUTSIDE = OUT + OUTSIDE_WORDS


def number(text):
    whole, _, part = text.rpartition(" ")
    return Fraction(whole or 0) + Fraction(part)


def measure(text):
    """("7/32", "in") of a text such as "7/32 in"."""
    value, _, unit = text.rpartition(" ")
    return number(value), unit


def mm(text):
    value, unit = measure(text)
    return value * (IN if unit == "in" else 1)


def first(pattern, text):
    found = re.search(pattern, text)
    assert found, f"{pattern!r} is not in {text!r}"
    return found.group(1)


LENGTH = r"((?:\d+ )?\d+(?:/\d+|\.\d+)? (?:in|mm))"


def of_steel(item):
    """Does the question tell of a steel body? Truck tires have one."""
    told = item.situation[0]
    return "steel body" in told or bool(re.search(r"(?<!light )truck tire", told))


def is_steel(item):
    """Is it a steel body, by what the question says of the tire?"""
    told = re.search(r"steel body|(?<!light )truck tire|SIDEWALL PL(?:Y|IES) \d STEEL", item.stem, re.IGNORECASE)
    return told is not None


def fits(text, item):
    value, unit = measure(text)
    return value <= (LARGEST_STEEL if is_steel(item) else LARGEST)[unit]


def by_size(text, item):
    """The opening of an option that follows from this size alone."""
    if fits(text, item):
        return "Repair allowed: "
    return PLANT if is_steel(item) else OUT


def clear_of_shoulder(distance):
    """Is the edge of a hole far enough from the shoulder? Both sources have to agree, as in every question."""
    assert not SHOULDER_NONE < distance < SHOULDER_ALL, distance
    return distance >= SHOULDER_ALL


def in_crown(lateral, half, groove):
    return abs(lateral) + half <= groove


def method(angle):
    return EITHER if angle <= MILD else TWO_PIECE


# -- what is drawn: the description, since it says what the drawing shows --------------------------------------------


def metric(words):
    """The length in mm of "3/16 in (5 mm)" or "5 mm (3/16 in)": each is given in millimeters on one side."""
    return float(first(r"(\d+(?:\.\d+)?) mm", words))


def injuries_of(description):
    """Lateral (right positive) and diameter of each injury of a plan, by name."""
    found = {}
    for name, words in re.findall(r"Injury ([A-Z]) (.*?)(?=\. Injury|\.$)", description):
        where, _, rest = words.partition("centerline")
        side = -1 if "left of" in where else 1
        lateral = 0.0 if "on the" in where else side * metric(where)
        found[name] = (lateral, metric(rest.partition(" is ")[2]))
    return found


def gauge_of(description):
    """What a gauge reads, by counting marks: (value, unit)."""
    worth = first(r"A mark is (.+?); a number stands at every", description)
    step, unit = {
        "one 32nd of an inch": (Fraction(1, 32), "in"),
        "half a millimeter": (Fraction(1, 2), "mm"),
        "one millimeter": (Fraction(1), "mm"),
    }[worth]
    past = re.search(r"(?:stands|cuts it) (?:(?:(\d+) marks? (past|below))|on|at) the number (\d+)", description)
    marks, printed = int(past.group(1) or 0) * (-1 if past.group(2) == "below" else 1), int(past.group(3))
    return marks * step + printed * (Fraction(1, 32) if unit == "in" else 1), unit


# -- one solver a family ---------------------------------------------------------------------------------------------


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


def cutter_setting(item):
    times = {"once": 1, "twice": 2, "three times": 3, "four times": 4, "five times": 5, "six times": 6}
    right = set()
    (slow, fast), least = (STEEL_RPM, STEEL_PASSES) if of_steel(item) else (CUTTER_RPM, PASSES)
    for option in item.options:
        speed, turn, side, passes = option.text.split(", ")
        rpm = int(speed.removesuffix(" rpm").replace(",", ""))
        often = times[passes.removesuffix(" each way")]
        if slow <= rpm <= fast and turn == "clockwise" and side == "from inside first" and often >= least:
            right.add(option.text)
    return right


def outline_to_buff(item):
    side = first(r"What is the (length|width)", item.question)
    stated = first(LENGTH + " long" if side == "length" else "and " + LENGTH + " wide", item.stem)
    return mm(stated) + 2 * MARGIN


# Statements of the bench: facts of the trade, mostly common practice without a published source.
WRONG_WORDS = (
    " once", " twice", "1,800 rpm", "2,500 rpm", "3,400 rpm", "8,000 rpm", "11,000 rpm", "counterclockwise",
    "from the outside first", "No. 4", "No. 5", "the air line", "size of the nail", "square to the tread",
    "before the fluid goes on", "one minute", "heat gun", "along the tread", "from the edge inward", "thick coat",
    "spread wide", "with a thumb", "its gum too", "where it is.", "rubber open", "Pull the stem tight", "60 psi",
    "50 psi", "1,000 miles", "5,000 miles", "oiled", "impact gun", "size of the wrench", "were not touched",
    "old rubber valve", "add air until", "Set the maximum pressure", "Leave the pressure monitor",
    "Loosen the beads first", "not in question", "ask the driver", "Lean over", "above the limit",
    "Cut the stem off flush", "holds from now on", "nail at once", "flame", "Leave the tire on", "small bubble",
)  # fmt: skip


# Of steel bodies alone: 500 to 700 rpm (trade press), five passes; 29 CFR 1910.177(d): a restraining device good for
# 150 % of the maximum pressure, a clip-on chuck, a hose long enough to stand outside the trajectory.
WRONG_OF_STEEL = (
    " three times each way", " four times each way", "900 rpm", "1,100 rpm", "twist drill",
    "cable does not count", "thicker stem", "Let wire", "on the floor", "the inner one is like it",
    "without a restraining device", "for 100 %", "for 120 %", "hold on the valve", "in front of the closed cage",
)  # fmt: skip


def statements(item):
    wrong = (*WRONG_WORDS, *WRONG_OF_STEEL) if of_steel(item) else WRONG_WORDS
    return {option.text for option in item.options if not any(words in option.text for words in wrong)}


# Common practice, as the procedure of the trade has it: what follows directly, where only one order is right.
NEXT = {
    "Cut the damage out": "Probe the channel",
    "Probe the channel": "Measure the prepared hole",
    "Draw the outline": "Buff the liner",
    "Buff the liner": "Brush",
    "Brush": "Take the dust away",
    "Take the dust away": "Cement the area",
    "Cement the channel": "Pull the stem",
    "Cement the area": "Let it dry",
    "Set the patch": "Stitch",
    "Pull the one-piece unit through": "Stitch",
    "Stitch": "Take the film off",
}


def next_step(item):
    done = first(r'"(.+?)" is done', item.stem)
    if done == "Let it dry":
        return {"Pull the one-piece unit through" if "one-piece" in item.stem else "Set the patch"}
    return {NEXT[done]}


def drying(item):
    minutes = int(first(r"(\d+) minutes? ago", item.stem))
    dry = "dry all over" in item.situation[0] or "dry to the eye everywhere" in item.situation[0]
    now = dry and minutes >= DRY_MIN
    return {"Install the unit now and leave its gum alone" if now else "Wait until it is dry all over, with no heat"}


def seating_pressure_left(item):
    shown, unit = re.search(r"shows (\d+) (psi|kPa)", item.stem).groups()
    return (SEATING[unit] - int(shown)) * (6.894757 if unit == "psi" else 1)


def torque_recheck(item):
    at = int(first(r"reading of ([\d,]+) miles", item.stem).replace(",", ""))
    return {f"Between {at + RECHECK[0]:,} and {at + RECHECK[1]:,}"}


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


# -- steps in order --------------------------------------------------------------------------------------------------

# Common practice, no published source; the trade press (shop-floor article on patching a puncture, October 2020) gives
# the same order in outline.
ORDER = (
    "Let the air out", "Take the tire off the wheel", "Look and feel, outside and inside", "Take the object out",
    "Measure size and angle", "Clean the liner", "Cut the damage out", "Probe the channel", "Measure the prepared hole",
    "Cement the channel", "Pull the stem", "Draw the outline", "Buff the liner", "Brush", "Take the dust away",
    "Cement the area", "Let it dry", "Set the patch", "Pull the one-piece unit through", "Stitch", "Take the film off",
    "Seal the edge", "Trim the stem", "Look at the repair", "Check the valve", "Mount the tire", "Seat the beads",
    "Set the pressure", "Test for leaks", "Balance", "Put the wheel on", "Teach the pressure monitor",
)  # fmt: skip
# Where both orders are found: the liner is cleaned before or after the nail is out; the channel of a one-piece unit is
# cemented before or after buffing.
EITHER_WAY = [{"Clean the liner", other} for other in ("Take the object out", "Measure size and angle")]
EITHER_WAY += [
    {"Cement the channel", other}
    for other in ("Draw the outline", "Buff the liner", "Brush", "Take the dust away", "Cement the area")
]


def order(item):
    return sorted((option.text for option in item.options), key=ORDER.index)


# -- a place on a drawing: read off its description, as who cannot see it would ---------------------------------------


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


# -- a fault in a log ------------------------------------------------------------------------------------------------

# What a line must not say, and what is then wrong. Sources of the figures as at the top of this file and in the facts
# of the trade; buffer at most 5,000 rpm and texture No. 1 or 2: recommended practice 2017.
BAD_LINES = [
    (r"Clean the liner: (once|twice)", "The liner was cleaned too few times"),
    (r"Cut .*\b(1[3-9]|[2-9]\d)\d\d rpm", "The cutter ran too fast"),
    (r"Cut .*counterclockwise", "The cutter turned the wrong way"),
    (r"Cut .*from outside first", "The cutter began on the wrong side"),
    (r"Cut .*\b[12] pass(es)? each way", "The cutter made too few passes"),
    (r"Probe the channel: (?!clean)", "What the probe found was left in the channel"),
    (r"Measure the prepared hole: (9|10|11) mm", "The hole is over the limit"),
    (r"Draw the outline: 1/[48] in", "The outline has too little margin"),
    (r"Buff .*\b([6-9]|1\d)\d\d\d rpm", "The buffer ran too fast"),
    (r"Buff .*No\. [3-6]", "The liner was buffed too rough"),
    (r"Brush: hard", "The liner was brushed with the wrong brush"),
    (r"Take the dust away: compressed air", "The dust was taken away in the wrong way"),
    (r"Cement the area: one thick", "The coat of fluid was too thick"),
    (r"Let it dry: [12] min", "The fluid had too little time"),
    (r"Let it dry: .*forced heat", "The fluid was dried with heat"),
    (r"Let it dry: .*tacky", "The unit went on before the fluid was dry"),
    (r"arrows around the tire", "The unit lay the wrong way around"),
    (r"beads spread", "The beads were still spread"),
    (r"Pull the one.*fluid on the (cushion gum|whole stem)", "Fluid got on the gum of the unit"),
    (r"Stitch: from the edge inward", "The unit was stitched in the wrong direction"),
    (r"Look at the repair: (?!sound)", "A repair that failed was let go"),
    (r"Seat the beads: [56]0 psi", "The beads were seated with too much pressure"),
    (r"standing over the wheel", "Somebody stood in the way of the tire"),
    (r"Test for leaks: leak", "A leak was let go"),
    (r"Put .*impact wrench", "The nuts were tightened with the wrong tool"),
    (r"Put .*around the circle", "The nuts were tightened in the wrong pattern"),
    (r"Put .*oiled", "The threads were not as they should be"),
    (r"Put .*after [15]000 mi", "The torque is checked again too late"),
]
# Of a steel body: at most 700 rpm, five passes, 3/8 in (10 mm); a truck tire is filled as 29 CFR 1910.177 says.
BAD_IN_STEEL = [
    *(one for one in BAD_LINES if not one[0].startswith((r"Cut .*\b", "Measure the prepared"))),
    (r"Cut .*\b(7[1-9]\d|[89]\d\d|\d{4}) rpm", "The cutter ran too fast"),
    (r"Cut .*\b[1-4] pass(es)? each way", "The cutter made too few passes"),
    (r"Measure the prepared hole: 1[1-3] mm", "The hole is over the limit"),
    (r"Seat .*no restraining device", "Nothing held the tire while it was filled"),
    (r"Seat .*(?:hand-held chuck|chuck held by hand)", "The chuck was held by hand"),
]
LEFT_OUT = {
    "Probe the channel": "The channel was not probed after cutting",
    "Brush": "The buffed liner was not brushed",
    "Measure the prepared hole": "The prepared hole was not measured",
    "Let it dry": "The fluid was not left to dry",
    "Stitch": "The unit was not stitched",
    "Seal the edge": "The edge of the unit was not sealed",
    "Test for leaks": "The tire was not tested for leaks",
    "Balance": "The wheel was not balanced",
}
TOO_EARLY = {
    "Measure the prepared hole": "The hole was measured before it was prepared",
    "Take the dust away": "Dust was made after it was taken away",
    "Set the patch": "The fluid dried under the unit",
    "Pull the one-piece unit through": "The fluid dried under the unit",
}


def fault(item):
    """The lines one may name and the reason; "" for none."""
    *lines, missing, nothing = (option.text for option in item.options)
    steps = [line.partition(":")[0] for line in lines]
    bad = BAD_IN_STEEL if of_steel(item) else BAD_LINES
    found = [({line}, reason) for line in lines for pattern, reason in bad if re.search(pattern, line)]
    one_piece = "one-piece" in item.stem
    expected = [step for step in ORDER if not (one_piece and step == "Pull the stem")]
    expected.remove("Set the patch" if one_piece else "Pull the one-piece unit through")
    if one_piece:
        expected.remove("Cement the channel")
        expected.insert(expected.index("Cement the area"), "Cement the channel")
    for place, (one, two) in enumerate(itertools.pairwise(steps)):
        if expected.index(one) > expected.index(two):
            found.append(({lines[place], lines[place + 1]}, TOO_EARLY[one]))
    shown = expected[min(map(expected.index, steps)) : max(map(expected.index, steps)) + 1]
    found += [({missing}, LEFT_OUT[step]) for step in shown if step not in steps]
    assert len(found) <= 1, found
    return found[0] if found else ({nothing}, "")


# -- one tire in several parts ----------------------------------------------------------------------------------------


def whole_case_method(item):
    return {method(int(first(r"leans (\d+) deg", item.stem)))}


def whole_case_outline(item):
    side = first(r"What is the (length|width)", item.question)
    return int(first(rf"(\d+) mm {'long' if side == 'length' else 'wide'}", item.stem)) + 2 * MARGIN


# -- trucks, and the shelf of units -----------------------------------------------------------------------------------


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


def passes_by_body(item):
    # Common practice, no published source: three passes each way through a fabric body, five through a steel body.
    each = 5 if re.search(r"SIDEWALL PL(Y|IES) \d STEEL", item.stem) else 3
    words = {"once": 1, "twice": 2, "not yet": 0}
    inside, outside = re.search(r"through (.+?) from inside and (.+?) from outside", item.stem).groups()
    done = [words[text] if text in words else int(text.split()[0]) for text in (inside, outside)]
    return 2 * each - sum(done)


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
    "passes-by-body": passes_by_body,
    "unit-from-shelf": unit_from_shelf,
    "whole-case-inspection": rejecting_list,
    "whole-case-exit": nail_to_liner,
    "whole-case-method": whole_case_method,
    "whole-case-outline": whole_case_outline,
    "whole-case-work": order,
    "whole-case-return": fault,
    "order-of-inspection": order,
    "order-of-preparation": order,
    "order-of-installation": order,
    "order-of-return": order,
    "nail-to-liner": nail_to_liner,
    "farthest-on-drawing": farthest_on_drawing,
    "nearest-unit": nearest_unit,
    "fault-in-preparation": fault,
    "fault-in-installation": fault,
    "fault-in-return": fault,
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
    "cutter-setting": cutter_setting,
    "outline-to-buff": outline_to_buff,
    "preparation-statements": statements,
    "installation-statements": statements,
    "return-to-service-statements": statements,
    "safety-statements": statements,
    "next-preparation-step": next_step,
    "next-installation-step": next_step,
    "drying": drying,
    "seating-pressure-left": seating_pressure_left,
    "torque-recheck": torque_recheck,
    "date-code": date_code,
    "tire-age": tire_age,
    "casing-class": casing_class,
    "first-thing": first_thing,
    "doubt": doubt,
    **LISTS,
    **MARKINGS,
    **TRUCKS,
    **STEEL,
    **MOTORCYCLES,
    **UNITED_KINGDOM,
}
