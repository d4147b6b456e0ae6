"""Illustrations of large wheels: filling behind bars, and a dual pair on its axle."""

from __future__ import annotations

from training.drawings.illustrations.pieces import finished, paragraph, pointer
from training.drawings.ink import LINE, PAPER, RUBBER, Figure, Sheet
from training.rulebook.edition import Edition


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
    pointer(sheet, "gauge on the hose", (97.0, 106.0), (84.5, 102.0))
    paragraph(sheet, 92, 122, "you stand here, out of the trajectory", most=20)
    sheet.reach(0, 135)
    return finished(
        sheet,
        (
            "Seen from above: a truck tire stands between the bars of a restraining device. Two hatched fields open "
            "outward from its sidewalls, to the left and to the right: the trajectory. A hose runs from a chuck "
            "clipped to the valve, past a gauge, to a person who stands in line with the tread, well away from the "
            "device and outside both fields."
        ),
    )


def dual_pair(edition: Edition) -> Figure:
    """Two tires of unequal size on one hub end: the larger carries both loads; how the inner valve is reached."""
    sheet = Sheet(0, 150)
    road, axle = 92.0, 50.0
    sheet.path(f"M0 {road}H150", width=sheet.line)
    sheet.hatch([(0, road), (150, road), (150, road + 6), (0, road + 6)], step=5.5)
    sheet.box(8, axle - 4, 122, 8, fill=PAPER)
    for x, reach in ((42.0, road - axle), (84.0, road - axle - 6.0)):
        for turn in (-1.0, 1.0):
            near, far = axle + turn * 17, axle + turn * reach
            sheet.box(x, min(near, far), 32, abs(far - near), fill=RUBBER, corner=6)
        sheet.box(x + 5, axle - 17, 22, 34, fill=PAPER, width=sheet.hair * 1.4)
    sheet.box(116, axle - 20, 5, 40, fill=PAPER)
    # the inner tire's valve, led out through a hand hole of the outer wheel
    sheet.path(f"M69 {axle + 12}H125", width=sheet.line)
    sheet.circle(126, axle + 12, 1.8, fill=PAPER)
    sheet.rule(84, road - 6, 132, road - 6, dash=sheet.dashes)
    sheet.arrow(128, road - 6, 128, road, both=True)
    sheet.text(58, 4, "inner")
    sheet.text(100, 10, "outer")
    pointer(sheet, "inner valve", (113.0, 28.0), (126.0, axle + 10.5))
    paragraph(sheet, 2, 106, "touches the road: carries both loads", most=20)
    paragraph(sheet, 84, 106, "smaller: carries none, and scrubs", most=20)
    sheet.reach(-3, 106 + sheet.size * 1.6)
    return finished(
        sheet,
        (
            "A dual pair cut across, seen from behind. The inner tire stands on the road. The outer tire is smaller, "
            "and a gap is left under it: the inner one carries the load of both. The valve of the inner tire is led "
            "out through the outer wheel, so that a gauge reaches it from outside."
        ),
    )
