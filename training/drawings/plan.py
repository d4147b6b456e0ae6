"""The unrolled crown seen from inside, to scale: injuries, earlier repairs, repair units and outlines where they lie.

One user unit is one millimeter; x is the lateral position, upward is increasing station on the liner.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial

from training.drawings.dimension import Span, rows
from training.drawings.ink import LINE, PAPER, RUBBER, TEXT_PART, Figure, Segment, Sheet, num, text_width
from training.drawings.layout import Strip, Thing, box_of, cropped, strips_of, things_of
from training.drawings.words import length_label, said
from training.rulebook import Case, Edition, RepairUnit, injury_geometry, length_mm, place_injury
from training.trade.lists import all_of

_USUAL_HALF_TREAD = 80.0


def crown_plan(
    case: Case,
    *,
    prefer: str = "in",
    show_units: bool = False,
    show_outline: bool = False,
    show_crown: bool = True,
    edition: Edition | None = None,
    units: Sequence[RepairUnit] | None = None,
) -> Figure:
    """The crown unrolled and seen from inside.

    Args:
        prefer: "in" or "mm", the unit the description gives first.
        show_units: draw the unit planned for each injury around its exit, arrows to the beads.
        show_outline: draw the outline to buff around it, where the edition states its margin.
        show_crown: dimension the inner edge of the outermost grooves.
        edition: the rulebook that states the margin; the case's own otherwise.
        units: the shop's repair units; the built-in ones otherwise.
    """
    placed = place_injury
    if show_units or show_outline:
        placed = partial(injury_geometry, edition=edition, units=units)
    things = things_of(case, placed, units=show_units, outlines=show_outline)
    strips = strips_of(case, things)
    groove = case.tire.outer_groove.number if case.tire.outer_groove else None
    half = case.tire.tread_width.number / 2 if case.tire.tread_width else groove * 1.32 if groove else _USUAL_HALF_TREAD
    widest = max((max(abs(t.exit) + t.across, abs(t.lateral) + 4) for t in things), default=0.0)
    edge = half = max(half, (groove or 0.0) + 6.0)
    half = max(half, widest + 2.0)
    left, right = cropped(things, half)
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
    _grid(sheet, case, things, groove, top, low, show_crown, left)
    # a name may cover a groove's edge or another hole's extension line where it finds no free place
    soft = [*_groove_lines(edge, groove, top, low), *(line for line in sheet.segments if _runs_in(line, top))]
    sheet.segments = [line for line in sheet.segments if not _runs_in(line, top)]
    for thing in things:
        _name(sheet, thing, soft, several=len(things) > 1)
    _foot(sheet, low, left, right, prefer)
    words = _words(case, things, prefer, show_units, show_outline, show_crown)
    return Figure(sheet.svg(words), words)


# -- the liner


def _liner(sheet: Sheet, strip: Strip, left: float, right: float, half: float, groove: float | None) -> None:
    """A strip of liner: straight along the edges of the tread, broken across; grooves behind it as dashed lines."""
    top, low = strip.top, strip.low
    across = []
    for y, begin, end in ((low, left, right), (top, right, left)):
        run = (end - begin) / 4
        across.append(f"Q{num(begin + run)} {num(y - 3)} {num(begin + 2 * run)} {num(y)}T{num(end)} {num(y)}")
    sheet.path(f"M{num(left)} {num(low)}{across[0]}V{num(top)}{across[1]}Z", fill=RUBBER, width=sheet.hair * 1.4)
    edges = [x for x in (-half, half) if left <= x <= right]
    if edges:
        at_end = left in edges or right in edges
        sheet.path("".join(f"M{num(x)} {num(low)}V{num(top)}" for x in edges), dash="" if at_end else sheet.dashes)
    if groove is not None:
        lines = [line for line in _groove_lines(half, groove, top, low) if left < line[0] < right]
        d = "".join(f"M{num(x)} {num(low)}V{num(top)}" for x, *_ in lines)
        sheet.path(d, width=sheet.hair * 1.3, dash=sheet.dashes)
    sheet.keep_clear((left, low, left, top), (right, low, right, top), (left, low, right, low), (left, top, right, top))
    sheet.reach(top - 1.5, low + 1.5)


def _groove_lines(half: float, groove: float | None, top: float, low: float) -> list[Segment]:
    """Both edges of both outermost grooves; the inner edge is the measured one."""
    if groove is None:
        return []
    wide = min(8.0, (half - groove) * 0.45)
    return [(side * x, low, side * x, top) for side in (-1.0, 1.0) for x in (groove, groove + wide)]


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
    """The mouth on the liner as a white ellipse, the hole on the tread behind it dashed, the crayon ring "
    "around both."""
    place = thing.place
    short = (place.diameter_mm if place and place.diameter_mm else 2.0) / 2
    long = (place.ellipse_long_mm / 2) if place and place.ellipse_long_mm else short
    turn = -(place.azimuth_deg or 0.0) if place and place.angle_deg else 0.0
    spread_x, spread_y = abs(x - thing.lateral) / 2, abs(thing.around) / 2
    rx, ry = spread_x + long + 4.0, spread_y + long + 4.0
    middle_x, middle_y = (x + thing.lateral) / 2, thing.y - thing.around / 2
    sheet.ring(middle_x, middle_y, rx, ry)
    sheet.boxes.append((middle_x - rx, middle_y - ry, middle_x + rx, middle_y + ry))
    moved = spread_x > 0.3 or spread_y > 0.3
    if moved:
        sheet.raw(_ellipse(sheet, thing.lateral, thing.y, long, short, turn, fill="none", dash=sheet.dashes))
        sheet.rule(thing.lateral, thing.y, x, y, dash=sheet.chain)
    sheet.raw(_ellipse(sheet, x, y, long, short, turn, fill=PAPER, dash=""))


