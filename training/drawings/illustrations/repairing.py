"""Illustrations of the repair itself: units and stems in cross-section, outline, arrows, footprints, stitching."""

from __future__ import annotations

import math

from training.drawings.illustrations.pieces import finished, limit_of, lowered, paragraph, slab
from training.drawings.ink import LINE, PAPER, RUBBER, Figure, Sheet
from training.drawings.path import frame, pen
from training.rulebook import Edition
from training.trade.speech import say


def one_piece_two_piece(edition: Edition) -> Figure:
    """A one-piece unit in a straight channel over a stem and patch in a leaning one."""
    sheet = Sheet(0, 150)
    t, x = 24.0, 75.0
    slab(sheet, 8, 142, thick=t)
    sheet.path(pen("M", x - 6, 0, "V", t, "M", x + 6, 0, "V", t), width=sheet.hair)
    dome = pen("M", x - 40, t + 0.6, "Q", x, t + 9, x + 40, t + 0.6)
    sheet.path(pen(dome, "H", x + 6, "V", 0, "H", x - 6, "V", t + 0.6, "Z"), fill=LINE, width=sheet.hair)
    limit = limit_of(edition, "proposed.one_piece_angle")
    y = paragraph(sheet, 8, t + 17, say("One piece: stem and patch made as one, pulled through from inside."), most=44)
    if limit:
        y = paragraph(sheet, 8, y, say("Lean {limit}.", limit=limit), most=44)
    top = y + 3
    lean = 15.0
    lowered(sheet, top, lambda sheet: slab(sheet, 8, 142, thick=t))
    low = top + t
    stem = [(x - lean - 6.5, top), (x - lean + 6.5, top), (x + 6.5, low), (x - 6.5, low)]
    sheet.polygon(stem, fill=LINE, width=sheet.hair)
    patch = pen("M", x - 40, low + 1.6, "Q", x, low + 9, x + 40, low + 1.6, "Z")
    sheet.path(patch, fill=LINE, width=sheet.hair)
    words = say("Two pieces: the stem follows the lean and is buffed level; the patch covers it.")
    end = paragraph(sheet, 8, low + 18, words, most=44)
    sheet.reach(0, end - sheet.size * 0.8)
    told = [
        say(
            "Two sections of the crown, tread up. Above: a straight channel filled by a one-piece "
            "unit, its stem and its patch in one body, pulled through from inside."
        )
    ]
    if limit:
        told.append(say("Its lean: {limit}.", limit=limit))
    told.append(
        say(
            "Below: a leaning channel filled by a stem that follows the lean and ends level with the "
            "liner; a separate patch lies over it."
        )
    )
    return finished(sheet, " ".join(told))


def stem_stands(edition: Edition) -> Figure:
    """The stem cut off a little above the liner, before it is buffed."""
    sheet = Sheet(0, 150)
    t, x = 30.0, 62.0
    slab(sheet, 8, 116, thick=t)
    sheet.polygon(frame(x - 8, -14, x + 8, t + 9), fill=LINE, width=sheet.hair)
    sheet.arrow(x, -18, x, -29, width=sheet.line, head=2.4)
    sheet.text(x + 6, -22, say("pull"), anchor="start")
    sheet.rule(x + 9, t + 9, 124, t + 9)
    sheet.rule(117, t, 124, t)
    sheet.arrow(121, t - 13, 121, t - 0.3)
    sheet.arrow(121, t + 22, 121, t + 9.3)
    sheet.text(125, t - 5, say("liner"), anchor="start")
    limit = limit_of(edition, "job.stem_stands")
    y = paragraph(sheet, 8, t + 20, say("Cut here, then buff level."), most=14)
    if limit:
        y = paragraph(sheet, 76, t + 32, say("stands {limit}", limit=limit), most=24)
    sheet.rule(44, t + 16, x - 9, t + 9.5)
    sheet.reach(-31, max(y - sheet.size * 0.8, t + 42))
    stands = say("On the inside the stem stands a little beyond the liner.")
    if limit:
        stands = say("On the inside the stem stands a little beyond the liner: {limit}.", limit=limit)
    told = (
        say("A section of the crown, tread up, with a stem pulled through the channel from inside to outside."),
        stands,
        say("It is cut there and then buffed level with the liner."),
    )
    return finished(sheet, " ".join(told))


def outline(edition: Edition) -> Figure:
    """The unit's place on the liner and the larger outline to buff around it."""
    sheet = Sheet(0, 150)
    sheet.box(4, 2, 142, 96, fill=RUBBER, width=sheet.hair)
    left, top, w, h = 40.0, 25.0, 70.0, 50.0
    m = 12.7
    sheet.hatch(frame(left - m, top - m, left + w + m, top + h + m), step=5, width=sheet.hair * 0.8)
    sheet.box(left - m, top - m, w + 2 * m, h + 2 * m, dash=sheet.dashes)
    sheet.box(left, top, w, h, fill=PAPER, corner=3)
    x, y = left + w / 2, top + h / 2
    for side in (-1.0, 1.0):
        sheet.arrow(x + side * 14, y, x + side * (w / 2 - 3), y, width=sheet.line, head=2.4)
    sheet.circle(x, y, 3, fill=PAPER)
    sheet.text(x, y - 9, say("unit"))
    sheet.text(x, y + 16, say("arrows to the beads"))
    sheet.rule(left, top + h + 1, left, 106)
    sheet.rule(left - m, top + h + m + 1, left - m, 106)
    sheet.arrow(left - m, 104, left, 104, both=True)
    limit = limit_of(edition, "job.outline_margin")
    words = say("on each side: {limit}", limit=limit) if limit else say("on each side")
    end = paragraph(sheet, left + 4, 106, words, most=34)
    sheet.text(4, end + sheet.size * 0.2, say("dashed: the outline to buff"), anchor="start")
    sheet.reach(0, end + sheet.size * 0.6)
    place = say(
        "The unit's place is a rectangle with arrows to the beads; around it a dashed outline, larger on each side."
    )
    if limit:
        place = say(
            "The unit's place is a rectangle with arrows to the beads; around it a dashed outline, "
            "larger on each side: {limit}.",
            limit=limit,
        )
    told = (say("The liner seen from inside."), place, say("The hatched area inside the outline is buffed."))
    return finished(sheet, " ".join(told))


