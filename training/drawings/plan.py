"""The unrolled crown seen from inside, to scale: injuries, earlier repairs, repair units and outlines where they lie.

One user unit is one millimeter; x is the lateral position, upward is increasing station on the liner.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import partial

from training.drawings.boxes import Segment, boxes_meet, text_box, text_width
from training.drawings.crown import groove_width, half_tread
from training.drawings.crown_line import CrownLine, end_of_crown
from training.drawings.dimension import Span, rows
from training.drawings.ink import PAPER, RUBBER, TEXT_PART, Figure, Sheet
from training.drawings.layout import Strip, Thing, box_of, cropped, strips_of, things_of
from training.drawings.path import frame, num, pen
from training.drawings.words import from_center, hole_label, in_degrees, length_label, said, size_of
from training.rulebook import Case, Edition, OnShelf, injury_geometry, length_mm, place_injury
from training.trade.lists import all_of
from training.trade.speech import say


def crown_plan(
    case: Case,
    *,
    prefer: str = "in",
    show_units: bool = False,
    show_outline: bool = False,
    edition: Edition | None = None,
    units: Sequence[OnShelf] | None = None,
) -> Figure:
    """The crown unrolled and seen from inside.

    Args:
        prefer: "in" or "mm", the unit the description gives first.
        show_units: draw the unit planned for each injury around its exit, arrows to the beads.
        show_outline: draw the outline to buff around it, where the edition states its margin.
        edition: the rulebook that states the margin, the case's own otherwise; and by which the repairable crown ends:
            where that is not at the groove, its own line is drawn and named instead of it, none where it ends nowhere.
        units: what is on the shop's shelf; without it no unit and no outline is drawn.
    """
    placed = place_injury
    if show_units or show_outline:
        placed = partial(injury_geometry, edition=edition, units=units)
    things = things_of(case, placed, units=show_units, outlines=show_outline)
    strips = strips_of(case, things)
    end = None if edition is None else end_of_crown(case, edition)
    by_groove = edition is None or (end is not None and end.is_groove)
    groove = case.tire.outer_groove.number if by_groove and case.tire.outer_groove else None
    widest = max((max(abs(t.exit) + t.across, abs(t.lateral) + 4) for t in things), default=0.0)
    edge = max(half_tread(case.tire), (groove or 0.0) + 6.0)
    if end is not None and not by_groove and case.tire.tread_width is None:
        edge = max(edge, end.at_mm + 6.0)
    left, right = cropped(things, max(edge, widest + 2.0))
    stations = [t.station_text for t in things if t.station_text]
    part = text_width(max(stations, key=len), 1.0) * TEXT_PART * 1.06 if stations else 0.0
    margin = ((right - left + 6) * part + (5.0 if stations else 0.0)) / (1 - part)
    sheet = Sheet(left - 3, right + 3 + margin)
    for strip in strips:
        _liner(sheet, strip, left, right, edge, groove)
    for thing in things:
        _draw(sheet, thing)
    _stations(sheet, things, right)
    top, low = strips[-1].top, strips[0].low
    limit = _groove_limit(case) if by_groove else _own_limit(end, prefer)
    side = None if limit is None else -1.0 if left < -limit.at and not any(t.exit > 0 for t in things) else 1.0
    if limit is not None and not by_groove:
        _limit_lines(sheet, limit, (left, right), (top, low))
    _grid(sheet, things, side, limit, top, low)
    # a name may cover a groove's edge or another hole's extension line where it finds no free place
    soft = [*_groove_lines(edge, groove, top, low), *(line for line in sheet.segments if _runs_in(line, top))]
    sheet.segments = [line for line in sheet.segments if not _runs_in(line, top)]
    for thing in things:
        _name(sheet, thing, soft, several=len(things) > 1)
    names = [(0.0, say("center"))]
    if side is not None and limit is not None:
        half = text_width(limit.name, sheet.size) / 2
        x = side * (limit.at + (groove_width(edge, limit.at) / 2 if by_groove else 0.0))
        names.append((min(max(x, sheet.left + half), sheet.right - half), limit.name))
    _foot(sheet, low, left, right, names, prefer)
    words = _words(case, things, prefer, limit if not by_groove else None, by_groove=by_groove)
    return Figure(sheet.svg(words), words)


@dataclass(frozen=True, slots=True)
class _Limit:
    """What is dimensioned at either side of the centerline: where it lies [mm], how that reads, what it is."""

    at: float
    text: str
    name: str


def _groove_limit(case: Case) -> _Limit | None:
    groove = case.tire.outer_groove
    return None if groove is None else _Limit(groove.number, length_label(groove), say("outer groove"))


def _own_limit(end: CrownLine | None, prefer: str) -> _Limit | None:
    return None if end is None else _Limit(end.at_mm, end.label(prefer), end.name)


# -- the liner


def _liner(sheet: Sheet, strip: Strip, left: float, right: float, half: float, groove: float | None) -> None:
    """A strip of liner: straight along the edges of the tread, broken across; grooves behind it as dashed lines."""
    top, low = strip.top, strip.low
    across = []
    for y, begin, end in ((low, left, right), (top, right, left)):
        run = (end - begin) / 4
        across.append(pen("Q", begin + run, y - 3, begin + 2 * run, y, "T", end, y))
    sheet.path(f"M{num(left)} {num(low)}{across[0]}V{num(top)}{across[1]}Z", fill=RUBBER, width=sheet.hair * 1.4)
    edges = [x for x in (-half, half) if left <= x <= right]
    if edges:
        at_end = left in edges or right in edges
        sheet.path("".join(pen("M", x, low, "V", top) for x in edges), dash="" if at_end else sheet.dashes)
    if groove is not None:
        lines = [line for line in _groove_lines(half, groove, top, low) if left < line[0] < right]
        d = "".join(pen("M", x, low, "V", top) for x, *_ in lines)
        sheet.path(d, width=sheet.hair * 1.3, dash=sheet.dashes)
    sheet.keep_clear((left, low, left, top), (right, low, right, top), (left, low, right, low), (left, top, right, top))
    sheet.reach(top - 1.5, low + 1.5)


def _groove_lines(half: float, groove: float | None, top: float, low: float) -> list[Segment]:
    """Both edges of both outermost grooves; the inner edge is the measured one."""
    if groove is None:
        return []
    outer = groove + groove_width(half, groove)
    return [(side * x, low, side * x, top) for side in (-1.0, 1.0) for x in (groove, outer)]


def _limit_lines(sheet: Sheet, limit: _Limit, ends: tuple[float, float], rows: tuple[float, float]) -> None:
    """Where the repairable crown ends on either side, past the liner at both ends."""
    top, low = rows[0] - sheet.size * 0.3, rows[1] + sheet.size * 0.5
    for x in (-limit.at, limit.at):
        if ends[0] <= x <= ends[1]:
            sheet.path(pen("M", x, top, "V", low), dash=sheet.limit)
            sheet.keep_clear((x, top, x, low))


def _runs_in(line: Segment, top: float) -> bool:
    """An extension line that comes down into the drawing from the dimensions above it."""
    return line[0] == line[2] != 0 and min(line[1], line[3]) < top - 1 and max(line[1], line[3]) > top + 1


def _draw(sheet: Sheet, thing: Thing) -> None:
    if thing.repair is not None:
        _draw_repair(sheet, thing)
        return
    x, y = thing.exit, thing.y - thing.around
    if thing.outline:
        a, b = thing.outline
        sheet.box(x - a / 2, y - b / 2, a, b, width=sheet.hair * 1.6, dash=sheet.dashes)
        _keep_box(sheet, x, y, a, b)
    if thing.unit:
        a, b = thing.unit
        sheet.box(x - a / 2, y - b / 2, a, b, corner=3.0)
        _keep_box(sheet, x, y, a, b)
        for side in (-1.0, 1.0):
            sheet.arrow(x + side * a * 0.28, y, x + side * (a / 2 - 2.0), y, width=sheet.line, head=2.4)
            sheet.keep_clear((x + side * a * 0.28, y, x + side * a / 2, y))
    _hole(sheet, thing, x, y)


def _keep_box(sheet: Sheet, x: float, y: float, a: float, b: float) -> None:
    left, right, top, low = x - a / 2, x + a / 2, y - b / 2, y + b / 2
    sheet.keep_clear((left, top, right, top), (left, low, right, low), (left, top, left, low), (right, top, right, low))


def _hole(sheet: Sheet, thing: Thing, x: float, y: float) -> None:
    """The mouth on the liner as a white ellipse, the hole on the tread behind it dashed."""
    place = thing.place
    short = (place.diameter_mm if place and place.diameter_mm else 2.0) / 2
    long = (place.ellipse_long_mm / 2) if place and place.ellipse_long_mm else short
    turn = -(place.azimuth_deg or 0.0) if place and place.angle_deg else 0.0
    sheet.boxes.append(box_of(thing))
    fine = sheet.hair * 1.6
    if abs(x - thing.lateral) > 0.6 or abs(thing.around) > 0.6:
        sheet.ellipse(thing.lateral, thing.y, long, short, turn=turn, fill="none", width=fine, dash=sheet.dashes)
        sheet.rule(thing.lateral, thing.y, x, y, dash=sheet.chain)
    sheet.ellipse(x, y, long, short, turn=turn, fill=PAPER, width=fine)


def _draw_repair(sheet: Sheet, thing: Thing) -> None:
    """An earlier repair: its unit hatched, or a cross where no unit was measured."""
    left, top, right, low = box_of(thing)
    if thing.unit:
        sheet.hatch(frame(left, top, right, low), step=6.0)
        sheet.box(left, top, *thing.unit, corner=3.0)
        sheet.boxes.append((left, top, right, low))
        return
    x, y, arm = thing.exit, thing.y, 5.0
    left, top, right, low = x - arm, y - arm, x + arm, y + arm
    sheet.path(pen("M", left, top, "L", right, low, "M", left, low, "L", right, top), width=sheet.line * 1.4)
    sheet.boxes.append((left, top, right, low))


# -- dimensions and names


def _stations(sheet: Sheet, things: Sequence[Thing], right: float) -> None:
    """At the right edge, the station of each thing on a short line that points at it."""
    done = set()
    for thing in sorted(things, key=lambda t: -t.y):
        if not thing.station_text or (round(thing.y, 2), thing.station_text) in done:
            continue
        done.add((round(thing.y, 2), thing.station_text))
        sheet.rule(right - 4.0, thing.y, right + 2.5, thing.y, width=sheet.line)
        beside, size = right + 2.5 + sheet.size * 0.3, sheet.size
        spots = [(beside, thing.y + size * 0.35, "start"), (beside, thing.y - size * 0.7, "start")]
        sheet.label(spots, thing.station_text)


def _grid(
    sheet: Sheet, things: Sequence[Thing], side: float | None, limit: _Limit | None, top: float, low: float
) -> None:
    """Distances from the centerline above the drawing, and the centerline itself."""
    spans, seen = [], set()
    for thing in things:
        if thing.lateral and (thing.lateral, thing.lateral_text) not in seen:
            seen.add((thing.lateral, thing.lateral_text))
            spans.append(Span(0.0, thing.lateral, thing.lateral_text, "", top, thing.y - 1.0))
    if side is not None and limit is not None:
        spans.append(Span(0.0, side * limit.at, limit.text, "", top, top))
    edge = rows(sheet, spans, start=top - sheet.size * 0.3, up=True) if spans else top - sheet.size * 0.6
    sheet.path(pen("M", 0, edge, "V", low + sheet.size * 0.7), width=sheet.hair, dash=sheet.chain)
    sheet.keep_clear((0, edge, 0, low + sheet.size))
    sheet.reach(edge, low)


def _name(sheet: Sheet, thing: Thing, soft: Sequence[Segment], *, several: bool) -> None:
    """Id and size beside a thing, on the liner where nothing else is."""
    text = hole_label(size_of(thing.injury) if thing.injury else None, thing.id, several=several)
    if not text:
        return
    box = box_of(thing)
    size, gap = sheet.size, sheet.size * 0.35
    middle, mid_y = (box[0] + box[2]) / 2, (box[1] + box[3]) / 2
    out = 1.0 if thing.exit >= 0 else -1.0
    beside = [(box[2] + gap, mid_y + size * 0.35, "start"), (box[0] - gap, mid_y + size * 0.35, "end")]
    if out < 0:
        beside.reverse()
    above = [(middle, box[1] - gap, "middle"), (middle, box[3] + size, "middle")]
    sides = [(box[2], "start"), (box[0], "end")]
    corners = [(x, y, anchor) for y in (box[1] - gap, box[3] + size) for x, anchor in sides]
    placed = sheet.label([*beside, *above, *corners], text, over=soft, ground=RUBBER)
    sheet.reach(placed[1], placed[3])


def _foot(sheet: Sheet, low: float, left: float, right: float, names: Sequence[tuple[float, str]], prefer: str) -> None:
    """What the lines are, each under its own, and the scale bar beside or below them."""
    size = sheet.size
    y = max(low + size * 1.6, sheet.bottom + size * 1.1)
    boxes = [text_box(x, y, name, size, "middle") for x, name in names]
    for x, name in names[:1]:
        sheet.text(x, y, name)
    if any(boxes_meet(boxes[0], box) for box in boxes[1:]):
        y += size * 1.3
    for x, name in names[1:]:
        sheet.text(x, y, name)
    room = sheet.scale_room(prefer)
    free = [x for x in (left, right - room) if sheet.is_free((x - size, y - size * 0.8, x + room + size, y))]
    if not free:
        y += size * 1.5
    sheet.scale_bar((*free, left)[0], y, prefer)
    sheet.reach(0, y + size * 0.25)


# -- the same in words


def _words(case: Case, things: Sequence[Thing], prefer: str, limit: _Limit | None, *, by_groove: bool) -> str:
    text = [say("The crown unrolled and seen from inside, to scale; stations increase upward.")]
    if by_groove and case.tire.outer_groove is not None:
        length = said(case.tire.outer_groove, prefer)
        text.append(say("The outermost groove begins {length} from the centerline.", length=length))
    if limit is not None:
        text.append(
            say(
                "A line of long and short dashes lies {length} from the centerline: {line}.",
                length=limit.text,
                line=limit.name,
            )
        )
    for thing in things:
        text.append(_thing_words(thing, prefer, several=len(things) > 1))
        if thing.unit:
            wide, high = (_told(size, prefer) for size in thing.unit)
            if thing.repair:
                text.append(say("Its unit is {wide} across the tire and {high} around it.", wide=wide, high=high))
            else:
                text.append(
                    say(
                        "The unit over it is {wide} across the tire and {high} around it, its arrows to the beads.",
                        wide=wide,
                        high=high,
                    )
                )
        if thing.outline:
            wide, high = (_told(size, prefer) for size in thing.outline)
            text.append(say("A dashed outline {wide} by {high} lies around it.", wide=wide, high=high))
    if not things:
        text.append(say("Nothing else is drawn: no place across the tread was measured."))
    return " ".join(text)


def _thing_words(thing: Thing, prefer: str, *, several: bool) -> str:
    """A sentence: where an injury or an earlier repair lies, how large a hole is and where it comes out."""
    found = thing.repair or thing.injury
    place = from_center(thing.lateral, found.lateral if found else None, prefer)
    if thing.station_text:
        facts = [say("lies {place} at station {station}", place=place, station=in_degrees(thing.station_text))]
    else:
        facts = [say("lies {place}", place=place)]
    if thing.injury is not None:
        if size := size_of(thing.injury):
            facts.append(say("is {length} across", length=said(size, prefer)))
        facts += _exit_words(thing, prefer)
    told = all_of(facts)
    if thing.repair:
        return say("Earlier repair {repair} {facts}.", repair=thing.id, facts=told)
    if several:
        return say("Injury {injury} {facts}.", injury=thing.id, facts=told)
    return say("The injury {facts}.", facts=told)


def _told(length: float, prefer: str) -> str:
    return said(length_mm(round(abs(length), 1)), prefer)


def _exit_words(thing: Thing, prefer: str) -> list[str]:
    """Where the mouth on the liner lies from the hole on the tread, as the drawing shows it."""
    over, up = thing.exit - thing.lateral, thing.around
    if abs(over) < 0.5 and abs(up) < 0.5:
        return []
    parts = []
    if abs(over) >= 0.5:
        length = _told(round(over), prefer)
        parts.append(
            say("{length} to the right", length=length) if over > 0 else say("{length} to the left", length=length)
        )
    if abs(up) >= 0.5:
        length = _told(round(up), prefer)
        parts.append(say("{length} up", length=length) if up > 0 else say("{length} down", length=length))
    return [say("comes out on the liner {way} of its place on the tread", way=all_of(parts))]
