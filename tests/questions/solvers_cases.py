"""Someone who knows the trade and takes over a tire on which another began, seeing only the open question.

Every figure is typed here from its source, never read from the rulebook.
"""

from math import cos, radians, tan

from assessments.questions.items.item import OpenItem
from tests.questions.solving import IN, LENGTH, MILD, REASONS, STEEP, first, fits, is_steel, mm


def decided_before(item: OpenItem) -> set[str]:
    """US association wall chart: from inside, off the wheel; by the hole after damage removal; in the crown, at the
    tread and at the liner; a leaning one by stem and patch."""
    if "still on its wheel" in item.stem:
        return {"It waits: off the wheel, and look inside"}
    size, lean = first("the hole is " + LENGTH, item.stem), int(first(r"leans (\d+)° outward", item.stem))
    assert not MILD <= lean <= STEEP
    out = {"It is taken back: no repair in this shop"}
    if not fits(size, item) or any(seen[1:] in item.stem for seen in REASONS):
        return out
    run = float(mm(first("the crown is " + LENGTH, item.stem))) * tan(radians(lean))
    half = float(mm(size)) / 2 / cos(radians(lean))
    if is_steel(item):
        # the trade press: 1 in from the shoulder; an association article, from memory: 1 to 1 1/2 in
        clear = float(mm(first(LENGTH + " from the edge of the tread", item.stem))) - run - half
        assert not IN <= clear < IN * 3 / 2
        stays = clear >= IN
    else:
        reach = float(mm(first(LENGTH + " from the centerline", item.stem))) + run + half
        stays = reach <= mm(first("the outer groove " + LENGTH, item.stem))
    if not stays:
        return out
    return {"It stands: a one-piece unit may go in" if lean < MILD else "It is changed: a stem and a separate patch"}


CASES = {"decided-before": decided_before}
