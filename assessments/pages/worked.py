"""The way to where a channel came out: the tire that was asked about drawn with its measures, and the sum behind it."""

from collections.abc import Collection, Iterator
from dataclasses import dataclass

from assessments.questions import Decided, Item, Patch, Picture, laid_over
from training.drawings import cross_section
from training.rulebook import UNITS, Case, CaseError, Clause, Edition, injury_geometry, parse_case
from training.trade.measures import as_read
from training.trade.speech import say

_EXIT = "injury.exit"
_GROOVE, _SHOULDER = "injury.exit_margin", "injury.exit_shoulder_distance"
_PLACES = {"in": 2, "mm": 1}


@dataclass(frozen=True)
class Worked:
    """`line` is the line of a list that is drawn, "" where the question is about one tire; `rows` are label and length
    in the shop's unit, summed from what is printed."""

    line: str
    figure: Picture
    rows: tuple[tuple[str, str], ...]


def worked(item: Item, edition: Edition, *, prefer: str, chosen: Collection[str]) -> Worked | None:
    """How far out a channel came; None where that does not decide the question.

    Of a list it draws the first line that `chosen`, ids of options, has wrong, else the first that it can draw.
    """
    clauses = (_on_exit(item, str(line.get("clause", "")), edition) for line in item.explanation)
    clause = next(filter(None, clauses), None)
    if clause is None:
        return None
    for name, patch in _lines(item, chosen) if item.format == "several" else (("", None),):
        case = _case(laid_over(item.case, patch), edition)
        if case is not None and _has_one_channel(case):
            figure = cross_section(case, prefer=prefer, show_liner_exit=True)
            return Worked(name, Picture(figure.svg, figure.description), tuple(_rows(case, clause, edition, prefer)))
    return None


def _on_exit(item: Item, id: str, edition: Edition) -> Clause | None:
    clause = edition.clauses.get(id)
    if clause is None or not clause.quantity.startswith(_EXIT):
        return None
    decides = any(line.get("clause") == id and not line["holds"] for line in item.explanation)
    return clause if decides or item.skill == "position" else None


def _lines(item: Item, chosen: Collection[str]) -> Iterator[tuple[str, Patch | None]]:
    """The lines about a tire of their own, those that were answered wrongly first."""
    claims = [(one, one.claim) for one in item.options if isinstance(one.claim, Decided) and one.claim.case]
    for option, claim in sorted(claims, key=lambda one: (one[0].id in chosen) == (one[0].id in item.key_ids)):
        yield option.text, claim.case


def _case(told: Patch, edition: Edition) -> Case | None:
    try:
        return parse_case({**told, "edition": edition.name})
    except CaseError:
        return None


def _has_one_channel(case: Case) -> bool:
    """Is there one hole that was measured through a crown that was, and does it lean?"""
    tire, holes = case.tire, case.injuries or ()
    if tire.crown_thickness is None or tire.outer_groove is None or len(holes) != 1:
        return False
    hole = holes[0]
    return hole.kind == "puncture" and hole.lateral is not None and hole.angle is not None and hole.angle.number > 0


def _rows(case: Case, clause: Clause, edition: Edition, prefer: str) -> Iterator[tuple[str, str]]:
    """From the center outward on the side where the channel comes out."""
    found = injury_geometry(case, (case.injuries or ())[0], edition=edition)
    if found.lateral_mm is None or found.exit_lateral_mm is None or found.half_lateral_mm is None:
        return
    places, one = _PLACES[prefer], float(UNITS["length"][prefer])
    side = 1 if found.exit_lateral_mm >= 0 else -1

    def rounded(length_mm: float) -> float:
        return round(length_mm / one, places)

    def told(number: float) -> str:
        return as_read(f"{number:.{places}f} {prefer}")

    entry = rounded(side * found.lateral_mm)
    exit_at, half = rounded(side * found.exit_lateral_mm), rounded(found.half_lateral_mm)
    move, edge = exit_at - entry, exit_at + half
    yield say("Goes in, from the center"), told(entry)
    if move >= 0:
        yield say("Leans outward: thickness × tangent of the lean"), f"+ {told(move)}"
    else:
        yield say("Leans inward: thickness × tangent of the lean"), f"− {told(-move)}"
    yield say("Half of the hole, cut at the lean"), f"+ {told(half)}"
    yield say("Far edge at the liner"), told(edge)
    width = case.tire.tread_width
    if clause.quantity == _GROOVE and found.half_crown_mm is not None:
        limit = rounded(found.half_crown_mm if width is None else min(found.half_crown_mm, width.number / 2))
        yield say("The crown ends at"), told(limit)
        yield (say("Past it by") if edge > limit else say("Inside it by")), told(abs(edge - limit))
    if clause.quantity == _SHOULDER and width is not None:
        shoulder = rounded(width.number / 2)
        yield say("The shoulder begins at"), told(shoulder)
        yield (say("Past it by") if edge > shoulder else say("Left to the shoulder")), told(abs(shoulder - edge))
