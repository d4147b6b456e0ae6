"""One tire, last part: is there a fault on its way back to the road?"""

from ..bodies import REPAIRED
from ..draft import Draft
from ..faults import find_fault
from ..model import Item
from ..registry import item_family
from ..wholecase import PARTS, SERIES, tale_of


@item_family(
    "whole-case-return",
    title="Whole case: back to the road",
    skill="return-to-service",
    formats=("fault",),
    casings=REPAIRED,
    lesson="prepare-install-return/return-to-service",
    series=SERIES,
    part=6,
)
def build(draft: Draft) -> Item:
    tale = tale_of(draft)
    return find_fault(draft, "return", method="two-piece", situation=tale.opening(PARTS), case=tale.case)
