"""Illustrations of the sidewall: which markings to read, the ply line, the date code."""

from __future__ import annotations

import math

from training.drawings.boxes import text_width
from training.drawings.illustrations.pieces import badge, finished, paragraph
from training.drawings.ink import LINE, PAPER, RUBBER, Figure, Sheet
from training.drawings.path import curve, num, pen
from training.rulebook import Edition
from training.trade.speech import say


def sidewall_markings(edition: Edition) -> Figure:
    """Half a tire from the side, four markings numbered, and what each looks like."""
    sheet = Sheet(0, 150)
    x, y, outer, inner = 75.0, 62.0, 60.0, 35.0
    arch = pen("M", x - outer, y, "A", outer, outer, 0, 0, 1, x + outer, y, "H", x + inner)
    sheet.path(arch + pen("A", inner, inner, 0, 0, 0, x - inner, y, "Z"), fill=RUBBER)
    rim = outer - 4.5
    for r in (rim, inner + 3.0):
        sheet.path(pen("M", x - r, y, "A", r, r, 0, 0, 1, x + r, y), width=sheet.hair)
    blocks = ""
    for i in range(1, 36):
        c, s = math.cos(math.pi * i / 36), -math.sin(math.pi * i / 36)
        blocks += pen("M", x + rim * c, y + rim * s, "L", x + outer * c, y + outer * s)
    sheet.path(blocks, width=sheet.hair)
    middle = (outer + inner) / 2 - 0.7
    for number, turn in (("1", 155.0), ("2", 115.0), ("3", 65.0), ("4", 25.0)):
        a = math.radians(turn)
        badge(sheet, x + middle * math.cos(a), y - middle * math.sin(a), number)
    top = y + 9.0
    for number, marking, meaning in (
        ("1", "205/55R16 91V", say("size, load and speed")),
        ("2", "SIDEWALL 1 PLY POLYESTER", say("what the body is made of")),
        ("3", "DOT A1B2 C3D4 3219", say("identification, date last")),
        ("4", "MAX LOAD   MAX PRESSURE", say("the tire maker's limits")),
    ):
        badge(sheet, 9, top + sheet.size * 0.72, number)
        width = text_width(marking, sheet.size) + sheet.size * 1.4
        sheet.box(17, top - 1.5, width, sheet.size * 1.55, fill=RUBBER, width=sheet.hair)
        sheet.text(17 + width / 2, top - 1.5 + sheet.size * 1.12, marking)
        sheet.text(19, top + sheet.size * 2.25, meaning, anchor="start")
        top += sheet.size * 3.3
    sheet.reach(0, top - 4)
    return finished(
        sheet,
        say(
            "Half a tire seen from the side, with four markings. One: the size, load index and speed "
            "symbol, here 205/55R16 91V. Two: what the body is made of, here SIDEWALL 1 PLY "
            "POLYESTER. Three: the identification number after the letters DOT, its last four digits "
            "the date, here 3219. Four: the tire maker's greatest load and pressure."
        ),
    )


