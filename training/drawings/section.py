"""The crown in cross-section, to scale: grooves, belts, plies, liner, and each injury's channel as it runs.

One user unit is one millimeter; x is the lateral position, y the depth below the tread. The section shows measurements
of the case and no judgement; of a rule it shows only the line where the repairable crown ends, if it is handed one.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from training.drawings.boxes import Box, Segment, text_box, text_width
from training.drawings.crown import Channel, Crown, View, channels, close_up, crown_of
from training.drawings.crown_line import CrownLine, end_of_crown
from training.drawings.dimension import ROW, Span, rows
from training.drawings.ink import Figure, Sheet
from training.drawings.layers import axis_tail, draw_channel, draw_rubber, key, name_grooves, openings
from training.drawings.path import pen
from training.drawings.words import (
    angle_label,
    beside_center,
    from_center,
    hole_label,
    in_degrees,
    length_label,
    said,
    size_of,
)
from training.rulebook import Case, Edition, Quantity
from training.trade.lists import all_of
from training.trade.speech import say


def cross_section(
    case: Case,
    *,
    injury: str | None = None,
    prefer: str = "in",
    show_liner_exit: bool = False,
    edition: Edition | None = None,
    view: View | None = None,
) -> Figure:
    """The crown cut across through its injuries, drawn to scale, tread up and liner down.

    Args:
        injury: the id of the one injury to draw; all of them otherwise.
        prefer: "in" or "mm", the unit the description gives first.
        show_liner_exit: also mark and dimension where the channel comes out on the liner, and run the line of the
            outermost groove down to it.
        edition: the rulebook by which the repairable crown ends; where that is not at the groove, its own line is drawn
            and named instead, none where it ends the crown nowhere. The groove alone without it.
        view: what is shown at least; the way to the exit is then dimensioned as a sum, by the lean and half the hole.
    """
    holes = channels(case, injury=injury)
    end = _end_of_crown(case, edition)
    crown = crown_of(case, holes)
    if view is None:
        crown = close_up(crown, holes, None if end is None else end.at_mm)
    else:
        ends = [view.left, view.right, *(each + way for h in holes for each, way in ((h.low, -4), (h.high, 4)))]
        crown = crown.narrowed(min(ends), max(ends))
    thick = length_label(case.tire.crown_thickness)
    is_left = crown.is_cut_left or not crown.is_cut_right  # where the thickness stands: at a cut edge if there is one
    wide = crown.right - crown.left
    margin = wide * 0.055 if thick else 0.0
    sheet = Sheet(crown.left - wide * 0.01 - margin * is_left, crown.right + wide * 0.01 + margin * (not is_left))
    draw_rubber(sheet, crown)
    for hole in holes:
        draw_channel(sheet, hole, crown)
    line = _line_in_view(crown, end) if show_liner_exit or end is not _GROOVE else None
    if line is not None:
        sheet.keep_clear((line, -sheet.size * 30, line, crown.thickness + sheet.size * 30))
    if crown.shows_center:
        sheet.keep_clear((0, -sheet.size * 30, 0, 0), (0, crown.thickness, 0, crown.thickness + sheet.size * 30))
    is_named = name_grooves(sheet, crown)
    bottom = _bars(sheet, holes, crown) if show_liner_exit else crown.thickness
    marked = tuple(hole for hole in holes if hole.is_through)
    _leans(sheet, marked, crown.thickness)
    before = len(sheet.segments)
    feet = [hole.exit for hole in marked] if show_liner_exit else []
    if len(feet) == 1:
        feet.append(_far_edge(marked[0]))
    sheet.keep_clear(*((x, bottom, x, bottom + sheet.size * 30) for x in feet))  # until their rows are known
    _thickness(sheet, crown, (say("{length} thick", length=thick), str(thick)) if thick else (), line, is_left=is_left)
    low = _lean_labels(sheet, marked, crown.thickness, bottom)
    del sheet.segments[before : before + len(feet)]
    edge = _above(sheet, case, holes, crown, line, end, is_named=is_named)
    if show_liner_exit:
        low = _exits(sheet, holes, crown, low, line, is_summed=view is not None)
    if view is not None:  # the same room whatever the rows come to
        sheet.reach(-sheet.size * _ROOM[0], view.thickness + sheet.size * _ROOM[1])
    if line is not None:
        d = pen("M", line, edge, "V", max(low, crown.thickness + sheet.size))
        sheet.path(d, dash=sheet.limit)
    _foot(sheet, crown, low, prefer, has_key=view is None)
    words = _words(case, holes, prefer, show_liner_exit, end)
    return Figure(sheet.svg(words), words)


_ROOM = (4.6, 6.8)  # over the tread and under the thickest crown of a view, in sizes of its letters
_GROOVE = CrownLine(0.0, "", True)  # the line of the groove, wherever it is


def _end_of_crown(case: Case, edition: Edition | None) -> CrownLine | None:
    line = _GROOVE if edition is None else end_of_crown(case, edition)
    return _GROOVE if line is not None and line.is_groove else line


def _line_in_view(crown: Crown, end: CrownLine | None) -> float | None:
    """Where the line that ends the crown lies in view: the inner edge of the outermost groove, or one of its own."""
    at = crown.groove if end is _GROOVE else None if end is None else end.at_mm
    if at is None:
        return None
    return next((x for x in (at, -at) if crown.left < x < crown.right), None)


# -- dimensions


def _bars(sheet: Sheet, holes: Sequence[Channel], crown: Crown) -> float:
    """Under the liner a heavy bar as wide as each opening; returns how low they reach."""
    y = crown.thickness + sheet.unit * 2.6
    for left, right in openings(holes):
        sheet.path(pen("M", left, y, "H", right), width=sheet.unit * 1.45)
        sheet.keep_clear((left, y, right, y))
    return y + sheet.unit * 0.8


def _leans(sheet: Sheet, marked: Sequence[Channel], t: float) -> None:
    """Lean of each channel, on the inside: the perpendicular, and the arc from it to the axis run on."""
    tail, r = sheet.size * 2.9, sheet.size * 2.3
    for hole in marked:
        if hole.lean_deg:
            x, lean = hole.exit, math.radians(hole.lean_deg)
            sheet.path(pen("M", x, t, "V", t + tail), width=sheet.hair, dash=sheet.dashes)
            tip = (x + r * math.sin(lean), t + r * math.cos(lean))
            sheet.path(pen("M", x, t + r, "A", r, r, 0, 0, 0 if lean > 0 else 1, tip[0], tip[1]), width=sheet.hair)
            sheet.keep_clear((x, t, x, t + tail), (x, t + r, tip[0], tip[1]))


def _lean_labels(sheet: Sheet, marked: Sequence[Channel], t: float, low: float) -> float:
    """The angle beside each arc; returns how low everything under the liner reaches."""
    tail = sheet.size * 2.9
    for hole in marked:
        box = _lean_label(sheet, hole, marked, t, tail)
        low = max(low, box[3], t + tail)
    sheet.reach(0, low)
    return sheet.bottom


def _lean_label(sheet: Sheet, hole: Channel, marked: Sequence[Channel], t: float, tail: float) -> Box:
    text = angle_label(
        hole.injury.angle,
        seen_deg=None if hole.is_seen_whole else hole.lean_deg,
        is_direction_known=hole.injury.azimuth is not None,
    )
    if len(marked) > 1:
        text = f"{hole.injury.id}: {text}"
    size, side = sheet.size, 1.0 if hole.lean_deg >= 0 else -1.0
    tips = [each.exit + (each.exit - each.at) / t * axis_tail(sheet, each) for each in marked]
    axis = tips[marked.index(hole)]
    gap = size * 0.55
    out, back = ("start", "end") if side > 0 else ("end", "start")
    y = t + tail - size * 0.15
    spots = [
        (axis + side * gap, y, out),
        (axis + side * gap, y + size * 0.6, out),
        (hole.exit - side * gap, y, back),
        (hole.exit - side * gap, y - size * 0.5, back),
        ((axis + hole.exit) / 2, t + tail + size * 1.1, "middle"),
    ]
    # where holes crowd one another the label stands beside all of them
    right, left = max(0.0, *tips, *(each.exit for each in marked)), min(0.0, *tips, *(each.exit for each in marked))
    ends = [(right + gap, "start"), (left - gap, "end")]
    for drop in (0.0, 1.2, 2.4):
        spots += [(x, y + size * drop, anchor) for x, anchor in (ends if side > 0 else ends[::-1])]
    return sheet.label(spots, text)


def _above(
    sheet: Sheet,
    case: Case,
    holes: Sequence[Channel],
    crown: Crown,
    line: float | None,
    end: CrownLine | None,
    *,
    is_named: bool,
) -> float:
    """Over the tread each hole's width, and over that the distances from the centerline; returns their outer edge."""
    ends = [hole.at for hole in holes]
    limit = _line_in_view(crown, end)
    lines = [(x, 0.0, x, -sheet.size * 30) for x in (*ends, limit) if x is not None]
    top = _hole_labels(sheet, holes, lines)
    spans = [_span(crown, hole.at, length_label(hole.injury.lateral, unsigned=True)) for hole in holes if hole.at]
    to_limit, name = "", say("outer groove")
    if limit is not None:
        if end is None or end is _GROOVE:
            length = length_label(case.tire.outer_groove)
            to_limit = say("{length} to the outer groove", length=length)
        else:
            length, name, is_named = end.label(_unit_of(holes)), end.name, False
            to_limit = say("{length} to the {line}", length=length, line=name)
        spans.append(_span(crown, limit, length, to_limit))
    edge = rows(sheet, spans, start=min(top, -sheet.size * 0.6), up=True, keep=[] if line is None else [line])
    if limit is not None and not is_named and to_limit not in sheet.words:
        _name_line(sheet, limit, edge, name)
    if crown.shows_center:
        edge = min(edge, -sheet.size * 0.8)
        sheet.path(pen("M", 0, edge, "V", crown.thickness + sheet.size), width=sheet.hair, dash=sheet.chain)
    sheet.reach(edge, 0)
    return edge


