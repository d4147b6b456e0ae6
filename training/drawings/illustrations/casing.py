"""Illustrations of the casing: its parts, where to look, what ends an inspection, and where a repair may be."""

from __future__ import annotations

from training.drawings.illustrations.pieces import badge, finished, half_casing, paragraph, pointer, slab
from training.drawings.ink import LINE, PAPER, RUBBER, Figure, Sheet
from training.drawings.path import curve, frame, num, pen
from training.rulebook import Edition
from training.trade.speech import say

_PATCH = frame(3, 3, 67, 35)  # a piece of rubber in one of the six panels


def cross_section_parts(edition: Edition) -> Figure:
    """Half a casing cut across, its parts named."""
    sheet = Sheet(-13, 137)
    half_casing(sheet)
    for text, at, to in (
        (say("tread"), (0.0, -9.0), (8.0, 2.5)),
        (say("groove"), (34.0, -9.0), (60.0, 3.5)),
        (say("shoulder"), (100.0, -3.0), (91.5, 12.0)),
        (say("sidewall"), (107.0, 60.0), (98.5, 55.0)),
        (say("belts"), (-6.0, 30.0), (30.0, 10.4)),
        (say("liner"), (-6.0, 43.0), (50.0, 12.9)),
        (say("body ply"), (-6.0, 56.0), (93.4, 62.0)),
        (say("bead"), (30.0, 104.0), (82.1, 106.7)),
    ):
        pointer(sheet, text, at, to)
    sheet.reach(-17, 115)
    return finished(
        sheet,
        say(
            "Half a radial casing cut across, from the middle of the crown at the left to one bead "
            "at the lower right. From outside in: the tread with its grooves, two belts of steel "
            "cord under it, the body ply that runs from bead to bead and turns around the bead "
            "wires, and the liner. The shoulder is the bend between tread and sidewall; the belts "
            "end there."
        ),
    )


def off_the_wheel(edition: Edition) -> Figure:
    """Where to look, in order, once the tire is off the wheel."""
    sheet = Sheet(-13, 137)
    half_casing(sheet)
    for number, x, y in (("1", 36.0, -7.5), ("2", 110.0, 52.0), ("3", 101.0, 110.0), ("4", 70.0, 28.0)):
        badge(sheet, x, y, number)
    sheet.arrow(36, -2, 36, 1.5)
    sheet.arrow(104.6, 52, 101.5, 52)
    sheet.arrow(95.5, 110, 90.5, 110)
    sheet.arrow(74, 24, 80, 19)
    places = (
        say("1  tread, all the way around"),
        say("2  both sidewalls"),
        say("3  both beads"),
        say("4  inside: all of the liner"),
    )
    for place, words in enumerate(places):
        sheet.text(-11, 42.0 + place * sheet.size * 1.45, words, anchor="start")
    sheet.reach(-13, 116)
    return finished(
        sheet,
        say(
            "Half a casing off the wheel, with four places to look at in order: one, the tread, all "
            "the way around; two, both sidewalls; three, both beads; four, inside, every part of the "
            "liner."
        ),
    )


def where_it_may_be(edition: Edition) -> Figure:
    """The repairable crown between the outermost grooves, and what lies beyond it."""
    return _repairable(
        56.0,
        say("repairable crown"),
        at_edge=say("outermost groove"),
        rule=say("The whole hole lies between the grooves, on the tread and on the liner."),
        in_words=say(
            "Half a casing cut across. A heavy bar lies over the tread from the centerline to the "
            "inner edge of the outermost groove: the repairable crown. From that groove on, over the "
            "shoulder and down the sidewall to the bead, a line says: no repair. The whole hole must "
            "lie between the outermost grooves, on the tread and on the liner."
        ),
    )


def area_by_size(edition: Edition) -> Figure:
    """The repairable crown as a share of the section width, whatever the grooves, and what lies beyond it."""
    return _repairable(
        46.0,
        say("half of area T"),
        at_edge=say("whatever the grooves"),
        rule=say("The whole hole lies inside area T, on the tread and on the liner."),
        in_words=say(
            "Half a casing cut across. A heavy bar lies over the tread from the centerline outward and "
            "ends before the outermost groove: half of area T, which is as wide as the size says. From "
            "its end on, over the shoulder and down the sidewall to the bead, a line says: no repair. "
            "The whole hole must lie inside area T, on the tread and on the liner."
        ),
    )


