"""The crown in cross-section, to scale: grooves, belts, plies, liner, and each injury's channel as it runs.

One user unit is one millimeter; x is the lateral position, y the depth below the tread. Nothing drawn or said depends
on a rule: the section shows measurements of the case and no judgement.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from training.drawings.crown import Channel, Crown, axis_tail, channels, crown_of, draw_channel, draw_rings, draw_rubber
from training.drawings.dimension import Span, rows
from training.drawings.ink import TEXT_PART, Figure, Sheet, pen, text_width
from training.drawings.words import angle_label, from_center, hole_label, length_label, said, side_of, size_of
from training.rulebook import Case, Quantity
from training.trade.lists import all_of


def cross_section(
    case: Case, *, injury: str | None = None, prefer: str = "in", show_liner_exit: bool = False
) -> Figure:
    """The crown cut across through its injuries, drawn to scale, tread up and liner down.

    Args:
        injury: the id of the one injury to draw; all of them otherwise.
        prefer: "in" or "mm", the unit the description gives first.
        show_liner_exit: also dimension where the channel comes out on the liner.
    """
    holes = channels(case, injury=injury)
    crown = crown_of(case, holes)
    thick = length_label(case.tire.crown_thickness)
    # the margin for the thickness is as wide as its text, which grows with the width of the drawing
    margin = 3.0
    bare = crown.right - crown.left + 6
    if thick:
        part = text_width(thick, 1.0) * TEXT_PART * 1.06
        margin = (bare * part + 6.0) / (1 - part)
    left, right = (crown.left - 3, crown.right + margin) if crown.cut > 0 else (crown.left - margin, crown.right + 3)
    sheet = Sheet(left, right)
    draw_rubber(sheet, crown)
    rings_top, rings_low = draw_rings(sheet, holes, crown.thickness)
    for hole in holes:
        draw_channel(sheet, hole, crown)
    low = _below(sheet, holes, crown, rings_low)
    _above(sheet, case, holes, crown, rings_top)
    if show_liner_exit:
        low = _exits(sheet, holes, crown, low)
    _thickness(sheet, crown, thick)
    _foot(sheet, crown, low, prefer)
    words = _words(case, holes, prefer, show_liner_exit)
    return Figure(sheet.svg(words), words)


# -- dimensions


def _below(sheet: Sheet, holes: Sequence[Channel], crown: Crown, low: float) -> float:
    """Lean of each channel, on the inside: the perpendicular, the axis run on, the arc between, and the angle."""
    t, size = crown.thickness, sheet.size
    tail, r = size * 2.9, size * 2.3
    sheet.keep_clear((0, t, 0, t + size * 30))
    marked = tuple(hole for hole in holes if hole.is_through)
    for hole in marked:
        if hole.lean_deg:
            x, lean = hole.exit, math.radians(hole.lean_deg)
            sheet.path(pen("M", x, t, "V", t + tail), width=sheet.hair)
            tip = (x + r * math.sin(lean), t + r * math.cos(lean))
            sheet.path(pen("M", x, t + r, "A", r, r, 0, 0, 0 if lean > 0 else 1, tip[0], tip[1]), width=sheet.hair)
            sheet.keep_clear((x, t, x, t + tail), (x, t + r, tip[0], tip[1]))
    for hole in marked:
        box = _lean_label(sheet, hole, marked, t, tail)
        low = max(low, box[3], t + tail)
    sheet.reach(0, low)
    return low


def _lean_label(
    sheet: Sheet, hole: Channel, marked: Sequence[Channel], t: float, tail: float
) -> tuple[float, float, float, float]:
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


def _above(sheet: Sheet, case: Case, holes: Sequence[Channel], crown: Crown, top: float) -> None:
    """Distances from the centerline over the tread, and over them each hole's width on its own line."""
    spans = [Span(0.0, hole.at, length_label(hole.injury.lateral, unsigned=True)) for hole in holes if hole.at]
    if crown.groove is not None:
        side = -1.0 if crown.cut > 0 else 1.0
        spans.append(Span(0.0, side * crown.groove, length_label(case.tire.outer_groove)))
    keep = [hole.at for hole in holes if hole.injury.diameter or len(holes) > 1]
    edge = rows(sheet, spans, start=top, up=True, keep=keep)
    head = _hole_labels(sheet, holes, edge)
    if spans or holes:
        sheet.reach(head, 0)
    centre_top = edge if spans else -sheet.size * 0.8
    sheet.path(pen("M", 0, centre_top, "V", crown.thickness + sheet.size * 0.9), width=sheet.hair, dash=sheet.chain)
    sheet.reach(centre_top, 0)


