"""Installing the unit: put the steps in order."""

from ..bodies import REPAIRED, repaired
from ..draft import Draft
from ..model import Item
from ..registry import item_family
from ..sequence import put_in_order

_AMONG = (
    "buff",
    "brush",
    "remove-dust",
    "cement-channel",
    "cement-area",
    "dry",
    "apply-unit",
    "pull-through",
    "stitch",
    "seal",
    "inspect-repair",
)


@item_family(
    "order-of-installation",
    title="Installation in order",
    skill="installation",
    formats=("order",),
    casings=REPAIRED,
    lesson="prepare-install-return/install-and-stitch",
)
def build(draft: Draft) -> Item:
    repaired(draft)  # the order of the work is one for all of them
    return put_in_order(draft, _AMONG)
