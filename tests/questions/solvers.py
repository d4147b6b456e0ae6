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
from tests.questions.solvers_cases import CASES
from tests.questions.solvers_lists import LISTS
from tests.questions.solvers_readings import READINGS
from tests.questions.solvers_safety import SAFETY
from tests.questions.solvers_steel import STEEL
from tests.questions.solvers_trucks import TRUCKS
from tests.questions.solvers_united_kingdom import UNITED_KINGDOM
from tests.questions.solving import (
    EITHER,
    IN,
    LENGTH,
    MILD,
    OUT,
    PLANT,
    REASONS,
    STEEP,
    first,
    fits,
    is_steel,
    limit_told,
    mm,
)


def limit_for_casing(item: OpenItem) -> set[str]:
    return {limit_told(item)}


def holes_by_size(item: OpenItem) -> set[str]:
    return {option.text for option in item.options if fits(option.text, item)}


def of_two(first_passes: bool, second_passes: bool) -> set[str]:
    if first_passes == second_passes:
        return {f"{'Both A and' if first_passes else 'Neither A nor'} B may be repaired"}
    passes, fails = ("A", "B") if first_passes else ("B", "A")
    return {f"{passes} may be repaired, but {fails} may not"}


def size_verdict(item: OpenItem) -> set[str]:
    one = first(r"A is " + LENGTH + " across after damage removal", item.stem)
    return of_two(fits(one, item), fits(first(r"B is " + LENGTH, item.stem), item))


def before_and_after(item: OpenItem) -> set[str]:
    # US association wall chart: the size counts that the hole has after the damage is removed.
    if "last pass" in item.stem:
        after = [first(r" A is " + LENGTH + " across and", item.stem), first(r" and B is " + LENGTH, item.stem)]
    else:
        after = [first(LENGTH + " after damage removal", item.stem), first(LENGTH + " after it", item.stem)]
    return of_two(*(fits(size, item) for size in after))


def method_by_angle(item: OpenItem) -> set[str]:
    def is_right(note: str) -> bool:
        leans = re.search(r"leans (\d+)° from the perpendicular", note)
        angle = int(leans.group(1)) if leans else 90 - int(first(r"stands (\d+)° from the tread", note))
        assert not MILD <= angle <= STEEP
        return "separate patch" in note or ("one-piece unit" in note and angle < MILD)

    return {option.text for option in item.options if is_right(option.text)}


def one_piece_list(item: OpenItem) -> set[str]:
    one, other = int(first(r"of A leans (\d+)°", item.stem)), int(first(r"of B (\d+)°", item.stem))
    assert not any(MILD <= angle <= STEEP for angle in (one, other))
    if (one <= MILD) == (other <= MILD):
        return {f"{'Both A and' if one <= MILD else 'Neither A nor'} B may take one"}
    return {"A may take one, B may not" if one <= MILD else "B may take one, A may not"}


def proposals(item: OpenItem) -> set[str]:
    # US association wall chart: no stem alone, no patch alone, no plug from outside; BS AU 159g: no tube.
    angle = int(first(r"the channel (\d+)°", item.stem))
    right = {"A stem in the channel and a patch over it, from inside"}
    return right | ({"A one-piece unit pulled through from inside"} if angle <= MILD else set())


def new_hole(item: OpenItem, told: str) -> str:
    """What follows from a nail hole straight through, by its size and its place, where nothing else decides."""
    size = first(LENGTH + " (?:across )?after damage removal", told)
    if not fits(size, item):
        return (PLANT if is_steel(item) else OUT) + "the hole is too large"
    if is_steel(item):
        # The trade press: 1 in from the shoulder; an association article, from memory: 1 to 1 1/2 in.
        clear = mm(first(LENGTH + " from the edge of the tread", told)) - mm(size) / 2
        assert not IN <= clear < IN * 3 / 2
        return EITHER if clear >= IN else PLANT + "the hole leaves the repairable crown"
    # US association wall chart: the crown, between the outermost grooves; the whole hole has to lie there.
    reach = mm(first(LENGTH + " from the centerline", told)) + mm(size) / 2
    inside = reach <= mm(first("the outer groove " + LENGTH, told))
    return EITHER if inside else OUT + "the hole leaves the repairable crown"


def earlier_repair(item: OpenItem) -> set[str]:
    new, old = item.situation[1], item.situation[2]
    improper = "string plug" in old or "without a patch" in old or "open channel" in old
    if improper or "shoulder" in old or "sidewall" in old or "lifting" in old or "cracked" in old:
        assert new_hole(item, new) == EITHER
        return {OUT + "the earlier repair rules it out"}
    return {new_hole(item, new)}


def rejecting_list(item: OpenItem) -> set[str]:
    return {option.text for option in item.options if option.text in REASONS}


def first_thing(item: OpenItem) -> set[str]:
    def is_right(note: str) -> bool:
        if "Still on its wheel" in note:
            return "taken off the wheel and looked at from inside" in note
        return ("taken out of service" if "liner that lifts" in note else "repaired from inside") in note

    return {option.text for option in item.options if is_right(option.text)}


def doubt(item: OpenItem) -> set[str]:
    if "who is sure that it is a mold mark" in item.stem:
        return {new_hole(item, item.stem)}
    assert new_hole(item, item.stem) == EITHER
    return {OUT + "what was found is in doubt"}


def whole_case_method(item: OpenItem) -> set[str]:
    angle = int(first(r"leans (\d+)°", item.stem))
    assert not MILD <= angle <= STEEP
    may = ["a stem in the channel, and a patch over it", *(["a one-piece unit"] if angle <= MILD else [])]
    right = [name for name in "AB" if first(rf"(?m)^{name}: (.+)$", item.stem).startswith(tuple(may))]
    if len(right) == 1:
        return {"A may be done, B may not" if right == ["A"] else "B may be done, A may not"}
    return {"A and B may both be done" if right else "A may not be done, nor may B"}


SOLVERS: dict[str, Callable[[OpenItem], Any]] = {
    "whole-case-inspection": rejecting_list,
    "whole-case-method": whole_case_method,
    "limit-for-casing": limit_for_casing,
    "holes-by-size": holes_by_size,
    "size-verdict": size_verdict,
    "before-and-after": before_and_after,
    "method-by-angle": method_by_angle,
    "one-piece-list": one_piece_list,
    "proposals": proposals,
    "earlier-repair": earlier_repair,
    "rejecting-list": rejecting_list,
    "first-thing": first_thing,
    "doubt": doubt,
    **BENCH,
    **CASES,
    **LISTS,
    **SAFETY,
    **READINGS,
    **TRUCKS,
    **STEEL,
    **UNITED_KINGDOM,
}
