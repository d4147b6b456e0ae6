"""Several channels of one kind of tire, each in a strip of the same crown, all lined up at one ruler and one limit.

One user unit is one millimeter; x is the distance from the centerline, whichever side the hole lies on, y the depth
below the tread. All strips have one width and one height, so that the eye compares them.
"""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from training.drawings.boxes import boxes_meet, text_box, text_width
from training.drawings.crown import Channel, Crown, channels, crown_of, groove_width
from training.drawings.crown_line import CrownLine
from training.drawings.ink import LINE, Figure, Sheet
from training.drawings.layers import draw_channel, draw_rubber, key, name_grooves
from training.drawings.path import pen
from training.rulebook import Case, quantity
from training.trade.speech import say

_AROUND = 7.0  # mm of rubber beside what is in view
_TEXT_PART = 0.04  # of the width: 14 px where a phone shows a strip 350 px wide
_INCH = Fraction("25.4")
# by unit: millimeters from mark to mark, marks to a longer one, marks to a number
_MARKS = {"in": (_INCH / 16, 4, 8), "mm": (Fraction(2), 5, 5)}


@dataclass(frozen=True, slots=True)
class Strips:
    """`figures` are the strips in the order of the cases; `ruler` stands above them, `key` below: their SVG. `limit`
    is the place of the limit as the ruler prints it."""

    ruler: str
    figures: tuple[Figure, ...]
    key: str
    limit: str


def channel_strips(cases: Sequence[Case], line: CrownLine, *, prefer: str, ringed: Collection[int] = ()) -> Strips:
    """A strip for each case, which has one measured hole through the crown. Raises ValueError where one has not.

    Args:
        line: where the repairable crown ends, the same for all.
        prefer: "in" or "mm", the unit of the ruler.
        ringed: places of the cases whose exit gets the crayon ring.
    """
    holes = [_outward(case) for case in cases]
    crown = _in_view(crown_of(cases[0], holes), holes, line)
    limit = line.label(prefer)
    rubber = _sheet(crown)
    draw_rubber(rubber, crown)
    plain = list(rubber.parts)
    _name_grooves(rubber, crown, holes[0], line)
    figures = []
    for place, hole in enumerate(holes):
        sheet = _sheet(crown)
        sheet.parts += plain if place else rubber.parts
        sheet.reach(rubber.top, rubber.bottom)
        words = _words(hole, limit, prefer)
        _strip(sheet, crown, hole, line, is_ringed=place in ringed)
        figures.append(Figure(sheet.svg(words), words))
    return Strips(_ruler(crown, line, limit, prefer), tuple(figures), _key(crown), limit)


def _outward(case: Case) -> Channel:
    """The one channel of a case, on the right-hand half."""
    found = [hole for hole in channels(case) if hole.is_through]
    if len(found) != 1:
        raise ValueError("case: one hole with a measured place and lean is needed for a strip")
    hole = found[0]
    if hole.at >= 0:
        return hole
    return replace(hole, at=-hole.at, exit=-hole.exit, lean_deg=-hole.lean_deg)


def _in_view(crown: Crown, holes: Sequence[Channel], line: CrownLine) -> Crown:
    low = min(line.at_mm, *(hole.low for hole in holes)) - _AROUND
    high = max(line.at_mm, *(hole.high for hole in holes)) + _AROUND
    if crown.groove is not None and crown.groove < high:
        high = max(high, crown.groove + groove_width(crown.half, crown.groove) + _AROUND / 2)
    return crown.narrowed(low, high)


def _sheet(crown: Crown) -> Sheet:
    edge = (crown.right - crown.left) * 0.01
    return Sheet(crown.left - edge, crown.right + edge, text_part=_TEXT_PART)


def _name_grooves(sheet: Sheet, crown: Crown, hole: Channel, line: CrownLine) -> None:
    """In the first strip alone, where its channel and the limit leave room."""
    for side in (-hole.half, 0.0, hole.half):
        sheet.keep_clear((hole.at + side, 0.0, hole.exit + side, crown.thickness))
    sheet.keep_clear((line.at_mm, -sheet.unit, line.at_mm, crown.thickness + sheet.unit))
    name_grooves(sheet, crown)


