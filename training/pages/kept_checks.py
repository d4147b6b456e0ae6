"""What a kept check says beside case and decision, in the words of its day, and the page that it makes again."""

from collections.abc import Mapping, Sequence
from typing import Any

from training.drawings import Figure
from training.pages.verdict import Drawing, JobCard, JobLine, Result, layout
from training.rulebook import Decision, Edition


def words_to_keep(result: Result, *, edition: Edition, entered: Sequence[tuple[str, str]]) -> dict[str, Any]:
    """The words and drawings of a decision as JSON data, so that no later rulebook can change what an entry says."""
    return {
        "edition": edition.title,
        "entered": [list(pair) for pair in entered],
        "missing": list(result.missing),
        "missing_findings": list(result.missing_findings),
        "drawings": [
            {"caption": one.caption, "svg": one.figure.svg, "description": one.figure.description}
            for one in result.drawings
        ],
        "cards": [
            {
                "injury": card.injury,
                "method": card.method,
                "facts": [list(fact) for fact in card.facts],
                "lines": [
                    [line.title, line.instruction, [list(limit) for limit in line.limits]] for line in card.lines
                ],
            }
            for card in result.cards
        ],
        "out_of_service": [list(pair) for pair in result.out_of_service],
    }


def kept_result(decision: Mapping[str, Any], printed: Mapping[str, Any]) -> Result:
    """The result that was kept."""
    return layout(
        Decision.from_json(decision),
        missing=tuple(printed["missing"]),
        missing_findings=tuple(printed["missing_findings"]),
        drawings=tuple(
            Drawing(one["caption"], Figure(svg=one["svg"], description=one["description"]))
            for one in printed["drawings"]
        ),
        cards=tuple(
            JobCard(
                injury=card["injury"],
                method=card["method"],
                facts=tuple((label, value) for label, value in card["facts"]),
                lines=tuple(
                    JobLine(title, instruction, tuple((what, limit) for what, limit in limits))
                    for title, instruction, limits in card["lines"]
                ),
            )
            for card in printed["cards"]
        ),
        out_of_service=tuple((because, source) for because, source in printed["out_of_service"]),
    )
