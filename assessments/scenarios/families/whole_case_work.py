"""One tire, fifth part: the steps of its installation in order."""

from ..bodies import REPAIRED
from ..draft import Draft
from ..model import Item
from ..registry import item_family
from ..sequence import put_in_order
from ..wholecase import SERIES, tale_of

_AMONG = (
    "remove-damage",
    "cement-channel",
    "pull-stem",
    "buff",
    "remove-dust",
    "cement-area",
    "dry",
    "apply-unit",
    "stitch",
    "seal",
)


@item_family(
    "whole-case-work",
    title="Whole case: the work in order",
    skill="installation",
    formats=("order",),
    casings=REPAIRED,
    lesson="prepare-install-return/install-and-stitch",
    series=SERIES,
    part=5,
)
def build(draft: Draft) -> Item:
    tale = tale_of(draft)
    return put_in_order(draft, _AMONG, methods=("two-piece",), situation=tale.opening(5), case=tale.case)