def ply_material(edition: Edition) -> Figure:
    """Two ply lines: the word after SIDEWALL tells fabric body from steel body."""
    sheet = Sheet(0, 150)
    y = 2.0
    size = sheet.size
    for tread, word, meaning in (
        ("2 PLIES STEEL + 1 POLYESTER", "POLYESTER", say("fabric body: steel belts, fabric plies")),
        ("4 PLIES STEEL + 1 STEEL", "STEEL", say("steel body: steel belts, steel plies")),
    ):
        sheet.box(2, y, 146, size * 3.4, fill=RUBBER, width=sheet.hair)
        sheet.text(6, y + size * 1.35, f"TREAD: {tread}", anchor="start")
        sheet.text(6, y + size * 2.75, "SIDEWALL: 1 PLY", anchor="start")
        at = 6 + text_width("SIDEWALL: 1 PLY ", size) * 0.92
        width = text_width(word, size)
        sheet.ring(at + width * 0.5, y + size * 2.42, width * 0.6, size * 0.95)
        sheet.text(at + width * 0.5, y + size * 2.75, word)
        y += size * 3.4 + size * 1.3
        sheet.text(6, y, meaning, anchor="start")
        y += size * 0.7
        _body(sheet, y, steel=word == "STEEL")
        y += 24
    sheet.reach(0, y - 2)
    return finished(
        sheet,
        say(
            "Two ply lines from two sidewalls, the word that counts ringed. First: TREAD 2 PLIES "
            "STEEL + 1 POLYESTER, SIDEWALL 1 PLY POLYESTER: a fabric body under steel belts. Second: "
            "TREAD 4 PLIES STEEL + 1 STEEL, SIDEWALL 1 PLY STEEL: a steel body. The word after "
            "SIDEWALL tells them apart, not the word after TREAD."
        ),
    )


def _body(sheet: Sheet, y: float, *, steel: bool) -> None:
    """Crown and upper sidewall cut open: belts as dots, the body as a fabric cord or as a wire rope."""
    sheet.raw(f'<g transform="translate(0 {num(y)})">')
    shoulder = curve((116.0, 0.0), (132.0, 0.0), (140.0, 6.0), (142.0, 18.0))
    outline = [(8.0, 0.0), *shoulder, *curve((130.0, 19.0), (129.0, 14.0), (126.0, 13.0), (114.0, 13.0)), (8.0, 13.0)]
    sheet.polygon(outline, fill=RUBBER, stroke="none")
    sheet.hatch_tread(outline)
    rows = (3.2, 5.0, 6.8) if steel else (3.8, 5.8)
    for place, y in enumerate(rows):
        sheet.box(8, y - 0.8, 107 - 2 * place, 1.6, fill=PAPER, stroke="none")
        sheet.path(pen("M", 10.5 + place % 2, y, "H", 114 - 2 * place), width=0.95, dash="0.05 2", cap="round")
    ply = "M8 9.9H115C128 9.9 134 12 136.3 18"
    for width, stroke in ((3.4, PAPER), (2.2, LINE), (0.8, PAPER)) if steel else (
        (2.4, PAPER), (1.2, LINE), (0.6, PAPER)):  # fmt: skip
        dash = "1.2 1.2" if steel and width < 1 else ""
        sheet.path(ply, width=width, stroke=stroke, dash=dash)
    sheet.polygon(outline)
    sheet.raw("</g>")


def date_code(edition: Edition) -> Figure:
    """An identification number with its last four digits ringed and read."""
    sheet = Sheet(0, 150, text_part=0.046)
    big = sheet.size * 1.7
    sheet.box(2, 6, 146, big * 1.7, fill=RUBBER, width=sheet.hair)
    y = 6 + big * 1.2
    sheet.text(54, y, "DOT A1B2 C3D4", size=big)
    sheet.ring(121, y - big * 0.36, 20, big * 0.8)
    for x, digits, words in ((111.5, "32", say("week {week}", week="32")), (130.5, "19", "2019")):
        sheet.text(x, y, digits, size=big)
        sheet.path(pen("M", x - 6, 27, "V", 29, "H", x + 6, "V", 27, "M", x, 29, "V", 32), width=sheet.hair * 1.4)
        sheet.text(x - 5 if x < 120 else x + 3, 33 + sheet.size, words)
    end = paragraph(
        sheet, 4, 54, say("Three digits: made before 2000. A short number: look at the other sidewall."), most=46
    )
    sheet.reach(0, end - sheet.size * 0.7)
    return finished(
        sheet,
        say(
            "An identification number, DOT A1B2 C3D4 3219, its last four digits ringed. The first "
            "two, 32, are the week; the last two, 19, the year 2019. Three digits mean that the tire "
            "was made before 2000. Where the number is short, the full one is on the other sidewall."
        ),
    )
