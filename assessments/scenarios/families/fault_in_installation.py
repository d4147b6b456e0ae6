"""The ticket of an installation: which line is wrong, and why?"""

from ..bodies import REPAIRED
from ..draft import Draft
from ..faults import find_fault
from ..model import Item
from ..registry import item_family


@item_family(
    "fault-in-installation",
    title="Fault in the installation",
    skill="installation",
    formats=("fault",),
    casings=REPAIRED,
    lesson="prepare-install-return/cement-and-dry",
)
def build(draft: Draft) -> Item:
    return find_fault(draft, "installation")