def _strip(sheet: Sheet, crown: Crown, hole: Channel, line: CrownLine, *, is_ringed: bool) -> None:
    """One hole on rubber that is drawn already."""
    thick, unit = crown.thickness, sheet.unit
    draw_channel(sheet, hole, crown, tail=0.0)
    bar = thick + unit * 2.4
    sheet.path(pen("M", hole.exit - hole.half, bar, "H", hole.exit + hole.half), width=unit * 0.9)
    top, low = -unit * 2.4, thick + unit * 5
    sheet.path(pen("M", line.at_mm, top, "V", low), dash=sheet.limit)
    if is_ringed:
        sheet.ring(hole.exit, thick + unit * 0.4, hole.half + unit * 3.2, unit * 4.2)
    sheet.reach(top, low)


def _ruler(crown: Crown, line: CrownLine, limit: str, prefer: str) -> str:
    """Its numbers and the limit over it. Hidden from who does not see it: each strip says the limit and its places."""
    sheet = _sheet(crown)
    size, unit = sheet.size, sheet.unit
    each, longer, numbered = _MARKS[prefer]
    number, name = limit.removesuffix(f" {prefer}"), line.name
    is_late = line.at_mm > sheet.right - max(text_width(number, size), text_width(name, size)) - unit
    x, anchor = line.at_mm + (-unit if is_late else unit), "end" if is_late else "start"
    rows = (-size * 2.15, -size * 0.95)
    taken = text_box(x, rows[1], number, size, anchor)
    sheet.text(x, rows[0], name, anchor=anchor)
    sheet.text(x, rows[1], number, anchor=anchor)
    title = say("inches from the center") if prefer == "in" else say("mm from the center")
    start = sheet.left + unit
    if not boxes_meet(text_box(start, rows[0], title, size, "start"), text_box(x, rows[0], name, size, anchor)):
        sheet.text(start, rows[0], title, anchor="start")
    d = [pen("M", crown.left, 0, "H", crown.right)]
    first, last = (int(end / each) for end in (Fraction(crown.left), Fraction(crown.right)))
    for mark in range(max(first, 0) + 1, last + 1):
        at = float(mark * each)
        d.append(pen("M", at, 0, "V", -unit * (1.6 if mark % longer == 0 else 0.8)))
        if mark % numbered == 0:
            text = quantity(mark * each / (_INCH if prefer == "in" else 1), prefer).text.removesuffix(f" {prefer}")
            box = text_box(at, rows[1], text, size, "middle")
            if sheet.left <= box[0] and box[2] <= sheet.right and not boxes_meet(box, taken):
                sheet.text(at, rows[1], text)
    sheet.path("".join(d), width=sheet.hair)
    sheet.path(pen("M", line.at_mm, rows[0] - size * 0.7, "V", unit * 0.5), dash=sheet.limit)
    sheet.reach(rows[0] - size, unit * 0.3)
    return _hidden(sheet)


def _key(crown: Crown) -> str:
    """The hatchings of the layers and the bar, each with its name."""
    sheet = _sheet(crown)
    size = sheet.size
    y = key(sheet, crown, sheet.left, 0.0) + size * 1.5
    sheet.box(sheet.left, y - size * 0.55, size * 1.5, size * 0.3, fill=LINE, stroke="none")
    sheet.text(sheet.left + size * 1.8, y, say("where it comes out"), anchor="start")
    sheet.reach(-size, y + size * 0.2)
    return _hidden(sheet)


def _hidden(sheet: Sheet) -> str:
    return sheet.svg("").replace('role="img" aria-label=""', 'aria-hidden="true"', 1)


def _words(hole: Channel, limit: str, prefer: str) -> str:
    """A sentence: from where to where the hole reaches at either end, and where the limit lies."""
    ends = (hole.at - hole.half, hole.at + hole.half, hole.exit - hole.half, hole.exit + hole.half)
    near, far, there, beyond = (_read(end, prefer) for end in ends)
    return say(
        "On the tread the hole reaches from {near} to {far} from the center, on the liner from {there} to {beyond}; "
        "the limit lies at {limit}.",
        near=near,
        far=far,
        there=there,
        beyond=beyond,
        limit=limit,
    )


def _read(length_mm: float, prefer: str) -> str:
    each, parts = (25.4, 32) if prefer == "in" else (1.0, 10)
    return quantity(Fraction(round(length_mm / each * parts), parts), prefer).text
