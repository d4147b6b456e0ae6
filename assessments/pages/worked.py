"""The way to where a channel came out: the tire that was asked about drawn with its measures, and the sum behind it."""

from collections.abc import Collection, Iterator
from dataclasses import dataclass, replace

from assessments.pages.sums import Row, rows_of, sum_of
from assessments.questions import Decided, Item, Option, Patch, Picture, laid_over
from training.drawings import CrownLine, cross_section, end_of_crown
from training.rulebook import Case, CaseError, Edition, injury_geometry, parse_case

_EXIT = "injury.exit"


@dataclass(frozen=True)
class Worked:
    """`option` is the line of a list that is drawn, None where the question is about one tire; `rows` are the sum, each
    term as it is printed."""

    option: Option | None
    figure: Picture
    rows: tuple[Row, ...]

    @property
    def line(self) -> str:
        """The line of a list in words, "" where the question is about one tire."""
        return "" if self.option is None else self.option.text


def worked(item: Item, edition: Edition, *, prefer: str, chosen: Collection[str]) -> Worked | None:
    """How far out a channel came; None where that does not decide the question.

    Of a list it draws the first line that `chosen`, ids of options, has wrong, else the first that it can draw.
    """
    if not is_about_exit(item, edition):
        return None
    for option, patch in _lines(item, chosen) if item.format == "several" else ((None, None),):
        case = case_of(item, patch, edition)
        if case is not None and has_one_channel(case) and _leans(case):
            figure = cross_section(case, prefer=prefer, show_liner_exit=True, edition=edition)
            line = end_of_crown(case, edition)
            rows = () if line is None else _rows(case, line, edition, prefer)
            return Worked(option, Picture(figure.svg, figure.description), rows)
    return None


def is_about_exit(item: Item, edition: Edition) -> bool:
    """Does the place where a channel comes out decide the question, or is it what the question is about?"""
    is_asked = item.skill == "position"
    decided = {str(line.get("clause", "")) for line in item.explanation if is_asked or not line["holds"]}
    return any(id in edition.clauses and edition.clauses[id].quantity.startswith(_EXIT) for id in decided)


def case_of(item: Item, patch: Patch | None, edition: Edition) -> Case | None:
    """The tire of a question as a line of it has it; None where it cannot be read any more."""
    try:
        return parse_case({**laid_over(item.case, patch), "edition": edition.name})
    except CaseError:
        return None


def has_one_channel(case: Case) -> bool:
    """Is there one hole, its place and lean measured, through a crown that was measured?"""
    tire, holes = case.tire, case.injuries or ()
    if tire.crown_thickness is None or tire.outer_groove is None or len(holes) != 1:
        return False
    hole = holes[0]
    return hole.kind == "puncture" and hole.lateral is not None and hole.angle is not None


def _leans(case: Case) -> bool:
    angle = (case.injuries or ())[0].angle
    return angle is not None and angle.number > 0


def unit_of(case: Case, prefer: str) -> str:
    """The unit the question measured in, "in" or "mm"; `prefer` where it has none."""
    hole = (case.injuries or ())[0]
    return hole.lateral.unit if hole.lateral is not None and hole.lateral.unit in ("in", "mm") else prefer


def _rows(case: Case, line: CrownLine, edition: Edition, prefer: str) -> tuple[Row, ...]:
    placed = injury_geometry(case, (case.injuries or ())[0], edition=edition)
    found = sum_of(placed, line, unit_of(case, prefer))
    return () if found is None else rows_of(found, case, line)


def _lines(item: Item, chosen: Collection[str]) -> Iterator[tuple[Option, Patch | None]]:
    """The lines about a tire of their own, those that were answered wrongly first."""
    claims = [(one, one.claim) for one in item.options if isinstance(one.claim, Decided) and one.claim.case]
    for option, claim in sorted(claims, key=lambda one: (one[0].id in chosen) == (one[0].id in item.key_ids)):
        yield replace(option, text=item.line_of(option)), claim.case
