"""Illustrations of the casing: its parts, where to look, what ends an inspection, and where a repair may be."""

from __future__ import annotations

from training.drawings.illustrations.pieces import badge, finished, half_casing, paragraph, pointer, slab
from training.drawings.ink import LINE, PAPER, RUBBER, Figure, Sheet, num
from training.rulebook.edition import Edition


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
        (
            "Half a radial casing cut across, from the middle of the crown at the left to one bead at the lower right. From "
            "outside in: the tread with its grooves, two belts of steel cord under it, the body ply that runs from bead to "
            "bead and turns around the bead wires, and the inner liner. The shoulder is the bend between tread and sidewall; "
            "the belts end there."
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
    y = 42.0
    for line in (
        "1  tread, all the way around",
        "2  both sidewalls",
        "3  both beads",
        "4  inside: every part",
        "    of the liner",
    ):
        sheet.text(-11, y, line, anchor="start")
        y += sheet.size * 1.45
    sheet.reach(-13, 116)
    return finished(
        sheet,
        (
            "Half a casing off the wheel, with four places to look at in order: one, the tread, all the way around; two, both "
            "sidewalls; three, both beads; four, inside, every part of the liner."
        ),
    )


def where_it_may_be(edition: Edition) -> Figure:
    """The repairable crown between the outermost grooves, and what lies beyond it."""
    sheet = Sheet(-13, 137)
    half_casing(sheet)
    sheet.hatch([(-10, 0), (56, 0), (56, 13.5), (-10, 13.5)], step=4.2)
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
        (
            "Half a casing cut across. The crown is hatched from the centerline to the inner edge of the outermost groove: "
            "the repairable crown. From that groove on, over the shoulder and down the sidewall to the bead, a line says: no "
            "repair. The whole hole must lie between the outermost grooves, on the tread and on the liner."
        ),
    )


