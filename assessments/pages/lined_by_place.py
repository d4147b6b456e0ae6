"""A list of holes by where they lie: how far each is from where the crown ends, and what its lean does to that."""

from collections.abc import Mapping, Sequence
from functools import partial

from assessments.pages.judged import Judged, Lineup, tires_of
from assessments.pages.sums import Sum, sum_of
from assessments.pages.worked import has_one_channel, is_about_exit, unit_of
from assessments.questions import Item, Line
from training.drawings import channel_strips, end_of_crown
from training.rulebook import Case, Edition, injury_geometry
from training.trade.lists import all_of
from training.trade.speech import say, say_many

_LEAN = "injury.angle"


def by_place(item: Item, edition: Edition, lines: Mapping[str, Line], prefer: str) -> Lineup | None:
    """None where something else decides, or a line is not measured."""
    tires = tires_of(item, edition, lines) if is_about_exit(item, edition) else None
    if tires is None:
        return None
    edge = end_of_crown(tires[0][1], edition)
    if edge is None:
        return None
    judged: list[Judged] = []
    unit = ""
    for option, case, line in tires:
        total = None
        if has_one_channel(case):
            placed = injury_geometry(case, (case.injuries or ())[0], edition=edition)
            total = sum_of(placed, edge, unit_of(case, prefer))
        if total is None:
            return None
        unit = unit or total.unit
        is_past = max(total.past, total.past_at_tread) > 0
        judged.append(Judged(option, line, is_past, total.past > 0, _reason(total, line, case, edition)))
    draw = partial(channel_strips, [case for _, case, _ in tires], edge, prefer=unit)
    return Lineup(tuple(judged), lambda ringed: draw(ringed=ringed), _told)


def _reason(found: Sum, line: Line, case: Case, edition: Edition) -> str:
    """Why, by the place alone; in the rulebook's own words where something else decides."""
    is_inside = max(found.past, found.past_at_tread) <= 0
    if is_inside != (line.verdict == "repair"):
        return line.reason
    return f"{_inside(found)}{_by_lean(case, edition)}" if is_inside else _outside(found)


def _inside(found: Sum) -> str:
    room = found.told(max(found.past, found.past_at_tread))
    if not found.move:
        return say("Straight through. {room} to spare.", room=room)
    if found.move < 0:
        return say("Leans inward, so the tread side is the nearer one: {room} to spare.", room=room)
    return say("The lean moves it {way} out. {room} to spare.", way=found.told(found.move), room=room)


def _outside(found: Sum) -> str:
    there, here = found.told(found.past), found.told(found.past_at_tread)
    if not found.move:
        if found.entry <= found.limit:
            return say("Its center is inside, its edge is not: {past} past the limit on both sides.", past=there)
        return say("Straight through, {past} past the limit.", past=there)
    if found.past_at_tread <= 0:
        return say("Goes in {room} inside, comes out {past} past the limit.", room=here, past=there)
    if found.past <= 0:
        return say("Comes out {room} inside, but goes in {past} past the limit.", room=there, past=here)
    return say("Goes in {here} past the limit, comes out {there} past it.", here=here, there=there)


def _by_lean(case: Case, edition: Edition) -> str:
    """What the lean says of the way to repair, where it is steeper than the rulebook allows for the simpler one."""
    clause, angle = edition.limit(_LEAN, case.tire.casing), (case.injuries or ())[0].angle
    most = None if clause is None else clause.strictest.quantity
    if most is None or angle is None or angle.value <= most.value:
        return ""
    return " " + say("Over {limit}, so not with a one-piece unit.", limit=most.printed)


def _told(past: Sequence[str], inside: Sequence[str]) -> str:
    told = []
    if past:
        told.append(
            say_many("{lines} reaches past the limit", "{lines} reach past the limit", len(past), lines=all_of(past))
        )
    if inside:
        told.append(
            say_many(
                "{lines} stays inside the limit", "{lines} stay inside the limit", len(inside), lines=all_of(inside)
            )
        )
    return all_of(told)
