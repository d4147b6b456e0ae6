"""From the finished repair to the road: put the steps in order."""

from ..bodies import REPAIRED, repaired
from ..draft import Draft
from ..model import Item
from ..registry import item_family
from ..sequence import put_in_order

_AMONG = (
    "stitch",
    "seal",
    "inspect-repair",
    "mount",
    "seat-beads",
    "inflate",
    "leak-test",
    "install",
    "reset-pressure-monitor",
)


@item_family(
    "order-of-return",
    title="Back on the road in order",
    skill="return-to-service",
    formats=("order",),
    casings=REPAIRED,
    lesson="prepare-install-return/return-to-service",
)
def build(draft: Draft) -> Item:
    repaired(draft)  # the order of the work is one for all of them
    return put_in_order(draft, _AMONG)