def exit_outside(edition: Edition) -> Figure:
    """A leaning channel that starts inside the repairable crown and comes out beyond it."""
    sheet = Sheet(0, 150)
    t, edge = 26.0, 92.0
    slab(sheet, 12, 140, top=0, thick=t)
    sheet.polygon([(edge, -0.5), (edge + 1.5, 14), (edge + 15, 14), (edge + 16.5, -0.5)], fill=PAPER, stroke="none")
    sheet.path(f"M{num(edge)} 0L{num(edge + 1.5)} 14H{num(edge + 15)}L{num(edge + 16.5)} 0")
    start, end, half = 79.0, 97.5, 5.5
    sheet.ring((start + end) / 2, t / 2, 22, 21)
    sheet.polygon(
        [(start - half, -0.6), (start + half, -0.6), (end + half, t + 0.8), (end - half, t + 0.8)],
        fill=PAPER,
        stroke="none",
    )
    cross = t * (edge - start - half) / (end - start)
    sheet.path(
        f"M{num(start - half)} 0L{num(end - half)} {num(t)}M{num(start + half)} 0L{num(edge)} {num(cross)}"
        f"M{num(start + half + (end - start) * 14 / t)} 14L{num(end + half)} {num(t)}"
    )
    sheet.rule(start, 0, end + 10, t + 14, dash=sheet.chain)
    sheet.rule(edge, -18, edge, t + 19, width=sheet.line, dash=sheet.dashes)
    sheet.arrow(64, t + 12, edge - 1, t + 12)
    sheet.text(62, t + 14, "repairable crown", anchor="end")
    sheet.arrow(140, t + 12, edge + 12 + 6, t + 12)
    pointer(sheet, "starts inside", (6.0, -9.0), (start - 1, -0.5))
    pointer(sheet, "outermost groove", (98.0, -9.0), (edge + 8, 10))
    pointer(sheet, "comes out outside", (76.0, t + 29.0), (end, t + 1.0))
    sheet.text(12, t + 29, "liner side", anchor="start")
    sheet.reach(-19, t + 32)
    return finished(
        sheet,
        (
            "The crown cut across beside the outermost groove, tread up. A dashed line marks the inner edge of the groove, the "
            "edge of the repairable crown. A channel starts on the tread inside that line, leans outward, and comes out on the "
            "liner on the far side of it."
        ),
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
        draw(sheet, x, y)
        sheet.text(x, y + 38 + sheet.size * 1.1, name, anchor="start")
    sheet.reach(0, 2 + 55 * 3 - 6)
    return finished(
        sheet,
        (
            "Six small drawings. Ozone cracking: many short cracks lie side by side in the sidewall rubber. Exposed cord: rubber "
            "is torn away and parallel cords show. Liner separation: the liner stands off the plies in a blister. Bulge: the "
            "sidewall stands out in a knot. Damaged bead: the bead wire is kinked and rubber is torn from it. Ran flat: wrinkles "
            "run around the inside low on the sidewall, with loose rubber below them."
        ),
    )


def _cracks(sheet: Sheet, x: float, y: float) -> None:
    sheet.polygon([(x + 3, y + 3), (x + 67, y + 3), (x + 67, y + 35), (x + 3, y + 35)], fill=RUBBER, width=sheet.hair)
    d = []
    for row in range(4):
        for col in range(9):
            cx, cy = x + 9 + col * 6.6 + (row % 2) * 2.6, y + 9 + row * 6.8
            lean, length = ((row * 5 + col * 3) % 5 - 2) * 0.5, 2.2 + ((row + col * 2) % 3) * 0.9
            d.append(
                f"M{num(cx - lean)} {num(cy - length)}l{num(lean * 1.3)} {num(length)}l{num(-lean * 0.4)} {num(length)}"
            )
    sheet.path("".join(d), width=sheet.line)


def _cord(sheet: Sheet, x: float, y: float) -> None:
    sheet.polygon([(x + 3, y + 3), (x + 67, y + 3), (x + 67, y + 35), (x + 3, y + 35)], fill=RUBBER, width=sheet.hair)
    sheet.path(
        f"M{num(x + 14)} {num(y + 14)}L{num(x + 24)} {num(y + 8)}L{num(x + 37)} {num(y + 10)}L{num(x + 52)} {num(y + 7)}"
        f"L{num(x + 59)} {num(y + 18)}L{num(x + 53)} {num(y + 29)}L{num(x + 38)} {num(y + 27)}L{num(x + 23)} {num(y + 31)}"
        f"L{num(x + 12)} {num(y + 24)}Z",
        fill=PAPER,
    )
    cords = (
        (17, 13.5, 28),
        (22, 10.5, 29.5),
        (27, 9.5, 29),
        (32, 10.5, 27.5),
        (37, 11.5, 26),
        (42, 10.5, 26.5),
        (47, 9.5, 27.5),
        (52, 9, 27.5),
    )
    d = "".join(f"M{num(x + a)} {num(y + top)}V{num(y + low)}" for a, top, low in cords)
    sheet.path(d, width=2.2)
    sheet.path(d, width=1.0, stroke=PAPER, dash="0.9 0.9")


def _blister(sheet: Sheet, x: float, y: float) -> None:
    sheet.polygon([(x + 3, y + 6), (x + 67, y + 6), (x + 67, y + 22), (x + 3, y + 22)], fill=RUBBER, width=sheet.hair)
    sheet.path(f"M{num(x + 4)} {num(y + 15)}H{num(x + 66)}", width=1.2, dash="0.05 2.6", cap="round")
    sheet.path(
        f"M{num(x + 20)} {num(y + 22)}C{num(x + 27)} {num(y + 33)} {num(x + 44)} {num(y + 33)} {num(x + 51)} {num(y + 22)}Z",
        fill=PAPER,
        width=sheet.hair,
    )
    sheet.path(
        f"M{num(x + 3)} {num(y + 22.6)}H{num(x + 19)}C{num(x + 26)} {num(y + 34.5)} {num(x + 45)} {num(y + 34.5)} "
        f"{num(x + 52)} {num(y + 22.6)}H{num(x + 67)}",
        width=sheet.line * 1.8,
    )


def _bulge(sheet: Sheet, x: float, y: float) -> None:
    d = (
        f"M{num(x + 3)} {num(y + 29)}C{num(x + 12)} {num(y + 20)} {num(x + 20)} {num(y + 19)} {num(x + 26)} {num(y + 18.5)}"
        f"C{num(x + 29)} {num(y + 6)} {num(x + 41)} {num(y + 6)} {num(x + 44)} {num(y + 18.5)}"
        f"C{num(x + 50)} {num(y + 19)} {num(x + 58)} {num(y + 20)} {num(x + 67)} {num(y + 29)}"
    )
    sheet.path(d + f"V{num(y + 35)}H{num(x + 3)}Z", fill=RUBBER)
    sheet.path(
        f"M{num(x + 24.5)} {num(y + 22)}C{num(x + 31)} {num(y + 21)} {num(x + 39)} {num(y + 21)} {num(x + 45.5)} {num(y + 22)}",
        width=sheet.hair,
        dash=sheet.dashes,
    )


def _bead(sheet: Sheet, x: float, y: float) -> None:
    sheet.path(
        f"M{num(x + 3)} {num(y + 4)}H{num(x + 67)}V{num(y + 25)}L{num(x + 47)} {num(y + 26)}L{num(x + 43)} {num(y + 19)}"
        f"L{num(x + 38)} {num(y + 23)}L{num(x + 33)} {num(y + 17)}L{num(x + 28)} {num(y + 26)}H{num(x + 3)}Z",
        fill=RUBBER,
        width=sheet.hair * 1.6,
    )
    for dy in (0.0, 2.0, 4.0):
        sheet.path(
            f"M{num(x + 3)} {num(y + 18 + dy)}H{num(x + 28)}L{num(x + 34)} {num(y + 29 + dy)}L{num(x + 41)} "
            f"{num(y + 16 + dy)}L{num(x + 47)} {num(y + 18.6 + dy)}H{num(x + 67)}",
            width=0.9,
        )


def _wrinkles(sheet: Sheet, x: float, y: float) -> None:
    sheet.polygon([(x + 3, y + 3), (x + 67, y + 3), (x + 67, y + 35), (x + 3, y + 35)], fill=RUBBER, width=sheet.hair)
    for row in range(4):
        at = y + 12 + row * 3.6
        d = f"M{num(x + 3)} {num(at)}" + "".join(
            f"q{num(2.0)} {num(-1.6 if (i + row) % 2 else 1.6)} 4 0" for i in range(16)
        )
        sheet.path(d, width=sheet.line)
    crumbs = ((12, 31), (19, 29.5), (27, 32), (33, 30), (41, 31.5), (47, 29.6), (55, 31.4), (61, 30))
    sheet.raw("".join(f'<circle cx="{num(x + a)}" cy="{num(y + b)}" r="0.9" fill="{LINE}"/>' for a, b in crumbs))
