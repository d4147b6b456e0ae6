"""From the wheel to the first cut: put the steps in order."""

from ..bodies import REPAIRED, repaired
from ..draft import Draft
from ..model import Item
from ..registry import item_family
from ..sequence import put_in_order

_AMONG = (
    "deflate",
    "demount",
    "inspect",
    "remove-object",
    "measure-injury",
    "clean-liner",
    "remove-damage",
    "measure-prepared",
    "cement-area",
)


@item_family(
    "order-of-inspection",
    title="First steps in order",
    skill="safety",
    formats=("order",),
    casings=REPAIRED,
    lesson="inspect-and-reject/off-the-wheel",
)
def build(draft: Draft) -> Item:
    repaired(draft)  # the order of the work is one for all of them
    return put_in_order(draft, _AMONG)
