"""Several channels of one kind of tire, each in a strip of the same crown, all lined up at one ruler and one limit.

One user unit is one millimeter; x is the distance from the centerline, whichever side the hole lies on, y the depth
below the tread. All strips have one width and one height, so that the eye compares them.
"""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from training.drawings.crown import Channel, Crown, channels, crown_of, groove_width
from training.drawings.crown_line import CrownLine
from training.drawings.ink import LINE, Figure, Sheet
from training.drawings.layers import draw_channel, draw_rubber, key, name_grooves
from training.drawings.path import pen
from training.drawings.ruler import Limit, Marks, draw_ruler, hidden
from training.rulebook import Case, quantity
from training.trade.speech import say

_AROUND = 7.0  # mm of rubber beside what is in view
TEXT_PART = 0.04  # of the width: 14 px where a phone shows a strip 350 px wide
_MARKS = {"in": Marks(Fraction("25.4") / 16, 4, 8), "mm": Marks(Fraction(2), 5, 5)}


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
    return Sheet(crown.left - edge, crown.right + edge, text_part=TEXT_PART)


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
    sheet.path(pen("M", line.at_mm, top - unit, "V", low + unit), dash=sheet.limit)  # on into the next strip
    if is_ringed:
        sheet.ring(hole.exit, thick + unit * 0.4, hole.half + unit * 3.2, unit * 4.2)
    sheet.reach(top, low)


def _ruler(crown: Crown, line: CrownLine, limit: str, prefer: str) -> str:
    sheet = _sheet(crown)
    title = say("inches from the center") if prefer == "in" else say("mm from the center")
    placed = Limit(line.at_mm, line.name, limit)
    draw_ruler(sheet, (crown.left, crown.right), _MARKS[prefer], placed, title=title, prefer=prefer)
    return hidden(sheet)


def _key(crown: Crown) -> str:
    """The hatchings of the layers and the bar, each with its name."""
    sheet = _sheet(crown)
    size = sheet.size
    y = key(sheet, crown.belts, sheet.left, 0.0) + size * 1.5
    sheet.box(sheet.left, y - size * 0.55, size * 1.5, size * 0.3, fill=LINE, stroke="none")
    sheet.text(sheet.left + size * 1.8, y, say("where it comes out"), anchor="start")
    sheet.reach(-size, y + size * 0.2)
    return hidden(sheet)


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
