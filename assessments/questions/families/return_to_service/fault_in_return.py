"""The ticket from the finished repair to the road: which line is wrong, and why?"""

from assessments.questions.cases.bodies import REPAIRED
from assessments.questions.drafts.draft import Draft
from assessments.questions.drafts.family import item_family
from assessments.questions.items.item import Item
from assessments.questions.work.faults import find_fault
from training.trade.speech import saying


@item_family(
    "fault-in-return",
    title=saying("Fault on the way back to service"),
    skill="return-to-service",
    formats=("fault",),
    casings=REPAIRED,
    lesson="prepare-install-return/return-to-service",
)
def build(draft: Draft) -> Item:
    return find_fault(draft, "return")
