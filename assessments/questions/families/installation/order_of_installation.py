"""Installing the unit: put the steps in order."""

from assessments.questions.cases.bodies import REPAIRED, repaired
from assessments.questions.drafts.draft import Draft
from assessments.questions.drafts.family import item_family
from assessments.questions.items.item import Item
from assessments.questions.work.sequence import put_in_order
from training.trade.speech import saying

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
    title=saying("Installation in order"),
    skill="installation",
    formats=("order",),
    casings=REPAIRED,
    lesson="prepare-install-return/install-and-stitch",
    recall=True,
)
def build(draft: Draft) -> Item:
    repaired(draft)  # the order of the work is one for all of them
    return put_in_order(draft, _AMONG)