def _unit_of(holes: Sequence[Channel]) -> str:
    """The unit in which the drawing writes what it computes: that of the places."""
    return "in" if holes and holes[0].lateral.unit == "in" else "mm"


def _name_line(sheet: Sheet, x: float, edge: float, name: str) -> None:
    """Beside its distance the name of the line that ends the crown, where there is room."""
    side = 1.0 if x > 0 else -1.0
    anchor = "start" if side > 0 else "end"
    for row in range(4):
        place = (x + side * sheet.size * 0.5, edge + sheet.size * (1.55 + row * ROW))
        box = text_box(*place, name, sheet.size, anchor)
        if sheet.left <= box[0] and box[2] <= sheet.right and box[3] < 0 and sheet.is_free(box):
            sheet.text(*place, name, anchor=anchor)
            return


def _span(crown: Crown, x: float, text: str, long: str = "", y: float = 0.0) -> Span:
    """A distance from the centerline; broken where the centerline is not in view."""
    if crown.shows_center:
        return Span(0.0, x, text, long, y, y)
    long = long or say("{length} from the center", length=text)
    return Span(crown.left if x > 0 else crown.right, x, text, long, y, y, is_broken=True)


def _hole_labels(sheet: Sheet, holes: Sequence[Channel], lines: Sequence[Segment]) -> float:
    """Each hole's width right over its mouth, clear of all lines that will rise there; returns how high they reach."""
    before = len(sheet.segments)
    sheet.keep_clear(*lines)
    size, gap = sheet.size, sheet.size * 0.4
    several = len(holes) > 1
    top = 0.0
    for hole in sorted(holes, key=lambda hole: -abs(hole.at)):
        text = hole_label(_size(hole), hole.injury.id, several=several)
        if not text:
            continue
        spots = [(hole.at + gap, -size * 0.5, "start"), (hole.at - gap, -size * 0.5, "end")]
        if hole.lean_deg < 0 or (not hole.lean_deg and hole.at < 0):
            spots.reverse()  # away from the end of its axis
        spots += [(x, y - size * 1.3, anchor) for x, y, anchor in spots]
        top = min(top, sheet.label(spots, text)[1])
    del sheet.segments[before : before + len(lines)]  # a line rises no farther than its own row
    return top


