"""Preparing the injury and the liner: put the steps in order."""

from assessments.questions.cases.bodies import REPAIRED, repaired
from assessments.questions.drafts.draft import Draft
from assessments.questions.drafts.family import item_family
from assessments.questions.items.item import Item
from assessments.questions.work.sequence import put_in_order
from training.trade.speech import saying

_AMONG = (
    "measure-injury",
    "clean-liner",
    "remove-damage",
    "measure-prepared",
    "cement-channel",
    "pull-stem",
    "buff",
    "brush",
    "remove-dust",
    "cement-area",
)


@item_family(
    "order-of-preparation",
    title=saying("Preparation in order"),
    skill="preparation",
    formats=("order",),
    casings=REPAIRED,
    lesson="prepare-install-return/outline-and-buff",
    recall=True,
)
def build(draft: Draft) -> Item:
    repaired(draft)  # the order of the work is one for all of them
    return put_in_order(draft, _AMONG)
