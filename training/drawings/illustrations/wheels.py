"""Illustrations of wheels other than a car's: behind bars, in a dual pair, and the round tire of a motorcycle."""

from __future__ import annotations

from training.drawings.illustrations.pieces import finished, paragraph, pointer
from training.drawings.ink import LINE, PAPER, RUBBER, Figure, Sheet, frame
from training.rulebook import Edition


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
    for at in (18.0, 132.0):
        width = sheet.size * 6.2
        sheet.box(at - width / 2, 34, width, sheet.size * 1.6, fill=PAPER, width=sheet.hair)
        sheet.text(at, 34 + sheet.size * 1.15, "trajectory")
    sheet.arrow(62, 51, 34, 54)
    sheet.arrow(88, 51, 116, 54)
    sheet.path("M80 48C92 62 78 80 80 96V104", width=sheet.line)
    sheet.circle(80, 48, 2.2, fill=PAPER)
    sheet.box(74, 96, 12, 12, fill=PAPER, corner=1)
    sheet.path("M80 106L83 99", width=sheet.hair * 1.4)
    sheet.circle(75, 124, 5.5, fill=PAPER)
    sheet.path("M64 132C66 127 84 127 86 132Z", fill=RUBBER)
    pointer(sheet, "restraining device", (2.0, 90.0), (50.0, 73.0))
    pointer(sheet, "clip-on chuck", (101.0, 92.0), (81.5, 49.5))
    pointer(sheet, "in-line gauge", (97.0, 106.0), (84.5, 102.0))
    paragraph(sheet, 92, 122, "you stand here, out of the trajectory", most=20)
    sheet.reach(0, 135)
    return finished(
        sheet,
        "Seen from above: a truck tire stands between the bars of a restraining device. Two hatched fields open "
        "outward from its sidewalls, to the left and to the right: the trajectory. A hose runs from a chuck "
        "clipped to the valve, past a gauge, to a person who stands in line with the tread, well away from the "
        "device and outside both fields.",
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
            sheet.box(x, min(near, far), 32, abs(far - near), fill=RUBBER, corner=6)
        sheet.box(x + 5, axle - 17, 22, 34, fill=PAPER, width=sheet.hair * 1.4)
    sheet.box(108, axle - 20, 5, 40, fill=PAPER)
    # the inner tire's valve, led out through a hand hole of the outer wheel
    sheet.path(f"M61 {axle + 12}H117", width=sheet.line)
    sheet.circle(118, axle + 12, 1.8, fill=PAPER)
    sheet.rule(20, road - 6, 66, road - 6, dash=sheet.dashes)
    sheet.arrow(24, road - 6, 24, road, both=True)
    sheet.text(50, 10, "inner")
    sheet.text(92, 4, "outer")
    pointer(sheet, "inner valve", (112.0, 84.0), (118.0, axle + 13.5))
    paragraph(sheet, 12, 107, "smaller: carries none, and scrubs", most=20)
    paragraph(sheet, 80, 107, "touches the road: carries both loads", most=20)
    sheet.reach(-3, 107 + sheet.size * 1.6)
    return finished(
        sheet,
        "A dual pair cut across, seen from behind. The outer tire stands on the road. The inner tire is smaller, "
        "and a gap is left under it: the outer one carries the load of both. The valve of the inner tire is led "
        "out through the outer wheel, so that a gauge reaches it from outside.",
    )


def motorcycle_section(edition: Edition) -> Figure:
    """A motorcycle tire cut across: round from edge to edge, with the road where it stands and where it leans."""
    sheet = Sheet(0, 150)
    body = (
        "M51 118L47 106Q38 98 29.7 87A50 50 0 1 1 120.3 87Q112 98 103 106L99 118H93L97 105Q106 96 114.9 84.6"
        "A44 44 0 1 0 35.1 84.6Q44 96 53 105L57 118Z"
    )
    sheet.path("M26.7 53.1A50 50 0 0 1 123.3 53.1L128.1 51.8A55 55 0 0 0 21.9 51.8Z", fill=RUBBER)
    sheet.path(body, fill=RUBBER)
    sheet.rule(46, 10.6, 100, 10.6, width=sheet.line)
    sheet.rule(98.6, 8.2, 135.8, 52.6, width=sheet.line)
    sheet.text(70, 6, "road, upright")
    paragraph(sheet, 122, 22, "road, leaning", most=8)
    pointer(sheet, "tread", (2.0, 24.0), (35.0, 30.0))
    pointer(sheet, "sidewall:", (2.0, 112.0), (31.0, 85.0))
    sheet.text(2, 112 + sheet.size * 1.2, "no repair", anchor="start")
    pointer(sheet, "bead", (122.0, 116.0), (98.0, 114.0))
    sheet.reach(-2, 123)
    return finished(
        sheet,
        "A motorcycle tire cut across. Its tread is bent like a half circle from edge to edge, with no flat crown. "
        "One line touches it in the middle: the road while it runs upright. Another touches it far out: the road "
        "while it leans. Under the tread's edges the short sidewalls run down to the beads; nothing is repaired there.",
    )
