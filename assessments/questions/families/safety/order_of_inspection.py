"""From the wheel to the first cut: put the steps in order."""

from assessments.questions.cases.bodies import REPAIRED, repaired
from assessments.questions.drafts.draft import Draft
from assessments.questions.drafts.family import item_family
from assessments.questions.items.item import Item
from assessments.questions.work.sequence import put_in_order
from training.trade.speech import saying

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
    title=saying("First steps in order"),
    skill="safety",
    formats=("order",),
    casings=REPAIRED,
    lesson="inspect-and-reject/off-the-wheel",
    recall=True,
)
def build(draft: Draft) -> Item:
    repaired(draft)  # the order of the work is one for all of them
    return put_in_order(draft, _AMONG)