def _size(hole: Channel) -> Quantity | None:
    return size_of(hole.injury) if hole.injury.kind != "surface" else None


def _exits(
    sheet: Sheet, holes: Sequence[Channel], crown: Crown, low: float, line: float | None, *, is_summed: bool
) -> float:
    """Distances from the centerline on the liner; of a hole alone that of its far edge too, or its sum."""
    t = crown.thickness + sheet.unit * 3
    through = [hole for hole in holes if hole.is_through]
    if is_summed and len(through) == 1:
        return rows(sheet, _summed(through[0], t), start=low, up=False, keep=[] if line is None else [line])
    spans = [
        _span(crown, hole.exit, length_label(None, mm=hole.exit, unit_like=hole.injury.lateral), y=t)
        for hole in through
        if abs(hole.exit) > 0.05
    ]
    if len(through) == 1:
        length = _edge_label(through[0])
        spans.append(_span(crown, _far_edge(through[0]), length, say("{length} to its far edge", length=length), y=t))
    if not spans:
        return low
    edge = rows(sheet, spans, start=low, up=False, keep=[] if line is None else [line])
    if crown.shows_center:
        sheet.path(pen("M", 0, crown.thickness + sheet.size, "V", edge), width=sheet.hair, dash=sheet.chain)
    sheet.reach(0, edge)
    return edge


