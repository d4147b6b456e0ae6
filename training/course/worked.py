"""Worked examples: a case in a lesson that the rulebook decides while the page is made.

The TOML of a `::worked` box:

    title = "Still small after the last pass"
    figure = "cross-section"              # or "crown-plan", or "none"
    show_liner_exit = true                # cross-section only
    units = [{...}]                       # the shelf, as `manage.py decide --units` takes it; drawn in a crown-plan
    expect = "repair"                     # what the text counts on; another decision fails the course check
    [case]                                # a case as `manage.py decide` takes it, without its edition
"""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterator
from dataclasses import dataclass, replace
from fractions import Fraction

from training.course.blocks import Page, figure_html
from training.course.lessons import Block, CourseError, Place
from training.course.prose import words
from training.drawings import Figure, cross_section, crown_plan, verdict_mark
from training.rulebook import (
    VERDICTS,
    Case,
    CaseError,
    Decision,
    Edition,
    OnShelf,
    RepairUnit,
    UnitsError,
    decide,
    in_unit,
    parse_case,
    parse_quantity,
    quantity,
    show,
    told,
    units_from,
    words_of,
)
from training.trade.lists import one_of
from training.trade.measures import as_read
from training.trade.speech import say, say_many, saying
from training.trade.words import CASING_WORDS, REPAIR_WORDS, capital

# A way to repair, as it stands in a sentence.
_A_METHOD = {
    "one-piece": saying("a one-piece unit"), "two-piece": saying("a two-piece repair"),
    "surface-fill": saying("a surface fill"),
}  # fmt: skip
_REACHES = {"rubber": saying("rubber"), "cord": saying("cord")}
_FIGURES = ("cross-section", "crown-plan", "none")
_LENGTH = re.compile(r"-?[\d ./]+ (mm|in)")
_MARKS = {"in": 32, "mm": 2}  # of a rule in each unit: 1/32 in, 1/2 mm


@dataclass(frozen=True, slots=True)
class Worked:
    """One worked example, read."""

    title: str
    figure: str
    show_liner_exit: bool
    units: tuple[OnShelf, ...]
    expect: str
    case: Case


def read_worked(block: Block, edition: Edition) -> Worked:
    """The example in a box. Raises CourseError saying which field is wrong."""
    try:
        data = tomllib.loads(block.body)
    except tomllib.TOMLDecodeError as error:
        raise CourseError(f"worked example cannot be read: {error}") from error
    place = Place("worked example")
    place.keys(data, ("title", "figure", "show_liner_exit", "units", "expect", "case"))
    title, figure = place.text(data, "title"), place.word(data, "figure", _FIGURES)
    expect, case = place.word(data, "expect", VERDICTS), data.get("case")
    if not isinstance(case, dict):
        place.refuse("case", "is missing; give a [case] table")
    try:
        parsed = parse_case({**case, "edition": edition.name})
    except CaseError as error:
        raise CourseError(f"worked example: {'; '.join(error.problems)}") from error
    try:
        units = units_from(data["units"], "worked example") if "units" in data else ()
    except UnitsError as error:
        raise CourseError(str(error)) from error
    return Worked(title, figure, data.get("show_liner_exit") is True, units, expect, parsed)


def check_worked(block: Block, *, edition: Edition, where: str) -> None:
    """Let the edition decide. Raises CourseError where neither the text nor the edition counts on the verdict."""
    try:
        worked = read_worked(block, edition)
    except CourseError as error:
        raise CourseError(f"{where}: {error}") from error
    verdict = decide(worked.case, edition=edition, units=worked.units, rest_in_order=True).verdict
    expect = edition.worked.get(worked.title, worked.expect)
    if verdict != expect:
        raise CourseError(f"{where}: {worked.title!r}: the rulebook says {verdict}, the text counts on {expect}")


def worked_html(block: Block, page: Page) -> str:
    """The example on the page: the drawing, the verdict, the rulings that make it, and, folded, what was found."""
    worked, decision = _measured_in(page.prefer, read_worked(block, page.edition), page.edition)
    reasons = [f"{one.clause}|{one.limit}|{one.because}" for one in decision.deciding]
    allowed = [f"{entry.injury}|{entry.methods_allowed}|{entry.method}" for entry in decision.plan or ()]
    page.outcomes.append("|".join((worked.title, decision.verdict, *reasons, *allowed)))
    name = page.box_id("worked")
    parts = [
        f'<section class="worked" aria-labelledby="{name}">',
        f'<h3 id="{name}">{words(say(worked.title))}</h3>',
    ]
    if drawn := _draw(worked, page.prefer, page.edition):
        parts.append(figure_html(drawn))
    parts.append('<div class="worked-told">')
    parts.extend(_answer(decision, worked, page))
    if decision.verdict != worked.expect:
        differs = say("Under the rules of this shop the answer differs from the one in the text around it.")
        parts.append(f"<p>{words(differs)}</p>")
    parts.extend(_facts(decision, worked, page))
    parts.append("</div>\n</section>")
    return "\n".join(parts)


def _measured_in(prefer: str, worked: Worked, edition: Edition) -> tuple[Worked, Decision]:
    """The example as somebody with a rule in the preferred unit measured it, and what is decided. It stays as it was
    written where a mark of that rule up or down would change what is decided, or why.
    """
    decision = decide(worked.case, edition=edition, units=worked.units, rest_in_order=True)
    written = worked.case.to_json()
    measured = _to_the_mark(written, prefer)
    if measured == written:
        return worked, decision
    again = replace(worked, case=parse_case(measured))
    other = decide(again.case, edition=edition, units=worked.units, rest_in_order=True)
    if _outcome(other) != _outcome(decision):
        return worked, decision
    return again, other


