"""Illustrations of wheels other than a car's: behind bars, in a dual pair, and the round tire of a motorcycle."""

from __future__ import annotations

import math

from training.drawings.boxes import text_width
from training.drawings.illustrations.pieces import finished, paragraph, pointer
from training.drawings.ink import LINE, PAPER, RUBBER, Figure, Sheet
from training.drawings.path import Point, along, frame
from training.rulebook import Edition
from training.trade.speech import say


def restraint(edition: Edition) -> Figure:
    """A tire filled in a restraining device, seen from above: where the trajectory runs, and where one stands."""
    sheet = Sheet(0, 150)
    left, right, top, low = 64.0, 86.0, 14.0, 66.0
    sheet.hatch([(0, 2), (left, top + 4), (left, low - 4), (0, 78)], step=5.5)
    sheet.hatch([(150, 2), (right, top + 4), (right, low - 4), (150, 78)], step=5.5)
    sheet.box(left, top, right - left, low - top, fill=RUBBER, corner=7)
    sheet.box(left + 6, top + 14, right - left - 12, low - top - 28, fill=PAPER, width=sheet.hair * 1.4)
    for y in (8.0, 24.0, 40.0, 56.0, 72.0):  # the bars, cut where they pass beside the tire
        for x in (50.0, 100.0):
            sheet.circle(x, y, 2.4, fill=LINE)
    sheet.path("M50 8H100M50 72H100", width=sheet.line)
    name = say("trajectory")
    for at in (18.0, 132.0):
        width = min(text_width(name, sheet.size) + sheet.size * 2.25, 2 * min(at, 150 - at) - sheet.unit)
        sheet.box(at - width / 2, 34, width, sheet.size * 1.6, fill=PAPER, width=sheet.hair)
        sheet.text(at, 34 + sheet.size * 1.15, name)
    sheet.arrow(62, 51, 34, 54)
    sheet.arrow(88, 51, 116, 54)
    sheet.path("M80 48C92 62 78 80 80 96V104", width=sheet.line)
    sheet.circle(80, 48, 2.2, fill=PAPER)
    sheet.box(74, 96, 12, 12, fill=PAPER, corner=1)
    sheet.path("M80 106L83 99", width=sheet.hair * 1.4)
    sheet.circle(75, 124, 5.5, fill=PAPER)
    sheet.path("M64 132C66 127 84 127 86 132Z", fill=RUBBER)
    pointer(sheet, say("restraining device"), (2.0, 90.0), (50.0, 73.0))
    pointer(sheet, say("clip-on chuck"), (101.0, 92.0), (81.5, 49.5))
    pointer(sheet, say("in-line gauge"), (97.0, 106.0), (84.5, 102.0))
    paragraph(sheet, 92, 122, say("you stand here, out of the trajectory"), most=20)
    sheet.reach(0, 135)
    return finished(
        sheet,
        say(
            "Seen from above: a truck tire stands between the bars of a restraining device. Two "
            "hatched fields open outward from its sidewalls, to the left and to the right: the "
            "trajectory. A hose runs from a chuck clipped to the valve, past a gauge, to a person "
            "who stands in line with the tread, well away from the device and outside both fields."
        ),
    )


