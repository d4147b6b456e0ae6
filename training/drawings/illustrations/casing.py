"""Illustrations of the casing: its parts, where to look, what ends an inspection, and where a repair may be."""

from __future__ import annotations

from training.drawings.illustrations.pieces import badge, finished, half_casing, paragraph, pointer, slab
from training.drawings.ink import PAPER, RUBBER, Figure, Sheet, frame, num, pen
from training.rulebook import Edition

_PATCH = frame(3, 3, 67, 35)  # a piece of rubber in one of the six panels


def cross_section_parts(edition: Edition) -> Figure:
    """Half a casing cut across, its parts named."""
    sheet = Sheet(-13, 137)
    half_casing(sheet)
    for text, at, to in (
        ("tread", (0.0, -9.0), (8.0, 2.5)),
        ("groove", (34.0, -9.0), (60.0, 3.5)),
        ("shoulder", (100.0, -3.0), (91.5, 12.0)),
        ("sidewall", (107.0, 60.0), (98.5, 55.0)),
        ("belts", (-6.0, 30.0), (30.0, 9.8)),
        ("inner liner", (-6.0, 43.0), (50.0, 13.2)),
        ("body ply", (-6.0, 56.0), (93.6, 62.0)),
        ("bead", (30.0, 104.0), (81.5, 106.5)),
    ):
        pointer(sheet, text, at, to)
    sheet.reach(-17, 115)
    return finished(
        sheet,
        "Half a radial casing cut across, from the middle of the crown at the left to one bead at the lower right. "
        "From outside in: the tread with its grooves, two belts of steel cord under it, the body ply that runs from "
        "bead to bead and turns around the bead wires, and the inner liner. The shoulder is the bend between tread "
        "and sidewall; the belts end there.",
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
    places = ("1  tread, all the way around", "2  both sidewalls", "3  both beads", "4  inside: all of the liner")
    for place, words in enumerate(places):
        sheet.text(-11, 42.0 + place * sheet.size * 1.45, words, anchor="start")
    sheet.reach(-13, 116)
    return finished(
        sheet,
        "Half a casing off the wheel, with four places to look at in order: one, the tread, all the way around; two, "
        "both sidewalls; three, both beads; four, inside, every part of the liner.",
    )


def where_it_may_be(edition: Edition) -> Figure:
    """The repairable crown between the outermost grooves, and what lies beyond it."""
    sheet = Sheet(-13, 137)
    half_casing(sheet)
    sheet.hatch(frame(-10, 0, 56, 13.5), step=4.2)
    sheet.rule(56, -13, 56, 22, width=sheet.line, dash=sheet.dashes)
    sheet.path("M0 -13V24", width=sheet.hair, dash=sheet.chain)
    sheet.arrow(0, -5, 56, -5, both=True)
    sheet.text(28, -7.5, "repairable crown")
    paragraph(sheet, 0, 31, "center", most=20, anchor="middle")
    pointer(sheet, "outermost groove", (63.0, -13.0), (60.0, 2.0))
    # everything from the groove to the bead in one bracket
    sheet.path("M66 -5C92 -5 103 10 106 30C109 52 107 80 100 108", width=sheet.hair * 1.5)
    sheet.arrow(100.6, 105, 99.4, 110)
    for text, x, y in (
        ("no repair", 111.0, 30.0),
        ("shoulder", 111.0, 47.0),
        ("sidewall", 111.0, 57.0),
        ("bead", 109.0, 104.0),
    ):
        sheet.text(x, y, text, anchor="start")
    paragraph(sheet, -11, 52, "The whole hole lies between the grooves, on the tread and on the liner.", most=19)
    sheet.reach(-20, 116)
    return finished(
        sheet,
        "Half a casing cut across. The crown is hatched from the centerline to the inner edge of the outermost "
        "groove: the repairable crown. From that groove on, over the shoulder and down the sidewall to the bead, a "
        "line says: no repair. The whole hole must lie between the outermost grooves, on the tread and on the liner.",
    )


def exit_outside(edition: Edition) -> Figure:
    """A leaning channel that starts inside the repairable crown and comes out beyond it."""
    sheet = Sheet(0, 150)
    t, edge = 26.0, 92.0
    slab(sheet, 12, 140, top=0, thick=t)
    sheet.polygon([(edge, -0.5), (edge + 1.5, 14), (edge + 15, 14), (edge + 16.5, -0.5)], fill=PAPER, stroke="none")
    sheet.path(pen("M", edge, 0, "L", edge + 1.5, 14, "H", edge + 15, "L", edge + 16.5, 0))
    start, end, half = 79.0, 97.5, 5.5
    sheet.ring((start + end) / 2, t / 2, 21, 19)
    walls = [(start - half, -0.6), (start + half, -0.6), (end + half, t + 0.8), (end - half, t + 0.8)]
    sheet.polygon(walls, fill=PAPER, stroke="none")
    cross = t * (edge - start - half) / (end - start)
    floor = start + half + (end - start) * 14 / t  # where the outer wall leaves the groove
    sheet.path(
        pen("M", start - half, 0, "L", end - half, t, "M", start + half, 0, "L", edge, cross)
        + pen("M", floor, 14, "L", end + half, t)
    )
    sheet.rule(start, 0, end + 10, t + 14, dash=sheet.chain)
    sheet.rule(edge, -18, edge, t + 19, width=sheet.line, dash=sheet.dashes)
    sheet.arrow(64, t + 12, edge - 1, t + 12)
    sheet.text(62, t + 14, "repairable crown", anchor="end")
    sheet.arrow(140, t + 12, 112, t + 12)
    pointer(sheet, "starts inside", (26.0, -12.0), (start - 1, -0.8))
    pointer(sheet, "outermost groove", (149.0, -12.0), (edge + 11, 8), anchor="end")
    pointer(sheet, "comes out outside", (86.0, t + 29.0), (end + 1, t + 1.0))
    sheet.text(12, t + 29, "liner side", anchor="start")
    sheet.reach(-20, t + 32)
    return finished(
        sheet,
        "The crown cut across beside the outermost groove, tread up. A dashed line marks the inner edge of the "
        "groove, the edge of the repairable crown. A channel starts on the tread inside that line, leans outward, and "
        "comes out on the liner on the far side of it.",
    )


def reject_on_sight(edition: Edition) -> Figure:
    """Six conditions that end the inspection, each in its own small drawing."""
    sheet = Sheet(0, 150)
    panels = (
        ("ozone cracking", _cracks),
        ("exposed cord", _cord),
        ("liner separation", _blister),
        ("bulge", _bulge),
        ("damaged bead", _bead),
        ("ran flat: wrinkles inside", _wrinkles),
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
        "Six small drawings. Ozone cracking: many short cracks lie side by side in the sidewall rubber. Exposed cord: "
        "rubber is torn away and parallel cords show. Liner separation: the liner stands off the plies in a blister. "
        "Bulge: the sidewall stands out in a knot. Damaged bead: the bead wire is kinked and rubber is torn from it. "
        "Ran flat: wrinkles run around the inside low on the sidewall, with loose rubber below them.",
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
    sheet.polygon(frame(3, 6, 67, 22), fill=RUBBER, width=sheet.hair)
    sheet.path("M4 15H66", width=1.2, dash="0.05 2.6", cap="round")
    sheet.path("M20 22C27 33 44 33 51 22Z", fill=PAPER, width=sheet.hair)
    sheet.path("M3 22.6H19C26 34.5 45 34.5 52 22.6H67", width=sheet.line * 1.8)


def _bulge(sheet: Sheet) -> None:
    sheet.path("M3 29C12 20 20 19 26 18.5C29 6 41 6 44 18.5C50 19 58 20 67 29V35H3Z", fill=RUBBER)
    sheet.path("M24.5 22C31 21 39 21 45.5 22", width=sheet.hair, dash=sheet.dashes)


def _bead(sheet: Sheet) -> None:
    torn = "M3 4H67V25L47 26L43 19L38 23L33 17L28 26H3Z"
    sheet.path(torn, fill=RUBBER, width=sheet.hair * 1.6)
    wires = "M3 18H28L34 29L41 16L47 18.6H67M3 20H28L34 31L41 18L47 20.6H67M3 22H28L34 33L41 20L47 22.6H67"
    sheet.path(wires, width=0.9)


def _wrinkles(sheet: Sheet) -> None:
    sheet.polygon(_PATCH, fill=RUBBER, width=sheet.hair)
    for row in range(4):
        waves = "".join(f"q2 {-1.6 if (i + row) % 2 else 1.6} 4 0" for i in range(16))
        sheet.path(f"M3 {num(12 + row * 3.6)}{waves}", width=sheet.line)
    crumbs = "M12 31h0.01M19 29.5h0.01M27 32h0.01M33 30h0.01M41 31.5h0.01M47 29.6h0.01M55 31.4h0.01M61 30h0.01"
    sheet.path(crumbs, width=1.8, cap="round")