def _outcome(decision: Decision) -> tuple[object, ...]:
    plan = [(entry.injury, entry.method, entry.methods_allowed) for entry in decision.plan or ()]
    return decision.verdict, [(one.clause, one.subject) for one in decision.deciding], plan


def _to_the_mark(data: object, prefer: str) -> object:
    """Case data with each length of the other unit put to the nearest mark of a rule in the preferred one."""
    match data:
        case dict():
            return {key: _to_the_mark(value, prefer) for key, value in data.items()}
        case list() | tuple():
            return [_to_the_mark(value, prefer) for value in data]
        case str() if (found := _LENGTH.fullmatch(data)) and found[1] != prefer:
            number = in_unit(parse_quantity(data, "length"), prefer)
            return quantity(Fraction(round(number * _MARKS[prefer]), _MARKS[prefer]), prefer).text
    return data


def _draw(worked: Worked, prefer: str, edition: Edition) -> Figure | None:
    if worked.figure == "cross-section":
        return cross_section(worked.case, prefer=prefer, show_liner_exit=worked.show_liner_exit, edition=edition)
    if worked.figure == "crown-plan":
        return crown_plan(
            worked.case, prefer=prefer, show_units=bool(worked.units), units=worked.units, edition=edition
        )
    return None


def _answer(decision: Decision, worked: Worked, page: Page) -> Iterator[str]:
    verdict = words_of(decision, worked.case, edition=page.edition, units=worked.units)
    yield (
        f'<p class="verdict verdict--{decision.verdict}">{verdict_mark(decision.verdict)}<span>'
        f'<span class="verdict-word">{words(verdict.name)}</span> <span class="verdict-meaning">'
        f"{words(verdict.todo)}</span></span></p>"
    )
    for entry in decision.plan or ():
        planned = say(
            "Injury {injury}: planned here as {method}. {methods} is allowed.",
            injury=entry.injury,
            method=_A_METHOD[entry.method],
            methods=capital(one_of(str(_A_METHOD[way]) for way in entry.methods_allowed)),
        )
        yield f"<p>{words(planned)}</p>"
    lines = told(decision.deciding, page.edition)
    rows = [f"<li>{_with_its_title(line.sentence, line.about)} {words(line.because)}</li>" for line in lines]
    if rows and decision.verdict not in ("repair", "accept"):
        yield f'<ul class="worked-reasons">{"".join(rows)}</ul>'


def _with_its_title(sentence: str, about: str) -> str:
    """What does not hold, the title of its clause first and bold; some sentences open with it."""
    title, rest = words(about), words(sentence)
    if rest.startswith(title):
        return f"<strong>{title}</strong>{rest.removeprefix(title)}"
    opening = say("{title}.", title=about)
    return f"<strong>{words(opening)}</strong> {rest}"


def _facts(decision: Decision, worked: Worked, page: Page) -> Iterator[str]:
    case, prefer = worked.case, page.prefer
    tire = case.tire
    rows = [(say("Casing"), CASING_WORDS[tire.casing].short)]
    if tire.designation:
        rows.append((say("Size"), tire.designation))
    measured = (
        (say("Width of the tread"), tire.tread_width),
        (say("Centerline to outer groove"), tire.outer_groove),
        (say("Crown thickness"), tire.crown_thickness),
    )
    rows += [(label, show(length, prefer=prefer)) for label, length in measured if length]
    if case.tread_depths:
        rows.append(
            (say("Tread depths"), ", ".join(show(reading.depth, prefer=prefer) for reading in case.tread_depths))
        )
    several = len(case.injuries or ()) > 1
    for injury in case.injuries or ():
        mark = f"{injury.id}: " if several else ""
        measures = (
            (say("before damage removal"), injury.before_removal),
            (say("after damage removal"), injury.diameter),
            (say("length of the cut"), injury.length),
            (say("lean"), injury.angle),
            (say("from the centerline"), injury.lateral),
            (say("around the tire"), injury.station),
        )
        rows += [(capital(mark + label), show(length, prefer=prefer)) for label, length in measures if length]
        if injury.kind == "cut" and injury.reaches:
            rows.append((capital(mark + say("it reaches")), _REACHES[injury.reaches]))
    for unit in worked.units:
        if isinstance(unit, RepairUnit):
            length, width = (show(side, prefer=prefer) for side in (unit.length, unit.width))
            told_of = say(
                "{unit}, {length} toward the beads, {width} around the tire",
                unit=say(unit.name),
                length=length,
                width=width,
            )
            rows.append((say("Unit on the shelf"), told_of))
    if case.proposed:
        rows.append((say("Proposed"), REPAIR_WORDS[case.proposed]))
    summary = say("The tire, and what was measured")
    yield f'<details class="worked-facts"><summary>{words(summary)}</summary>'
    yield '<dl class="facts">'
    for label, value in rows:
        yield f"<dt>{words(label)}</dt><dd>{words(as_read(str(value)))}</dd>"
    yield "</dl>"
    if decision.unexamined:
        names = [page.edition.clause(name).title for name in decision.unexamined]
        listed = "".join(f"<li>{words(name)}</li>" for name in names)
        told_of = say_many(
            "Not given here, and taken to be in order: {count} point",
            "Not given here, and taken to be in order: {count} points",
            len(names),
        )
        yield f"<p>{words(told_of)}</p><ul>{listed}</ul>"
    yield "</details>"
