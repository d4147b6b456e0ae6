"""Someone who knows the work at the bench: cutter, fluid, outline, the order of the steps, a fault in a log.

Every number is typed here from its source, never read from the rulebook.
"""

import itertools
import re

from assessments.questions.items.item import OpenItem
from tests.present import present
from tests.questions.solving import (
    first,
    of_notes,
    of_steel,
)

# Trade press: carbide cutter at most 1,200 rpm; common practice, no published source: three passes each way in fabric.
CUTTER_RPM, PASSES = (0, 1200), 3
# In a steel body: trade press, 500 to 700 rpm; common practice, no published source: five passes each way.
STEEL_RPM, STEEL_PASSES = (500, 700), 5
# Common practice, no published source: fluid dries 3 to 5 minutes.
DRY_MIN = 3


def cutter_setting(item: OpenItem) -> set[str]:
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


# Statements of the bench: facts of the trade, mostly common practice without a published source.
WRONG_WORDS = (
    " once", " twice", "1,800 rpm", "2,500 rpm", "3,400 rpm", "8,000 rpm", "11,000 rpm", "counterclockwise",
    "from the outside first", "No. 4", "No. 5", "the air line", "size of the nail", "square to the tread",
    "before the fluid goes on", "one minute", "heat gun", "along the tread", "from the edge inward", "thick coat",
    "spread wide", "with a thumb", "its gum too", "where it is.", "rubber open", "Pull the stem tight", "60 psi",
    "50 psi", "1,000 miles", "5,000 miles", "oiled", "impact gun", "size of the stud", "were not touched",
    "old rubber valve", "add air until", "Set the maximum pressure", "Leave the pressure monitor",
    "Loosen the beads first", "not in question", "ask the driver", "Lean over", "above the limit",
    "Cut the stem off flush", "holds from now on", "nail at once", "flame", "Leave the tire on", "small bubble",
)  # fmt: skip


# Of steel bodies alone: 500 to 700 rpm (trade press), five passes; 29 CFR 1910.177(d): a restraining device good for
# 150 % of the maximum pressure, a clip-on chuck, a hose long enough to stand outside the trajectory.
WRONG_OF_STEEL = (
    "on the open floor",
    " three times each way", " four times each way", "900 rpm", "1,100 rpm", "twist drill",
    "cable does not count", "thicker stem", "Let wire", "on the floor", "the inner one is like it",
    "without a restraining device", "for 100%", "for 120%", "hold on the valve", "in front of the closed cage",
)  # fmt: skip


def statements(item: OpenItem) -> set[str]:
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


def next_step(item: OpenItem) -> set[str]:
    done = first(r'"(.+?)" has just been done', item.stem)
    if done == "Let it dry":
        return {"Pull the one-piece unit through" if "one-piece" in item.stem else "Set the patch"}
    return {NEXT[done]}


def drying(item: OpenItem) -> set[str]:
    def is_right(note: str) -> bool:
        minutes = int(first(r"(\d+) minutes? ago", note))
        is_dry = "dry all over. " in note or "dry to the eye everywhere" in note
        if is_dry and minutes >= DRY_MIN:
            return "The unit goes on now" in note
        return "waits until it is dry all over, with no heat" in note

    return of_notes(item, is_right)


# Common practice, no published source; the trade press (shop-floor article on patching a puncture, October 2020) gives
# the same order in outline.
ORDER = (
    "Let the air out", "Take the tire off the wheel", "Look and feel, outside and inside", "Take the object out",
    "Measure size and angle", "Clean the liner", "Cut the damage out", "Probe the channel", "Measure the prepared hole",
    "Cement the channel", "Pull the stem", "Draw the outline", "Buff the liner", "Brush", "Take the dust away",
    "Cement the area", "Let it dry", "Set the patch", "Pull the one-piece unit through", "Stitch", "Take the film off",
    "Seal the edge", "Trim the stem", "Look at the repair", "Check the valve", "Mount the tire", "Seat the beads",
    "Set the pressure", "Test for leaks", "Balance", "Put the wheel on", "Relearn the pressure monitor",
)  # fmt: skip
# Where both orders are found: the liner is cleaned before or after the nail is out; the channel of a one-piece unit is
# cemented before or after buffing.
EITHER_WAY = [{"Clean the liner", other} for other in ("Take the object out", "Measure size and angle")]
EITHER_WAY += [
    {"Cement the channel", other}
    for other in ("Draw the outline", "Buff the liner", "Brush", "Take the dust away", "Cement the area")
]