def _repairable(edge: float, name: str, *, at_edge: str, rule: str, in_words: str) -> Figure:
    """The half casing with a bar over the crown as far as it is repairable, and what lies beyond in one bracket."""
    sheet = Sheet(-13, 137)
    half_casing(sheet)
    sheet.box(0, -3.4, edge, 1.7, fill=LINE, stroke="none")
    sheet.rule(edge, -15, edge, 22, width=sheet.line, dash=sheet.limit)
    sheet.path("M0 -15V24", width=sheet.hair, dash=sheet.chain)
    sheet.arrow(0, -8, edge, -8, both=True)
    sheet.text(edge / 2, -10.3, name)
    paragraph(sheet, 0, 31, say("center"), most=20, anchor="middle")
    # everything from the edge to the bead in one bracket
    sheet.path("M66 -5C92 -5 103 10 106 30C109 52 107 80 100 108", width=sheet.hair * 1.5)
    sheet.arrow(100.6, 105, 99.4, 110)
    for text, x, y in (
        (say("no repair"), 111.0, 30.0),
        (say("shoulder"), 111.0, 47.0),
        (say("sidewall"), 111.0, 57.0),
        (say("bead"), 109.0, 104.0),
    ):
        sheet.text(x, y, text, anchor="start")
    pointer(sheet, at_edge, (63.0, -13.5), (60.0, 2.0))
    paragraph(sheet, -11, 52, rule, most=19)
    sheet.reach(-20, 116)
    return finished(sheet, in_words)


def exit_outside(edition: Edition) -> Figure:
    """A leaning channel that starts inside the repairable crown and comes out beyond it."""
    sheet = Sheet(0, 150)
    t, edge = 26.0, 92.0
    slab(sheet, 12, 140, thick=t, groove=(edge, edge + 16.5))
    start, end, half = 79.0, 97.5, 5.5
    walls = [(start - half, -0.6), (start + half, -0.6), (end + half, t + 0.8), (end - half, t + 0.8)]
    sheet.polygon(walls, fill=PAPER, stroke="none")
    cross = t * (edge - start - half) / (end - start)
    floor = start + half + (end - start) * 13 / t  # where the outer wall leaves the groove
    sheet.path(
        pen("M", start - half, 0, "L", end - half, t, "M", start + half, 0, "L", edge, cross)
        + pen("M", floor, 13, "L", end + half, t)
    )
    sheet.rule(start, 0, end + 10, t + 14, dash=sheet.chain)
    sheet.path(pen("M", end - half, t + 3.5, "H", end + half), width=2.2)
    sheet.ring(end, t + 1.5, half + 7.5, 8)
    sheet.rule(edge, -18, edge, t + 19, width=sheet.line, dash=sheet.limit)
    sheet.arrow(64, t + 12, edge - 1, t + 12)
    sheet.text(62, t + 14, say("repairable crown"), anchor="end")
    sheet.arrow(140, t + 12, 112, t + 12)
    pointer(sheet, say("starts inside"), (26.0, -12.0), (start - 1, -0.8))
    pointer(sheet, say("outermost groove"), (149.0, -12.0), (edge + 11, 8), anchor="end")
    pointer(sheet, say("comes out outside"), (86.0, t + 29.0), (end + 3.5, t + 5.0))
    sheet.text(12, t + 29, say("liner side"), anchor="start")
    sheet.reach(-20, t + 32)
    return finished(
        sheet,
        say(
            "The crown cut across beside the outermost groove, tread up. A line of long and short "
            "dashes marks the inner edge of the groove, the edge of the repairable crown. A channel "
            "starts on the tread inside that line, leans outward, and comes out on the liner on the "
            "far side of it, where a heavy bar marks its opening."
        ),
    )