def dual_pair(edition: Edition) -> Figure:
    """Two tires of unequal size on one hub end: the larger carries both loads; how the inner valve is reached."""
    sheet = Sheet(0, 150)
    road, axle = 92.0, 50.0
    sheet.path(f"M0 {road}H150", width=sheet.line)
    sheet.hatch(frame(0, road, 150, road + 6), step=5.5)
    sheet.box(2, axle - 4, 120, 8, fill=PAPER)
    for x, reach in ((34.0, road - axle - 6.0), (76.0, road - axle)):
        for turn in (-1.0, 1.0):
            near, far = axle + turn * 17, axle + turn * reach
            top, low = min(near, far), max(near, far)
            tire = [(x + 6, top), (x + 26, top), (x + 32, top + 6), (x + 32, low - 6), (x + 26, low), (x + 6, low),
                    (x, low - 6), (x, top + 6)]  # fmt: skip
            sheet.box(x, top, 32, low - top, fill=RUBBER, corner=6)
            sheet.hatch_tread(tire)
        sheet.box(x + 5, axle - 17, 22, 34, fill=PAPER, width=sheet.hair * 1.4)
    sheet.box(108, axle - 20, 5, 40, fill=PAPER)
    # the inner tire's valve, led out through a hand hole of the outer wheel
    sheet.path(f"M61 {axle + 12}H117", width=sheet.line)
    sheet.circle(118, axle + 12, 1.8, fill=PAPER)
    sheet.rule(20, road - 6, 66, road - 6, dash=sheet.dashes)
    sheet.arrow(24, road - 6, 24, road, both=True)
    sheet.text(50, 10, say("inner"))
    sheet.text(92, 4, say("outer"))
    pointer(sheet, say("inner valve"), (112.0, 84.0), (118.0, axle + 13.5))
    paragraph(sheet, 12, 107, say("smaller: carries none, and scrubs"), most=20)
    paragraph(sheet, 80, 107, say("touches the road: carries both loads"), most=20)
    sheet.reach(-3, 107 + sheet.size * 1.6)
    return finished(
        sheet,
        say(
            "A dual pair cut across, seen from behind. The outer tire stands on the road. The inner "
            "tire is smaller, and a gap is left under it: the outer one carries the load of both. "
            "The valve of the inner tire is led out through the outer wheel, so that a gauge reaches "
            "it from outside."
        ),
    )


def motorcycle_section(edition: Edition) -> Figure:
    """A motorcycle tire cut across: round from edge to edge, with the road where it stands and where it leans."""
    sheet = Sheet(0, 150)
    # two round walls, the outer one thicker under the tread, and the feet down to the beads
    outer, inner = _around(75, 66, 50, 116), _around(75, 66, 44, 112)
    left, right = ((43.0, 95.5), (53.0, 105.0)), ((97.0, 105.0), (107.0, 95.5))
    body = [(51.0, 118.0), (47.0, 106.0), (38.6, 98.5), *outer, (111.4, 98.5), (103.0, 106.0), (99.0, 118.0),
            (93.0, 118.0), *right, *reversed(inner), *left, (57.0, 118.0)]  # fmt: skip
    tread = [*_around(75, 66, 55, 76), *reversed(_around(75, 66, 50, 76))]
    for part in (tread, body):
        sheet.path(along(part) + "Z", fill=RUBBER)
        sheet.hatch_tread(part)
    sheet.rule(46, 10.6, 100, 10.6, width=sheet.line)
    sheet.rule(98.6, 8.2, 135.8, 52.6, width=sheet.line)
    sheet.text(70, 6, say("road, upright"))
    paragraph(sheet, 122, 22, say("road, leaning"), most=8)
    pointer(sheet, say("tread"), (2.0, 24.0), (35.0, 30.0))
    pointer(sheet, say("sidewall: no repair"), (2.0, 112.0), (31.0, 85.0), most=9)
    pointer(sheet, say("bead"), (122.0, 116.0), (98.0, 114.0))
    sheet.reach(-2, 123)
    return finished(
        sheet,
        say(
            "A motorcycle tire cut across. Its tread is bent like a half circle from edge to edge, "
            "with no flat crown. One line touches it in the middle: the road while it runs upright. "
            "Another touches it far out: the road while it leans. Under the tread's edges the short "
            "sidewalls run down to the beads; nothing is repaired there."
        ),
    )


def _around(x: float, y: float, r: float, most: int) -> list[Point]:
    """Points on a circle from `most` degrees left of its top to as many right of it."""
    turns = [math.radians(turn) for turn in range(-most, most + 1, 4)]
    return [(x + r * math.sin(turn), y - r * math.cos(turn)) for turn in turns]
