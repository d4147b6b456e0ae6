"""Which misconceptions a question catches: those that compute, each by itself, a critical answer to it."""

from __future__ import annotations

from assessments.questions.items.item import Item
from assessments.questions.items.marking import Answer, mark
from assessments.questions.items.shapes import Region


def caught_by(item: Item) -> frozenset[str]:
    """The misconceptions that alone compute an answer which is critical as the question was drawn, and by which no
    other answer comes out that is not: whoever holds one of them and nothing else is caught.

    A fault that somebody sees in another line is left out: two lines may look wrong to him.
    """
    if not item.unsafe:
        return frozenset()
    own: set[str] = set()  # computed by nothing else
    safe: set[str] = set()  # led to an answer that is not critical
    for answer in item.distractors:
        routes, is_critical = item.routes_to(answer), _is_critical(item, answer)
        by_one = {route[0] for route in routes if len(route) == 1}
        if not is_critical:
            safe |= by_one
        elif len(routes) == 1:
            own |= by_one
    return frozenset(own if item.format == "several" else own - safe)


def _is_critical(item: Item, wrong: str) -> bool:
    match item.format:
        case "number":
            value, _, unit = wrong.rpartition(" ")
            return mark(item, {"value": value, "unit": unit}).unsafe
        case "place":
            return mark(item, _at(Region.from_text(wrong))).unsafe
    return wrong in item.unsafe


def _at(region: Region) -> Answer:
    across, up = region.middle
    return {"x": f"{max(across, 0):g}", "y": f"{max(up, 0):g}"}
