"""A list of holes by where they lie, each as a strip at one ruler: its verdict, what was said of it, and why."""

from collections.abc import Collection, Mapping
from dataclasses import dataclass

from assessments.pages.sums import Sum, sum_of
from assessments.pages.worked import case_of, has_one_channel, is_about_exit, unit_of
from assessments.questions import Decided, Item, Line, Option, letter
from training.drawings import channel_strips, end_of_crown
from training.rulebook import Case, Edition, injury_geometry
from training.trade.lists import all_of
from training.trade.speech import say, say_many

_LEAST = 2  # lines; one alone is compared with nothing
_LEAN, _RELEASED = "injury.angle", ("repair",)


@dataclass(frozen=True)
class Lined:
    """One line: its letter and words, the rulebook's verdict, what the answer said, one reason with its number.

    `said` is "" where nothing was answered.
    """

    option: str
    letter: str
    text: str
    verdict: str
    verdict_word: str
    said: str
    is_wrong: bool
    reason: str
    svg: str


@dataclass(frozen=True)
class LinedUp:
    """The lines in their order under one ruler. `outcome`: which lines were answered wrongly, "" where none was."""

    ruler: str
    lines: tuple[Lined, ...]
    key: str
    outcome: str


@dataclass(frozen=True)
class _Placed:
    option: Option
    case: Case
    sum: Sum
    line: Line


def lined_up(
    item: Item, edition: Edition, lines: Mapping[str, Line], *, prefer: str, chosen: Collection[str] | None
) -> LinedUp | None:
    """None for a question that is not a list of measured holes, each asked whether it may be repaired.

    `lines`: what the rulebook says of each option; `chosen`: ids of the options that were answered, None for no answer.
    """
    found = _placed(item, edition, lines, prefer)
    if found is None:
        return None
    edge = end_of_crown(found[0].case, edition)
    if edge is None:
        return None
    wrong = [chosen is not None and (one.option.id in chosen) != (one.option.id in item.key_ids) for one in found]
    ringed = [place for place, one in enumerate(found) if wrong[place] and one.sum.past > 0]
    drawn = channel_strips([one.case for one in found], edge, prefer=found[0].sum.unit, ringed=ringed)
    told = tuple(
        Lined(
            option=one.option.id,
            letter=letter(one.option.id),
            text=item.line_of(one.option),
            verdict=one.line.verdict,
            verdict_word=one.line.verdict_word,
            said="" if chosen is None else _said(is_chosen=one.option.id in chosen, is_wrong=is_wrong),
            is_wrong=is_wrong,
            reason=_reason(one, edition),
            svg=figure.svg,
        )
        for one, is_wrong, figure in zip(found, wrong, drawn.figures, strict=True)
    )
    missed = [one for one, is_wrong in zip(found, wrong, strict=True) if is_wrong]
    return LinedUp(drawn.ruler, told, drawn.key, _outcome(missed))


def _placed(item: Item, edition: Edition, lines: Mapping[str, Line], prefer: str) -> list[_Placed] | None:
    """The lines with the sums of their holes; None where one of them asks something else or is not measured."""
    if item.format != "several" or len(item.options) < _LEAST or not is_about_exit(item, edition):
        return None
    found: list[_Placed] = []
    for option in item.options:
        claim, line = option.claim, lines.get(option.id)
        if not isinstance(claim, Decided) or not claim.case or line is None or claim.verdicts != _RELEASED:
            return None
        case = case_of(item, claim.case, edition)
        if case is None or not has_one_channel(case) or (found and case.tire != found[0].case.tire):
            return None
        edge = end_of_crown(case, edition)
        placed = injury_geometry(case, (case.injuries or ())[0], edition=edition)
        total = None if edge is None else sum_of(placed, edge, unit_of(case, prefer))
        if total is None:
            return None
        found.append(_Placed(option, case, total, line))
    return found


def _said(*, is_chosen: bool, is_wrong: bool) -> str:
    if is_wrong:
        return say("You: repair, wrong") if is_chosen else say("You: no repair, wrong")
    return say("You: repair") if is_chosen else say("You: no repair")


def _reason(one: _Placed, edition: Edition) -> str:
    """Why, by the place alone; in the rulebook's own words where something else decides."""
    is_inside = max(one.sum.past, one.sum.past_at_tread) <= 0
    if is_inside != (one.line.verdict == "repair"):
        return one.line.reason
    return f"{_inside(one.sum)}{_by_lean(one.case, edition)}" if is_inside else _outside(one.sum)


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


def _outcome(missed: list[_Placed]) -> str:
    """Which lines were answered wrongly, and on which side of the limit they lie."""
    past, inside = (
        [letter(one.option.id) for one in missed if (max(one.sum.past, one.sum.past_at_tread) > 0) == is_past]
        for is_past in (True, False)
    )
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