def _ellipse(sheet: Sheet, x: float, y: float, long: float, short: float, turn: float, *, fill: str, dash: str) -> str:
    turned = f' transform="rotate({num(turn)} {num(x)} {num(y)})"' if turn else ""
    dashed = f' stroke-dasharray="{dash}"' if dash else ""
    return (
        f'<ellipse cx="{num(x)}" cy="{num(y)}" rx="{num(long)}" ry="{num(short)}" fill="{fill}" stroke="{LINE}" '
        f'stroke-width="{num(sheet.hair * 1.6)}"{dashed}{turned}/>'
    )


def _draw_repair(sheet: Sheet, thing: Thing) -> None:
    """An earlier repair: its unit hatched, or a cross where no unit was measured."""
    x, y = thing.exit, thing.y
    if thing.unit:
        a, b = thing.unit
        sheet.hatch(
            [(x - a / 2, y - b / 2), (x + a / 2, y - b / 2), (x + a / 2, y + b / 2), (x - a / 2, y + b / 2)], step=6.0
        )
        sheet.box(x - a / 2, y - b / 2, a, b, corner=3.0)
        sheet.boxes.append((x - a / 2, y - b / 2, x + a / 2, y + b / 2))
        return
    arm = 5.0
    sheet.path(
        f"M{num(x - arm)} {num(y - arm)}L{num(x + arm)} {num(y + arm)}M{num(x - arm)} {num(y + arm)}"
        f"L{num(x + arm)} {num(y - arm)}",
        width=sheet.line * 1.4,
    )
    sheet.boxes.append((x - arm, y - arm, x + arm, y + arm))


# -- dimensions and names


def _stations(sheet: Sheet, things: Sequence[Thing], right: float) -> None:
    """At the right edge, the station of each thing on a short line that points at it."""
    done = set()
    for thing in sorted(things, key=lambda t: -t.y):
        if not thing.station_text or (round(thing.y, 2), thing.station_text) in done:
            continue
        done.add((round(thing.y, 2), thing.station_text))
        x = right + 2.5
        sheet.rule(right - 4.0, thing.y, x, thing.y, width=sheet.line)
        sheet.label(
            [
                (x + sheet.size * 0.3, thing.y + sheet.size * 0.35, "start"),
                (x + sheet.size * 0.3, thing.y - sheet.size * 0.7, "start"),
            ],
            thing.station_text,
        )


def _grid(
    sheet: Sheet,
    case: Case,
    things: Sequence[Thing],
    groove: float | None,
    top: float,
    low: float,
    show_crown: bool,
    left: float,
) -> None:
    """Distances from the centerline above the drawing, and the centerline itself."""
    spans, seen = [], set()
    for thing in things:
        if thing.lateral and (thing.lateral, thing.lateral_text) not in seen:
            seen.add((thing.lateral, thing.lateral_text))
            spans.append(Span(0.0, thing.lateral, thing.lateral_text, top, thing.y - 1.0))
    if show_crown and groove is not None:
        side = -1.0 if left < -groove and not any(t.exit > 0 for t in things) else 1.0
        spans.append(Span(0.0, side * groove, length_label(case.tire.outer_groove), top, top))
    edge = rows(sheet, spans, start=top - sheet.size * 0.3, up=True) if spans else top - sheet.size * 0.6
    sheet.path(f"M0 {num(edge)}V{num(low + sheet.size * 0.7)}", width=sheet.hair, dash=sheet.chain)
    sheet.keep_clear((0, edge, 0, low + sheet.size))
    sheet.reach(edge, low)


