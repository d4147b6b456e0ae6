"""Illustrations of tools in use: tread gauge, probe and caliper, torque wrench order."""

from __future__ import annotations

import math
from itertools import pairwise

from training.drawings.illustrations.pieces import badge, finished, paragraph, pointer
from training.drawings.ink import PAPER, RUBBER, STEEL, Figure, Sheet
from training.drawings.path import along, frame, pen
from training.rulebook import Edition
from training.trade.speech import say


def tread_gauge(edition: Edition) -> Figure:
    """A gauge's base flat on two ribs, its pin at the bottom of a major groove, clear of the wear bar."""
    sheet = Sheet(0, 150)
    ribs = [(6, 46), (58, 46), (60, 66), (80, 66), (82, 46), (112, 46), (114, 66), (119, 66), (119, 59), (130, 59),
            (130, 66), (134, 66), (136, 46), (146, 46)]  # fmt: skip
    wave = [(x, 82 + 1.6 * math.sin(x / 11)) for x in range(146, 5, -5)]
    outline = [(float(x), float(y)) for x, y in (*ribs, *wave)]
    sheet.path(along(outline) + "Z", fill=RUBBER)
    sheet.hatch_tread(outline)
    sheet.polygon(frame(69, 30, 71, 66), fill=STEEL, width=sheet.hair * 1.4)
    sheet.box(46, 40, 48, 6, fill=STEEL)
    sheet.box(61, 4, 18, 36, fill=PAPER)
    marks = "".join(pen("M", 61, 9 + 3.2 * i, "h", 7 if i % 4 == 0 else 4) for i in range(9))
    sheet.path(marks, width=sheet.hair * 1.3)
    sheet.path("M79 22h-9l3 -1.8m-3 1.8l3 1.8", width=sheet.line)
    pointer(sheet, say("base flat on two ribs"), (2.0, 14.0), (50.0, 42.0), most=11, is_from_last=True)
    pointer(sheet, say("bottom of a major groove"), (2.0, 97.0), (68.0, 65.0), most=12)
    pointer(sheet, say("not on a wear bar"), (80.0, 97.0), (124.0, 59.5))
    sheet.reach(2, 97 + sheet.size * 1.5)
    return finished(
        sheet,
        say(
            "A tread gauge on a tread cut across. Its base lies flat on two ribs and its pin stands "
            "on the bottom of the major groove between them. In the next groove a wear bar stands up "
            "from the bottom: the pin does not belong there."
        ),
    )


def probe_and_caliper(edition: Edition) -> Figure:
    """A tapered probe that fits without force, and the caliper's inside jaws across the longest direction."""
    sheet = Sheet(0, 150)
    top, low = 42.0, 72.0
    for left, right in ((4, 29), (43, 96), (118, 146)):
        block = frame(left, top, right, low)
        sheet.polygon(block, fill=RUBBER, stroke="none")
        sheet.hatch_tread(block)
        sheet.path(pen("M", left, top, "H", right, "M", left, low, "H", right))
    sheet.path("".join(pen("M", x, top, "V", low) for x in (29, 43, 96, 118)))
    tip = [(43, top), (39.5, low + 4), (36, low + 8), (32.5, low + 4), (29, top)]
    sheet.polygon([(27, 10), (45, 10), *tip], fill=PAPER)
    sheet.path("M27.6 18H44.4M28 24H44M28.4 30H43.6M28.7 36H43.3", width=sheet.hair * 1.3)
    sheet.box(24, -3, 24, 13, fill=STEEL, corner=2)
    sheet.path("".join(pen("M", x, -1, "V", 8) for x in (28, 32, 36, 40, 44)), width=sheet.hair)
    # inside jaws: straight outer edges against the walls of the hole
    sheet.polygon([(96, top + 18), (96, 18), (88, 16), (72, 16), (72, 12), (103, 12), (102, 22)], fill=STEEL)
    sheet.polygon([(118, top + 18), (118, 18), (124, 16), (138, 16), (138, 12), (111, 12), (112, 22)], fill=STEEL)
    sheet.box(72, -1, 76, 13, fill=PAPER)
    sheet.path(
        "".join(pen("M", 78 + 3 * i, 12, "v", -5 if i % 5 == 0 else -3) for i in range(21)), width=sheet.hair * 1.2
    )
    sheet.box(111, -6, 27, 5, fill=STEEL)
    sheet.box(122, -9, 6, 3, fill=STEEL, width=sheet.hair)
    sheet.arrow(96, low + 5, 118, low + 5, both=True)
    y = low + 18
    paragraph(sheet, 4, y, say("slides, not forced, touches all around"), most=18)
    paragraph(sheet, 78, y, say("jaws against both walls, the longest way"), most=19)
    sheet.reach(-10, y + sheet.size * 2.7)
    return finished(
        sheet,
        say(
            "Two holes in rubber cut open. In the first stands a tapered probe: it slides in without "
            "force and touches the wall all around. In the second stand the inside jaws of a "
            "caliper, spread against both walls across the longest way."
        ),
    )


def star_pattern(edition: Edition) -> Figure:
    """Five wheel nuts and the order to tighten them in, each next one across the wheel."""
    sheet = Sheet(0, 150)
    x, y, r = 75.0, 52.0, 34.0
    sheet.circle(x, y, 50)
    sheet.circle(x, y, 8, width=sheet.hair * 1.5)
    nuts = [(x + r * math.sin(math.radians(72 * i)), y - r * math.cos(math.radians(72 * i))) for i in range(5)]
    order = [nuts[0], nuts[2], nuts[4], nuts[1], nuts[3]]
    for a, b in pairwise(order):
        length = math.hypot(b[0] - a[0], b[1] - a[1])
        ux, uy = (b[0] - a[0]) / length, (b[1] - a[1]) / length
        sheet.arrow(a[0] + ux * 9, a[1] + uy * 9, b[0] - ux * 9, b[1] - uy * 9, width=sheet.line)
    for place, (cx, cy) in enumerate(order, start=1):
        points = [(cx + 8 * math.cos(math.radians(60 * k)), cy + 8 * math.sin(math.radians(60 * k))) for k in range(6)]
        sheet.polygon(points, fill=RUBBER)
        badge(sheet, cx, cy, str(place))
    sheet.text(x, 52 + 50 + sheet.size * 1.5, say("each next nut lies across the wheel"))
    sheet.reach(1, 52 + 50 + sheet.size * 1.8)
    return finished(
        sheet,
        say(
            "A wheel with five nuts. Arrows lead from the first nut to the one nearly opposite, and "
            "so on across the wheel each time, so that the path draws a five-pointed star; the nuts "
            "are numbered one to five in that order."
        ),
    )
