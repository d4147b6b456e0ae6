"""The ticket from the finished repair to the road: which line is wrong, and why?"""

from ..bodies import REPAIRED
from ..draft import Draft
from ..faults import find_fault
from ..model import Item
from ..registry import item_family


@item_family(
    "fault-in-return",
    title="Fault on the way back to service",
    skill="return-to-service",
    formats=("fault",),
    casings=REPAIRED,
    lesson="prepare-install-return/return-to-service",
)
def build(draft: Draft) -> Item:
    return find_fault(draft, "return")