def _summed(hole: Channel, y: float) -> list[Span]:
    """How far the lean carries the hole, and from its middle to its far edge: both along the liner."""
    far, spans = _far_edge(hole), []
    if abs(hole.exit - hole.at) > 0.05:
        length = length_label(None, mm=hole.exit - hole.at, unit_like=hole.injury.lateral)
        spans.append(Span(hole.at, hole.exit, length, say("{length} by the lean", length=length), y, y))
    length = length_label(None, mm=far - hole.exit, unit_like=hole.injury.lateral)
    said_long = say("half the hole: {length}", length=length)
    return [*spans, Span(hole.exit, far, length, said_long, y, y)]


def _far_edge(hole: Channel) -> float:
    """The lateral at which the opening on the liner lies farthest from the centerline."""
    return hole.exit + (hole.half if hole.exit >= 0 else -hole.half)


def _edge_label(hole: Channel) -> str:
    return length_label(None, mm=_far_edge(hole), unit_like=hole.injury.lateral, is_outermost=True)


def _thickness(sheet: Sheet, crown: Crown, texts: Sequence[str], line: float | None, *, is_left: bool) -> None:
    """The crown's thickness beside a cut edge, the first of its texts that has room under the liner, beside `line`."""
    if not texts:
        return
    size, t, u = sheet.size, crown.thickness, sheet.unit
    side, edge = (-1.0, crown.left) if is_left else (1.0, crown.right)
    x, near = edge + side * u * 3.2, edge + side * u * 1.2
    sheet.path(pen("M", near, 0, "H", x + side * u, "M", near, t, "H", x + side * u), width=sheet.hair)
    sheet.arrow(x, 0, x, t, head=2.0, both=True)
    sheet.keep_clear((x, 0, x, t), (near, 0, x, 0), (near, t, x, t))
    is_cut = crown.is_cut_left if is_left else crown.is_cut_right
    anchor, y = "start" if is_left else "end", (t if is_cut else sheet.bottom) + size * 1.15
    places = [x, -side * size * 0.4]
    if line is not None and (line < 0) == is_left:
        places.insert(1, line - side * size * 0.4)
    spots = [(place, y, anchor) for place in places]
    with_room = (text for text in texts if any(sheet.has_room(spot, text) for spot in spots))
    box = sheet.label(spots, next(with_room, texts[-1]))
    sheet.reach(0, box[3])


