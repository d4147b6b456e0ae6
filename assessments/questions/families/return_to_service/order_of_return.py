"""From the finished repair to the road: put the steps in order."""

from assessments.questions.cases.bodies import REPAIRED, repaired
from assessments.questions.drafts.draft import Draft
from assessments.questions.drafts.family import item_family
from assessments.questions.items.item import Item
from assessments.questions.work.sequence import put_in_order
from training.trade.speech import saying

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
    title=saying("Back on the road in order"),
    skill="return-to-service",
    formats=("order",),
    casings=REPAIRED,
    lesson="prepare-install-return/return-to-service",
    recall=True,
)
def build(draft: Draft) -> Item:
    repaired(draft)  # the order of the work is one for all of them
    return put_in_order(draft, _AMONG)