def order(item: OpenItem) -> list[str]:
    return sorted((option.text for option in item.options), key=ORDER.index)


# What a line must not say, and what is then wrong. Sources of the figures as at the top of this file and in the facts
# of the trade; buffer at most 5,000 rpm and texture No. 1 or 2: recommended practice 2017.
BAD_LINES = [
    (r"Clean the liner: (once|twice)", "The liner was cleaned too few times"),
    (r"Cut .*\b(1,?[3-9]|[2-9],?\d)\d\d rpm", "The cutter ran too fast"),
    (r"Cut .*counterclockwise", "The cutter turned the wrong way"),
    (r"Cut .*from outside first", "The cutter began on the wrong side"),
    (r"Cut .*\b[12] pass(es)? each way", "The cutter made too few passes"),
    (r"Probe the channel: (?!clean)", "What the probe found was left in the channel"),
    (r"Measure the prepared hole: (?:(?:9|10|11) mm|(?:3/8|13/32|7/16) in)", "The hole is over the limit"),
    (r"Draw the outline: (?:.*\()?1/[48] in", "The outline has too little margin"),
    (r"Buff .*\b([6-9]|1\d),?\d\d\d rpm", "The buffer ran too fast"),
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
    (r"Look at the repair: (?!sound)", "A repair that failed was let through"),
    (r"Seat the beads: (?:[56]0 psi|(?:350|410) kPa)", "The beads were seated with too much pressure"),
    (r"standing over the wheel", "Somebody stood in the path of the tire"),
    (r"Test for leaks: leak", "A leak was let through"),
    (r"Put .*impact wrench", "The nuts were tightened with the wrong tool"),
    (r"Put .*around the circle", "The nuts were tightened in the wrong pattern"),
    (r"Put .*oiled", "The threads were not as they should be"),
    (r"Put .*after [15],?000 mi", "The torque is checked again too late"),
]
# Of a steel body: at most 700 rpm, five passes, 3/8 in (10 mm); a truck tire is filled as 29 CFR 1910.177 says.
BAD_IN_STEEL = [
    *(one for one in BAD_LINES if not one[0].startswith((r"Cut .*\b", "Measure the prepared"))),
    (r"Cut .*\b(7[1-9]\d|[89]\d\d|\d,?\d{3}) rpm", "The cutter ran too fast"),
    (r"Cut .*\b[1-4] pass(es)? each way", "The cutter made too few passes"),
    (r"Measure the prepared hole: (?:1[1-3] mm|(?:7/16|15/32|1/2) in)", "The hole is over the limit"),
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
    "Take the dust away": "New dust was made after it was taken away",
    "Set the patch": "The fluid dried under the unit",
    "Pull the one-piece unit through": "The fluid dried under the unit",
}


def fault(item: OpenItem) -> tuple[set[str], str]:
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


def passes_by_body(item: OpenItem) -> int:
    # Common practice, no published source: three passes each way through a fabric body, five through a steel body.
    each = 5 if re.search(r"SIDEWALL PL(Y|IES) \d STEEL", item.stem) else 3
    words = {"once": 1, "twice": 2, "not at all": 0}
    told = present(
        re.search(
            r"through A (.+?) from inside and (.+?) from outside, and through B "
            r"(.+?) from inside and (.+?) from outside",
            item.stem,
        )
    ).groups()
    return 4 * each - sum(words[text] if text in words else int(text.split()[0]) for text in told)


BENCH = {
    "whole-case-work": order,
    "whole-case-return": fault,
    "order-of-inspection": order,
    "order-of-preparation": order,
    "order-of-installation": order,
    "order-of-return": order,
    "fault-in-preparation": fault,
    "fault-in-installation": fault,
    "fault-in-return": fault,
    "passes-by-body": passes_by_body,
    "cutter-setting": cutter_setting,
    "preparation-statements": statements,
    "installation-statements": statements,
    "return-to-service-statements": statements,
    "safety-statements": statements,
    "next-preparation-step": next_step,
    "next-installation-step": next_step,
    "drying": drying,
}