def _foot(sheet: Sheet, crown: Crown, low: float, prefer: str, *, has_key: bool) -> None:
    """The last rows: what the chain line is, the scale bar, and the key of the layers, where it does not stand in a
    drawing above."""
    size = sheet.size
    y = max(low, sheet.bottom) + size * 1.15
    room = sheet.scale_room(prefer)
    at_left, at_right = sheet.left + sheet.unit, sheet.right - sheet.unit - room
    x = at_left
    if crown.shows_center:
        name = say("center")
        sheet.text(0, y, name)
        sheet.rule(0, crown.thickness + size, 0, y - size * 0.9, dash=sheet.chain)
        x = at_left if at_left + room < -(text_width(name, size) / 2 + size * 0.4) else at_right
    sheet.scale_bar(x, y, prefer)
    last = key(sheet, crown.belts, at_left, y + size * 1.75) if has_key else y
    sheet.reach(0, last + size * 0.25)


# -- the same in words


def _words(case: Case, holes: Sequence[Channel], prefer: str, show_exit: bool, end: CrownLine | None) -> str:
    """What the eye sees, sentence by sentence."""
    said_words = [say("Cross-section of the crown to scale, tread up, liner down.")]
    tire = case.tire
    if tire.crown_thickness is not None:
        said_words.append(say("The crown is {length} thick.", length=said(tire.crown_thickness, prefer)))
    if tire.outer_groove is not None and end is _GROOVE:
        length = said(tire.outer_groove, prefer)
        said_words.append(say("The outermost groove begins {length} from the centerline.", length=length))
    if end is not None and end is not _GROOVE:
        length = end.label(_unit_of(holes))
        said_words.append(
            say(
                "A line of long and short dashes lies {length} from the centerline: {line}.",
                length=length,
                line=end.name,
            )
        )
    for hole in holes:
        said_words.append(_hole_words(hole, prefer, several=len(holes) > 1))
        if show_exit and hole.is_through:
            label = length_label(None, mm=hole.exit, unit_like=hole.injury.lateral)
            place = say("on the centerline") if abs(hole.exit) <= 0.05 else beside_center(hole.exit, label)
            said_words.append(
                say(
                    "It comes out on the liner {place}, its far edge {length} from it.",
                    place=place,
                    length=_edge_label(hole),
                )
            )
    if not holes:
        said_words.append(say("No injury is drawn: its place across the tread was not measured."))
    return " ".join(said_words)


def _hole_words(hole: Channel, prefer: str, *, several: bool) -> str:
    injury = hole.injury
    facts = [say("enters the tread {place}", place=from_center(hole.at, hole.lateral, prefer))]
    if size := _size(hole):
        facts.append(say("is {length} across", length=said(size, prefer)))
    facts.append(_lean_words(hole))
    told = all_of(fact for fact in facts if fact)
    if several:
        return say("Injury {injury} {facts}.", injury=injury.id, facts=told)
    return say("The injury {facts}.", facts=told)


def _lean_words(hole: Channel) -> str:
    """How the section shows the channel to run; empty where its lean was not measured."""
    injury = hole.injury
    if not hole.is_through:
        return say("is drawn as a notch, its channel not shown")
    if injury.angle is None:
        return ""
    if not injury.angle.number:
        return say("runs straight through")
    angle = in_degrees(injury.angle.text)
    if injury.azimuth is None:
        return say("leans {angle}, in a direction that was not measured", angle=angle)
    if hole.is_seen_whole:
        if hole.lean_deg > 0:
            return say("leans {angle} to the right on its way in", angle=angle)
        return say("leans {angle} to the left on its way in", angle=angle)
    if not hole.lean_deg:
        return say("shows no lean in this section")
    degrees = round(abs(hole.lean_deg))
    if hole.lean_deg > 0:
        return say("shows a lean of {degrees} degrees to the right in this section", degrees=degrees)
    return say("shows a lean of {degrees} degrees to the left in this section", degrees=degrees)
