"""Someone who knows the trade and sees only the open question: what they would answer, family by family.

Every number is typed from its source, never read from the rulebook, so that a key which the rulebook computes is held
against the source itself. What only follows from other numbers of a question, as places and distances do, is put back
to the rulebook by its claims, and needs no solver. A solver returns the set of right option texts, or for a number the
value in mm, kPa or years.
"""

import re
from collections.abc import Callable
from typing import Any

from assessments.questions.items.item import OpenItem
from tests.questions.solvers_bench import BENCH
from tests.questions.solvers_lists import LISTS
from tests.questions.solvers_steel import STEEL
from tests.questions.solvers_trucks import TRUCKS
from tests.questions.solvers_united_kingdom import UNITED_KINGDOM
from tests.questions.solving import (
    EITHER,
    LENGTH,
    MILD,
    OUT,
    REASONS,
    STEEP,
    by_size,
    first,
    fits,
    limit_told,
    method,
)


def limit_for_casing(item: OpenItem) -> set[str]:
    return {limit_told(item)}


def holes_by_size(item: OpenItem) -> set[str]:
    return {option.text for option in item.options if fits(option.text, item)}


def size_verdict(item: OpenItem) -> set[str]:
    size = first(LENGTH + " across after damage removal", item.stem)
    return {f"{by_size(size, item)}the limit is {limit_told(item)}"}


def method_by_angle(item: OpenItem) -> set[str]:
    leans = re.search(r"leans (\d+)° from the perpendicular", item.stem)
    angle = int(leans.group(1)) if leans else 90 - int(first(r"stands (\d+)° from the tread", item.stem))
    assert not MILD <= angle <= STEEP
    return {method(angle)}


def one_piece_list(item: OpenItem) -> set[str]:
    angles = {option.text: int(option.text.removesuffix("°")) for option in item.options}
    assert not any(MILD <= angle <= STEEP for angle in angles.values())
    return {text for text, angle in angles.items() if angle <= MILD}


def proposals(item: OpenItem) -> set[str]:
    # US association wall chart: no stem alone, no patch alone, no plug from outside; BS AU 159g: no tube.
    angle = int(first(r"the channel (\d+)°", item.stem))
    right = {"A stem in the channel and a patch over it, from inside"}
    return right | ({"A one-piece unit pulled through from inside"} if angle <= MILD else set())


def earlier_repair(item: OpenItem) -> set[str]:
    new, old = item.situation[1], item.situation[2]
    assert fits(first(LENGTH + " across", new), item)
    if "string plug" in old or "without a patch" in old or "open channel" in old:
        return {OUT + "the earlier repair is improper"}
    if "shoulder" in old or "sidewall" in old:
        return {OUT + "the earlier repair is misplaced"}
    if "lifting" in old or "cracked" in old:
        return {OUT + "the earlier repair is not sound"}
    return {EITHER}


def rejecting_list(item: OpenItem) -> set[str]:
    return {option.text for option in item.options if option.text in REASONS}


def first_thing(item: OpenItem) -> set[str]:
    if "still on its wheel" in item.stem:
        return {"Take the tire off the wheel and look at it from inside"}
    if "liner that lifts" in item.stem:
        return {"Take it out of service, as its liner is loose"}
    return {"Prepare and repair it from inside, by stem and patch"}


def doubt(item: OpenItem) -> set[str]:
    assert fits(first(LENGTH + " after damage", item.stem), item)
    sure = "who is sure that it is a mold mark" in item.stem
    return {EITHER if sure else OUT + "what was found is in doubt"}


def whole_case_method(item: OpenItem) -> set[str]:
    return {method(int(first(r"leans (\d+)°", item.stem)))}


SOLVERS: dict[str, Callable[[OpenItem], Any]] = {
    "whole-case-inspection": rejecting_list,
    "whole-case-method": whole_case_method,
    "limit-for-casing": limit_for_casing,
    "holes-by-size": holes_by_size,
    "size-verdict": size_verdict,
    "method-by-angle": method_by_angle,
    "one-piece-list": one_piece_list,
    "proposals": proposals,
    "earlier-repair": earlier_repair,
    "rejecting-list": rejecting_list,
    "first-thing": first_thing,
    "doubt": doubt,
    **BENCH,
    **LISTS,
    **TRUCKS,
    **STEEL,
    **UNITED_KINGDOM,
}