def reject_on_sight(edition: Edition) -> Figure:
    """Six conditions that end the inspection, each in its own small drawing."""
    sheet = Sheet(0, 150)
    panels = (
        (say("ozone cracking"), _cracks),
        (say("exposed cord"), _cord),
        (say("liner separation"), _blister),
        (say("bulge"), _bulge),
        (say("damaged bead"), _bead),
        (say("ran flat: wrinkles inside"), _wrinkles),
    )
    for place, (name, draw) in enumerate(panels):
        x, y = 2.0 + 75.0 * (place % 2), 2.0 + 55.0 * (place // 2)
        sheet.box(x, y, 70, 38, fill=PAPER, width=sheet.hair)
        sheet.raw(f'<g transform="translate({num(x)} {num(y)})">')
        draw(sheet)
        sheet.raw("</g>")
        sheet.text(x, y + 38 + sheet.size * 1.1, name, anchor="start")
    sheet.reach(0, 2 + 55 * 3 - 6)
    return finished(
        sheet,
        say(
            "Six small drawings. Ozone cracking: many short cracks lie side by side in the sidewall "
            "rubber. Exposed cord: rubber is torn away and parallel cords show. Liner separation: "
            "the liner stands off the plies in a blister. Bulge: the sidewall stands out in a knot. "
            "Damaged bead: the bead wire is kinked and rubber is torn from it. Ran flat: wrinkles "
            "run around the inside low on the sidewall, with loose rubber below them."
        ),
    )


def _cracks(sheet: Sheet) -> None:
    sheet.polygon(_PATCH, fill=RUBBER, width=sheet.hair)
    d = []
    for row in range(4):
        for col in range(9):
            x, y = 9 + col * 6.6 + (row % 2) * 2.6, 9 + row * 6.8
            lean, half = ((row * 5 + col * 3) % 5 - 2) * 0.5, 2.2 + ((row + col * 2) % 3) * 0.9
            d.append(pen("M", x - lean, y - half, "l", lean * 1.3, half, "l", -lean * 0.4, half))
    sheet.path("".join(d), width=sheet.line)


def _cord(sheet: Sheet) -> None:
    sheet.polygon(_PATCH, fill=RUBBER, width=sheet.hair)
    sheet.path("M14 14L24 8L37 10L52 7L59 18L53 29L38 27L23 31L12 24Z", fill=PAPER)
    cords = "M17 13.5V28M22 10.5V29.5M27 9.5V29M32 10.5V27.5M37 11.5V26M42 10.5V26.5M47 9.5V27.5M52 9V27.5"
    sheet.path(cords, width=2.2)
    sheet.path(cords, width=1.0, stroke=PAPER, dash="0.9 0.9")


def _blister(sheet: Sheet) -> None:
    body = frame(3, 6, 67, 22)
    sheet.polygon(body, fill=RUBBER, width=sheet.hair)
    sheet.hatch_tread(body)
    sheet.box(3.5, 13.6, 63, 2.8, fill=PAPER, stroke="none")
    sheet.path("M5 15H66", width=1.3, dash="0.05 2.6", cap="round")
    hollow = curve((20.0, 22.0), (27.0, 33.0), (44.0, 33.0), (51.0, 22.0))
    sheet.polygon(hollow, fill=PAPER, width=sheet.hair)
    below = [(3.0, 22.0), *hollow, (67.0, 22.0), (67.0, 25.0), (53.0, 25.0)]
    liner = [*below, *reversed(curve((18.5, 25.0), (26.0, 36.5), (45.0, 36.5), (52.5, 25.0))), (3.0, 25.0)]
    sheet.polygon(liner, fill=RUBBER, width=sheet.hair)
    sheet.hatch_liner(liner)


def _bulge(sheet: Sheet) -> None:
    knot = curve((26.0, 18.5), (29.0, 6.0), (41.0, 6.0), (44.0, 18.5))
    wall = [*curve((3.0, 29.0), (12.0, 20.0), (20.0, 19.0), (26.0, 18.5)), *knot]
    outline = [*wall, *curve((44.0, 18.5), (50.0, 19.0), (58.0, 20.0), (67.0, 29.0)), (67.0, 35.0), (3.0, 35.0)]
    sheet.polygon(outline, fill=RUBBER)
    sheet.hatch_tread(outline)
    sheet.polygon(outline)
    sheet.path("M24.5 22C31 21 39 21 45.5 22", width=sheet.hair, dash=sheet.dashes)


def _bead(sheet: Sheet) -> None:
    torn = [(3.0, 4.0), (67.0, 4.0), (67.0, 25.0), (47.0, 26.0), (43.0, 19.0), (38.0, 23.0), (33.0, 17.0),
            (28.0, 26.0), (3.0, 26.0)]  # fmt: skip
    sheet.polygon(torn, fill=RUBBER, width=sheet.hair * 1.6)
    sheet.hatch_tread(torn)
    wires = "M3 18H28L34 29L41 16L47 18.6H67M3 20H28L34 31L41 18L47 20.6H67M3 22H28L34 33L41 20L47 22.6H67"
    sheet.path(wires, width=0.9)


def _wrinkles(sheet: Sheet) -> None:
    sheet.polygon(_PATCH, fill=RUBBER, width=sheet.hair)
    for row in range(4):
        waves = "".join(f"q2 {-1.6 if (i + row) % 2 else 1.6} 4 0" for i in range(16))
        sheet.path(f"M3 {num(12 + row * 3.6)}{waves}", width=sheet.line)
    crumbs = "M12 31h0.01M19 29.5h0.01M27 32h0.01M33 30h0.01M41 31.5h0.01M47 29.6h0.01M55 31.4h0.01M61 30h0.01"
    sheet.path(crumbs, width=1.8, cap="round")