def _hole_labels(sheet: Sheet, holes: Sequence[Channel], edge: float) -> float:
    """Over the dimensions, each hole's width beside its own line; returns how high they reach."""
    size, gap, head = sheet.size, sheet.size * 0.4, edge
    several = len(holes) > 1
    labels = ((hole, hole_label(_size(hole), hole.injury.id, several=several)) for hole in holes)
    labelled = [(hole, text) for hole, text in labels if text]
    sheet.keep_clear(*((hole.at, 0.0, hole.at, edge - size) for hole, _ in labelled))
    rightmost = max((hole.at for hole in holes), default=0.0)
    for hole, text in sorted(labelled, key=lambda pair: -abs(pair[0].at)):
        spots = [(hole.at + gap, edge - size * 0.3, "start"), (hole.at - gap, edge - size * 0.3, "end")]
        if hole.at < (rightmost if several else 0.0):
            spots.reverse()
        spots += [(x, y - size * 1.3, anchor) for x, y, anchor in spots]
        box = sheet.label(spots, text)
        rise = box[1] + size * 0.1
        sheet.rule(hole.at, -0.5, hole.at, rise)
        sheet.keep_clear((hole.at, 0, hole.at, rise))
        head = min(head, box[1])
    return head


def _size(hole: Channel) -> Quantity | None:
    return size_of(hole.injury) if hole.injury.kind != "surface" else None


def _exits(sheet: Sheet, holes: Sequence[Channel], crown: Crown, low: float) -> float:
    """Distances from the centerline on the liner."""
    t = crown.thickness
    spans = [
        Span(0.0, hole.exit, length_label(None, mm=hole.exit, unit_like=hole.injury.lateral), t, t)
        for hole in holes
        if hole.is_through and abs(hole.exit) > 0.05
    ]
    if not spans:
        return low
    edge = rows(sheet, spans, start=low, up=False)
    sheet.path(pen("M", 0, t + sheet.size * 0.9, "V", edge), width=sheet.hair, dash=sheet.chain)
    sheet.reach(0, edge)
    return edge


def _thickness(sheet: Sheet, crown: Crown, text: str) -> None:
    """The crown's thickness at the margin."""
    if not text:
        return
    size, t = sheet.size, crown.thickness
    side = 1.0 if crown.cut > 0 else -1.0
    edge = crown.right if side > 0 else crown.left
    x = edge + side * 3.2
    near = edge + side * 0.8
    sheet.path(pen("M", near, 0, "H", x + side, "M", near, t, "H", x + side), width=sheet.hair)
    sheet.arrow(x, 0, x, t, head=1.5, both=True)
    sheet.keep_clear((x, 0, x, t), (near, 0, x, 0), (near, t, x, t))
    sheet.label([(x + side * size * 0.35, t / 2 + size * 0.35, "start" if side > 0 else "end")], text)


def _foot(sheet: Sheet, crown: Crown, low: float, prefer: str) -> None:
    """The last row: what the chain line is, and the scale bar."""
    y = max(low, sheet.bottom) + sheet.size * 1.15
    x = crown.right - sheet.scale_room(prefer) - 2 if crown.cut < 0 else crown.left + 2
    sheet.text(0, y, "center")
    sheet.rule(0, crown.thickness + sheet.size * 0.9, 0, y - sheet.size * 0.9, dash=sheet.chain)
    sheet.scale_bar(x, y, prefer)
    sheet.reach(0, y + sheet.size * 0.25)


# -- the same in words


def _words(case: Case, holes: Sequence[Channel], prefer: str, show_exit: bool) -> str:
    """What the eye sees, sentence by sentence."""
    said_words = ["Cross-section of the crown to scale, tread up, liner down."]
    tire = case.tire
    if tire.crown_thickness is not None:
        said_words.append(f"The crown is {said(tire.crown_thickness, prefer)} thick.")
    if tire.outer_groove is not None:
        said_words.append(f"The outermost groove begins {said(tire.outer_groove, prefer)} from the centerline.")
    for hole in holes:
        said_words.append(_hole_words(hole, prefer, several=len(holes) > 1))
        if show_exit and hole.is_through:
            label = length_label(None, mm=hole.exit, unit_like=hole.injury.lateral)
            place = "on the centerline" if abs(hole.exit) <= 0.05 else f"{label} {side_of(hole.exit)} of the centerline"
            said_words.append(f"It comes out on the liner {place}.")
    if not holes:
        said_words.append("No injury is drawn: its place across the tread was not measured.")
    return " ".join(said_words)


def _hole_words(hole: Channel, prefer: str, *, several: bool) -> str:
    injury = hole.injury
    name = f"Injury {injury.id}" if several else "The injury"
    facts = [f"enters the tread {from_center(hole.at, hole.lateral, prefer)}"]
    if size := _size(hole):
        facts.append(f"is {said(size, prefer)} across")
    if hole.is_through and injury.angle is not None:
        if not injury.angle.number:
            facts.append("runs straight through")
        elif injury.azimuth is None:
            facts.append(f"leans {injury.angle.text}, in a direction that was not measured")
        elif hole.is_seen_whole:
            facts.append(f"leans {injury.angle.text} to the {side_of(hole.lean_deg)} on its way in")
        elif not hole.lean_deg:
            facts.append("shows no lean in this section")
        else:
            lean = f"{round(abs(hole.lean_deg))} deg to the {side_of(hole.lean_deg)}"
            facts.append(f"shows a lean of {lean} in this section")
    elif not hole.is_through:
        facts.append("is drawn as a notch, its channel not shown")
    return f"{name} {all_of(facts)}."