def unit_arrows(edition: Edition) -> Figure:
    """A radial unit laid rightly, its arrows to the beads, beside one turned around, struck out."""
    sheet = Sheet(0, 150)
    for x0, turned in ((4.0, False), (78.0, True)):
        sheet.box(x0, 10, 68, 84, fill=RUBBER, width=sheet.hair)
        cords = "".join(pen("M", x0 + 1, 14 + 5 * i, "h", 66) for i in range(16))
        sheet.path(cords, width=sheet.hair * 0.7, dash="3 2")
        x, y = x0 + 34, 52.0
        w, h = (34.0, 46.0) if turned else (46.0, 34.0)
        sheet.box(x - w / 2, y - h / 2, w, h, fill=PAPER, corner=3)
        for side in (-1.0, 1.0):
            if turned:
                sheet.arrow(x, y + side * 8, x, y + side * (h / 2 - 3), width=sheet.line, head=2.4)
            else:
                sheet.arrow(x + side * 8, y, x + side * (w / 2 - 3), y, width=sheet.line, head=2.4)
        sheet.circle(x, y, 2.6, fill=PAPER)
        sheet.text(x0, 7, say("bead"), anchor="start")
        sheet.text(x0 + 68, 7, say("bead"), anchor="end")
        sheet.text(x, 94 + sheet.size * 1.15, say("turned wrong") if turned else say("laid right"))
    sheet.path("M82 14L142 90M142 14L82 90", width=sheet.line * 1.6)
    sheet.reach(1, 94 + sheet.size * 1.5)
    return finished(
        sheet,
        say(
            "Two pieces of liner seen from inside, a bead to the left and to the right of each; fine "
            "lines show the body cords running from bead to bead. Left, laid right: the unit's "
            "arrows point along the cords to the beads. Right, struck out: the unit is turned, its "
            "arrows point around the tire."
        ),
    )


def unit_footprints(edition: Edition) -> Figure:
    """Two units that lie apart on the liner, and two that overlap though their holes lie apart."""
    sheet = Sheet(0, 150)
    for y0, gap, words in (
        (2.0, 62.0, say("apart: daylight between the units")),
        (84.0, 38.0, say("overlap: the holes are apart, the units are not")),
    ):
        sheet.box(4, y0, 142, 62, fill=RUBBER, width=sheet.hair)
        rects = []
        for side in (-1.0, 1.0):
            x, y = 75 + side * gap / 2, y0 + 31 + side * 5
            rects.append((x - 26, y - 20, x + 26, y + 20))
        (_, _, right1, low1), (left2, top2, _, _) = rects
        if left2 < right1:
            sheet.hatch(frame(left2, top2, right1, low1), step=3)
        for left, top, right, low in rects:
            sheet.box(left, top, right - left, low - top, corner=3)
            x, y = (left + right) / 2, (top + low) / 2
            for side in (-1.0, 1.0):
                sheet.arrow(x + side * 9, y, x + side * 23, y, width=sheet.hair * 1.4)
            sheet.circle(x, y, 2.4, fill=PAPER, width=sheet.hair * 1.5)
        sheet.text(4, y0 + 62 + sheet.size * 1.15, words, anchor="start")
    sheet.reach(0, 84 + 62 + sheet.size * 1.5)
    return finished(
        sheet,
        say(
            "Two pieces of liner seen from inside, each with two exits and the rectangle of a unit "
            "around each. Above, the rectangles lie apart. Below, the two exits are still apart but "
            "the rectangles cover one another in a hatched strip."
        ),
    )


def stitching(edition: Edition) -> Figure:
    """The stitcher's way over a patch: the center first, then outward to every edge."""
    sheet = Sheet(0, 150)
    left, top, w, h = 25.0, 6.0, 100.0, 72.0
    x, y = left + w / 2, top + h / 2
    sheet.box(4, 2, 142, 80, fill=RUBBER, width=sheet.hair)
    sheet.box(left, top, w, h, fill=PAPER, corner=5)
    for k in range(12):
        a = math.radians(30 * k + 15)
        c, s = math.cos(a), math.sin(a)
        reach = min((w / 2 - 4) / max(abs(c), 1e-6), (h / 2 - 4) / max(abs(s), 1e-6))
        sheet.arrow(x + 12 * c, y + 12 * s, x + reach * c, y + reach * s, width=sheet.line)
    sheet.circle(x, y, 8.5, fill=PAPER)
    sheet.text(x, y + sheet.size * 0.35, "1")
    sheet.text(x + 15, y - sheet.size * 0.15 + 2.2, "2", anchor="start")
    y = 82 + sheet.size * 1.3
    sheet.text(4, y, say("1: center first"), anchor="start")
    words = say("2: outward, strokes side by side: the air goes out in front of the wheel.")
    end = paragraph(sheet, 4, y + sheet.size * 1.2, words, most=46)
    sheet.reach(0, end - sheet.size * 0.8)
    return finished(
        sheet,
        say(
            "A patch on the liner. A circle in its middle is marked one: stitch the center first. "
            "From it arrows run outward to every edge, marked two: strokes side by side, so that the "
            "air goes out in front of the wheel."
        ),
    )