def _name(sheet: Sheet, thing: Thing, soft: Sequence[Segment], *, several: bool) -> None:
    """Id and size beside a thing, on the liner where nothing else is."""
    diameter = thing.injury.diameter or thing.injury.before_removal if thing.injury else None
    text = f"Ø {diameter.text}" if diameter is not None else ""
    if several:
        text = f"{thing.id}: {text}".rstrip(": ")
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
    corners = [
        (box[2], box[1] - gap, "start"),
        (box[0], box[1] - gap, "end"),
        (box[2], box[3] + size, "start"),
        (box[0], box[3] + size, "end"),
    ]
    placed = sheet.label([*beside, *above, *corners], text, over=soft, ground=RUBBER)
    sheet.reach(placed[1], placed[3])


def _foot(sheet: Sheet, low: float, left: float, right: float, prefer: str) -> None:
    y = max(low + sheet.size * 1.6, sheet.bottom + sheet.size * 1.1)
    bar, caption = (25.4, "1 in") if prefer == "in" else (20.0, "20 mm")
    room = bar + sheet.unit + text_width(caption, sheet.size)
    sheet.text(0, y, "center")
    free_left = text_width("center", sheet.size) / 2 + sheet.size
    x = left if -free_left - left > room else right - room
    sheet.scale_bar(x, y, bar, caption)
    sheet.reach(0, y + sheet.size * 0.25)


# -- the same in words


def _words(
    case: Case, things: Sequence[Thing], prefer: str, show_units: bool, show_outline: bool, show_crown: bool
) -> str:
    text = ["The crown unrolled and seen from inside, to scale; stations increase upward."]
    if show_crown and case.tire.outer_groove is not None:
        text.append(f"The outermost groove begins {said(case.tire.outer_groove, prefer)} from the centerline.")
    for thing in things:
        name = (
            f"Earlier repair {thing.id}" if thing.repair else f"Injury {thing.id}" if len(things) > 1 else "The injury"
        )
        length = thing.repair.lateral if thing.repair else thing.injury.lateral if thing.injury else None
        side = "right" if thing.lateral > 0 else "left"
        place = (
            "on the centerline"
            if not thing.lateral or length is None
            else (f"{said(length, prefer, unsigned=True)} {side} of the centerline")
        )
        station = f" at station {thing.station_text.replace('°', ' deg')}" if thing.station_text else ""
        facts = [f"lies {place}{station}"]
        if thing.injury is not None:
            diameter = thing.injury.diameter or thing.injury.before_removal
            if diameter is not None:
                facts.append(f"is {said(diameter, prefer)} across")
            facts += _exit_words(thing, prefer)
        text.append(f"{name} {all_of(facts)}.")
        if thing.unit:
            what = "Its unit" if thing.repair else "The unit over it"
            text.append(
                f"{what} is {_told(thing.unit[0], prefer)} across the tire and {_told(thing.unit[1], prefer)} around it"
                + (", its arrows to the beads." if not thing.repair else ".")
            )
        if thing.outline:
            wide, high = (_told(size, prefer) for size in thing.outline)
            text.append(f"A dashed outline {wide} by {high} lies around it.")
    if not things:
        text.append("Nothing else is drawn: no place across the tread was measured.")
    return " ".join(text)


def _told(length: float, prefer: str) -> str:
    return said(length_mm(round(abs(length), 1)), prefer)


def _exit_words(thing: Thing, prefer: str) -> list[str]:
    """Where the mouth on the liner lies from the hole on the tread, as the drawing shows it."""
    over, up = thing.exit - thing.lateral, thing.around
    if abs(over) < 0.5 and abs(up) < 0.5:
        return []
    parts = []
    if abs(over) >= 0.5:
        parts.append(f"{_told(round(over), prefer)} to the {'right' if over > 0 else 'left'}")
    if abs(up) >= 0.5:
        parts.append(f"{_told(round(up), prefer)} {'up' if up > 0 else 'down'}")
    return [f"comes out on the liner {all_of(parts)} of its place on the tread"]
