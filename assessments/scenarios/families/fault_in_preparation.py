"""The ticket of a preparation: which line is wrong, and why?"""

from ..bodies import REPAIRED
from ..draft import Draft
from ..faults import find_fault
from ..model import Item
from ..registry import item_family


@item_family(
    "fault-in-preparation",
    title="Fault in the preparation",
    skill="preparation",
    formats=("fault",),
    casings=REPAIRED,
    lesson="prepare-install-return/clean-and-cut",
)
def build(draft: Draft) -> Item:
    return find_fault(draft, "preparation")
